// SPDX-License-Identifier: MIT
// Parts the field's maps and the cleaning section share.
#pragma once

#include "report/map.hpp"

#include <array>

namespace quartercut::report {

struct RemovedRecords {
    std::array<std::size_t, removal_count> counts{};
    std::size_t total = 0;
};
[[nodiscard]] RemovedRecords removed_records(const Telling& telling, std::size_t field);
/// Of how many marks one is drawn, so that no more than `limit` are.
[[nodiscard]] std::size_t one_in(std::size_t marks, std::size_t limit);

/// A reason in a reader's words: "machine filling at the start of a pass".
[[nodiscard]] std::string removal_text(Removal removal);
[[nodiscard]] std::string removal_mark(Removal removal, Point at);
[[nodiscard]] std::string removal_class(Removal removal);

void write_method_map(Html& html, const Telling& telling, std::size_t field, const MapFrame& frame);
/// One field's map: where it lies in the drawing and how many marks it may take.
struct MapPlace {
    std::size_t field = 0;
    MapFrame frame;
    Marks limit;
};
void write_yield_map(Html& html, const Telling& telling, const MapPlace& place);

} // namespace quartercut::report
