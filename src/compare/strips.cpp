// SPDX-License-Identifier: MIT
// Zones and segments -> strips along one common direction.
#include "compare/strips.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <set>
#include <tuple>

namespace quartercut::contrast {
namespace {

// What counts as a strip. Judgement: soil polygons have outlines in all directions (a circle has 13 % of its outline
// within 12 degrees of any line, an ellipse three times as long as wide one half), a strip twice as long as wide has
// two thirds, a longer one more.
constexpr double parallel_limit_rad = 12.0 * std::numbers::pi / 180.0;
constexpr double min_parallel_share = 0.6;
constexpr double min_length_over_width = 2.0;
constexpr double max_width_ratio = 3.0;
constexpr double min_common_length = 0.5;
constexpr double crumb_share = 0.05;

struct Axis {
    double cosine = 1.0, sine = 0.0;
    [[nodiscard]] double along(Point p) const { return p.x * cosine + p.y * sine; }
    [[nodiscard]] double across(Point p) const { return -p.x * sine + p.y * cosine; }
};

Axis axis_of(double direction_rad) { return {std::cos(direction_rad), std::sin(direction_rad)}; }

template <class Visit>
void for_each_edge(const Polygon& polygon, Visit visit) {
    const Ring& ring = polygon.shell;
    for (std::size_t i = 0; i < ring.size(); ++i)
        visit(ring[i], ring[(i + 1) % ring.size()]);
}

/// Length-weighted mean of the outlines' directions; doubled angles make north and south the same direction.
double common_direction(const ZonedField& zoned) {
    double c = 0.0;
    double s = 0.0;
    for (const Zone& zone : zoned.zones) {
        if (zone.method < 0) continue;
        for (const Polygon& polygon : zone.shape_m)
            for_each_edge(polygon, [&](Point a, Point b) {
                const double angle = 2.0 * std::atan2(b.y - a.y, b.x - a.x);
                const double length = std::hypot(b.x - a.x, b.y - a.y);
                c += length * std::cos(angle);
                s += length * std::sin(angle);
            });
    }
    return c == 0.0 && s == 0.0 ? 0.0 : 0.5 * std::atan2(s, c);
}

/// One polygon of one zone, measured along and across.
struct Piece {
    int zone = -1;
    double along_min, along_max, across_min, across_max;
    double area_m2 = 0.0;
    double outline_m = 0.0, parallel_m = 0.0;
};

Piece measure(const Polygon& polygon, int zone, const Axis& axis) {
    constexpr double inf = std::numeric_limits<double>::infinity();
    Piece piece{zone, inf, -inf, inf, -inf, planar_area(polygon), 0.0, 0.0};
    for_each_edge(polygon, [&](Point a, Point b) {
        piece.along_min = std::min(piece.along_min, axis.along(a));
        piece.along_max = std::max(piece.along_max, axis.along(a));
        piece.across_min = std::min(piece.across_min, axis.across(a));
        piece.across_max = std::max(piece.across_max, axis.across(a));
        const double step_along = std::abs(axis.along(b) - axis.along(a));
        const double step_across = std::abs(axis.across(b) - axis.across(a));
        const double length = std::hypot(step_along, step_across);
        piece.outline_m += length;
        if (std::atan2(step_across, step_along) <= parallel_limit_rad) piece.parallel_m += length;
    });
    return piece;
}

/// Overlap of two intervals over the shorter of them; 0 when apart.
double overlap_share(double a_min, double a_max, double b_min, double b_max) {
    const double common = std::min(a_max, b_max) - std::max(a_min, b_min);
    const double shorter = std::min(a_max - a_min, b_max - b_min);
    return shorter <= 0.0 ? 0.0 : std::max(0.0, common) / shorter;
}

/// Pieces of one method area that lie in line along the direction are one strip (strata and sloughs cut it up).
bool in_line(const Piece& a, const Strip& b) {
    return overlap_share(a.across_min, a.across_max, b.across_min, b.across_max) >= 0.5;
}

void join(Strip& strip, const Piece& piece, double& outline, double& parallel) {
    const bool first = strip.zones.empty();
    strip.along_min = first ? piece.along_min : std::min(strip.along_min, piece.along_min);
    strip.along_max = first ? piece.along_max : std::max(strip.along_max, piece.along_max);
    strip.across_min = first ? piece.across_min : std::min(strip.across_min, piece.across_min);
    strip.across_max = first ? piece.across_max : std::max(strip.across_max, piece.across_max);
    strip.shape_m2 += piece.area_m2;
    outline += piece.outline_m;
    parallel += piece.parallel_m;
    strip.parallel_share = outline > 0.0 ? parallel / outline : 0.0;
    if (std::find(strip.zones.begin(), strip.zones.end(), piece.zone) == strip.zones.end())
        strip.zones.push_back(piece.zone);
}

struct Growing {
    Strip strip;
    double outline = 0.0, parallel = 0.0;
};

/// Pieces by method area, largest first, each joined to the strip it is in line with.
std::vector<Growing> grow(std::vector<Piece> pieces) {
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Piece& a, const Piece& b) { return a.area_m2 > b.area_m2; });
    std::vector<Growing> grown;
    for (const Piece& piece : pieces) {
        auto home = std::find_if(grown.begin(), grown.end(), [&](const Growing& g) { return in_line(piece, g.strip); });
        if (home == grown.end()) home = grown.insert(grown.end(), Growing{});
        join(home->strip, piece, home->outline, home->parallel);
    }
    return grown;
}

std::vector<Strip> make_strips(const ZonedField& zoned, const Axis& axis) {
    // A zone without a method area (methods from fields or records) stands for itself.
    std::map<std::tuple<int, int, int>, std::vector<Piece>> areas;
    for (std::size_t z = 0; z < zoned.zones.size(); ++z) {
        const Zone& zone = zoned.zones[z];
        if (zone.method < 0) continue;
        const int index = static_cast<int>(z);
        const int own = zone.area_index >= 0 ? -1 : index;
        for (const Polygon& polygon : zone.shape_m)
            areas[{zone.area_index, own, zone.method}].push_back(measure(polygon, index, axis));
    }
    std::vector<Strip> strips;
    for (auto& [key, pieces] : areas) {
        for (Growing& grown : grow(std::move(pieces))) {
            const Zone& largest = zoned.zones[static_cast<std::size_t>(grown.strip.zones.front())];
            grown.strip.method = largest.method;
            grown.strip.block = largest.block;
            grown.strip.zone_id = largest.id;
            strips.push_back(std::move(grown.strip));
        }
    }
    return strips;
}

std::vector<int> usable_segments(const ZonedField& zoned, int method_count, std::vector<int>& on_edges_only) {
    std::vector<bool> has_clean(static_cast<std::size_t>(method_count), false);
    const auto method_of = [&](const Segment& s) {
        return s.zone < 0 ? -1 : zoned.zones[static_cast<std::size_t>(s.zone)].method;
    };
    const auto has_grain = [](const Segment& s) { return s.area_m2 > 0.0 && std::isfinite(s.mass_basis_kg); };
    for (const Segment& s : zoned.segments)
        if (method_of(s) >= 0 && !s.edge && has_grain(s)) has_clean[static_cast<std::size_t>(method_of(s))] = true;
    std::vector<int> usable;
    for (std::size_t i = 0; i < zoned.segments.size(); ++i) {
        const Segment& s = zoned.segments[i];
        const int method = method_of(s);
        if (method < 0 || !has_grain(s)) continue;
        const bool clean_method = has_clean[static_cast<std::size_t>(method)];
        if (s.edge && clean_method) continue;
        if (!clean_method && std::find(on_edges_only.begin(), on_edges_only.end(), method) == on_edges_only.end())
            on_edges_only.push_back(method);
        usable.push_back(static_cast<int>(i));
    }
    return usable;
}

/// Crumbs of an overlay beside real strips are no strips: they would stand between neighbours.
void drop_crumbs(std::vector<Strip>& strips) {
    if (strips.size() < 3) return;
    std::vector<double> areas;
    for (const Strip& strip : strips)
        areas.push_back(strip.shape_m2);
    std::nth_element(areas.begin(), areas.begin() + static_cast<std::ptrdiff_t>(areas.size() / 2), areas.end());
    const double least = crumb_share * areas[areas.size() / 2];
    std::erase_if(strips, [&](const Strip& strip) { return strip.segments.empty() && strip.shape_m2 < least; });
}

double distance_to(double value, double low, double high) { return std::max({0.0, low - value, value - high}); }

/// The strip of the segment's zone that is nearest across; a zone mostly belongs to one strip only.
int strip_of(const Segment& segment, const std::vector<Strip>& strips, const Axis& axis) {
    const Point at{segment.x_m, segment.y_m};
    int best = -1;
    double best_distance = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < strips.size(); ++i) {
        const Strip& strip = strips[i];
        if (std::find(strip.zones.begin(), strip.zones.end(), segment.zone) == strip.zones.end()) continue;
        const double distance = distance_to(axis.across(at), strip.across_min, strip.across_max) +
                                distance_to(axis.along(at), strip.along_min, strip.along_max);
        if (distance >= best_distance) continue;
        best = static_cast<int>(i);
        best_distance = distance;
    }
    return best;
}

} // namespace

void Harvest::add(const Segment& segment) {
    mass_kg += segment.mass_basis_kg;
    area_m2 += segment.area_m2;
    length_m += segment.length_m;
}

std::optional<double> Harvest::yield_t_ha() const {
    if (!(area_m2 > 0.0)) return std::nullopt;
    return mass_kg / area_m2 * m2_per_hectare / kg_per_tonne;
}

Layout find_layout(const ZonedField& zoned, int method_count) {
    Layout layout;
    layout.direction_rad = common_direction(zoned);
    const Axis axis = axis_of(layout.direction_rad);
    layout.strips = make_strips(zoned, axis);
    std::stable_sort(layout.strips.begin(), layout.strips.end(), [](const Strip& a, const Strip& b) {
        return std::tuple(a.centre_across_m(), a.along_min) < std::tuple(b.centre_across_m(), b.along_min);
    });
    layout.usable = usable_segments(zoned, method_count, layout.on_edges_only);
    std::set<int> methods;
    for (const int index : layout.usable) {
        const Segment& segment = zoned.segments[static_cast<std::size_t>(index)];
        methods.insert(zoned.zones[static_cast<std::size_t>(segment.zone)].method);
        const int home = strip_of(segment, layout.strips, axis);
        if (home < 0) continue;
        Strip& strip = layout.strips[static_cast<std::size_t>(home)];
        strip.segments.push_back(index);
        strip.harvest.add(segment);
    }
    drop_crumbs(layout.strips);
    layout.methods_in_field = static_cast<int>(methods.size());
    return layout;
}

bool is_strip_like(const Strip& strip) {
    return strip.length_m() >= min_length_over_width * strip.width_m() && strip.parallel_share >= min_parallel_share;
}

bool are_neighbours(const Strip& a, const Strip& b, int methods_in_field) {
    const double narrow = std::min(a.width_m(), b.width_m());
    const double wide = std::max(a.width_m(), b.width_m());
    if (narrow <= 0.0 || wide > max_width_ratio * narrow) return false;
    const double gap = std::max(a.across_min, b.across_min) - std::min(a.across_max, b.across_max);
    const double most = 1.1 * narrow * std::max(1, methods_in_field - 1);
    if (gap > most || gap < -0.5 * narrow) return false;
    const double common = std::min(a.along_max, b.along_max) - std::max(a.along_min, b.along_min);
    return common >= min_common_length * std::max(a.length_m(), b.length_m());
}

} // namespace quartercut::contrast
