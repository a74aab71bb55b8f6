// SPDX-License-Identifier: MIT
// The land gives its grain once. Answers by hand: rectangles on even land.
#include "demo/crop_land.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace quartercut::demo {
namespace {

DemoOptions even_land() {
    DemoOptions options;
    options.structure = 0.0;
    options.pass_sd = 0.0;
    return options;
}

DemoFieldPlan plan_of(double across_m, double along_m) {
    DemoFieldPlan plan;
    plan.across_m = across_m;
    plan.along_m = along_m;
    plan.mean_yield_t_ha = 2.0;
    plan.areas = {{demo_swathed, 0, "", 1.0}};
    return plan;
}

TEST(CropLand, GivesTheAreaAndGrainUnderARectangle) {
    CropLand land(plan_of(50.0, 40.0), even_land(), 0);
    const Taken taken = land.take({3.25, 13.75, 5.5, 8.0}, 0.0);
    EXPECT_NEAR(taken.area_m2, 10.5 * 2.5, 1e-4);        // float cells
    EXPECT_NEAR(taken.basis_kg, 10.5 * 2.5 * 0.2, 1e-4); // 2 t/ha is 0.2 kg/m2
}

TEST(CropLand, GivesEachSquareMetreOnce) {
    CropLand land(plan_of(50.0, 40.0), even_land(), 0);
    (void)land.take({0.0, 10.0, 0.0, 40.0}, 0.0);
    const Taken again = land.take({8.0, 20.0, 0.0, 40.0}, 0.0);
    EXPECT_NEAR(again.area_m2, 10.0 * 40.0, 1e-3);
    EXPECT_NEAR(land.take({0.0, 20.0, 0.0, 40.0}, 0.0).area_m2, 0.0, 1e-3);
    EXPECT_NEAR(land.uncut_m2(), 30.0 * 40.0, 1e-3);
}

TEST(CropLand, GivesNothingOutsideTheField) {
    CropLand land(plan_of(50.0, 40.0), even_land(), 0);
    EXPECT_NEAR(land.take({-12.0, 5.0, -8.0, 10.0}, 0.0).area_m2, 5.0 * 10.0, 1e-4);
    EXPECT_NEAR(land.take({45.0, 70.0, 35.0, 60.0}, 0.0).area_m2, 5.0 * 5.0, 1e-4);
}

TEST(CropLand, AddsTheGainToTheYieldOfTheLandTaken) {
    CropLand land(plan_of(50.0, 40.0), even_land(), 0);
    EXPECT_NEAR(land.take({0.0, 10.0, 0.0, 10.0}, 0.5).basis_kg, 100.0 * 0.25, 1e-4);
}

TEST(CropLand, HasNoCropInASloughAndItsPolygonHasTheSameArea) {
    DemoFieldPlan plan = plan_of(200.0, 200.0);
    plan.sloughs = {{90.0, 110.0, 30.0}};
    const CropLand land(plan, even_land(), 0);
    EXPECT_FALSE(land.is_crop(90.0, 110.0));
    EXPECT_TRUE(land.is_crop(10.0, 10.0));
    const double hole_m2 = signed_area(hollow_outline(plan.sloughs[0]));
    EXPECT_GT(hole_m2, 0.8 * std::numbers::pi * 30.0 * 30.0);
    // Cells on the shore are sampled 5 x 5: about 200 of them, each to a few hundredths.
    EXPECT_NEAR(200.0 * 200.0 - land.uncut_m2(), hole_m2, 3.0);
}

TEST(CropLand, HasNoCropBeyondTheCutCorner) {
    DemoFieldPlan plan = plan_of(200.0, 200.0);
    plan.corner_cut_m = 60.0;
    const CropLand land(plan, even_land(), 0);
    EXPECT_NEAR(land.uncut_m2(), 200.0 * 200.0 - 0.5 * 60.0 * 60.0, 1e-2);
    EXPECT_FALSE(land.is_crop(20.0, 20.0));
    EXPECT_TRUE(land.is_crop(31.0, 31.0));
}

TEST(CropLand, IsThinnestInTheMiddleOfAWetSpot) {
    DemoFieldPlan plan = plan_of(200.0, 200.0);
    plan.wet_spots = {{100.0, 100.0, 40.0, 0.6}};
    const CropLand land(plan, even_land(), 0);
    EXPECT_NEAR(land.yield_t_ha(100.0, 100.0), 2.0 * 0.4, 0.02);
    EXPECT_NEAR(land.yield_t_ha(2.0, 2.0), 2.0, 0.02);
}

} // namespace
} // namespace quartercut::demo
