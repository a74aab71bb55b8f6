// SPDX-License-Identifier: MIT
// Restricted likelihood of the spatial model, maximised by BOBYQA (NLopt) over log range and variance shares.
#include "compare/spatial_model.hpp"

#include "compare/side_by_side.hpp"

#include <nlopt.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;

constexpr double bad_fit = 1e30;
constexpr double range_of_diagonal = 1.5; // a range beyond the field's diagonal cannot be told from a trend
constexpr double range_counts_as_lost = 1.0;

struct Extent {
    double diagonal_m = 1.0, spacing_m = 1.0;
};

Extent extent_of(const Cells& cells) {
    const double along = cells.along_m.maxCoeff() - cells.along_m.minCoeff();
    const double across = cells.across_m.maxCoeff() - cells.across_m.minCoeff();
    const double diagonal = std::max(1e-6, std::hypot(along, across));
    const double per_cell = std::max(along, 1e-3) * std::max(across, 1e-3) / static_cast<double>(cells.size());
    return {diagonal, std::min(diagonal / 4.0, std::sqrt(per_cell))};
}

/// Standard deviation of the yields; 1 where they are all alike.
double spread_of(const Eigen::VectorXd& yield_t_ha) {
    const double squares = (yield_t_ha.array() - yield_t_ha.mean()).square().sum();
    const double spread = std::sqrt(squares / static_cast<double>(yield_t_ha.size()));
    return spread > 0.0 ? spread : 1.0;
}

/// The likelihood as a function of log range, nugget share, pass share and log ratio; distances are kept between calls.
class Likelihood {
public:
    Likelihood(const Cells& cells, const SpatialForm& form) : cells_(cells), form_(form) {
        const Index n = cells.size();
        along2_.resize(n, n);
        across2_.resize(n, n);
        for (Index j = 0; j < n; ++j) {
            along2_.col(j) = (cells.along_m.array() - cells.along_m(j)).square();
            across2_.col(j) = (cells.across_m.array() - cells.across_m(j)).square();
        }
        h_ = (along2_ + across2_).cwiseSqrt();
        v_.resize(n, n);
        for (Index i = 0; i < n; ++i)
            members_[cells.pass.empty() ? 0 : cells.pass[static_cast<std::size_t>(i)]].push_back(i);
    }

    [[nodiscard]] double minus_loglik(const std::vector<double>& q) {
        ++evaluations;
        fill(unit_parameters(q));
        const auto fit = fit_gls(v_, cells_.x, cells_.yield_t_ha);
        if (!fit || !(fit->quadratic > 0.0)) return bad_fit;
        const double value = -profiled_restricted_loglik(*fit);
        return std::isfinite(value) ? value : bad_fit;
    }

    /// Parameters with total variance 1 from the optimiser's coordinates.
    [[nodiscard]] SpatialParameters unit_parameters(const std::vector<double>& q) const {
        SpatialParameters at;
        std::size_t next = 0;
        at.range_m = std::exp(q[next++]);
        const double nugget_share = form_.nugget ? q[next++] : 0.0;
        at.pass = form_.pass_effect ? q[next++] : 0.0;
        at.across_ratio = form_.anisotropic ? std::exp(q[next++]) : 1.0;
        at.nugget = (1.0 - at.pass) * nugget_share;
        at.sill = (1.0 - at.pass) * (1.0 - nugget_share);
        return at;
    }

    [[nodiscard]] double scale_at(const std::vector<double>& q) {
        fill(unit_parameters(q));
        const auto fit = fit_gls(v_, cells_.x, cells_.yield_t_ha);
        return fit ? profiled_scale(*fit) : 0.0;
    }

    int evaluations = 0;

private:
    void fill(const SpatialParameters& at) {
        if (form_.anisotropic) h_ = (along2_ + across2_ / (at.across_ratio * at.across_ratio)).cwiseSqrt();
        if (form_.correlation == Correlation::exponential) {
            v_ = at.sill * (h_.array() * (-1.0 / at.range_m)).exp();
        } else {
            const auto u = (h_.array() / at.range_m).min(1.0);
            v_ = at.sill * (1.0 - 1.5 * u + 0.5 * u.cube());
        }
        v_.diagonal().array() += at.nugget / cells_.weight.array();
        if (at.pass <= 0.0) return;
        for (const auto& [pass, members] : members_)
            for (const Index j : members)
                for (const Index i : members)
                    v_(i, j) += at.pass;
    }

    const Cells& cells_;
    SpatialForm form_;
    MatrixXd along2_, across2_, h_, v_;
    std::map<int, std::vector<Index>> members_;
};

double objective(const std::vector<double>& q, std::vector<double>& /*gradient*/, void* data) {
    return static_cast<Likelihood*>(data)->minus_loglik(q);
}

struct Bounds {
    std::vector<double> low, high;
};

Bounds bounds_for(const SpatialForm& form, const Extent& extent) {
    Bounds b{{std::log(0.05 * extent.spacing_m)}, {std::log(range_of_diagonal * extent.diagonal_m)}};
    const auto add = [&](double low, double high) {
        b.low.push_back(low);
        b.high.push_back(high);
    };
    if (form.nugget) add(0.0, 0.999);
    if (form.pass_effect) add(0.0, 0.95);
    if (form.anisotropic) add(std::log(0.1), std::log(10.0));
    return b;
}

std::vector<double> coordinates(const SpatialForm& form, const SpatialParameters& at) {
    const double total = at.sill + at.nugget + at.pass;
    const double pass = at.pass / total;
    std::vector<double> q{std::log(at.range_m)};
    if (form.nugget) q.push_back(at.nugget / std::max(1e-12, at.sill + at.nugget));
    if (form.pass_effect) q.push_back(pass);
    if (form.anisotropic) q.push_back(std::log(at.across_ratio));
    return q;
}

struct Optimum {
    std::vector<double> q;
    double value = bad_fit;
    SpatialParameters at; ///< of total variance 1
    double scale = 0.0;
    int evaluations = 0;
};

Optimum maximise(Likelihood& likelihood, std::vector<double> start, const Bounds& bounds,
                 const SpatialFitOptions& options) {
    // BOBYQA's quadratic model needs two coordinates or more.
    nlopt::opt optimiser(start.size() > 1 ? nlopt::LN_BOBYQA : nlopt::LN_NELDERMEAD,
                         static_cast<unsigned>(start.size()));
    optimiser.set_lower_bounds(bounds.low);
    optimiser.set_upper_bounds(bounds.high);
    optimiser.set_min_objective(objective, &likelihood);
    optimiser.set_xtol_abs(options.tolerance);
    optimiser.set_maxeval(options.max_evaluations);
    std::vector<double> step{0.4};
    for (std::size_t i = 1; i < start.size(); ++i)
        step.push_back(0.1);
    if (start.size() > 1 && bounds.high.back() > 1.0) step.back() = 0.4;
    optimiser.set_initial_step(step);
    for (std::size_t i = 0; i < start.size(); ++i)
        start[i] = std::clamp(start[i], bounds.low[i], bounds.high[i]);
    Optimum best;
    best.q = start;
    try {
        optimiser.optimize(best.q, best.value);
    } catch (const std::exception&) {
        // Rounding stopped the search: what it holds is the best point seen.
        best.value = likelihood.minus_loglik(best.q);
    }
    best.at = likelihood.unit_parameters(best.q);
    best.scale = likelihood.scale_at(best.q);
    best.evaluations = likelihood.evaluations;
    return best;
}

std::vector<std::vector<double>> starts_for(const SpatialForm& form, const Extent& extent,
                                            const SpatialFitOptions& options) {
    if (options.start) return {coordinates(form, *options.start)};
    std::vector<std::vector<double>> starts;
    for (const double range : {2.0 * extent.spacing_m, extent.diagonal_m / 6.0})
        starts.push_back(coordinates(form, {0.6, range, 0.3, form.pass_effect ? 0.1 : 0.0, 1.0}));
    return starts;
}

Optimum best_of_starts(const Cells& cells, const SpatialForm& form, const Extent& extent,
                       const SpatialFitOptions& options) {
    const Bounds bounds = bounds_for(form, extent);
    const std::vector<std::vector<double>> starts = starts_for(form, extent, options);
    std::vector<Optimum> found(starts.size());
    side_by_side(starts.size(), [&](std::size_t i) {
        Likelihood likelihood(cells, form);
        found[i] = maximise(likelihood, starts[i], bounds, options);
    });
    Optimum best;
    int evaluations = 0;
    for (const Optimum& one : found) {
        evaluations += one.evaluations;
        if (one.value < best.value) best = one;
    }
    best.evaluations = evaluations;
    return best;
}

} // namespace

std::optional<SpatialFit> fit_spatial(const Cells& cells, const SpatialForm& form, const SpatialFitOptions& options) {
    if (cells.size() <= cells.x.cols() + 2) return std::nullopt;
    const Extent extent = extent_of(cells);
    // The search sees the same surface whatever unit the yield is in.
    Cells unit = cells;
    const double size = spread_of(cells.yield_t_ha);
    unit.yield_t_ha /= size;
    const Optimum best = best_of_starts(unit, form, extent, options);
    if (best.value >= bad_fit || !(best.scale > 0.0)) return std::nullopt;
    const auto free = static_cast<double>(cells.size() - cells.x.cols());
    const double loglik = -best.value - free * std::log(size);
    SpatialFit fit{form, best.at, loglik, 0.0, true, best.evaluations};
    for (double* variance : {&fit.at.sill, &fit.at.nugget, &fit.at.pass})
        *variance *= best.scale * size * size;
    const auto parameters = static_cast<double>(best.q.size() + 1);
    fit.aic = 2.0 * (static_cast<double>(cells.x.cols()) + parameters) - 2.0 * fit.loglik;
    fit.range_found = fit.at.range_m < range_counts_as_lost * extent.diagonal_m;
    return fit;
}

std::optional<SpatialFit> choose_spatial(const Cells& cells, bool pass_effect) {
    SpatialFitOptions options;
    options.max_evaluations = 60;
    options.tolerance = 1e-3;
    std::optional<SpatialFit> best = fit_spatial(cells, {Correlation::exponential, false, true, pass_effect}, options);
    if (!best) return best;
    const SpatialParameters first = best->at;
    options.max_evaluations = 40;
    const std::array forms{SpatialForm{Correlation::spherical, false, true, pass_effect},
                           SpatialForm{Correlation::exponential, true, true, pass_effect},
                           SpatialForm{Correlation::spherical, true, true, pass_effect}};
    std::array<std::optional<SpatialFit>, forms.size()> fits;
    side_by_side(forms.size(), [&](std::size_t i) {
        SpatialFitOptions own = options;
        own.start = first;
        // A spherical correlation ends about three e-folding distances away.
        if (forms[i].correlation == Correlation::spherical) own.start->range_m = 2.5 * first.range_m;
        fits[i] = fit_spatial(cells, forms[i], own);
    });
    for (const std::optional<SpatialFit>& fit : fits)
        if (fit && fit->aic < best->aic - 1e-9) best = fit;
    return best;
}

} // namespace quartercut::contrast
