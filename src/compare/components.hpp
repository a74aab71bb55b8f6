// SPDX-License-Identifier: MIT
// Linear mixed models with independent random effects: V = known + sum_k theta_k V_k. Blocks that hold unequal numbers
// of strips, and fields within years, are fitted here; small-sample errors come from KenwardRoger.
#pragma once

#include "compare/kenward_roger.hpp"

#include <optional>
#include <vector>

namespace quartercut::contrast {

struct ComponentModel {
    Eigen::MatrixXd x;
    Eigen::VectorXd y;
    Eigen::MatrixXd known;             ///< known part of V, or empty
    std::vector<CovariancePart> parts; ///< V_k, each positive semi-definite
};

struct ComponentFit {
    Eigen::VectorXd theta; ///< variances, >= 0
    double loglik = 0.0;   ///< restricted
    Eigen::MatrixXd v;
    Eigen::VectorXd beta;
    Eigen::MatrixXd phi;
};

/// V_k of a grouping: 1 where two units share the group.
[[nodiscard]] CovariancePart group_part(std::vector<int> group);
/// V_k of independent errors.
[[nodiscard]] CovariancePart identity_part(Eigen::Index n);

/// Restricted maximum likelihood; nullopt when nothing can be fitted.
[[nodiscard]] std::optional<ComponentFit> fit_components(const ComponentModel& model);

[[nodiscard]] KenwardRoger kenward_roger(const ComponentModel& model, const ComponentFit& fit);

/// Several years: effects of fields within years, variance between years and between fields of a year.
struct TwoLevel {
    MeanTest mean;
    double between_years2 = 0.0, between_fields2 = 0.0;
    double loglik = 0.0;
};
[[nodiscard]] std::optional<TwoLevel> pool_two_level(const std::vector<double>& effect,
                                                     const std::vector<double>& variance, const std::vector<int>& year);

} // namespace quartercut::contrast
