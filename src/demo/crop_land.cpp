// SPDX-License-Identifier: MIT
// The land and what stands on it. See crop_land.hpp.
#include "demo/crop_land.hpp"

#include "demo/streams.hpp"
#include "demo/surface.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quartercut::demo {

namespace {

// Yield is drawn on a coarser grid and interpolated: the shortest scale of the land is 35 m.
constexpr double coarse_m = 5.0;
constexpr double least_yield_t_ha = 0.1;
constexpr int samples_per_side = 5;

double overlap(double lo, double hi, double cell_lo) {
    return std::max(0.0, std::min(hi, cell_lo + 1.0) - std::max(lo, cell_lo));
}

double hollow_depth(const DemoHollow& hollow, double across_m, double along_m) {
    const double r = std::hypot(across_m - hollow.across_m, along_m - hollow.along_m) / hollow.radius_m;
    return hollow.loss * std::exp(-r * r);
}

// Value of a grid with spacing coarse_m, bilinear.
struct CoarseGrid {
    std::size_t columns, rows;
    std::vector<double> values;
    [[nodiscard]] double at(double x, double y) const {
        const double gx = std::clamp(x / coarse_m, 0.0, static_cast<double>(columns - 1) - 1e-9);
        const double gy = std::clamp(y / coarse_m, 0.0, static_cast<double>(rows - 1) - 1e-9);
        const auto i = static_cast<std::size_t>(gx), j = static_cast<std::size_t>(gy);
        const double fx = gx - static_cast<double>(i), fy = gy - static_cast<double>(j);
        const double low = values[j * columns + i] * (1.0 - fx) + values[j * columns + i + 1] * fx;
        const double high = values[(j + 1) * columns + i] * (1.0 - fx) + values[(j + 1) * columns + i + 1] * fx;
        return low * (1.0 - fy) + high * fy;
    }
};

double planned_yield(const DemoFieldPlan& plan, const std::vector<Surface>& surfaces, double across, double along) {
    double share = 1.0;
    for (const Surface& surface : surfaces)
        share += surface.at(across, along);
    for (const DemoHollow& spot : plan.wet_spots)
        share *= 1.0 - hollow_depth(spot, across, along);
    const double trend = plan.trend_t_ha * (across / plan.across_m - 0.5);
    return std::max(least_yield_t_ha, plan.mean_yield_t_ha * share + trend);
}

CoarseGrid draw_yield(const DemoFieldPlan& plan, const DemoOptions& options, std::size_t field) {
    Random random = stream(options.seed, field, Purpose::soil);
    std::vector<Surface> surfaces;
    for (const auto& [scale_m, sd] : {std::pair{250.0, 0.07}, std::pair{90.0, 0.06}, std::pair{35.0, 0.05}})
        surfaces.emplace_back(random, scale_m, sd * options.structure);
    CoarseGrid grid{static_cast<std::size_t>(plan.across_m / coarse_m) + 2,
                    static_cast<std::size_t>(plan.along_m / coarse_m) + 2,
                    {}};
    grid.values.reserve(grid.columns * grid.rows);
    for (std::size_t j = 0; j < grid.rows; ++j) {
        for (std::size_t i = 0; i < grid.columns; ++i)
            grid.values.push_back(
                planned_yield(plan, surfaces, static_cast<double>(i) * coarse_m, static_cast<double>(j) * coarse_m));
    }
    return grid;
}

} // namespace

Ring hollow_outline(const DemoHollow& hollow) {
    constexpr int corners = 36;
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / corners;
        const double radius = hollow.radius_m * (1.0 + 0.15 * std::sin(2.0 * angle + hollow.across_m) +
                                                 0.08 * std::cos(3.0 * angle + hollow.along_m));
        ring.push_back({hollow.across_m + radius * std::cos(angle), hollow.along_m + radius * std::sin(angle)});
    }
    return ring;
}

CropLand::CropLand(const DemoFieldPlan& plan, const DemoOptions& options, std::size_t field)
    : across_m_(plan.across_m), along_m_(plan.along_m),
      across_cells_(static_cast<std::size_t>(std::ceil(plan.across_m))),
      along_cells_(static_cast<std::size_t>(std::ceil(plan.along_m))) {
    crop_.reserve(across_cells_ * along_cells_);
    for (std::size_t j = 0; j < along_cells_; ++j) {
        for (std::size_t i = 0; i < across_cells_; ++i)
            crop_.push_back(static_cast<float>(overlap(0.0, across_m_, static_cast<double>(i)) *
                                               overlap(0.0, along_m_, static_cast<double>(j))));
    }
    for (const DemoHollow& slough : plan.sloughs)
        mark_hollow(slough);
    mark_corner(plan.corner_cut_m);
    uncut_ = crop_;
    grow(plan, options, field);
}

void CropLand::grow(const DemoFieldPlan& plan, const DemoOptions& options, std::size_t field) {
    const CoarseGrid grid = draw_yield(plan, options, field);
    yield_t_ha_.reserve(crop_.size());
    for (std::size_t j = 0; j < along_cells_; ++j) {
        for (std::size_t i = 0; i < across_cells_; ++i)
            yield_t_ha_.push_back(
                static_cast<float>(grid.at(static_cast<double>(i) + 0.5, static_cast<double>(j) + 0.5)));
    }
}

void CropLand::mark_hollow(const DemoHollow& slough) {
    const MultiPolygon shape{Polygon{hollow_outline(slough), {}}};
    const PointLocator inside(shape);
    const Box box = bounding_box(shape);
    const Span across = span(box.min_x, box.max_x, across_cells_), along = span(box.min_y, box.max_y, along_cells_);
    for (std::size_t j = along.first; j < along.last; ++j) {
        for (std::size_t i = across.first; i < across.last; ++i) {
            int hits = 0;
            for (int s = 0; s < samples_per_side * samples_per_side; ++s) {
                const double dx = (s % samples_per_side + 0.5) / samples_per_side;
                const double dy = (s / samples_per_side + 0.5) / samples_per_side;
                hits += inside.contains({static_cast<double>(i) + dx, static_cast<double>(j) + dy}) ? 1 : 0;
            }
            const float share = static_cast<float>(hits) / (samples_per_side * samples_per_side);
            crop_[cell(i, j)] = std::max(0.0F, crop_[cell(i, j)] - share);
        }
    }
}

// The corner's edge runs at 45 degrees through whole metres: cells on it are half crop.
void CropLand::mark_corner(double legs_m) {
    const auto legs = static_cast<std::size_t>(std::lround(legs_m));
    for (std::size_t j = 0; j < std::min(legs, along_cells_); ++j) {
        for (std::size_t i = 0; i + j < legs && i < across_cells_; ++i)
            crop_[cell(i, j)] = i + j + 1 == legs ? 0.5F : 0.0F;
    }
}

CropLand::Span CropLand::span(double lo, double hi, std::size_t cells) const {
    const auto count = static_cast<double>(cells);
    const auto first = static_cast<std::size_t>(std::clamp(std::floor(lo), 0.0, count));
    return {first, std::max(first, static_cast<std::size_t>(std::clamp(std::ceil(hi), 0.0, count)))};
}

bool CropLand::is_crop(double across_m, double along_m) const {
    if (across_m < 0.0 || along_m < 0.0 || across_m >= across_m_ || along_m >= along_m_) return false;
    return crop_[cell(static_cast<std::size_t>(across_m), static_cast<std::size_t>(along_m))] > 0.0F;
}

double CropLand::yield_t_ha(double across_m, double along_m) const {
    if (!is_crop(across_m, along_m)) return 0.0;
    return static_cast<double>(
        yield_t_ha_[cell(static_cast<std::size_t>(across_m), static_cast<std::size_t>(along_m))]);
}

Taken CropLand::take(const Rect& rect, double extra_t_ha) {
    constexpr double kg_m2_per_t_ha = 0.1;
    const Span across = span(rect.across_lo, rect.across_hi, across_cells_);
    const Span along = span(rect.along_lo, rect.along_hi, along_cells_);
    Taken taken;
    for (std::size_t j = along.first; j < along.last; ++j) {
        const double deep = overlap(rect.along_lo, rect.along_hi, static_cast<double>(j));
        for (std::size_t i = across.first; i < across.last; ++i) {
            const std::size_t c = cell(i, j);
            const auto left = static_cast<double>(uncut_[c]);
            const double area = std::min(left, deep * overlap(rect.across_lo, rect.across_hi, static_cast<double>(i)));
            if (area <= 0.0) continue;
            uncut_[c] = static_cast<float>(left - area);
            taken.area_m2 += area;
            taken.basis_kg +=
                area * kg_m2_per_t_ha * std::max(least_yield_t_ha, static_cast<double>(yield_t_ha_[c]) + extra_t_ha);
        }
    }
    return taken;
}

double CropLand::crop_m2(const Rect& rect) const {
    const Span across = span(rect.across_lo, rect.across_hi, across_cells_);
    const Span along = span(rect.along_lo, rect.along_hi, along_cells_);
    double sum = 0.0;
    for (std::size_t j = along.first; j < along.last; ++j) {
        const double deep = overlap(rect.along_lo, rect.along_hi, static_cast<double>(j));
        for (std::size_t i = across.first; i < across.last; ++i)
            sum += static_cast<double>(crop_[cell(i, j)]) * deep *
                   overlap(rect.across_lo, rect.across_hi, static_cast<double>(i));
    }
    return sum;
}

double CropLand::uncut_m2() const {
    double sum = 0.0;
    for (const float left : uncut_)
        sum += static_cast<double>(left);
    return sum;
}

} // namespace quartercut::demo
