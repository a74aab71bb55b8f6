// SPDX-License-Identifier: MIT
// Variance components by restricted likelihood, searched by BOBYQA (NLopt) over standard deviations.
#include "compare/components.hpp"

#include <nlopt.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double bad_fit = 1e30;

MatrixXd full(const CovariancePart& part, Index n) { return part.times(MatrixXd::Identity(n, n)); }

class Objective {
public:
    explicit Objective(const ComponentModel& model) : model_(model) {
        for (const CovariancePart& part : model.parts)
            full_.push_back(full(part, model.y.size()));
    }
    [[nodiscard]] MatrixXd v_at(const VectorXd& theta) const {
        const Index n = model_.y.size();
        MatrixXd v = model_.known.size() > 0 ? model_.known : MatrixXd(MatrixXd::Zero(n, n));
        for (std::size_t k = 0; k < full_.size(); ++k)
            v += theta(static_cast<Index>(k)) * full_[k];
        return v;
    }
    [[nodiscard]] double minus_loglik(const VectorXd& theta) const {
        const auto fit = fit_gls(v_at(theta), model_.x, model_.y);
        if (!fit) return bad_fit;
        const double value = -restricted_loglik(*fit);
        return std::isfinite(value) ? value : bad_fit;
    }

private:
    const ComponentModel& model_;
    std::vector<MatrixXd> full_;
};

VectorXd squares(const std::vector<double>& sd) {
    VectorXd theta(static_cast<Index>(sd.size()));
    for (std::size_t k = 0; k < sd.size(); ++k)
        theta(static_cast<Index>(k)) = sd[k] * sd[k];
    return theta;
}

double nlopt_objective(const std::vector<double>& sd, std::vector<double>& /*gradient*/, void* data) {
    return static_cast<const Objective*>(data)->minus_loglik(squares(sd));
}

/// Spread of y around the fixed effects: the size the standard deviations are searched at.
double residual_sd(const ComponentModel& model) {
    const VectorXd beta = model.x.colPivHouseholderQr().solve(model.y);
    const double df = std::max<double>(1.0, static_cast<double>(model.y.size() - model.x.cols()));
    return std::sqrt((model.y - model.x * beta).squaredNorm() / df);
}

VectorXd search(Objective& objective, std::size_t components, double sd) {
    nlopt::opt optimiser(components > 1 ? nlopt::LN_BOBYQA : nlopt::LN_NELDERMEAD, static_cast<unsigned>(components));
    optimiser.set_lower_bounds(0.0);
    optimiser.set_upper_bounds(10.0 * sd);
    optimiser.set_min_objective(nlopt_objective, &objective);
    optimiser.set_xtol_abs(1e-9 * sd);
    optimiser.set_maxeval(2000);
    optimiser.set_initial_step(0.2 * sd);
    std::vector<double> at(components, sd / std::sqrt(static_cast<double>(components)));
    double value = 0.0;
    try {
        optimiser.optimize(at, value);
    } catch (const std::exception&) {
        // Rounding stopped the search; the best point seen stands in `at`.
        return squares(at);
    }
    return squares(at);
}

} // namespace

CovariancePart group_part(std::vector<int> group) {
    CovariancePart part;
    part.group = std::move(group);
    return part;
}

CovariancePart identity_part(Index n) {
    CovariancePart part;
    part.diagonal = VectorXd::Ones(n);
    return part;
}

std::optional<ComponentFit> fit_components(const ComponentModel& model) {
    const double sd = residual_sd(model);
    if (!(sd > 0.0) || model.y.size() <= model.x.cols()) return std::nullopt;
    Objective objective(model);
    ComponentFit fit;
    fit.theta = search(objective, model.parts.size(), sd);
    // A component at zero stays there: below a ten-millionth of the spread it is nothing.
    for (Index k = 0; k < fit.theta.size(); ++k)
        if (fit.theta(k) < 1e-7 * sd * sd) fit.theta(k) = 0.0;
    fit.v = objective.v_at(fit.theta);
    const auto gls = fit_gls(fit.v, model.x, model.y);
    if (!gls) return std::nullopt;
    fit.loglik = restricted_loglik(*gls);
    fit.beta = gls->beta;
    fit.phi = gls->phi;
    return fit;
}

KenwardRoger kenward_roger(const ComponentModel& model, const ComponentFit& fit) {
    CovarianceMoves moves;
    moves.v = fit.v;
    moves.first = model.parts;
    return {model.x, model.y, moves};
}

std::optional<TwoLevel> pool_two_level(const std::vector<double>& effect, const std::vector<double>& variance,
                                       const std::vector<int>& year) {
    const auto n = static_cast<Index>(effect.size());
    if (n < 3) return std::nullopt;
    ComponentModel model;
    model.x = MatrixXd::Ones(n, 1);
    model.y = Eigen::Map<const VectorXd>(effect.data(), n);
    model.known = Eigen::Map<const VectorXd>(variance.data(), n).asDiagonal();
    model.parts = {group_part(year), identity_part(n)};
    const auto fit = fit_components(model);
    if (!fit) return std::nullopt;
    const auto years = static_cast<double>(std::set<int>(year.begin(), year.end()).size());
    // The years are the units the mean is drawn from.
    return TwoLevel{{fit->beta(0), std::sqrt(fit->phi(0, 0)), std::max(1.0, years - 1.0)},
                    fit->theta(0),
                    fit->theta(1),
                    fit->loglik};
}

} // namespace quartercut::contrast
