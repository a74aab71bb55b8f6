// SPDX-License-Identifier: MIT
// Covariance of segment yields and its derivatives.
#include "compare/spatial_model.hpp"

#include "base/words/words.hpp"

#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include <cmath>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;

constexpr double at_bound = 1e-5; // a variance share below this is none

/// Distance with the across component stretched by 1 / ratio.
MatrixXd distances(const Cells& cells, double across_ratio) {
    const Index n = cells.size();
    MatrixXd h(n, n);
    for (Index j = 0; j < n; ++j)
        h.col(j) = ((cells.along_m.array() - cells.along_m(j)).square() +
                    ((cells.across_m.array() - cells.across_m(j)) / across_ratio).square())
                       .sqrt();
    return h;
}

MatrixXd smooth_part(const MatrixXd& h, Correlation correlation, double range) {
    if (correlation == Correlation::exponential) return (-h.array() / range).exp();
    const auto u = (h.array() / range).min(1.0);
    return 1.0 - 1.5 * u + 0.5 * u.cube();
}

/// d correlation / d range.
MatrixXd range_slope(const MatrixXd& h, Correlation correlation, double range) {
    if (correlation == Correlation::exponential) return (-h.array() / range).exp() * h.array() / (range * range);
    const auto u = (h.array() / range).min(1.0);
    return 1.5 * (u - u.cube()) / range;
}

/// d2 correlation / d range2.
MatrixXd range_curvature(const MatrixXd& h, Correlation correlation, double range) {
    const double r2 = range * range;
    if (correlation == Correlation::exponential) {
        const auto u = h.array() / range;
        return (-u).exp() * (u.square() - 2.0 * u) / r2;
    }
    const auto u = h.array() / range;
    const auto inside = (u < 1.0).cast<double>();
    return inside * (-3.0 * u + 6.0 * u.cube()) / r2;
}

/// d correlation / d ratio: the across distance grows as the ratio falls.
MatrixXd ratio_slope(const Cells& cells, const MatrixXd& h, const SpatialForm& form, const SpatialParameters& at) {
    const Index n = cells.size();
    MatrixXd dh(n, n);
    const double r3 = at.across_ratio * at.across_ratio * at.across_ratio;
    for (Index j = 0; j < n; ++j)
        dh.col(j) = -(cells.across_m.array() - cells.across_m(j)).square() / r3 / h.col(j).array().max(1e-9);
    if (form.correlation == Correlation::exponential)
        return (-h.array() / at.range_m).exp() * (-dh.array() / at.range_m);
    const auto u = (h.array() / at.range_m).min(1.0);
    return (-1.5 + 1.5 * u.square()) * dh.array() / at.range_m;
}

} // namespace

std::string SpatialForm::name() const {
    const auto& words = spoken().compare;
    const char* form = correlation == Correlation::exponential ? words.exponential : words.spherical;
    return anisotropic ? fill(words.longer_one_way, fmt::arg("form", form)) : form;
}

double correlation_at(Correlation correlation, double d, double range) {
    const double u = d / range;
    if (correlation == Correlation::exponential) return std::exp(-u);
    return u >= 1.0 ? 0.0 : 1.0 - 1.5 * u + 0.5 * u * u * u;
}

double matern(double nu, double d, double range) {
    const double u = d / range;
    if (u <= 0.0) return 1.0;
    return std::pow(2.0, 1.0 - nu) / boost::math::tgamma(nu) * std::pow(u, nu) * boost::math::cyl_bessel_k(nu, u);
}

MatrixXd covariance(const Cells& cells, const SpatialForm& form, const SpatialParameters& at) {
    MatrixXd v = at.sill * smooth_part(distances(cells, at.across_ratio), form.correlation, at.range_m);
    if (form.nugget) v.diagonal().array() += at.nugget / cells.weight.array();
    if (!form.pass_effect || at.pass <= 0.0) return v;
    for (Index j = 0; j < v.cols(); ++j)
        for (Index i = 0; i < v.rows(); ++i)
            if (cells.pass[static_cast<std::size_t>(i)] == cells.pass[static_cast<std::size_t>(j)]) v(i, j) += at.pass;
    return v;
}

CovarianceMoves covariance_moves(const Cells& cells, const SpatialForm& form, const SpatialParameters& at) {
    CovarianceMoves moves;
    moves.v = covariance(cells, form, at);
    const double total = at.sill + at.nugget + at.pass;
    const MatrixXd h = distances(cells, at.across_ratio);
    if (at.sill > at_bound * total) {
        const MatrixXd slope = range_slope(h, form.correlation, at.range_m);
        moves.first.push_back({smooth_part(h, form.correlation, at.range_m), {}, {}});
        moves.first.push_back({at.sill * slope, {}, {}});
        moves.second.push_back({0, 1, slope});
        moves.second.push_back({1, 1, at.sill * range_curvature(h, form.correlation, at.range_m)});
        if (form.anisotropic) moves.first.push_back({at.sill * ratio_slope(cells, h, form, at), {}, {}});
    }
    if (form.nugget && at.nugget > at_bound * total) moves.first.push_back({{}, cells.weight.cwiseInverse(), {}});
    if (form.pass_effect && at.pass > at_bound * total) moves.first.push_back({{}, {}, cells.pass});
    return moves;
}

} // namespace quartercut::contrast
