// SPDX-License-Identifier: MIT
// Plain geometry values that travel between rooms. No engine here: GEOS and Boost stay inside zone/ and clean/.
//
// The frame of a coordinate is said by the name that holds it: `..._deg` is WGS 84 longitude/latitude in degrees
// (x = longitude), `..._m` is metres in a field's local frame (standardise.hpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace quartercut {

struct Point {
    double x = 0.0;
    double y = 0.0;
    friend bool operator==(const Point&, const Point&) = default;
};

/// Closed ring without the repeated last vertex. Shells run counter-clockwise, holes clockwise, after repair.
using Ring = std::vector<Point>;

struct Polygon {
    Ring shell;
    std::vector<Ring> holes;
};

using MultiPolygon = std::vector<Polygon>;

struct Box {
    double min_x = 0.0, min_y = 0.0, max_x = -1.0, max_y = -1.0; ///< empty when max < min
    [[nodiscard]] bool empty() const { return !(min_x <= max_x && min_y <= max_y); }
    [[nodiscard]] bool contains(Point p) const { return p.x >= min_x && p.x <= max_x && p.y >= min_y && p.y <= max_y; }
    [[nodiscard]] bool overlaps(const Box& other) const {
        if (empty() || other.empty()) return false;
        return min_x <= other.max_x && other.min_x <= max_x && min_y <= other.max_y && other.min_y <= max_y;
    }
};

[[nodiscard]] Box bounding_box(const MultiPolygon& shape);

/// Planar area by the shoelace formula, holes taken off; the square of the coordinates' unit.
/// Coordinates are taken relative to the first vertex so that large offsets cost no digits.
[[nodiscard]] double planar_area(const MultiPolygon& shape);
[[nodiscard]] double planar_area(const Polygon& shape);

/// Signed area of a ring, positive when counter-clockwise.
[[nodiscard]] double signed_area(const Ring& ring);

/// Answers "is this point in this shape?" many times over: edges are sorted into horizontal slabs once, a query then
/// looks at the edges of one slab only. A point on an edge belongs to exactly one of two shapes that share the edge
/// (half-open crossing rule), so a partition gives every point at most one owner.
class PointLocator {
public:
    PointLocator() = default;
    explicit PointLocator(const MultiPolygon& shape);
    [[nodiscard]] bool contains(Point p) const;
    [[nodiscard]] const Box& box() const { return box_; }

private:
    struct Edge {
        double x0, y0, x1, y1; // y0 < y1
    };
    void add_edges(const Ring& ring);
    void choose_slabs();
    void fill_slabs();
    [[nodiscard]] std::size_t slab_of(double y) const;
    Box box_;
    std::size_t slab_count_ = 1;
    double slab_height_ = 1.0;
    std::vector<Edge> edges_;
    std::vector<std::uint32_t> slab_start_;
    std::vector<std::uint32_t> slab_edges_;
};

} // namespace quartercut
