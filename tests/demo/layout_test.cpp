// SPDX-License-Identifier: MIT
// Passes and method areas of the invented farm: whole passes, part-width passes, places on the Earth.
#include "demo/layout.hpp"

#include "quartercut/error.hpp"
#include "quartercut/land.hpp"
#include "quartercut/standardise.hpp"

#include <gtest/gtest.h>

#include <map>

namespace quartercut::demo {
namespace {

TEST(Layout, MakesStripsOfWholePasses) {
    const std::vector<DemoFieldPlan> farm = demo_farm({});
    for (const DemoFieldPlan& plan : farm) {
        if (plan.areas.front().passes == 0) continue;
        for (const PassPlan& pass : lay_out(plan, {}, 0).passes) {
            if (pass.area < 0) continue;
            // Neighbours overlap by 10 cm, 5 cm on either side: nothing is left over.
            EXPECT_NEAR(pass.real_width_m, cut_width_m[static_cast<std::size_t>(pass.method)], 0.051) << plan.name;
        }
    }
}

TEST(Layout, KeepsTheLastPartWidthPassInsideItsArea) {
    DemoFieldPlan plan;
    plan.across_m = 100.0; // nine full swather passes of 10.568 m and 4.9 m
    plan.areas = {{demo_swathed, 0, "", 1.0}};
    const Layout layout = lay_out(plan, {}, 0);
    ASSERT_EQ(layout.passes.size(), 10u);
    EXPECT_NEAR(layout.passes.back().side_hi, 100.05, 1e-9);
    EXPECT_NEAR(layout.passes.back().real_width_m, 100.0 - 9 * 10.568 + 0.05, 1e-9);
}

TEST(Layout, RefusesAreasWiderThanTheField) {
    DemoFieldPlan plan;
    plan.name = "Narrow";
    plan.across_m = 60.0;
    plan.areas = {{demo_swathed, 3, "1", 1.0}, {demo_standing, 3, "1", 1.0}};
    EXPECT_THROW((void)lay_out(plan, {}, 0), DataError);
}

// Source: PROJ's geodesic routines (Karney 2013, J. Geodesy 87, 43-55), through the program's own call. A geodesic
// between two points on a parallel bows 16 mm poleward over 790 m here: 1.4e-5 of the area on each such side, which
// cancels between opposite sides of equal length but not where a corner is cut off.
TEST(FieldPlace, KeepsAreasOfTheEllipsoid) {
    for (const DemoFieldPlan& plan : demo_farm({})) {
        const MultiPolygon shape = boundary_m(plan);
        const double planned_m2 = planar_area(shape);
        EXPECT_NEAR(geodesic_area_m2(to_degrees(shape, FieldPlace(plan))) / planned_m2, 1.0,
                    plan.corner_cut_m > 0.0 ? 1.4e-5 : 2e-7)
            << plan.name;
    }
}

TEST(FieldPlace, TurnsTheFieldWhenPassesRunEastWest) {
    DemoFieldPlan plan;
    plan.across_m = 400.0;
    plan.along_m = 800.0;
    plan.east_west = true;
    const FieldPlace place(plan);
    const Point start = place.to_degrees(200.0, 0.0), end = place.to_degrees(200.0, 800.0);
    EXPECT_GT(end.x, start.x);
    EXPECT_NEAR(end.y, start.y, 1e-9);
}

TEST(DemoFarm, HasSixQuartersAndEveryKindOfEvidence) {
    int quarters = 0, strips = 0, splits = 0;
    std::map<int, int> whole;
    for (const DemoFieldPlan& plan : demo_farm({})) {
        quarters += planar_area(boundary_m(plan)) > 55e4 ? 1 : 0;
        const bool in_pairs = !plan.areas.front().block.empty();
        strips += in_pairs && plan.areas.size() >= 12 ? 1 : 0;
        splits += !in_pairs && plan.areas.size() == 2 ? 1 : 0;
        if (plan.areas.size() == 1) ++whole[plan.areas.front().method];
    }
    EXPECT_GE(quarters, 6);
    EXPECT_GE(strips, 3);
    EXPECT_GE(splits, 2);
    EXPECT_GE(whole[demo_swathed], 3);
    EXPECT_GE(whole[demo_standing], 3);
}

TEST(DemoFarm, DrawsTheOrderWithinPairsAnewForEverySeed) {
    DemoOptions other;
    other.seed = 2;
    int differ = 0;
    const std::vector<DemoFieldPlan> one = demo_farm({}), two = demo_farm(other);
    for (std::size_t i = 0; i < one[0].areas.size(); ++i)
        differ += one[0].areas[i].method != two[0].areas[i].method ? 1 : 0;
    EXPECT_GT(differ, 0);
}

TEST(DemoFarm, HasOneStripOfEachMethodInEveryPair) {
    for (const DemoFieldPlan& plan : demo_farm({})) {
        std::map<std::string, int> sum;
        for (const DemoAreaPlan& area : plan.areas)
            if (!area.block.empty()) sum[area.block] += area.method == demo_standing ? 1 : -1;
        for (const auto& [block, balance] : sum)
            EXPECT_EQ(balance, 0) << plan.name << " pair " << block;
    }
}

TEST(DemoFarm, CarriesLabelsOfTheLandSurveysForm) {
    for (const DemoFieldPlan& plan : demo_farm({}))
        EXPECT_EQ(to_string(parse_legal_land(plan.legal)), plan.legal);
}

} // namespace
} // namespace quartercut::demo
