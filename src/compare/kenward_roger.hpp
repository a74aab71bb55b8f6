// SPDX-License-Identifier: MIT
// Small-sample error of a contrast under an estimated covariance: the variance is widened and degrees of freedom are
// counted after Kenward & Roger (1997), Biometrics 53:983-997. For ranges, where V is not linear in its parameters, the
// second derivatives enter as in that paper.
#pragma once

#include "compare/gls.hpp"
#include "compare/t_math.hpp"

#include <vector>

namespace quartercut::contrast {

/// dV/dtheta of one covariance parameter, stored as thin as its shape allows.
struct CovariancePart {
    Eigen::MatrixXd dense;    ///< used when not empty
    Eigen::VectorXd diagonal; ///< else used when not empty
    std::vector<int> group;   ///< else 1 where two cells are of one group
    [[nodiscard]] Eigen::MatrixXd times(const Eigen::MatrixXd& right) const; ///< V_i * right
};

struct SecondDerivative {
    std::size_t i = 0, j = 0; ///< i <= j
    Eigen::MatrixXd dense;
};

/// V at the estimate and how it moves with each estimated parameter.
struct CovarianceMoves {
    Eigen::MatrixXd v;
    std::vector<CovariancePart> first;
    std::vector<SecondDerivative> second;
};

class KenwardRoger {
public:
    /// \throws InternalError when V or X cannot be factored: the caller has fitted them already
    KenwardRoger(const Eigen::MatrixXd& x, const Eigen::VectorXd& y, const CovarianceMoves& moves);

    /// Contrast c' beta with the adjusted standard error and Satterthwaite's degrees of freedom.
    [[nodiscard]] MeanTest contrast(const Eigen::VectorXd& c) const;
    /// The same without the adjustment of the standard error.
    [[nodiscard]] MeanTest satterthwaite(const Eigen::VectorXd& c) const;
    /// Variance and degrees of freedom of any linear function a' y whose variance is a' V a.
    [[nodiscard]] double satterthwaite_df_of(const Eigen::VectorXd& a) const;

    struct FTest {
        double f = 0.0, numerator_df = 0.0, denominator_df = 0.0;
    };
    /// F test of L' beta = 0, L one column per hypothesis.
    [[nodiscard]] FTest f_test(const Eigen::MatrixXd& l) const;

    [[nodiscard]] const Eigen::VectorXd& beta() const { return beta_; }
    [[nodiscard]] const Eigen::MatrixXd& adjusted() const { return adjusted_; }

private:
    void adjust(const Eigen::MatrixXd& inverse, const CovarianceMoves& moves);
    [[nodiscard]] double df_of(double variance, const Eigen::VectorXd& gradient) const;

    std::vector<CovariancePart> parts_;
    Eigen::MatrixXd v_;
    Eigen::VectorXd beta_;
    Eigen::MatrixXd phi_, adjusted_;
    Eigen::MatrixXd a_;              ///< V^-1 X
    Eigen::MatrixXd w_;              ///< inverse of the expected information
    std::vector<Eigen::MatrixXd> p_; ///< -X'V^-1 V_i V^-1 X
};

} // namespace quartercut::contrast
