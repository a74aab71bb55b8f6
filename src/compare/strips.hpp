// SPDX-License-Identifier: MIT
// Zones and segments -> strips: pieces of one method area with their place along and across the common direction, and
// the grain that was cut in them. Whether pieces are strips at all is judged here, by shape alone, never by yield.
#pragma once

#include "quartercut/compare.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quartercut::contrast {

/// Grain and land of a set of segments.
struct Harvest {
    double mass_kg = 0.0, area_m2 = 0.0, length_m = 0.0;
    void add(const Segment& segment);
    /// sum of mass / sum of area, nullopt without land
    [[nodiscard]] std::optional<double> yield_t_ha() const;
};

struct Strip {
    int method = -1;
    std::string block;   ///< value of the pairs column, or empty
    std::string zone_id; ///< id of its largest zone
    std::vector<int> zones;
    double along_min = 0.0, along_max = 0.0, across_min = 0.0, across_max = 0.0;
    double shape_m2 = 0.0;
    double parallel_share = 0.0; ///< share of the outline that runs along the common direction, 0..1
    std::vector<int> segments;   ///< usable ones, indices into ZonedField::segments
    Harvest harvest;

    [[nodiscard]] double length_m() const { return along_max - along_min; }
    [[nodiscard]] double width_m() const { return across_max - across_min; }
    [[nodiscard]] double centre_across_m() const { return 0.5 * (across_min + across_max); }
};

struct Layout {
    double direction_rad = 0.0;     ///< of "along", counter-clockwise from east
    std::vector<Strip> strips;      ///< sorted by place across, then along
    std::vector<int> usable;        ///< segments that may enter a contrast
    int methods_in_field = 0;       ///< with at least one usable segment
    std::vector<int> on_edges_only; ///< methods all of whose segments straddle a border and were used all the same
};

/// Segments of the methods, without those that straddle two methods, unless a method has no others.
[[nodiscard]] Layout find_layout(const ZonedField& zoned, int method_count);

/// Long, straight and much longer than wide: cut by a machine, not drawn by nature.
[[nodiscard]] bool is_strip_like(const Strip& strip);

/// Side by side: near across, together over at least half the longer one's length, widths within a factor of 3.
/// The gap may hold as many strips of other methods as the field has further methods, and one more where it has none.
[[nodiscard]] bool are_neighbours(const Strip& a, const Strip& b, int methods_in_field);

} // namespace quartercut::contrast
