// SPDX-License-Identifier: MIT
// Student, chi-squared and non-central t numbers, by Boost.Math. Everything that needs a quantile comes here, so that
// degrees of freedom are bounded in one place and no infinity or NaN leaks into a result.
#pragma once

#include "quartercut/compare.hpp"

namespace quartercut::contrast {

/// Mean, its standard error and degrees of freedom: what every estimator here returns for one difference.
struct MeanTest {
    double estimate = 0.0;
    double se = 0.0; ///< >= 0; 0 where the units do not vary at all
    double df = 0.0; ///< > 0

    [[nodiscard]] double t() const; ///< estimate / se; \pre se > 0
    [[nodiscard]] double p() const; ///< two-sided, Student; \pre se > 0
    [[nodiscard]] Interval ci95() const;
};

/// Two-sided critical value of Student's t, e.g. 2.776 for df = 4, level = 0.95. df is capped at 1e6.
[[nodiscard]] double t_critical(double df, double level = 0.95);
[[nodiscard]] double t_two_sided_p(double t, double df);
[[nodiscard]] double chi_squared_quantile(double probability, double df);

/// Level of each of `looks` intervals that hold all at once with 95 %: 1 - 0.05 / looks (Bonferroni), whatever the looks
/// have in common. \pre looks >= 1
[[nodiscard]] double level_for(int looks);

/// Probability that a two-sided t test finds a true difference of `effect_in_se` standard errors: non-central t.
[[nodiscard]] double power_of_t(double effect_in_se, double df, double level = 0.95);

/// The true difference, in standard errors, that is found with the given power. Exact non-central t, not the sum of two
/// quantiles.
[[nodiscard]] double detectable_in_se(double df, double power = 0.8, double level = 0.95);

} // namespace quartercut::contrast
