// SPDX-License-Identifier: MIT
// Many fields -> one farm answer: random effects with the between-field variance tau2 by REML, and an interval by the
// modified Hartung-Knapp method, which stays honest with few fields of unequal precision (Roever, Knapp & Friede 2015,
// BMC Med. Res. Methodol. 15:99). Differences are pooled in t/ha, as measured; no log is taken.
#pragma once

#include "compare/t_math.hpp"

#include <span>

namespace quartercut::contrast {

enum class TauMethod { der_simonian_laird, paule_mandel, reml };

struct Pooled {
    double mean = 0.0;
    double tau2 = 0.0;   ///< between-field variance, >= 0
    double se = 0.0;     ///< 1 / sqrt(sum of weights)
    double se_hk = 0.0;  ///< Hartung-Knapp
    double se_mhk = 0.0; ///< modified: never below `se`
    double df = 0.0;     ///< k - 1
    double q0 = 0.0;     ///< Cochran's Q, common-effect weights
    double i2_pct = 0.0;
    double h2 = 1.0;
    std::vector<double> weight; ///< normalised, sums to 1
    [[nodiscard]] MeanTest mhk() const { return {mean, se_mhk, df}; }
};

/// \pre at least two effects, all variances > 0
[[nodiscard]] Pooled pool(std::span<const double> effect, std::span<const double> variance, TauMethod method);

/// Best linear unbiased prediction of one unit's own effect, with its standard error given tau2.
struct Shrunk {
    double effect = 0.0, se = 0.0;
};
[[nodiscard]] Shrunk shrink(const Pooled& pooled, double effect, double variance);

/// 95 % interval of tau2 by the Q profile (Viechtbauer 2007, Stat. Med. 26:37-52).
[[nodiscard]] Interval tau2_interval(std::span<const double> effect, std::span<const double> variance);

/// 95 % interval for the true difference in the next field: mean +- t_{k-1} sqrt(tau2 + se_mhk^2).
[[nodiscard]] Interval prediction_interval(const Pooled& pooled);

} // namespace quartercut::contrast
