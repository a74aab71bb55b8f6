// SPDX-License-Identifier: MIT
// Direction and width of a segment's rectangle. A pass may bend, so its neighbours tell the direction better than its mean.
#include "write/segment_shape.hpp"

#include <cmath>
#include <numbers>

namespace quartercut::write {

namespace {

constexpr double farthest_neighbour_m = 120.0; // beyond, the pass was broken off and may have turned

bool is_neighbour(const Segment& a, const Segment& b) {
    return a.pass == b.pass && std::hypot(a.x_m - b.x_m, a.y_m - b.y_m) < farthest_neighbour_m;
}

/// Unit vector along the pass at the segment.
Point direction_of(const std::vector<Segment>& segments, std::size_t index, const std::vector<Pass>& passes) {
    const Segment& here = segments[index];
    const Segment& before = index > 0 && is_neighbour(segments[index - 1], here) ? segments[index - 1] : here;
    const Segment& after =
        index + 1 < segments.size() && is_neighbour(segments[index + 1], here) ? segments[index + 1] : here;
    const double dx = after.x_m - before.x_m, dy = after.y_m - before.y_m;
    const double length = std::hypot(dx, dy);
    if (length > 1.0) return {dx / length, dy / length};
    if (here.pass < 0 || static_cast<std::size_t>(here.pass) >= passes.size()) return {0.0, 1.0};
    const double heading = passes[static_cast<std::size_t>(here.pass)].heading_deg * std::numbers::pi / 180.0;
    return {std::sin(heading), std::cos(heading)};
}

} // namespace

MultiPolygon segment_shape_m(const std::vector<Segment>& segments, std::size_t index, const std::vector<Pass>& passes) {
    const Segment& s = segments[index];
    if (!(s.length_m > 0.0) || !(s.area_m2 > 0.0)) return {};
    const Point along = direction_of(segments, index, passes);
    const double half_length = 0.5 * s.length_m, half_width = 0.5 * s.area_m2 / s.length_m;
    const auto corner = [&](double forward, double left) {
        return Point{s.x_m + forward * along.x - left * along.y, s.y_m + forward * along.y + left * along.x};
    };
    return {Polygon{{corner(-half_length, half_width), corner(-half_length, -half_width),
                     corner(half_length, -half_width), corner(half_length, half_width)},
                    {}}};
}

} // namespace quartercut::write
