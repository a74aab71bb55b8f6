// SPDX-License-Identifier: MIT
// A field plan -> passes and method areas. See layout.hpp.
#include "demo/layout.hpp"

#include "demo/crop_land.hpp"
#include "demo/streams.hpp"
#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut::demo {

namespace {

// A rest narrower than this share of a pass is not driven for.
constexpr double least_pass_share = 0.02;
constexpr double drawn_past_m = 6.0;

// Land of one method, side by side in passes from `lo` to `hi`.
struct Stand {
    int area = -1;
    int method = demo_standing;
    double share_a = 1.0;
    bool crosswise = false;
    double lo = 0.0, hi = 0.0, from = 0.0, to = 0.0;
};

// On a pass that is not full, half the time the operator tells the monitor how much of the header is in the crop.
double logged_width(double real_m, double full_m, Random& random) {
    if (real_m > 0.98 * full_m || random.uniform() < 0.5) return full_m;
    constexpr double parts = 8.0;
    return full_m * std::max(1.0, std::round(parts * real_m / full_m)) / parts;
}

void add_passes(const Stand& stand, const DemoOptions& options, double mean_t_ha, Random& random, Layout& layout) {
    const double full = cut_width_m[static_cast<std::size_t>(stand.method)];
    const double spacing = pass_spacing_m(stand.method);
    const int count = static_cast<int>(std::ceil((stand.hi - stand.lo) / spacing - least_pass_share));
    const int by_a = static_cast<int>(std::lround(stand.share_a * count));
    for (int k = 0; k < count; ++k) {
        PassPlan pass{stand.area, stand.method, k < by_a ? 0 : 1, stand.crosswise};
        // The last pass keeps to the edge and runs over stubble with the rest of its width.
        pass.side_lo = std::min(stand.lo + k * spacing, std::max(stand.lo, stand.hi - spacing)) - 0.5 * overlap_m;
        pass.side_hi = pass.side_lo + full;
        pass.from = stand.from;
        pass.to = stand.to;
        pass.real_width_m = std::min(full, stand.hi - (stand.lo + k * spacing) + 0.5 * overlap_m);
        pass.logged_width_m = logged_width(pass.real_width_m, full, random);
        pass.effect_t_ha = options.pass_sd * mean_t_ha * random.normal();
        layout.passes.push_back(pass);
    }
}

// Widths of the areas: whole passes, or an equal share of what the others leave.
std::vector<double> area_widths(const DemoFieldPlan& plan) {
    std::vector<double> widths;
    double left = plan.across_m;
    int sharing = 0;
    for (const DemoAreaPlan& area : plan.areas) {
        widths.push_back(area.passes * pass_spacing_m(area.method));
        left -= widths.back();
        sharing += area.passes == 0 ? 1 : 0;
    }
    if (left < 0.0 || (sharing > 0 && left < 1.0)) {
        throw DataError(
            fmt::format("Field '{}': its method areas are {:.1f} m wider than the field.", plan.name, -left));
    }
    for (std::size_t i = 0; i < widths.size(); ++i)
        if (plan.areas[i].passes == 0) widths[i] = left / sharing;
    return widths;
}

void add_edges(const DemoFieldPlan& plan, const DemoOptions& options, Random& random, Layout& layout) {
    const double across = plan.across_m, along = plan.along_m, h = plan.headland_m;
    std::vector<Stand> stands;
    if (h > 0.0) {
        stands.push_back({-1, demo_standing, 1.0, true, 0.0, h, 0.0, across});
        stands.push_back({-1, demo_standing, 1.0, true, along - h, along, 0.0, across});
    }
    const double first = layout.areas.front().across_lo, last = layout.areas.back().across_hi;
    if (first > 0.5) {
        stands.push_back({-1, demo_standing, 1.0, false, 0.0, first, h, along - h});
        stands.push_back({-1, demo_standing, 1.0, false, last, across, h, along - h});
    }
    for (const Stand& stand : stands)
        add_passes(stand, options, plan.mean_yield_t_ha, random, layout);
}

Ring rectangle(double x0, double x1, double y0, double y1) { return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}; }

} // namespace

Layout lay_out(const DemoFieldPlan& plan, const DemoOptions& options, std::size_t field) {
    if (plan.areas.empty()) throw DataError(fmt::format("Field '{}' has no method area.", plan.name));
    const std::vector<double> widths = area_widths(plan);
    double total = 0.0;
    for (const double width : widths)
        total += width;
    Layout layout;
    double at = 0.5 * (plan.across_m - total);
    for (const double width : widths) {
        layout.areas.push_back({at, at + width, plan.headland_m, plan.along_m - plan.headland_m});
        at += width;
    }
    Random random = stream(options.seed, field, Purpose::passes);
    add_edges(plan, options, random, layout);
    for (std::size_t i = 0; i < plan.areas.size(); ++i) {
        const DemoAreaPlan& area = plan.areas[i];
        const AreaSpan& span = layout.areas[i];
        add_passes({static_cast<int>(i), area.method, area.share_a, false, span.across_lo, span.across_hi,
                    span.along_lo, span.along_hi},
                   options, plan.mean_yield_t_ha, random, layout);
    }
    return layout;
}

FieldPlace::FieldPlace(const DemoFieldPlan& plan)
    : east_west_(plan.east_west), middle_m_{0.5 * plan.across_m, 0.5 * plan.along_m},
      place_(Place(farm_origin_deg)
                 .to_degrees({plan.east_m + 0.5 * (plan.east_west ? plan.along_m : plan.across_m),
                              plan.north_m + 0.5 * (plan.east_west ? plan.across_m : plan.along_m)})) {}

Point FieldPlace::to_degrees(double across_m, double along_m) const {
    const Point p{across_m - middle_m_.x, along_m - middle_m_.y};
    return place_.to_degrees(east_west_ ? Point{p.y, p.x} : p);
}

MultiPolygon boundary_m(const DemoFieldPlan& plan) {
    Polygon field{rectangle(0.0, plan.across_m, 0.0, plan.along_m), {}};
    if (const double legs = plan.corner_cut_m; legs > 0.0) {
        field.shell = {
            {legs, 0.0}, {plan.across_m, 0.0}, {plan.across_m, plan.along_m}, {0.0, plan.along_m}, {0.0, legs}};
    }
    for (const DemoHollow& slough : plan.sloughs) {
        Ring hole = hollow_outline(slough);
        std::reverse(hole.begin(), hole.end());
        field.holes.push_back(hole);
    }
    return {field};
}

MultiPolygon drawn_area_m(const DemoFieldPlan& plan, const AreaSpan& span) {
    const auto low = [](double edge) { return edge < 0.5 ? edge - drawn_past_m : edge; };
    const auto high = [](double edge, double side) { return edge > side - 0.5 ? edge + drawn_past_m : edge; };
    return {Polygon{rectangle(low(span.across_lo), high(span.across_hi, plan.across_m), low(span.along_lo),
                              high(span.along_hi, plan.along_m)),
                    {}}};
}

MultiPolygon to_degrees(const MultiPolygon& shape_m, const FieldPlace& place) {
    const auto turned = [&place](const Ring& ring, bool shell) {
        Ring out;
        for (const Point& p : ring)
            out.push_back(place.to_degrees(p.x, p.y));
        if ((signed_area(out) > 0.0) != shell) std::reverse(out.begin(), out.end());
        return out;
    };
    MultiPolygon out;
    for (const Polygon& part : shape_m) {
        Polygon moved{turned(part.shell, true), {}};
        for (const Ring& hole : part.holes)
            moved.holes.push_back(turned(hole, false));
        out.push_back(moved);
    }
    return out;
}

} // namespace quartercut::demo
