// SPDX-License-Identifier: MIT
// How many records of a field were read, used and removed, and the check that none went missing.
#pragma once

#include "quartercut/clean.hpp"

#include <array>
#include <cstddef>

namespace quartercut::write {

struct RecordCount {
    std::size_t read = 0;
    std::size_t used = 0;
    std::array<std::size_t, removal_count> removed{}; ///< per reason; `kept` stays 0
};

/// Read counts the records of the field; used counts those marked kept; removed comes from the cleaning's own table of
/// reasons. \throws InternalError  when read is not used + removed
[[nodiscard]] RecordCount count_records(const StandardField& standard, const CleanedField& cleaned);

} // namespace quartercut::write
