// SPDX-License-Identifier: MIT
// Three counts that come from three places must add up before anything is written.
#include "write/record_count.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace quartercut::write {

RecordCount count_records(const StandardField& standard, const CleanedField& cleaned) {
    RecordCount out;
    out.read = standard.records.size();
    out.used = static_cast<std::size_t>(std::count(cleaned.removal.begin(), cleaned.removal.end(), Removal::kept));
    for (const auto& of_method : cleaned.removed) {
        for (std::size_t reason = 1; reason < removal_count; ++reason)
            out.removed[reason] += of_method[reason];
    }
    const std::size_t removed = std::accumulate(out.removed.begin(), out.removed.end(), std::size_t{0});
    if (out.read != out.used + removed) {
        throw InternalError(fmt::format("field '{}': {} records were read, but {} used and {} removed make {}.",
                                        standard.name, out.read, out.used, removed, out.used + removed));
    }
    return out;
}

} // namespace quartercut::write
