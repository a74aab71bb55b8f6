// SPDX-License-Identifier: MIT
// Cells for the spatial models.
#include "compare/cells.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

namespace quartercut::contrast {
namespace {

struct Placed {
    int index;
    int pass, zone, method;
    double along, across;
};

const Segment& segment_at(const ZonedField& zoned, int index) {
    return zoned.segments[static_cast<std::size_t>(index)];
}

std::vector<Placed> place(const SegmentSet& set) {
    const double c = std::cos(set.direction_rad);
    const double s = std::sin(set.direction_rad);
    std::vector<Placed> placed;
    int lone = -2; // a segment of no pass is a pass of its own
    for (const int index : set.segments) {
        const Segment& segment = segment_at(set.zoned, index);
        const int method = set.zoned.zones[static_cast<std::size_t>(segment.zone)].method;
        placed.push_back({index, segment.pass >= 0 ? segment.pass : lone--, segment.zone, method,
                          segment.x_m * c + segment.y_m * s, -segment.x_m * s + segment.y_m * c});
    }
    return placed;
}

struct Cell {
    double along = 0.0, across = 0.0, mass = 0.0, area = 0.0, length = 0.0;
    int pass = -1, method = -1;
};

std::vector<Cell> merge(std::vector<Placed> placed, const ZonedField& zoned, int at_most) {
    std::stable_sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
        return std::tuple(a.pass, a.method, a.zone, a.along) < std::tuple(b.pass, b.method, b.zone, b.along);
    });
    std::vector<Cell> cells;
    const Placed* last = nullptr;
    int held = 0;
    for (const Placed& p : placed) {
        const bool goes_on = last != nullptr && last->pass == p.pass && last->zone == p.zone && held < at_most;
        if (!goes_on) {
            cells.push_back({});
            held = 0;
        }
        const Segment& segment = segment_at(zoned, p.index);
        Cell& cell = cells.back();
        cell.along += p.along * segment.area_m2;
        cell.across += p.across * segment.area_m2;
        cell.mass += segment.mass_basis_kg;
        cell.area += segment.area_m2;
        cell.length += segment.length_m;
        cell.pass = p.pass;
        cell.method = p.method;
        last = &p;
        ++held;
    }
    return cells;
}

} // namespace

double pass_direction(const CleanedField& cleaned, double fallback_rad) {
    double c = 0.0;
    double s = 0.0;
    for (const Pass& pass : cleaned.passes) {
        if (!std::isfinite(pass.heading_deg) || !std::isfinite(pass.length_m)) continue;
        const double angle = 2.0 * (90.0 - pass.heading_deg) * std::numbers::pi / 180.0;
        c += pass.length_m * std::cos(angle);
        s += pass.length_m * std::sin(angle);
    }
    return c == 0.0 && s == 0.0 ? fallback_rad : 0.5 * std::atan2(s, c);
}

CellSet make_cells(const SegmentSet& set, std::size_t most) {
    CellSet out;
    out.merged = static_cast<int>((set.segments.size() + most - 1) / std::max<std::size_t>(1, most));
    out.merged = std::max(1, out.merged);
    const std::vector<Cell> cells = merge(place(set), set.zoned, out.merged);
    const auto n = static_cast<Eigen::Index>(cells.size());
    Cells& to = out.cells;
    to.along_m.resize(n);
    to.across_m.resize(n);
    to.yield_t_ha.resize(n);
    to.weight.resize(n);
    std::map<int, int> dense;
    double area = 0.0;
    double length = 0.0;
    for (Eigen::Index i = 0; i < n; ++i) {
        const Cell& cell = cells[static_cast<std::size_t>(i)];
        to.along_m(i) = cell.along / cell.area;
        to.across_m(i) = cell.across / cell.area;
        to.yield_t_ha(i) = cell.mass / cell.area * m2_per_hectare / kg_per_tonne;
        to.weight(i) = cell.area;
        to.pass.push_back(dense.emplace(cell.pass, static_cast<int>(dense.size())).first->second);
        out.method.push_back(cell.method);
        area += cell.area;
        length += cell.length;
    }
    if (n == 0) return out;
    to.weight /= area / static_cast<double>(n);
    out.passes = static_cast<int>(dense.size());
    out.width_m = length > 0.0 ? area / length : 0.0;
    out.length_m = length / static_cast<double>(n);
    return out;
}

std::vector<int> away_from_other_methods(const SegmentSet& set) {
    const std::vector<Placed> placed = place(set);
    double area = 0.0;
    double length = 0.0;
    for (const Placed& p : placed) {
        area += segment_at(set.zoned, p.index).area_m2;
        length += segment_at(set.zoned, p.index).length_m;
    }
    const double near_across = 1.5 * (length > 0.0 ? area / length : 0.0);
    const double near_along = 1.1 * length / std::max(1.0, static_cast<double>(placed.size()));
    std::vector<int> away;
    for (const Placed& p : placed) {
        const bool beside = std::any_of(placed.begin(), placed.end(), [&](const Placed& other) {
            return other.method != p.method && std::abs(other.across - p.across) < near_across &&
                   std::abs(other.along - p.along) < near_along;
        });
        if (!beside) away.push_back(p.index);
    }
    return away;
}

} // namespace quartercut::contrast
