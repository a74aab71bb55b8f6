// SPDX-License-Identifier: MIT
// Strata made from the field: grid, legal subdivisions, edge and interior. Answers by hand.
#include "field_by_hand.hpp"

#include "base/random.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

using by_hand::add_area;
using by_hand::find_zone;
using by_hand::rectangle;
using by_hand::zones_of;

StandardField whole_field(const MultiPolygon& boundary, const MultiPolygon& cut) {
    StandardField field = by_hand::field(boundary);
    add_area(field, 0, cut);
    return field;
}

TEST(GridStrata, CutAlongTheLongestSide) {
    // 250 m x 100 m, turned: cells of 100 m make two whole ones and a half.
    const MultiPolygon boundary = by_hand::turned({rectangle(0, 0, 250, 100)}, 0.4, {70, -30});
    const auto zones = zones_of(by_hand::with_strata(StrataKind::grid, 100.0), whole_field(boundary, boundary));
    ASSERT_EQ(zones.size(), 3u);
    EXPECT_NEAR(find_zone(zones, "home/swathed/1/row 1 cell 1")->area_m2, 10000.0, 1e-3);
    EXPECT_NEAR(find_zone(zones, "home/swathed/1/row 1 cell 3")->area_m2, 5000.0, 1e-3);
}

TEST(SubdivisionStrata, CountAsTheLandSurveyDoes) {
    // Legal subdivisions run to and fro from the south-east corner of the section (Dominion Land Survey): of a
    // north-east quarter 9 and 10 in the south, 9 in the east; 16 and 15 in the north, 16 in the east.
    const MultiPolygon boundary = {rectangle(0, 0, 800, 800)};
    StandardField field = whole_field(boundary, boundary);
    field.attributes["legal"] = "NE-16-74-20-W4";
    const auto zones = zones_of(by_hand::with_strata(StrataKind::legal_subdivision), field);
    ASSERT_EQ(zones.size(), 4u);
    const auto south_west_corner = [&](const char* id) {
        const Zone* zone = find_zone(zones, id);
        return zone == nullptr ? Point{-1, -1} : zone->shape_m[0].shell[0];
    };
    EXPECT_EQ(south_west_corner("home/swathed/1/LSD 9"), (Point{400, 0}));
    EXPECT_EQ(south_west_corner("home/swathed/1/LSD 10"), (Point{0, 0}));
    EXPECT_EQ(south_west_corner("home/swathed/1/LSD 15"), (Point{0, 400}));
    EXPECT_EQ(south_west_corner("home/swathed/1/LSD 16"), (Point{400, 400}));
}

TEST(SubdivisionStrata, WithoutALegalDescriptionAreTheQuartersOfTheField) {
    const MultiPolygon boundary = {rectangle(0, 0, 800, 800)};
    const auto zones = zones_of(by_hand::with_strata(StrataKind::legal_subdivision), whole_field(boundary, boundary));
    ASSERT_EQ(zones.size(), 4u);
    EXPECT_DOUBLE_EQ(find_zone(zones, "home/swathed/1/NE")->area_m2, 160000.0);
}

TEST(EdgeStrata, AreOneMachineWidthWide) {
    const MultiPolygon boundary = {rectangle(0, 0, 200, 200)};
    StandardField field = whole_field(boundary, boundary);
    CleanedField cleaned;
    by_hand::add_rows({{50, 50}, {60, 60}}, field, cleaned); // 10 m wide
    const auto zones = zone(by_hand::with_strata(StrataKind::edge_and_interior), field, cleaned, ZoneOptions{}).zones;
    ASSERT_EQ(zones.size(), 2u);
    EXPECT_NEAR(find_zone(zones, "home/swathed/1/interior")->area_m2, 180.0 * 180.0, 1e-6);
    EXPECT_NEAR(find_zone(zones, "home/swathed/1/edge")->area_m2, 200.0 * 200.0 - 180.0 * 180.0, 1e-6);
}

TEST(EdgeStrata, ReachAsManyWidthsInAsAskedFor) {
    const MultiPolygon boundary = {rectangle(0, 0, 200, 200)};
    StandardField field = whole_field(boundary, boundary);
    CleanedField cleaned;
    by_hand::add_rows({{50, 50}, {60, 60}}, field, cleaned); // 10 m wide
    Season season = by_hand::with_strata(StrataKind::edge_and_interior);
    season.strata->widths = 3;
    const auto zones = zone(season, field, cleaned, ZoneOptions{}).zones;
    EXPECT_NEAR(find_zone(zones, "home/swathed/1/interior")->area_m2, 140.0 * 140.0, 1e-6);
}

TEST(EdgeStrata, WithoutRecordsAreAsWideAsTheWidestCut) {
    const MultiPolygon boundary = {rectangle(0, 0, 200, 200)};
    const auto zones =
        zones_of(by_hand::with_strata(StrataKind::edge_and_interior), whole_field(boundary, boundary)); // 12 m standing
    EXPECT_NEAR(find_zone(zones, "home/swathed/1/interior")->area_m2, 176.0 * 176.0, 1e-6);
}

TEST(EdgeStrata, WithoutAnyWidthAreLeftOutAndTold) {
    const MultiPolygon boundary = {rectangle(0, 0, 200, 200)};
    Season season = by_hand::with_strata(StrataKind::edge_and_interior);
    for (Method& method : season.methods)
        method.cut_width_m.reset();
    const ZonedField zoned = zone(season, whole_field(boundary, boundary), CleanedField{}, ZoneOptions{});
    ASSERT_EQ(zoned.zones.size(), 1u);
    EXPECT_TRUE(by_hand::has_issue(zoned.issues, "edge-width-unknown"));
}

TEST(HexagonStrata, AreRegularAndCoverTheField) {
    const MultiPolygon boundary = by_hand::turned({rectangle(0, 0, 800, 500)}, 0.3, {-40, 90});
    const auto zones = zones_of(by_hand::with_strata(StrataKind::hexagons, 100.0), whole_field(boundary, boundary));
    EXPECT_NEAR(by_hand::sum_of_areas(zones), 400000.0, 1e-6);
    const double whole_m2 = 0.5 * std::sqrt(3.0) * 100.0 * 100.0; // of a hexagon 100 m from flat to flat
    std::size_t whole = 0;
    for (const Zone& zone : zones) {
        EXPECT_TRUE(zone.stratum.has_value());
        EXPECT_LE(zone.area_m2, whole_m2 + 1e-3);
        whole += std::abs(zone.area_m2 - whole_m2) < 1e-3 ? 1U : 0U;
    }
    EXPECT_GE(whole, 30u);
}

/// Passes 10 m apart: fifteen east-west ones in the south, then ten north-south ones; the border is at y = 150.
TEST(DirectionStrata, AreWhereThePassesRun) {
    const MultiPolygon boundary = {rectangle(0, 0, 100, 300)};
    StandardField field = whole_field(boundary, boundary);
    CleanedField cleaned;
    std::vector<by_hand::Row> rows;
    const auto add = [&](int pass, double x_m, double y_m) {
        by_hand::Row row;
        row.x_m = x_m;
        row.y_m = y_m;
        row.pass = pass;
        rows.push_back(row);
    };
    for (int pass = 0; pass < 15; ++pass)
        for (double s = 2.0; s <= 100.0; s += 2.0)
            add(pass, pass % 2 == 0 ? s : 100.0 - s, 5.0 + 10.0 * pass);
    for (int pass = 15; pass < 25; ++pass)
        for (double s = 152.0; s <= 300.0; s += 2.0)
            add(pass, 5.0 + 10.0 * (pass - 15), pass % 2 == 0 ? s : 450.0 - s);
    by_hand::add_rows(rows, field, cleaned);
    const auto zones = zone(by_hand::with_strata(StrataKind::pass_direction), field, cleaned, ZoneOptions{}).zones;
    ASSERT_EQ(zones.size(), 2u);
    EXPECT_NEAR(find_zone(zones, "home/swathed/1/passes E-W")->area_m2, 15000.0, 300.0);
    EXPECT_NEAR(find_zone(zones, "home/swathed/1/passes N-S")->area_m2, 15000.0, 300.0);
}

/// Two layers that both say: poor in the west, good in the east, and a good spot too small to farm by itself.
TEST(FuzzyStrata, FindTheBorderThatTheLayersShow) {
    const MultiPolygon boundary = {rectangle(0, 0, 400, 400)};
    StandardField field = whole_field(boundary, boundary);
    Random random(8);
    for (const double good : {3.0, 40.0}) {
        LandNumbers layer;
        layer.name = "layer";
        for (double x = 5.0; x < 400.0; x += 10.0)
            for (double y = 5.0; y < 400.0; y += 10.0) {
                const bool spot = std::hypot(x - 100.0, y - 200.0) < 25.0;
                layer.x_m.push_back(x);
                layer.y_m.push_back(y);
                layer.values.push_back(good * ((x > 240.0 || spot ? 1.0 : 0.5) + 0.12 * random.normal()));
            }
        field.numbers.push_back(layer);
    }
    const ZonedField zoned =
        zone(by_hand::with_strata(StrataKind::fuzzy_classes), field, CleanedField{}, ZoneOptions{});
    ASSERT_EQ(zoned.zones.size(), 2u) << zoned.issues.front().message;
    EXPECT_NEAR(find_zone(zoned.zones, "home/swathed/1/class 1 of 2")->area_m2, 240.0 * 400.0, 10.0 * 400.0);
    EXPECT_NEAR(find_zone(zoned.zones, "home/swathed/1/class 2 of 2")->area_m2, 160.0 * 400.0, 10.0 * 400.0);
    ASSERT_TRUE(by_hand::has_issue(zoned.issues, "fuzzy-classes"));
    EXPECT_NE(zoned.issues.front().message.find("classes are found per field"), std::string::npos);
}

TEST(FuzzyStrata, LeaveAFieldInOnePieceThatTheLayersDoNotCover) {
    const MultiPolygon boundary = {rectangle(0, 0, 400, 400)};
    StandardField field = whole_field(boundary, boundary);
    field.numbers.push_back({"far away", 0, {5000.0}, {5000.0}, {1.0}});
    const ZonedField zoned =
        zone(by_hand::with_strata(StrataKind::fuzzy_classes), field, CleanedField{}, ZoneOptions{});
    EXPECT_EQ(zoned.zones.size(), 1u);
    EXPECT_TRUE(by_hand::has_issue(zoned.issues, "no-fuzzy-classes"));
}

TEST(StrataAcross, SplitEachOther) {
    const MultiPolygon boundary = {rectangle(0, 0, 200, 100)};
    StandardField field = whole_field(boundary, boundary);
    by_hand::add_stratum(field, "loam", {rectangle(0, 0, 150, 100)}); // the rest has no soil
    Season season = by_hand::with_strata(StrataKind::polygons);
    StrataInput grid;
    grid.kind = StrataKind::grid;
    season.strata_across.push_back(grid);
    const auto zones = zones_of(season, field);
    ASSERT_EQ(zones.size(), 3u);
    EXPECT_DOUBLE_EQ(find_zone(zones, "home/swathed/1/loam, row 1 cell 1")->area_m2, 10000.0);
    EXPECT_DOUBLE_EQ(find_zone(zones, "home/swathed/1/loam, row 1 cell 2")->area_m2, 5000.0);
    EXPECT_DOUBLE_EQ(find_zone(zones, "home/swathed/1/none, row 1 cell 2")->area_m2, 5000.0);
}

} // namespace
} // namespace quartercut
