// SPDX-License-Identifier: MIT
// Does the partition close? Counted edge by edge, without any geometry engine and without tolerance, then by area.
#include "zone/cutting.hpp"
#include "zone/edges.hpp"

#include "quartercut/error.hpp"

#include "base/sum.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut::zone_room {

namespace {

[[noreturn]] void fail(const std::string& field, Point place, const std::string& what) {
    throw InternalError(fmt::format("The zones of field \"{}\" are no partition: {} near x {:.3f} m, y {:.3f} m of its "
                                    "frame.",
                                    field, what, place.x, place.y));
}

std::vector<Edge> edges_of(const std::vector<const MultiPolygon*>& shapes) {
    std::vector<Edge> edges;
    for (std::size_t s = 0; s < shapes.size(); ++s)
        for (const Polygon& polygon : *shapes[s])
            add_edges(polygon, s, edges);
    return edges;
}

/// Area enclosed by the edges no two shapes share, which must be the outline of the field.
double area_of_outline(std::vector<Edge> edges, const std::string& field) {
    std::sort(edges.begin(), edges.end());
    Sum twice;
    const Point origin = edges.empty() ? Point{} : edges.front().from;
    for (std::size_t first = 0; first < edges.size();) {
        std::size_t last = first + 1;
        while (last < edges.size() && edges[last].same_place(edges[first]))
            ++last;
        if (last - first > 2) fail(field, edges[first].from, "an edge belongs to three zones");
        if (last - first == 2 && edges[first].forward() == edges[first + 1].forward())
            fail(field, edges[first].from, "two zones lie on the same side of an edge");
        if (last - first == 1) {
            const Edge& edge = edges[first];
            twice +=
                (edge.from.x - origin.x) * (edge.to.y - origin.y) - (edge.to.x - origin.x) * (edge.from.y - origin.y);
        }
        first = last;
    }
    return 0.5 * twice.value();
}

double perimeter_m(const MultiPolygon& shape) {
    std::vector<Edge> edges = edges_of({&shape});
    double sum = 0.0;
    for (const Edge& edge : edges)
        sum += edge.length();
    return sum;
}

} // namespace

void verify_partition(const std::vector<const MultiPolygon*>& shapes, const MultiPolygon& boundary,
                      const std::string& field) {
    const double expected_m2 = planar_area(boundary);
    // A billionth of the field, or what rounding its vertices to the grid can do to a very small one.
    const double allowed_m2 = std::max(1e-9 * expected_m2, grid_m * perimeter_m(boundary));
    Sum total_m2;
    for (const MultiPolygon* shape : shapes)
        total_m2 += planar_area(*shape);
    const Point place = boundary.empty() || boundary.front().shell.empty() ? Point{} : boundary.front().shell.front();
    const auto check = [&](double found_m2, const char* what) {
        if (!(std::abs(found_m2 - expected_m2) <= allowed_m2))
            fail(field, place, fmt::format("{} {:.6f} m2 instead of {:.6f} m2", what, found_m2, expected_m2));
    };
    check(total_m2.value(), "the areas add up to");
    check(area_of_outline(edges_of(shapes), field), "the outline encloses");
}

} // namespace quartercut::zone_room
