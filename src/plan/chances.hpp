// SPDX-License-Identifier: MIT
// Chances and expected losses of a normal or Student quantity, and what a trial is worth before it is made.
#pragma once

#include "quartercut/compare.hpp"

#include <limits>

namespace quartercut::planning {

inline constexpr double no_df_limit = std::numeric_limits<double>::infinity(); ///< degrees of freedom of a normal

/// Probability that a quantity with mean `mean` and standard uncertainty `u` > 0 is above 0: Student with `df`.
[[nodiscard]] double chance_above_zero(double mean, double u, double df = no_df_limit);

/// Expected size of the part below zero, E max(0, -X). \pre df > 1
[[nodiscard]] double expected_shortfall(double mean, double u, double df = no_df_limit);

/// Expected loss of taking the better-looking side: E max(0, -X) for mean >= 0, E max(0, X) below. With perfect
/// information it would be avoided, so it is also the value of knowing (EVPI).
[[nodiscard]] double expected_regret(double mean, double u, double df = no_df_limit);

/// Value of a trial before it is made, normal prior N(mean, sd^2) about a choice that turns at `turn`, trial error
/// `trial_se`: s [phi(z) - z Phi(-z)] with s = sd^2 / sqrt(sd^2 + trial_se^2), z = |mean - turn| / s.
/// Per unit of what `mean` is in. (Raiffa and Schlaifer 1961, section 5.)
[[nodiscard]] double trial_value(double mean, double sd, double trial_se, double turn = 0.0);

/// Two-sided critical value of Student's t for 95 %.
[[nodiscard]] double t95(double df);

/// Exact power of a two-sided 5 % t test for a true effect of `effect_in_se` standard errors (non-central t).
[[nodiscard]] double t_power(double effect_in_se, double df);

/// Smallest effect, in standard errors, found with the given power.
[[nodiscard]] double detectable(double df, double power = 0.8);

} // namespace quartercut::planning
