// SPDX-License-Identifier: MIT
// Passes from time, heading, header state, loads and jumps, and from what is left when one of them is missing.
#include "harvest.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

using namespace test;

CleanedField cleaned_of(const StandardField& field) {
    return clean(plain_season(), season_of(field), CleanOptions{}).fields[0];
}

TEST(Passes, OneStraightRunIsOnePass) {
    StandardField field = plain_field(100.0, 400.0);
    add_pass(field.records, 5.0, 0.0, 100, 0.0);
    const CleanedField cleaned = cleaned_of(field);
    ASSERT_EQ(cleaned.passes.size(), 1U);
    EXPECT_NEAR(cleaned.passes[0].length_m, 200.0, 1e-9);
    EXPECT_NEAR(cleaned.passes[0].heading_deg, 0.0, 1e-9);
    EXPECT_EQ(cleaned.passes[0].start_s, 0.0);
}

TEST(Passes, AGapInTimeStartsANewOne) {
    StandardField field = plain_field(100.0, 800.0);
    add_pass(field.records, 5.0, 0.0, 100, 0.0);
    add_pass(field.records, 5.0, 220.0, 100, 130.0);
    EXPECT_EQ(cleaned_of(field).passes.size(), 2U);
}

TEST(Passes, ARaisedHeaderStartsANewOne) {
    StandardField field = plain_field(100.0, 800.0);
    add_pass(field.records, 5.0, 0.0, 200, 0.0);
    for (std::size_t i = 90; i < 95; ++i)
        field.records.header_up[i] = 1;
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(cleaned.passes.size(), 2U);
    EXPECT_EQ(cleaned.removal[92], Removal::header_up);
    EXPECT_EQ(cleaned.pass[92], -1);
}

TEST(Passes, TurningBackStartsANewOneWithoutAnyHeaderState) {
    // Up one line and straight down the next, no gap in time.
    StandardField field = plain_field(100.0, 400.0);
    add_pass(field.records, 5.0, 0.0, 100, 0.0);
    add_pass(field.records, 15.0, 200.0, 100, 100.0, -2.0);
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_NE(cleaned.pass[50], cleaned.pass[150]);
    EXPECT_NEAR(cleaned.passes[static_cast<std::size_t>(cleaned.pass[150])].heading_deg, 180.0, 5.0);
}

TEST(Passes, ANewLoadStartsANewPassButNoFilling) {
    StandardField field = plain_field(100.0, 900.0);
    add_pass(field.records, 5.0, 0.0, 400, 0.0);
    for (std::size_t i = 200; i < 400; ++i)
        field.records.load[i] = 1;
    Standardised input = season_of(field);
    input.loads = {"1", "2"};
    const CleanedField cleaned = clean(plain_season(), input, CleanOptions{}).fields[0];
    EXPECT_EQ(cleaned.passes.size(), 2U);
    EXPECT_EQ(cleaned.removal[201], Removal::kept);
    EXPECT_EQ(cleaned.removal[198], Removal::kept);
}

TEST(Passes, WithoutTimesGapsAreSeenInThePositions) {
    StandardField field = plain_field(100.0, 900.0);
    add_pass(field.records, 5.0, 0.0, 100, 0.0);
    add_pass(field.records, 5.0, 400.0, 100, 100.0);
    for (double& time : field.records.time_s)
        time = no_number;
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(cleaned.passes.size(), 2U);
    EXPECT_TRUE(std::isnan(cleaned.passes[0].start_s));
}

TEST(Passes, AStrayPositionIsDroppedAndTheRestKept) {
    StandardField field = plain_field(200.0, 400.0);
    add_pass(field.records, 5.0, 0.0, 150, 0.0);
    field.records.x_m[75] += 60.0;
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(cleaned.removal[75], Removal::position_jump);
    EXPECT_EQ(count_of(cleaned, Removal::position_jump), 1U);
    EXPECT_EQ(cleaned.passes.size(), 1U);
}

TEST(Passes, MachinesNeverShareOne) {
    StandardField field = plain_field(100.0, 400.0);
    add_pass(field.records, 5.0, 0.0, 100, 0.0);
    add_pass(field.records, 15.0, 0.0, 100, 0.0);
    for (std::size_t i = 100; i < 200; ++i)
        field.records.machine[i] = 1;
    Standardised input = season_of(field);
    input.machines = {"red", "blue"};
    const CleanedField cleaned = clean(plain_season(), input, CleanOptions{}).fields[0];
    ASSERT_EQ(cleaned.passes.size(), 2U);
    EXPECT_EQ(cleaned.passes[1].machine, 1);
}

} // namespace
} // namespace quartercut
