// SPDX-License-Identifier: MIT
#include "plan/chances.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace quartercut::planning {
namespace {

// Beyond this Student and normal agree to ten digits and more.
constexpr double counts_as_normal = 1e8;

/// E max(0, Z - z) of the standard normal or Student variable Z.
double upper_excess(double z, double df) {
    if (df >= counts_as_normal) {
        const boost::math::normal normal;
        return boost::math::pdf(normal, z) - z * boost::math::cdf(boost::math::complement(normal, z));
    }
    const boost::math::students_t student(df);
    return boost::math::pdf(student, z) * (df + z * z) / (df - 1.0) -
           z * boost::math::cdf(boost::math::complement(student, z));
}

double capped(double df) { return std::clamp(df, 1.0, 1e6); }

} // namespace

double chance_above_zero(double mean, double u, double df) {
    if (df >= counts_as_normal) return boost::math::cdf(boost::math::normal(), mean / u);
    return boost::math::cdf(boost::math::students_t(df), mean / u);
}

double expected_shortfall(double mean, double u, double df) { return u * upper_excess(mean / u, df); }

double expected_regret(double mean, double u, double df) { return expected_shortfall(std::abs(mean), u, df); }

double trial_value(double mean, double sd, double trial_se, double turn) {
    if (!(sd > 0.0)) return 0.0;
    const double moved = sd * sd / std::hypot(sd, trial_se);
    return expected_shortfall(std::abs(mean - turn), moved);
}

double t95(double df) {
    return boost::math::quantile(boost::math::complement(boost::math::students_t(capped(df)), 0.025));
}

double t_power(double effect_in_se, double df) {
    const double critical = t95(df);
    const boost::math::non_central_t away(capped(df), std::abs(effect_in_se));
    return boost::math::cdf(boost::math::complement(away, critical)) + boost::math::cdf(away, -critical);
}

double detectable(double df, double power) {
    double low = 0.0, high = 1.0;
    while (t_power(high, df) < power)
        high *= 2.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (t_power(middle, df) < power ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

} // namespace quartercut::planning
