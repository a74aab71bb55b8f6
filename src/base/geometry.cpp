// SPDX-License-Identifier: MIT
// Boxes, shoelace areas and the point-in-shape answer that every record of the season is put through.
//
// The crossing rule is half-open and its orientation test exact, so shapes that share edges never both own a point:
// a partition of land stays a partition of records, whatever the offsets or however thin the pieces.
#include "quartercut/geometry.hpp"

#include "quartercut/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace quartercut {
namespace {

/// Adds `term` to an expansion of non-overlapping doubles without rounding (Shewchuk 1997, grow-expansion).
template <std::size_t N>
void grow_expansion(std::array<double, N>& parts, std::size_t& used, double term) {
    double carry = term;
    for (std::size_t i = 0; i < used; ++i) {
        const double sum = carry + parts[i];
        const double virtual_part = sum - carry;
        parts[i] = (carry - (sum - virtual_part)) + (parts[i] - virtual_part);
        carry = sum;
    }
    parts[used++] = carry;
}

/// Exact sign of the turn (x0,y0) -> (x1,y1) -> (px,py): > 0 when the point lies left of the upward edge.
double exact_turn(double x0, double y0, double x1, double y1, double px, double py) {
    // The difference form expanded: six products, each split into value and rounding error, summed without loss.
    const std::array<std::array<double, 2>, 6> factors{{{x1, py}, {-x1, y0}, {-x0, py}, {-y1, px}, {y1, x0}, {y0, px}}};
    std::array<double, 12> parts{};
    std::size_t used = 0;
    for (const auto& [a, b] : factors) {
        const double product = a * b;
        grow_expansion(parts, used, std::fma(a, b, -product));
        grow_expansion(parts, used, product);
    }
    for (std::size_t i = used; i-- > 0;)
        if (parts[i] != 0.0) return parts[i];
    return 0.0;
}

/// Turn with the sign always right: the quick determinant where its error bound allows, the exact one otherwise.
double turn(double x0, double y0, double x1, double y1, double px, double py) {
    const double left = (x1 - x0) * (py - y0);
    const double right = (y1 - y0) * (px - x0);
    const double quick = left - right;
    constexpr double bound = 4.0 * std::numeric_limits<double>::epsilon(); // generous; Shewchuk needs 1.7 eps
    if (std::abs(quick) > bound * (std::abs(left) + std::abs(right))) return quick;
    return exact_turn(x0, y0, x1, y1, px, py);
}

template <class Visit>
void for_each_ring(const MultiPolygon& shape, Visit visit) {
    for (const Polygon& polygon : shape) {
        visit(polygon.shell);
        for (const Ring& hole : polygon.holes)
            visit(hole);
    }
}

} // namespace

Box bounding_box(const MultiPolygon& shape) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    Box box{infinity, infinity, -infinity, -infinity};
    for_each_ring(shape, [&box](const Ring& ring) {
        for (const Point& p : ring) {
            box.min_x = std::min(box.min_x, p.x);
            box.min_y = std::min(box.min_y, p.y);
            box.max_x = std::max(box.max_x, p.x);
            box.max_y = std::max(box.max_y, p.y);
        }
    });
    return box.empty() ? Box{} : box;
}

double signed_area(const Ring& ring) {
    if (ring.size() < 3) return 0.0;
    const Point origin = ring.front();
    double twice = 0.0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        const double ax = ring[i].x - origin.x, ay = ring[i].y - origin.y;
        const double bx = ring[i + 1].x - origin.x, by = ring[i + 1].y - origin.y;
        twice += ax * by - ay * bx;
    }
    return 0.5 * twice;
}

double planar_area(const Polygon& shape) {
    double area = std::abs(signed_area(shape.shell));
    for (const Ring& hole : shape.holes)
        area -= std::abs(signed_area(hole));
    return area;
}

double planar_area(const MultiPolygon& shape) {
    double area = 0.0;
    for (const Polygon& polygon : shape)
        area += planar_area(polygon);
    return area;
}

PointLocator::PointLocator(const MultiPolygon& shape) : box_(bounding_box(shape)) {
    for_each_ring(shape, [this](const Ring& ring) { add_edges(ring); });
    if (edges_.empty()) return;
    choose_slabs();
    fill_slabs();
}

void PointLocator::add_edges(const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i], b = ring[i + 1 == ring.size() ? 0 : i + 1];
        // Far beyond any map: keeps every product of the orientation test finite.
        if (!(std::max(std::abs(a.x), std::abs(a.y)) < 1e100))
            throw InternalError("A shape has a corner whose coordinates are not numbers.");
        if (a.y < b.y) edges_.push_back({a.x, a.y, b.x, b.y});
        if (b.y < a.y) edges_.push_back({b.x, b.y, a.x, a.y});
    }
}

/// As many slabs as edges, fewer where long edges would otherwise be listed over and over.
void PointLocator::choose_slabs() {
    const double height = box_.max_y - box_.min_y;
    const std::size_t most_entries = 16 * edges_.size() + 1024;
    for (slab_count_ = edges_.size();; slab_count_ = slab_count_ / 2) {
        slab_height_ = height / static_cast<double>(slab_count_);
        if (slab_count_ == 1) return;
        std::size_t entries = 0;
        for (const Edge& edge : edges_)
            entries += slab_of(edge.y1) - slab_of(edge.y0) + 1;
        if (slab_height_ > 0.0 && entries <= most_entries) return;
    }
}

void PointLocator::fill_slabs() {
    slab_start_.assign(slab_count_ + 1, 0);
    for (const Edge& edge : edges_)
        for (std::size_t slab = slab_of(edge.y0); slab <= slab_of(edge.y1); ++slab)
            ++slab_start_[slab + 1];
    for (std::size_t slab = 0; slab < slab_count_; ++slab)
        slab_start_[slab + 1] += slab_start_[slab];
    std::vector<std::uint32_t> next(slab_start_.begin(), slab_start_.end() - 1);
    slab_edges_.resize(slab_start_.back());
    for (std::size_t i = 0; i < edges_.size(); ++i)
        for (std::size_t slab = slab_of(edges_[i].y0); slab <= slab_of(edges_[i].y1); ++slab)
            slab_edges_[next[slab]++] = static_cast<std::uint32_t>(i);
}

std::size_t PointLocator::slab_of(double y) const {
    // Monotone in y, so an edge is listed in the slab of every y it spans; the guard is for heights near zero.
    const double slab = (y - box_.min_y) / slab_height_;
    if (!(slab > 0.0)) return 0;
    const double last = static_cast<double>(slab_count_ - 1);
    return slab >= last ? slab_count_ - 1 : static_cast<std::size_t>(slab);
}

bool PointLocator::contains(Point p) const {
    if (edges_.empty() || !box_.contains(p)) return false;
    bool inside = false;
    const std::size_t slab = slab_of(p.y);
    for (std::uint32_t i = slab_start_[slab]; i < slab_start_[slab + 1]; ++i) {
        const Edge& edge = edges_[slab_edges_[i]];
        if (p.y < edge.y0 || p.y >= edge.y1) continue;
        if (turn(edge.x0, edge.y0, edge.x1, edge.y1, p.x, p.y) > 0.0) inside = !inside;
    }
    return inside;
}

} // namespace quartercut
