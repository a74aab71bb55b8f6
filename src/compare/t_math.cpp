// SPDX-License-Identifier: MIT
// Student, chi-squared and non-central t numbers, by Boost.Math.
#include "compare/t_math.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace quartercut::contrast {
namespace {

// Beyond a million degrees of freedom Student's t is the normal to more digits than anything here is known to.
constexpr double df_cap = 1e6;

boost::math::students_t student(double df) { return boost::math::students_t(std::clamp(df, 1e-3, df_cap)); }

} // namespace

double MeanTest::t() const { return estimate / se; }
double MeanTest::p() const { return t_two_sided_p(t(), df); }
Interval MeanTest::ci95() const {
    const double half = t_critical(df) * se;
    return {estimate - half, estimate + half};
}

double t_critical(double df, double level) { return boost::math::quantile(student(df), 0.5 + level / 2.0); }

double t_two_sided_p(double t, double df) {
    return std::min(1.0, 2.0 * boost::math::cdf(boost::math::complement(student(df), std::abs(t))));
}

double chi_squared_quantile(double probability, double df) {
    return boost::math::quantile(boost::math::chi_squared(df), probability);
}

double level_for(int looks) { return 1.0 - 0.05 / std::max(1, looks); }

double power_of_t(double effect_in_se, double df, double level) {
    const double used_df = std::clamp(df, 1e-3, df_cap);
    const double critical = t_critical(used_df, level);
    const double effect = std::abs(effect_in_se);
    if (effect == 0.0) return 1.0 - level;
    const boost::math::non_central_t shifted(used_df, effect);
    const double above = boost::math::cdf(boost::math::complement(shifted, critical));
    const double below = boost::math::cdf(shifted, -critical);
    return above + below;
}

double detectable_in_se(double df, double power, double level) {
    // The power rises with the effect, so halving an enclosing interval is safe; 60 halvings exhaust a double.
    double low = 0.0;
    double high = 2.0 * t_critical(df, level) + 10.0;
    while (power_of_t(high, df, level) < power && high < 1e6)
        high *= 2.0;
    for (int step = 0; step < 60; ++step) {
        const double middle = 0.5 * (low + high);
        (power_of_t(middle, df, level) < power ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

} // namespace quartercut::contrast
