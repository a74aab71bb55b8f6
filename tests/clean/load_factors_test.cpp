// SPDX-License-Identifier: MIT
// The statistics of loads against numbers computed with R 4.2.2 (lm for the fixed effects; nlme 3.1-162, REML, for the
// random ones) from the ten loads below, monitor -> ticket in kg.
#include "clean/load_factors.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace quartercut::cleaning {
namespace {

std::vector<Load> ten_loads() {
    const double a[5][2] = {{8120, 8010}, {7950, 7905}, {8305, 8150}, {8010, 7990}, {8240, 8090}};
    const double b[5][2] = {{7890, 8100}, {8075, 8190}, {8160, 8355}, {7930, 8060}, {8220, 8340}};
    std::vector<Load> loads;
    for (const auto& load : a)
        loads.push_back({0, std::log(load[1] / load[0]), 0.0, NAN});
    for (const auto& load : b)
        loads.push_back({1, std::log(load[1] / load[0]), 0.0, NAN});
    return loads;
}

TEST(LoadFactors, MatchTheFixedEffectsFit) {
    const LoadFit fit = fit_loads(ten_loads());
    ASSERT_EQ(fit.groups.size(), 2U);
    EXPECT_NEAR(fit.groups[0].log_factor, -0.011805456, 1e-9);
    EXPECT_NEAR(fit.groups[1].log_factor, 0.018955695, 1e-9);
    EXPECT_NEAR(fit.load_sd, 0.0065732767, 1e-9);
    EXPECT_EQ(fit.df, 8.0);
    EXPECT_NEAR(fit.groups[0].se, 0.0029396587, 1e-9);
    EXPECT_NEAR(std::exp(fit.groups[0].log_factor), 0.98826395, 1e-8);
    EXPECT_NEAR(std::exp(fit.groups[1].log_factor), 1.0191365, 1e-7);
    const double difference = fit.groups[1].log_factor - fit.groups[0].log_factor;
    const double se = std::hypot(fit.groups[0].se, fit.groups[1].se);
    EXPECT_NEAR(difference, 0.030761152, 1e-9);
    EXPECT_NEAR(se, 0.0041573052, 1e-9);
    EXPECT_NEAR(difference / se, 7.3993, 1e-4);
}

TEST(LoadFactors, MatchTheRandomEffectsFit) {
    const RandomFactors random = fit_random_groups(ten_loads());
    EXPECT_NEAR(random.between_sd, 0.0215518593, 1e-6);
    ASSERT_EQ(random.predicted.size(), 2U);
    EXPECT_NEAR(random.predicted[0] - random.mean, -0.01509965, 1e-6);
    EXPECT_NEAR(random.predicted[1] - random.mean, 0.01509965, 1e-6);
}

TEST(LoadFactors, AreStatedWhereOneLoadAGroupShowsNoScatter) {
    const LoadFit fit = fit_loads({{0, 0.01, 0.0, NAN}, {1, 0.05, 0.0, NAN}});
    EXPECT_EQ(fit.df, 0.0);
    EXPECT_DOUBLE_EQ(fit.load_sd, 0.03);
}

TEST(LoadFactors, FindTheFlowTermOnlyWhereFlowsSpanEnough) {
    // ln ratio = 0.1 ln q + small scatter over flows 2 to 8 kg/s: slope 0.1.
    std::vector<Load> loads;
    for (int k = 0; k < 8; ++k) {
        const double flow = 2.0 * std::pow(4.0, k / 7.0);
        loads.push_back({0, 0.1 * std::log(flow) + (k % 2 == 0 ? 0.001 : -0.001), flow, NAN});
    }
    const LoadFit fit = fit_loads(loads);
    ASSERT_TRUE(fit.flow.has_value());
    EXPECT_NEAR(fit.flow->value, 0.1, 0.003);
    EXPECT_GT(fit.flow->t, 10.0);
    EXPECT_LT(fit.load_sd, 0.002);
    for (Load& load : loads)
        load.flow_kg_s = 4.0 + 0.1 * load.flow_kg_s;
    EXPECT_FALSE(fit_loads(loads).flow.has_value());
}

TEST(LoadFactors, SeeDriftOverDays) {
    std::vector<Load> loads;
    for (int k = 0; k < 8; ++k)
        loads.push_back({0, 0.01 * k + (k % 2 == 0 ? 0.001 : -0.001), 0.0, 86400.0 * k});
    const LoadFit fit = fit_loads(loads);
    ASSERT_TRUE(fit.drift_per_day.has_value());
    EXPECT_NEAR(fit.drift_per_day->value, 0.01, 0.001);
    EXPECT_GT(fit.drift_per_day->t, 2.0);
}

TEST(LoadFactors, DrawEqualGroupsCompletelyTogether) {
    // Two groups with the same mean: nothing between them.
    const RandomFactors random =
        fit_random_groups({{0, 0.01, 0, NAN}, {0, 0.03, 0, NAN}, {1, 0.01, 0, NAN}, {1, 0.03, 0, NAN}});
    EXPECT_NEAR(random.between_sd, 0.0, 1e-4);
    EXPECT_NEAR(random.predicted[0], 0.02, 1e-9);
}

} // namespace
} // namespace quartercut::cleaning
