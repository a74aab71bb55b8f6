// SPDX-License-Identifier: MIT
// Chances, regret and the value of a trial: against closed forms worked in R 4.2.2, textbook tables and Monte Carlo.
#include "plan/chances.hpp"

#include "base/random.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace quartercut::planning {
namespace {

// R 4.2.2: s <- 40^2 / sqrt(40^2 + 25^2); z <- 10 / s; s * (dnorm(z) - z * pnorm(-z)); likewise with s = 40.
TEST(TrialValue, MatchesTheClosedForm) {
    EXPECT_NEAR(trial_value(10.0, 40.0, 25.0), 9.115937242, 1e-8);
    EXPECT_NEAR(trial_value(0.0, 40.0, 25.0), 13.53209509, 1e-7);
    EXPECT_NEAR(expected_regret(10.0, 40.0), 11.45378793, 1e-7);
    EXPECT_NEAR(expected_regret(0.0, 40.0), 15.95769122, 1e-7);
    EXPECT_NEAR(chance_above_zero(10.0, 40.0), 0.5987063, 1e-7);
}

TEST(TrialValue, TurnsWhereItIsToldAndIsNothingWithoutDoubt) {
    EXPECT_NEAR(trial_value(25.0, 40.0, 25.0, 15.0), 9.115937242, 1e-8);
    EXPECT_EQ(trial_value(10.0, 0.0, 25.0), 0.0);
    EXPECT_LT(trial_value(10.0, 40.0, 1e9), 1e-12); // a trial that shows nothing is worth nothing
}

// The decision itself, played many times: draw the truth, draw the trial, take the better side, count the gain over
// deciding without it.
TEST(TrialValue, AgreesWithMonteCarlo) {
    Random random(20260101);
    const double mean = 10.0, sd = 40.0, se = 25.0;
    const int draws = 400000;
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < draws; ++i) {
        const double truth = mean + sd * random.normal(), seen = truth + se * random.normal();
        const double weight = sd * sd / (sd * sd + se * se);
        const double posterior = mean + weight * (seen - mean);
        const double gain = (posterior > 0.0 ? truth : 0.0) - (mean > 0.0 ? truth : 0.0);
        sum += gain;
        squares += gain * gain;
    }
    const double average = sum / draws, error = std::sqrt((squares / draws - average * average) / draws);
    EXPECT_NEAR(average, trial_value(mean, sd, se), 4.0 * error);
    EXPECT_LT(error, 0.1);
}

// Student's shortfall by numerical integration (trapezium on a fine grid), independent of the formula.
TEST(Shortfall, OfStudentMatchesItsIntegral) {
    const double mean = 3.0, u = 2.0, df = 4.0;
    const double scale = std::tgamma((df + 1.0) / 2.0) / (std::sqrt(df * M_PI) * std::tgamma(df / 2.0));
    double integral = 0.0;
    const double step = 1e-3;
    for (double t = -mean / u; t > -3000.0; t -= step) {
        const double density = scale * std::pow(1.0 + t * t / df, -(df + 1.0) / 2.0);
        integral += step * density * -(mean + u * t);
    }
    EXPECT_NEAR(expected_shortfall(mean, u, df), integral, 1e-3);
    EXPECT_NEAR(expected_shortfall(mean, u, 1e7), expected_shortfall(mean, u), 1e-6);
}

// Exact minimal detectable difference in standard deviations of a pair, 80 % power at 5 % (R 4.2.2, power.t.test with
// strict = TRUE); standard errors are smaller by sqrt(K).
TEST(Power, MatchesTheNonCentralT) {
    const double expected[][2] = {{3, 3.264},  {4, 2.128},   {5, 1.682},  {6, 1.4346},
                                  {8, 1.1560}, {10, 0.9960}, {12, 0.8887}};
    for (const auto& [pairs, in_sd] : expected)
        EXPECT_NEAR(detectable(pairs - 1.0) / std::sqrt(pairs), in_sd, 6e-4) << pairs << " pairs";
    const double power[][2] = {{3, .179}, {4, .289}, {5, .401}, {6, .507}, {8, .681}, {10, .803}, {12, .883}};
    for (const auto& [pairs, p] : power)
        EXPECT_NEAR(t_power(std::sqrt(pairs), pairs - 1.0), p, 6e-4) << pairs << " pairs";
    EXPECT_NEAR(t95(3.0), 3.182, 5e-4); // any t table
}

} // namespace
} // namespace quartercut::planning
