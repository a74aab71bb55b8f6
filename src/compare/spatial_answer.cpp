// SPDX-License-Identifier: MIT
// Spatial model of a field's segments: chosen on a coarse set of cells, fitted on a finer one, read off with
// small-sample errors.
#include "compare/spatial_answer.hpp"

#include "base/words/words.hpp"

#include "compare/boundary.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr std::size_t coarse_cells = 300;
constexpr int fewest_passes = 2;  // per method
constexpr Index fewest_cells = 4; // per method

std::vector<int> methods_in(const CellSet& set) {
    const std::set<int> seen(set.method.begin(), set.method.end());
    return {seen.begin(), seen.end()};
}

VectorXd scaled(const VectorXd& place) {
    const double middle = place.mean();
    const double reach = (place.array() - middle).abs().maxCoeff();
    return (place.array() - middle) / (reach > 0.0 ? reach : 1.0);
}

/// One column per method, then the trends.
Eigen::MatrixXd design(const CellSet& set, const std::vector<int>& methods, bool trends) {
    const auto m = static_cast<Index>(methods.size());
    Eigen::MatrixXd x = Eigen::MatrixXd::Zero(set.cells.size(), m + (trends ? 2 : 0));
    for (Index i = 0; i < set.cells.size(); ++i) {
        const auto at = std::find(methods.begin(), methods.end(), set.method[static_cast<std::size_t>(i)]);
        x(i, static_cast<Index>(at - methods.begin())) = 1.0;
    }
    if (trends) {
        x.col(m) = scaled(set.cells.along_m);
        x.col(m + 1) = scaled(set.cells.across_m);
    }
    return x;
}

std::string too_little(const CellSet& set, const std::vector<int>& methods) {
    for (const int method : methods) {
        std::set<int> passes;
        Index cells = 0;
        for (std::size_t i = 0; i < set.method.size(); ++i) {
            if (set.method[i] != method) continue;
            passes.insert(set.cells.pass[i]);
            ++cells;
        }
        if (static_cast<int>(passes.size()) < fewest_passes || cells < fewest_cells)
            return spoken().compare.too_few_segments;
    }
    return {};
}

/// Yields that the design explains to the last digit are made up, not measured; a likelihood of them means nothing.
bool varies(const Cells& cells) {
    const VectorXd beta = cells.x.colPivHouseholderQr().solve(cells.yield_t_ha);
    const double rest = (cells.yield_t_ha - cells.x * beta).norm();
    return rest > 1e-9 * cells.yield_t_ha.norm();
}

/// A re-run: the form is known and its parameters are near.
std::optional<SpatialFit> fit_again(const Cells& cells, const SpatialModel& begin) {
    const SpatialForm form{begin.spherical ? Correlation::spherical : Correlation::exponential, begin.anisotropic, true,
                           true};
    SpatialFitOptions options;
    options.start = SpatialParameters{begin.sill, begin.range_m, begin.nugget, begin.pass, begin.across_ratio};
    options.max_evaluations = 20;
    options.tolerance = 1e-2;
    return fit_spatial(cells, form, options);
}

/// Chooses the form on coarse cells and refines its parameters on the fine ones.
std::optional<SpatialFit> fit_field(const SegmentSet& segments, SpatialAnswer& answer, bool trends) {
    CellSet coarse = make_cells(segments, coarse_cells);
    coarse.cells.x = design(coarse, answer.methods, trends);
    if (rank_of(coarse.cells.x) < coarse.cells.x.cols()) return std::nullopt;
    const auto chosen = choose_spatial(coarse.cells, true);
    if (!chosen || coarse.cells.size() == answer.set.cells.size()) return chosen;
    SpatialFitOptions options;
    options.start = chosen->at;
    options.max_evaluations = 25;
    options.tolerance = 3e-3;
    return fit_spatial(answer.set.cells, chosen->form, options);
}

Estimate estimate_of(const std::string& name, const MeanTest& test) {
    Estimate e;
    e.estimator = name;
    e.gain_t_ha = test.estimate;
    e.se_t_ha = test.se;
    e.df = test.df;
    e.ci95_t_ha = test.ci95();
    return e;
}

VectorXd contrast_vector(const SpatialAnswer& answer, std::pair<int, int> pair) {
    VectorXd c = VectorXd::Zero(answer.set.cells.x.cols());
    for (std::size_t m = 0; m < answer.methods.size(); ++m) {
        if (answer.methods[m] == pair.first) c(static_cast<Index>(m)) = 1.0;
        if (answer.methods[m] == pair.second) c(static_cast<Index>(m)) = -1.0;
    }
    return c;
}

/// Passes, not cells, are what a method's level varies between: no contrast gets more degrees of freedom from them.
double capped_df(double df, const SpatialAnswer& answer) {
    const double passes = answer.set.passes - static_cast<double>(answer.set.cells.x.cols());
    return std::clamp(df, 1.0, std::max(1.0, passes));
}

void add_estimates(SpatialAnswer& answer, const SpatialRequest& request) {
    const Cells& cells = answer.set.cells;
    const CovarianceMoves moves = covariance_moves(cells, answer.fit->form, answer.fit->at);
    const KenwardRoger model(cells.x, cells.yield_t_ha, moves);
    const auto& words = spoken().compare;
    const bool trends = request.trends && !answer.trends_dropped;
    for (const auto& pair : request.contrasts) {
        const VectorXd c = contrast_vector(answer, pair);
        MeanTest gls = model.contrast(c);
        gls.df = capped_df(gls.df, answer);
        const VectorXd row = least_squares_row(cells.x, cells.weight, c);
        const MeanTest ols{row.dot(cells.yield_t_ha), std::sqrt(row.dot(moves.v * row)),
                           capped_df(model.satterthwaite_df_of(row), answer)};
        std::vector<Estimate> out{
            estimate_of(fill(trends ? words.spatial_trends : words.spatial, fmt::arg("model", answer.fit->form.name())),
                        gls),
            estimate_of(trends ? words.plain_trends : words.plain, ols)};
        if (request.boundary) {
            const auto differences = boundary_differences(answer.set, pair.first, pair.second);
            if (const auto border = boundary_contrast(differences, answer.fit->at.pass, 2.0))
                out.push_back(estimate_of(spoken().compare.border, border->test));
        }
        answer.estimates.push_back(std::move(out));
    }
}

} // namespace

SpatialAnswer spatial_answer(const SegmentSet& segments, const SpatialRequest& request) {
    SpatialAnswer answer;
    answer.set = make_cells(segments, request.most_cells);
    answer.methods = methods_in(answer.set);
    answer.trouble = too_little(answer.set, answer.methods);
    if (!answer.trouble.empty()) return answer;
    answer.set.cells.x = design(answer.set, answer.methods, request.trends);
    bool trends = request.trends;
    if (trends && rank_of(answer.set.cells.x) < answer.set.cells.x.cols()) {
        trends = false;
        answer.trends_dropped = true;
        answer.set.cells.x = design(answer.set, answer.methods, false);
    }
    if (varies(answer.set.cells))
        answer.fit = request.begin ? fit_again(answer.set.cells, *request.begin) : fit_field(segments, answer, trends);
    if (!answer.fit) {
        answer.trouble = spoken().compare.segments_alike;
        return answer;
    }
    add_estimates(answer, request);
    return answer;
}

int widest(const std::vector<Estimate>& estimates) {
    int best = -1;
    double width = -1.0;
    for (std::size_t i = 0; i < estimates.size(); ++i) {
        if (!estimates[i].ci95_t_ha) continue;
        const double w = (*estimates[i].ci95_t_ha)[1] - (*estimates[i].ci95_t_ha)[0];
        if (w <= width) continue;
        width = w;
        best = static_cast<int>(i);
    }
    return best;
}

bool depends_on_model(const Estimate& generalised, const Estimate& plain) {
    if (!generalised.gain_t_ha || !plain.gain_t_ha || !generalised.se_t_ha || !plain.se_t_ha) return false;
    const double variance = std::abs(*plain.se_t_ha * *plain.se_t_ha - *generalised.se_t_ha * *generalised.se_t_ha);
    return std::abs(*generalised.gain_t_ha - *plain.gain_t_ha) > 2.0 * std::sqrt(variance);
}

} // namespace quartercut::contrast
