// SPDX-License-Identifier: MIT
// Strata made from the field: grid, legal subdivisions, edge and interior. Answers by hand.
#include "field_by_hand.hpp"

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

} // namespace
} // namespace quartercut
