// SPDX-License-Identifier: MIT
// Student, chi-squared and non-central t numbers, by Boost.Math.
#include "compare/t_math.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace quartercut::contrast {
namespace {

// Beyond a million degrees of freedom Student's t is the normal to more digits than anything here is known to.
constexpr double df_cap = 1e6;

// Long doubles would cost three times as much for digits that nobody sees.
using InDoubles = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

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
    const boost::math::non_central_t_distribution<double, InDoubles> shifted(used_df, effect);
    const double above = boost::math::cdf(boost::math::complement(shifted, critical));
    const double below = boost::math::cdf(shifted, -critical);
    return above + below;
}

double detectable_in_se(double df, double power, double level) {
    // The power rises with the effect, so an enclosing interval holds one answer.
    const auto lacking = [&](double effect) { return power_of_t(effect, df, level) - power; };
    if (lacking(0.0) >= 0.0) return 0.0;
    double high = 2.0 * t_critical(df, level) + 10.0;
    while (lacking(high) < 0.0 && high < 1e6)
        high *= 2.0;
    std::uintmax_t steps = 100;
    const auto [below, above] =
        boost::math::tools::toms748_solve(lacking, 0.0, high, boost::math::tools::eps_tolerance<double>(40), steps);
    return 0.5 * (below + above);
}

} // namespace quartercut::contrast
