// SPDX-License-Identifier: MIT
// Parts the field's maps and the cleaning section share.
#pragma once

#include "report/map.hpp"

#include <array>

namespace quartercut::report {

struct RemovedRecords {
    std::array<std::size_t, removal_count> counts{};
    std::size_t total = 0;
    std::size_t every = 1; ///< of how many removed records one is drawn
};
[[nodiscard]] RemovedRecords removed_records(const Telling& telling, std::size_t field);

/// A reason in a reader's words: "machine filling at the start of a pass".
[[nodiscard]] std::string removal_text(Removal removal);
[[nodiscard]] std::string removal_mark(Removal removal, Point at);
[[nodiscard]] std::string removal_class(Removal removal);

void write_method_map(Html& html, const Telling& telling, std::size_t field, const MapFrame& frame);
void write_yield_map(Html& html, const Telling& telling, std::size_t field, const MapFrame& frame);

} // namespace quartercut::report
