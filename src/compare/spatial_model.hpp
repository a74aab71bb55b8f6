// SPDX-License-Identifier: MIT
// The covariance of segment yields: a smooth spatial part, a nugget that shrinks with the land behind a cell, and an
// error each pass carries as a whole. Fitted by restricted likelihood with the scale profiled out.
//
// The pass effect is always in the model: without it every spatial model finds differences that are not there (columns
// of Mercer & Hall's wheat: 43 % false findings where 5 % are promised).
#pragma once

#include "compare/kenward_roger.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quartercut::contrast {

/// The units a spatial model is fitted to.
struct Cells {
    Eigen::VectorXd along_m, across_m;
    Eigen::VectorXd yield_t_ha;
    Eigen::VectorXd weight; ///< land of the cell over the mean, > 0
    std::vector<int> pass;  ///< 0-based and dense
    Eigen::MatrixXd x;      ///< design
    [[nodiscard]] Eigen::Index size() const { return yield_t_ha.size(); }
};

enum class Correlation { exponential, spherical };

struct SpatialForm {
    Correlation correlation = Correlation::exponential;
    bool anisotropic = false; ///< the range across passes differs from the range along them
    bool nugget = true;
    bool pass_effect = true;
    [[nodiscard]] std::string name() const;
};

struct SpatialParameters {
    double sill = 0.0;         ///< variance of the smooth part
    double range_m = 1.0;      ///< along passes; e-folding distance or, for spherical, where it ends
    double nugget = 0.0;       ///< variance of a cell of mean size
    double pass = 0.0;         ///< variance of the pass effect
    double across_ratio = 1.0; ///< range across over range along
};

/// Correlation at distance `d` for a range, both m.
[[nodiscard]] double correlation_at(Correlation correlation, double d, double range);

/// Matern correlation of smoothness nu (d / range as argument of the Bessel function), for checks and plots.
[[nodiscard]] double matern(double nu, double d, double range);

[[nodiscard]] Eigen::MatrixXd covariance(const Cells& cells, const SpatialForm& form, const SpatialParameters& at);

/// V and its first and second derivatives in (sill, range, nugget, pass, across ratio), those at a bound left out.
[[nodiscard]] CovarianceMoves covariance_moves(const Cells& cells, const SpatialForm& form,
                                               const SpatialParameters& at);

struct SpatialFit {
    SpatialForm form;
    SpatialParameters at;
    double loglik = 0.0;     ///< restricted
    double aic = 0.0;        ///< of the covariance parameters and the fixed effects
    bool range_found = true; ///< false: the range ran to its bound; only sill / range is known
    int evaluations = 0;
};

struct SpatialFitOptions {
    int max_evaluations = 200;
    double tolerance = 1e-6;
    std::optional<SpatialParameters> start;
};

/// Restricted maximum likelihood; nullopt when nothing can be fitted (no variation, dependent columns).
[[nodiscard]] std::optional<SpatialFit> fit_spatial(const Cells& cells, const SpatialForm& form,
                                                    const SpatialFitOptions& options);

/// The best of exponential and spherical, isotropic and anisotropic, by AIC.
[[nodiscard]] std::optional<SpatialFit> choose_spatial(const Cells& cells, bool pass_effect);

} // namespace quartercut::contrast
