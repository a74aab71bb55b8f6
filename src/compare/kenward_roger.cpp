// SPDX-License-Identifier: MIT
// Kenward-Roger adjustment with the expected information of the covariance parameters.
#include "compare/kenward_roger.hpp"

#include "quartercut/error.hpp"

#include "compare/side_by_side.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// tr(A B) for A given and B given, both n x n.
double trace_of_product(const MatrixXd& a, const MatrixXd& b) { return a.cwiseProduct(b.transpose()).sum(); }

MatrixXd expected_information(const MatrixXd& projection, const std::vector<CovariancePart>& parts) {
    std::vector<MatrixXd> moved(parts.size()); // V_i P, one per parameter
    side_by_side(parts.size(), [&](std::size_t i) { moved[i] = parts[i].times(projection); });
    const auto k = static_cast<Index>(parts.size());
    MatrixXd information(k, k);
    for (Index i = 0; i < k; ++i)
        for (Index j = i; j < k; ++j)
            information(i, j) = information(j, i) =
                0.5 * trace_of_product(moved[static_cast<std::size_t>(i)], moved[static_cast<std::size_t>(j)]);
    return information;
}

MatrixXd inverse_of(const MatrixXd& information) {
    // A parameter the data say nothing about has no curvature; the pseudo-inverse leaves it out.
    return information.completeOrthogonalDecomposition().pseudoInverse();
}

MatrixXd group_times(const std::vector<int>& group, const MatrixXd& right) {
    const int groups = group.empty() ? 0 : *std::max_element(group.begin(), group.end()) + 1;
    MatrixXd sums = MatrixXd::Zero(groups, right.cols());
    for (Index i = 0; i < right.rows(); ++i)
        sums.row(group[static_cast<std::size_t>(i)]) += right.row(i);
    MatrixXd out(right.rows(), right.cols());
    for (Index i = 0; i < right.rows(); ++i)
        out.row(i) = sums.row(group[static_cast<std::size_t>(i)]);
    return out;
}

} // namespace

MatrixXd CovariancePart::times(const MatrixXd& right) const {
    if (dense.size() > 0) return dense * right;
    if (diagonal.size() > 0) return diagonal.asDiagonal() * right;
    return group_times(group, right);
}

KenwardRoger::KenwardRoger(const MatrixXd& x, const VectorXd& y, const CovarianceMoves& moves)
    : parts_(moves.first), v_(moves.v) {
    const Eigen::LLT<MatrixXd> llt(moves.v);
    if (llt.info() != Eigen::Success) throw InternalError("A fitted covariance is not positive definite.");
    const MatrixXd inverse = llt.solve(MatrixXd::Identity(x.rows(), x.rows()));
    a_ = inverse * x;
    const Eigen::LLT<MatrixXd> cross(x.transpose() * a_);
    if (cross.info() != Eigen::Success) throw InternalError("A fitted design has dependent columns.");
    phi_ = cross.solve(MatrixXd::Identity(x.cols(), x.cols()));
    beta_ = phi_ * (a_.transpose() * y);
    const MatrixXd projection = inverse - a_ * phi_ * a_.transpose();
    w_ = inverse_of(expected_information(projection, parts_));
    adjust(inverse, moves);
}

void KenwardRoger::adjust(const MatrixXd& inverse, const CovarianceMoves& moves) {
    std::vector<MatrixXd> moved; // V_i V^-1 X
    std::vector<MatrixXd> inner; // V^-1 V_i V^-1 X
    for (const CovariancePart& part : parts_) {
        moved.push_back(part.times(a_));
        inner.push_back(inverse * moved.back());
        p_.push_back(-(a_.transpose() * moved.back()));
    }
    MatrixXd sum = MatrixXd::Zero(a_.cols(), a_.cols());
    for (std::size_t i = 0; i < parts_.size(); ++i)
        for (std::size_t j = 0; j < parts_.size(); ++j) {
            const MatrixXd q = moved[i].transpose() * inner[j];
            sum += w_(static_cast<Index>(i), static_cast<Index>(j)) * (q - p_[i] * phi_ * p_[j]);
        }
    for (const SecondDerivative& d : moves.second) {
        const double both = d.i == d.j ? 1.0 : 2.0;
        sum -= 0.25 * both * w_(static_cast<Index>(d.i), static_cast<Index>(d.j)) * (a_.transpose() * (d.dense * a_));
    }
    adjusted_ = phi_ + 2.0 * phi_ * sum * phi_;
    adjusted_ = (0.5 * (adjusted_ + adjusted_.transpose())).eval();
}

double KenwardRoger::df_of(double variance, const VectorXd& gradient) const {
    const double spread = gradient.dot(w_ * gradient);
    constexpr double most = 1e6;
    return spread > 0.0 ? std::min(most, 2.0 * variance * variance / spread) : most;
}

MeanTest KenwardRoger::satterthwaite(const VectorXd& c) const {
    const double variance = c.dot(phi_ * c);
    VectorXd gradient(static_cast<Index>(p_.size()));
    for (std::size_t i = 0; i < p_.size(); ++i)
        gradient(static_cast<Index>(i)) = -c.dot(phi_ * p_[i] * phi_ * c);
    return {c.dot(beta_), std::sqrt(variance), df_of(variance, gradient)};
}

MeanTest KenwardRoger::contrast(const VectorXd& c) const {
    MeanTest test = satterthwaite(c);
    // With a range among the parameters the adjustment can turn negative; the error is never made smaller by it.
    test.se = std::max(test.se, std::sqrt(std::max(0.0, c.dot(adjusted_ * c))));
    return test;
}

double KenwardRoger::satterthwaite_df_of(const VectorXd& a) const {
    const double variance = a.dot(v_ * a);
    VectorXd gradient(static_cast<Index>(parts_.size()));
    for (std::size_t i = 0; i < parts_.size(); ++i)
        gradient(static_cast<Index>(i)) = a.dot(parts_[i].times(a).col(0));
    return df_of(variance, gradient);
}

KenwardRoger::FTest KenwardRoger::f_test(const MatrixXd& l) const {
    const auto q = static_cast<double>(l.cols());
    const MatrixXd theta = l * (l.transpose() * phi_ * l).llt().solve(l.transpose());
    std::vector<MatrixXd> turned;
    for (const MatrixXd& p : p_)
        turned.push_back(theta * phi_ * p * phi_);
    double a1 = 0.0;
    double a2 = 0.0;
    for (std::size_t i = 0; i < turned.size(); ++i)
        for (std::size_t j = 0; j < turned.size(); ++j) {
            const double w = w_(static_cast<Index>(i), static_cast<Index>(j));
            a1 += w * turned[i].trace() * turned[j].trace();
            a2 += w * trace_of_product(turned[i], turned[j]);
        }
    const double b = (a1 + 6.0 * a2) / (2.0 * q);
    const double g = ((q + 1.0) * a1 - (q + 4.0) * a2) / ((q + 2.0) * a2);
    const double d = 3.0 * q + 2.0 * (1.0 - g);
    const double c1 = g / d;
    const double c2 = (q - g) / d;
    const double c3 = (q + 2.0 - g) / d;
    // With 2 degrees of freedom F has no mean: numerator and denominator below both go to 0, their ratio to 1 (as in
    // Halekoh & Hojsgaard 2014, J. Stat. Softw. 59(9), section 3.2 and the program it describes).
    const double no_mean = 1.0 - a2 / q;
    const double below = 1.0 - c2 * b;
    const bool both_gone = std::abs(no_mean) < 1e-9 && std::abs(below) < 1e-9;
    const double ratio = both_gone ? 1.0 : no_mean / below;
    const double rho = ratio * ratio / q * (1.0 + c1 * b) / (1.0 - c3 * b);
    const double m = 4.0 + (q + 2.0) / (q * rho - 1.0);
    const double lambda = std::abs(m - 2.0) < 1e-2 ? 1.0 : m * no_mean / (m - 2.0);
    const VectorXd estimate = l.transpose() * beta_;
    const double wald = estimate.dot((l.transpose() * adjusted_ * l).llt().solve(estimate));
    return {lambda * wald / q, q, m};
}

} // namespace quartercut::contrast
