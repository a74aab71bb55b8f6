// SPDX-License-Identifier: MIT
// Generalised least squares by Cholesky.
#include "compare/gls.hpp"

#include <Eigen/QR>

#include <cmath>
#include <numbers>

namespace quartercut::contrast {
namespace {

const double log_two_pi = std::log(2.0 * std::numbers::pi);

template <class Factor>
double log_det(const Factor& llt) {
    return 2.0 * llt.matrixLLT().diagonal().array().log().sum();
}

} // namespace

std::optional<Gls> fit_gls(const Eigen::MatrixXd& v, const Eigen::MatrixXd& x, const Eigen::VectorXd& y) {
    const Eigen::LLT<Eigen::MatrixXd> llt(v);
    if (llt.info() != Eigen::Success) return std::nullopt;
    const Eigen::MatrixXd white_x = llt.matrixL().solve(x);
    const Eigen::VectorXd white_y = llt.matrixL().solve(y);
    const Eigen::LLT<Eigen::MatrixXd> cross(white_x.transpose() * white_x);
    if (cross.info() != Eigen::Success) return std::nullopt;
    Gls fit;
    fit.beta = cross.solve(white_x.transpose() * white_y);
    fit.phi = cross.solve(Eigen::MatrixXd::Identity(x.cols(), x.cols()));
    fit.residual = y - x * fit.beta;
    fit.quadratic = (white_y - white_x * fit.beta).squaredNorm();
    fit.log_det_v = log_det(llt);
    fit.log_det_xvx = log_det(cross);
    if (!std::isfinite(fit.quadratic) || !std::isfinite(fit.log_det_v) || !fit.beta.allFinite()) return std::nullopt;
    return fit;
}

double restricted_loglik(const Gls& fit) {
    const auto df = static_cast<double>(fit.residual.size() - fit.beta.size());
    return -0.5 * (df * log_two_pi + fit.log_det_v + fit.log_det_xvx + fit.quadratic);
}

double profiled_scale(const Gls& fit) {
    return fit.quadratic / static_cast<double>(fit.residual.size() - fit.beta.size());
}

double profiled_restricted_loglik(const Gls& fit) {
    const auto df = static_cast<double>(fit.residual.size() - fit.beta.size());
    return -0.5 * (df * (log_two_pi + 1.0 + std::log(profiled_scale(fit))) + fit.log_det_v + fit.log_det_xvx);
}

Eigen::Index rank_of(const Eigen::MatrixXd& x) {
    Eigen::MatrixXd scaled = x;
    for (Eigen::Index j = 0; j < x.cols(); ++j) {
        const double norm = scaled.col(j).norm();
        if (norm > 0.0) scaled.col(j) /= norm;
    }
    Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(scaled);
    qr.setThreshold(1e-9);
    return qr.rank();
}

Eigen::VectorXd least_squares_row(const Eigen::MatrixXd& x, const Eigen::VectorXd& weight, const Eigen::VectorXd& c) {
    const Eigen::MatrixXd weighted = weight.asDiagonal() * x;
    const Eigen::LLT<Eigen::MatrixXd> cross(x.transpose() * weighted);
    return weighted * cross.solve(c);
}

} // namespace quartercut::contrast
