// SPDX-License-Identifier: MIT
// A width against the passes it was cut in: the simulator drives passes `cut_m` apart, so the truth is known, and the
// width logged is changed after the drive. 16 ft is a common width of pickup headers, 35 ft of swathers.
#include "harvest.hpp"
#include "quartercut/error.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quartercut::test {
namespace {

constexpr double cut_m = 10.668, pickup_m = 4.8768; // 35 ft and 16 ft, 0.3048 m each

Standardised harvest_with_width(double width_m) {
    Harvest harvest;
    harvest.width_m = 12 * cut_m;
    harvest.height_m = 300.0;
    harvest.cut_m = cut_m;
    StandardField field = simulate(harvest);
    field.records.width_m.assign(field.records.size(), width_m);
    return season_of(std::move(field));
}

std::string refusal(const Standardised& input, const Season& season = plain_season()) {
    CleanOptions options;
    options.steps = season.cleaning;
    try {
        (void)clean(season, input, options);
    } catch (const DataError& error) {
        return error.what();
    }
    return "";
}

TEST(WidthWitness, TheTrueWidthIsLetThrough) { EXPECT_EQ(refusal(harvest_with_width(cut_m)), ""); }

TEST(WidthWitness, AnOverlapOfATenthIsLetThrough) { EXPECT_EQ(refusal(harvest_with_width(1.1 * cut_m)), ""); }

TEST(WidthWitness, APickupsWidthIsRefusedWithWidthAndSpacing) {
    using testing::HasSubstr;
    EXPECT_THAT(refusal(harvest_with_width(pickup_m)),
                testing::AllOf(HasSubstr("machine red"), HasSubstr("method swathed"), HasSubstr("4.88 m"),
                               HasSubstr("10.67 m apart"), HasSubstr("less land"), HasSubstr("give cut_width"),
                               HasSubstr("width_check = false")));
}

TEST(WidthWitness, FeetTakenForMetresAreRefused) {
    EXPECT_THAT(refusal(harvest_with_width(35.0)),
                testing::AllOf(testing::HasSubstr("35.00 m"), testing::HasSubstr("10.67 m apart")));
}

TEST(WidthWitness, ACutWidthIsCalledByItsName) {
    Season season = plain_season();
    season.methods[0].cut_width_m = pickup_m;
    EXPECT_THAT(refusal(harvest_with_width(pickup_m), season), testing::HasSubstr("correct cut_width"));
}

TEST(WidthWitness, WithTheCheckOffTheSameWordsAreAWarning) {
    CleanOptions options;
    options.steps.width_check = false;
    const Cleaned cleaned = clean(plain_season(), harvest_with_width(pickup_m), options);
    EXPECT_THAT(cleaned.issues, testing::Contains(testing::Field(&Issue::code, "width-contradicted")));
}

/// Narrow spacing with land that closes is overlap, and missing records with the right spacing are missing records.
TEST(WidthWitness, OneWitnessAloneIsNotBelieved) {
    Standardised half = harvest_with_width(cut_m);
    half.fields[0].method_areas[0].shape_m = half.fields[0].boundary_m = rectangle(0.0, 0.0, 24 * cut_m, 300.0);
    EXPECT_EQ(refusal(half), "");
}

TEST(NoUsableRecord, StopsTheWorkWithTheReason) {
    Standardised input = harvest_with_width(cut_m);
    input.fields[0].records.mass_kg.assign(input.fields[0].records.size(), -1.0);
    EXPECT_THAT(refusal(input),
                testing::AllOf(testing::HasSubstr("no-flow"), testing::HasSubstr("column taken for flow")));
}

} // namespace
} // namespace quartercut::test
