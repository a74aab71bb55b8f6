// SPDX-License-Identifier: MIT
// Generalised least squares with a known covariance, and the restricted likelihood it gives. Eigen stays in headers
// like this one, which only the model files of this room include.
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Dense>

#include <optional>

namespace quartercut::contrast {

struct Gls {
    Eigen::VectorXd beta;
    Eigen::MatrixXd phi;      ///< (X' V^-1 X)^-1
    Eigen::VectorXd residual; ///< y - X beta
    double quadratic = 0.0;   ///< residual' V^-1 residual
    double log_det_v = 0.0;
    double log_det_xvx = 0.0;
};

/// nullopt when V is not positive definite or X has dependent columns.
[[nodiscard]] std::optional<Gls> fit_gls(const Eigen::MatrixXd& v, const Eigen::MatrixXd& x, const Eigen::VectorXd& y);

/// Restricted log likelihood with V as given: -(1/2)[(n-p) ln 2 pi + ln|V| + ln|X'V^-1X| + r'V^-1r].
[[nodiscard]] double restricted_loglik(const Gls& fit);

/// The same, with V only a shape and its scale profiled out: sigma2 = r'V^-1r / (n - p).
[[nodiscard]] double profiled_restricted_loglik(const Gls& fit);
[[nodiscard]] double profiled_scale(const Gls& fit);

/// Rank of a design by column-pivoted QR.
[[nodiscard]] Eigen::Index rank_of(const Eigen::MatrixXd& x);

/// The row a with a'y = c'b for the weighted least-squares estimate b: land counts by its area, and the covariance is
/// left to the error alone. Its variance under V is a' V a.
[[nodiscard]] Eigen::VectorXd least_squares_row(const Eigen::MatrixXd& x, const Eigen::VectorXd& weight,
                                                const Eigen::VectorXd& c);

} // namespace quartercut::contrast
