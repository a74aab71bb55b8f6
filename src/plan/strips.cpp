// SPDX-License-Identifier: MIT
#include "plan/strips.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quartercut::planning {
namespace {

constexpr double shortest_piece_m = 60.0; // a shorter one is all start and end of pass (judgement)
constexpr std::size_t most_placements = 24;

/// The part of an edge with v in [low, high], as an interval of u; empty when there is none.
std::optional<Stretch> clipped(Point a, Point b, double low, double high) {
    if (a.y > b.y) std::swap(a, b);
    if (b.y < low || a.y > high) return std::nullopt;
    if (b.y == a.y) return Stretch{std::min(a.x, b.x), std::max(a.x, b.x)};
    const auto u_at = [&](double v) { return a.x + (b.x - a.x) * (v - a.y) / (b.y - a.y); };
    const double first = u_at(std::max(low, a.y)), last = u_at(std::min(high, b.y));
    return Stretch{std::min(first, last), std::max(first, last)};
}

} // namespace

Turn::Turn(double direction_deg)
    : sine(std::sin(direction_deg * std::numbers::pi / 180.0)),
      cosine(std::cos(direction_deg * std::numbers::pi / 180.0)) {}

FreeLand::FreeLand(const MultiPolygon& boundary_m, const Turn& turn, const LayoutChoice& choice) {
    for (const Polygon& polygon : boundary_m) {
        Polygon turned;
        for (const Point p : polygon.shell)
            turned.shell.push_back(turn.to_uv(p));
        add_ring(polygon.shell, turn, choice.headland_m);
        for (const Ring& hole : polygon.holes) {
            Ring ring;
            for (const Point p : hole)
                ring.push_back(turn.to_uv(p));
            turned.holes.push_back(std::move(ring));
            add_ring(hole, turn, choice.obstacle_m);
        }
        turned_.push_back(std::move(turned));
    }
    inside_ = PointLocator(turned_);
    box_ = bounding_box(turned_);
}

void FreeLand::add_ring(const Ring& ring, const Turn& turn, double margin_m) {
    for (std::size_t i = 0; i < ring.size(); ++i)
        edges_.push_back({turn.to_uv(ring[i]), turn.to_uv(ring[(i + 1) % ring.size()]), margin_m});
}

std::vector<Stretch> FreeLand::stretches(double v0, double v1) const {
    std::vector<Stretch> blocked;
    for (const Edge& edge : edges_) {
        auto part = clipped(edge.a, edge.b, v0 - edge.margin_m, v1 + edge.margin_m);
        if (part) blocked.push_back({(*part)[0] - edge.margin_m, (*part)[1] + edge.margin_m});
    }
    std::sort(blocked.begin(), blocked.end());
    std::vector<Stretch> free;
    double reached = box_.min_x;
    const auto take = [&](double from, double to) {
        // No edge crosses the band here, so one point tells for all of it.
        if (to - from >= shortest_piece_m && inside_.contains({0.5 * (from + to), 0.5 * (v0 + v1)}))
            free.push_back({from, to});
    };
    for (const Stretch& stretch : blocked) {
        take(reached, stretch[0]);
        reached = std::max(reached, stretch[1]);
    }
    take(reached, box_.max_x);
    return free;
}

double PlacedPair::length_m() const {
    double sum = 0.0;
    for (const Stretch& stretch : stretches)
        sum += stretch[1] - stretch[0];
    return sum;
}

std::vector<Placement> placements(const FreeLand& land, const PairWidths& widths, int pairs, double unit_m,
                                  double min_length_m) {
    std::vector<Placement> out;
    const double across = land.box().max_y - land.box().min_y, total = widths.total_m();
    const double spare = across - pairs * total;
    if (spare < 0.0) return out;
    const int most_gap = pairs > 1 ? static_cast<int>(spare / (pairs - 1) / unit_m) : 0;
    for (int gap = most_gap; gap >= 0 && out.size() < most_placements; --gap) {
        const double step = total + gap * unit_m, used = (pairs - 1) * step + total;
        const double middle = 0.5 * (land.box().min_y + land.box().max_y - used);
        const int most_shift = static_cast<int>((across - used) / 2.0 / (0.5 * unit_m));
        for (int s = 0; s <= 2 * most_shift && out.size() < most_placements; ++s) {
            const double shift = (s % 2 == 0 ? 1.0 : -1.0) * ((s + 1) / 2) * 0.5 * unit_m;
            Placement placement;
            for (int k = 0; k < pairs; ++k) {
                const double v0 = middle + shift + k * step;
                PlacedPair pair{v0, land.stretches(v0, v0 + total)};
                if (pair.length_m() < min_length_m) break;
                placement.push_back(std::move(pair));
            }
            if (static_cast<int>(placement.size()) == pairs) out.push_back(std::move(placement));
        }
    }
    return out;
}

} // namespace quartercut::planning
