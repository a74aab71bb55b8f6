// SPDX-License-Identifier: MIT
// Placebo layouts.
#include "compare/placebo.hpp"

#include "compare/paired.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <set>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int fewest_layouts = 10;

struct Tally {
    int layouts = 0, as_large = 0, found = 0;
    void add(double estimate, bool is_found, double bar) {
        ++layouts;
        if (std::abs(estimate) >= bar) ++as_large;
        if (is_found) ++found;
    }
    [[nodiscard]] std::optional<Placebo> placebo() const {
        if (layouts < fewest_layouts) return std::nullopt;
        return Placebo{layouts, static_cast<double>(as_large) / layouts, static_cast<double>(found) / layouts};
    }
};

/// A segment in the layout's frame, its yield with the method's gain taken out.
struct Spot {
    double along = 0.0, across = 0.0, mass = 0.0, area = 0.0;
};

std::vector<Spot> spots_of(const FieldContext& field, std::pair<int, int> pair, double gain_t_ha) {
    const double c = std::cos(field.layout.direction_rad);
    const double s = std::sin(field.layout.direction_rad);
    std::vector<Spot> out;
    for (const int i : field.layout.usable) {
        const int method = field.zone_of(i).method;
        if (method != pair.first && method != pair.second) continue;
        const Segment& segment = field.segment(i);
        const double taken = method == pair.first ? gain_t_ha * segment.area_m2 * kg_per_tonne / m2_per_hectare : 0.0;
        out.push_back({segment.x_m * c + segment.y_m * s, -segment.x_m * s + segment.y_m * c,
                       segment.mass_basis_kg - taken, segment.area_m2});
    }
    return out;
}

struct Span {
    double low = 0.0, high = 0.0;
    [[nodiscard]] double width() const { return high - low; }
    [[nodiscard]] double wrapped(double at) const { return low + std::fmod(at - low + 2.0 * width(), width()); }
};

/// Where a block's strips of each method lie.
struct PlacedBlock {
    std::vector<const Strip*> method, baseline;
    Span across;
};

std::vector<PlacedBlock> place(const FieldContext& field, const std::vector<Block>& blocks, std::pair<int, int> pair) {
    std::vector<PlacedBlock> out;
    for (const Block& block : blocks) {
        PlacedBlock placed;
        placed.across = {1e300, -1e300};
        for (const int i : block.strips) {
            const Strip& strip = field.layout.strips[static_cast<std::size_t>(i)];
            (strip.method == pair.first ? placed.method : placed.baseline).push_back(&strip);
            placed.across.low = std::min(placed.across.low, strip.across_min);
            placed.across.high = std::max(placed.across.high, strip.across_max);
        }
        out.push_back(std::move(placed));
    }
    return out;
}

bool inside(const std::vector<const Strip*>& strips, double along, double across) {
    return std::any_of(strips.begin(), strips.end(), [&](const Strip* s) {
        return across >= s->across_min && across < s->across_max && along >= s->along_min && along <= s->along_max;
    });
}

/// Difference of a block moved by `shift`; nullopt when it would be torn apart at the field's side.
std::optional<double> moved_difference(const std::vector<Spot>& spots, const PlacedBlock& block, const Span& span,
                                       double shift) {
    const double low = span.wrapped(block.across.low + shift);
    if (low + block.across.width() > span.high + 1e-6) return std::nullopt;
    double mass[2] = {0.0, 0.0};
    double area[2] = {0.0, 0.0};
    for (const Spot& spot : spots) {
        const double across = span.wrapped(spot.across - shift);
        const bool of_method = inside(block.method, spot.along, across);
        if (!of_method && !inside(block.baseline, spot.along, across)) continue;
        mass[of_method ? 1 : 0] += spot.mass;
        area[of_method ? 1 : 0] += spot.area;
    }
    if (area[0] <= 0.0 || area[1] <= 0.0) return std::nullopt;
    return (mass[1] / area[1] - mass[0] / area[0]) * m2_per_hectare / kg_per_tonne;
}

/// Most passes hold one method: the border runs along them.
bool border_along_passes(const SpatialAnswer& answer) {
    std::map<int, std::set<int>> methods;
    for (std::size_t i = 0; i < answer.set.method.size(); ++i)
        methods[answer.set.cells.pass[i]].insert(answer.set.method[i]);
    const auto pure = std::count_if(methods.begin(), methods.end(), [](const auto& m) { return m.second.size() == 1; });
    return 2 * static_cast<std::size_t>(pure) >= methods.size();
}

/// What every moved border of a split needs, computed once.
struct SplitBase {
    MatrixXd v, inverse;
    VectorXd yield, position;
    MatrixXd trends;
    VectorXd weight;
};

SplitBase split_base(const SpatialAnswer& answer, std::pair<int, int> pair, double gain) {
    const Cells& cells = answer.set.cells;
    SplitBase base;
    base.v = covariance(cells, answer.fit->form, answer.fit->at);
    base.inverse = base.v.llt().solve(MatrixXd::Identity(cells.size(), cells.size()));
    base.yield = cells.yield_t_ha;
    for (Index i = 0; i < cells.size(); ++i)
        if (answer.set.method[static_cast<std::size_t>(i)] == pair.first) base.yield(i) -= gain;
    base.position = border_along_passes(answer) ? cells.across_m : cells.along_m;
    const auto methods = static_cast<Index>(answer.methods.size());
    base.trends = cells.x.rightCols(cells.x.cols() - methods);
    base.weight = cells.weight;
    return base;
}

/// The more cautious of generalised and plain least squares for one border.
std::optional<MeanTest> judge(const SplitBase& base, double border, double df) {
    const Index n = base.yield.size();
    MatrixXd x(n, 2 + base.trends.cols());
    for (Index i = 0; i < n; ++i)
        x(i, 1) = base.position(i) > border ? 1.0 : 0.0;
    x.col(0) = 1.0 - x.col(1).array();
    x.rightCols(base.trends.cols()) = base.trends;
    if (rank_of(x) < x.cols()) return std::nullopt;
    VectorXd c = VectorXd::Zero(x.cols());
    c(0) = -1.0;
    c(1) = 1.0;
    const MatrixXd wx = base.inverse * x;
    const MatrixXd cross = x.transpose() * wx;
    const VectorXd solved = cross.llt().solve(c);
    const MeanTest gls{solved.dot(wx.transpose() * base.yield), std::sqrt(c.dot(solved)), df};
    const VectorXd row = least_squares_row(x, base.weight, c);
    const MeanTest ols{row.dot(base.yield), std::sqrt(row.dot(base.v * row)), df};
    return gls.se > ols.se ? gls : ols;
}

} // namespace

std::optional<Placebo> placebo_of_pairs(const FieldContext& field, const std::vector<Block>& blocks,
                                        std::pair<int, int> pair, const Contrast& contrast) {
    if (!contrast.gain_t_ha) return std::nullopt;
    const std::vector<Spot> spots = spots_of(field, pair, *contrast.gain_t_ha);
    const std::vector<PlacedBlock> placed = place(field, blocks, pair);
    Span span{1e300, -1e300};
    for (const PlacedBlock& block : placed) {
        span.low = std::min(span.low, block.across.low);
        span.high = std::max(span.high, block.across.high);
    }
    std::mt19937_64 random(field.seed);
    Tally tally;
    const int wanted = field.options.placebo_layouts;
    for (int layout = 0; layout < wanted; ++layout) {
        const double shift = span.width() * layout / wanted;
        std::vector<double> differences;
        for (const PlacedBlock& block : placed) {
            const bool turned = field.season.trial.randomised && (random() & 1U) != 0;
            if (const auto d = moved_difference(spots, block, span, shift)) differences.push_back(turned ? -*d : *d);
        }
        const auto test = paired_t(differences);
        if (test && test->se > 0.0) tally.add(test->estimate, test->p() < 0.05, std::abs(*contrast.gain_t_ha));
    }
    return tally.placebo();
}

std::optional<Placebo> placebo_of_split(const FieldContext& field, const SpatialAnswer& answer,
                                        std::pair<int, int> pair, const Contrast& contrast) {
    if (!answer.fit || !contrast.gain_t_ha || !contrast.df || answer.methods.size() != 2) return std::nullopt;
    const SplitBase base = split_base(answer, pair, *contrast.gain_t_ha);
    std::vector<double> order(base.position.begin(), base.position.end());
    std::sort(order.begin(), order.end());
    Tally tally;
    const int wanted = field.options.placebo_layouts;
    for (int layout = 0; layout < wanted; ++layout) {
        const double share = 0.25 + 0.5 * (layout + 0.5) / wanted;
        const double border = order[static_cast<std::size_t>(share * static_cast<double>(order.size() - 1))];
        if (const auto test = judge(base, border, *contrast.df))
            tally.add(test->estimate, test->p() < 0.05, std::abs(*contrast.gain_t_ha));
    }
    return tally.placebo();
}

} // namespace quartercut::contrast
