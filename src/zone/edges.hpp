// SPDX-License-Identifier: MIT
// Edges of shapes as sortable values, to find who shares an edge with whom without any tolerance.
#pragma once

#include "quartercut/geometry.hpp"

#include <cmath>
#include <tuple>

namespace quartercut::zone_room {

/// A directed edge; the land of its shape lies to the left.
struct Edge {
    Point from, to;
    std::size_t owner = 0;
    [[nodiscard]] bool forward() const { return std::tie(from.x, from.y) < std::tie(to.x, to.y); }
    [[nodiscard]] Point low() const { return forward() ? from : to; }
    [[nodiscard]] Point high() const { return forward() ? to : from; }
    [[nodiscard]] double length() const { return std::hypot(to.x - from.x, to.y - from.y); }
    [[nodiscard]] bool same_place(const Edge& other) const { return low() == other.low() && high() == other.high(); }
    friend bool operator<(const Edge& a, const Edge& b) {
        const Point la = a.low(), ha = a.high(), lb = b.low(), hb = b.high();
        return std::tuple(la.x, la.y, ha.x, ha.y, a.owner) < std::tuple(lb.x, lb.y, hb.x, hb.y, b.owner);
    }
};

template <class Edges>
void add_edges(const Ring& ring, std::size_t owner, Edges& edges) {
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
        edges.push_back({ring[j], ring[i], owner});
}

template <class Edges>
void add_edges(const Polygon& polygon, std::size_t owner, Edges& edges) {
    add_edges(polygon.shell, owner, edges);
    for (const Ring& hole : polygon.holes)
        add_edges(hole, owner, edges);
}

} // namespace quartercut::zone_room
