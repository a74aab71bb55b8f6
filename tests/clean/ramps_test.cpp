// SPDX-License-Identifier: MIT
// Filling and emptying, from the flow curve where there are passes enough, from the stated default where not.
#include "harvest.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

using namespace test;

TEST(Ramps, FollowTheCurveOfAnEvenFieldWhoseDelayCannotBeFound) {
    // Not shifted: after 12 s of nothing the flow rises as 1 - exp(-t/3), 95 % are reached 9 s later; the cap is 20 s.
    Harvest harvest;
    harvest.noise = 0.01;
    const CleanedField cleaned = clean(plain_season(), season_of(simulate(harvest)), CleanOptions{}).fields[0];
    ASSERT_EQ(cleaned.ramps.size(), 1U);
    EXPECT_TRUE(cleaned.ramps[0].from_data);
    EXPECT_NEAR(cleaned.ramps[0].start_s, 20.0, 1.0);
    EXPECT_NEAR(cleaned.ramps[0].end_s, 0.0, 1.0);
}

TEST(Ramps, AreShortAfterTheShift) {
    // Shifted by 15 s the flow at cut-in stands at 1 - exp(-1): 95 % are reached after 6 s. Before the end the grain is
    // whole until the mixing begins to miss what was never cut: 3 s.
    Harvest harvest;
    harvest.noise = 0.02;
    harvest.yield_t_ha = rough_surface(3);
    const CleanedField cleaned = clean(plain_season(), season_of(simulate(harvest)), CleanOptions{}).fields[0];
    ASSERT_TRUE(cleaned.lag[0].applied);
    // One field's own slopes at its two ends may add a few seconds, never take any.
    EXPECT_GE(cleaned.ramps[0].start_s, 4.5);
    EXPECT_LE(cleaned.ramps[0].start_s, 10.5);
    EXPECT_NEAR(cleaned.ramps[0].end_s, 3.0, 1.5);
    EXPECT_GT(count_of(cleaned, Removal::pass_start), 0U);
    EXPECT_GT(count_of(cleaned, Removal::pass_end), 0U);
}

TEST(Ramps, AreTheStatedOnesWithFewPasses) {
    StandardField field = plain_field(100.0, 400.0);
    for (int p = 0; p < 4; ++p)
        add_pass(field.records, 5.0 + 10.0 * p, p % 2 == 0 ? 0.0 : 300.0, 150, 300.0 * p, p % 2 == 0 ? 2.0 : -2.0);
    const CleanedField cleaned = clean(plain_season(), season_of(field), CleanOptions{}).fields[0];
    EXPECT_FALSE(cleaned.ramps[0].from_data);
    EXPECT_EQ(cleaned.ramps[0].start_s, 10.0);
    EXPECT_EQ(cleaned.ramps[0].end_s, 6.0);
    EXPECT_EQ(count_of(cleaned, Removal::pass_start), 40U);
    EXPECT_EQ(count_of(cleaned, Removal::pass_end), 24U);
    CleanOptions longer;
    longer.extra_ramp_s = 3.0;
    const CleanedField more = clean(plain_season(), season_of(field), longer).fields[0];
    EXPECT_EQ(count_of(more, Removal::pass_start), 52U);
    EXPECT_EQ(count_of(more, Removal::pass_end), 36U);
}

TEST(Ramps, SayThatGrainCameAfterLoggingHadStopped) {
    Harvest harvest;
    harvest.logs_turns = false;
    harvest.yield_t_ha = rough_surface(6);
    const CleanedField cleaned = clean(plain_season(), season_of(simulate(harvest)), CleanOptions{}).fields[0];
    ASSERT_TRUE(cleaned.lag[0].applied);
    // The last 15 s of each of 40 passes were never logged.
    EXPECT_NEAR(static_cast<double>(count_of(cleaned, Removal::pass_end)), 40.0 * 15.0, 80.0);
}

} // namespace
} // namespace quartercut
