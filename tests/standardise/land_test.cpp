// SPDX-License-Identifier: MIT
// Fields, method areas and strata from raw layers.
#include "raw_by_hand.hpp"

namespace quartercut {
namespace {

using by_hand::area;
using by_hand::rectangle;
using testing::HasSubstr;

TEST(Land, KeepsMappedMeaningsAndAllColumns) {
    Raw raw = by_hand::raw({{50, 50}});
    raw.fields[0].attributes = {{"lld", "NE-16-74-20-W4"}, {"owner", "none"}};
    Season season = by_hand::season();
    season.fields.columns = {{"legal", "lld"}};
    const auto attributes = standardise(season, raw).fields[0].attributes;
    EXPECT_EQ(attributes.at("legal"), "NE-16-74-20-W4");
    EXPECT_EQ(attributes.at("lld"), "NE-16-74-20-W4");
    EXPECT_EQ(attributes.at("owner"), "none");
}

TEST(Land, TakesRowsOfOneNameAsOneField) {
    Raw raw = by_hand::raw({{50, 50}, {250, 50}});
    raw.fields.push_back(area("home", rectangle(200, 0, 300, 100), 2));
    const Standardised result = standardise(by_hand::season(), raw);
    ASSERT_EQ(result.fields.size(), 1u);
    EXPECT_EQ(result.fields[0].records.size(), 2u);
    EXPECT_DOUBLE_EQ(result.fields[0].area_m2, 20000.0);
    EXPECT_TRUE(by_hand::has_issue(result.issues, "field-in-several-rows"));
}

TEST(Land, KeepsOnlyAreasNearTheField) {
    Raw raw = by_hand::raw({{50, 50}});
    raw.method_areas.push_back(area("swathed", rectangle(500, 500, 600, 600), 3));
    raw.strata = {area("loam", rectangle(-10, -10, 60, 110)), area("sand", rectangle(700, 0, 800, 100), 2)};
    const StandardField field = standardise(by_hand::season(), raw).fields[0];
    EXPECT_EQ(field.method_areas.size(), 2u);
    ASSERT_EQ(field.strata.size(), 1u);
    EXPECT_EQ(field.strata[0].name, "loam");
}

TEST(Land, ReadsTheBlockFromThePairsColumn) {
    Raw raw = by_hand::raw({{50, 50}});
    raw.method_areas[0].attributes["pair"] = "P1";
    Season season = by_hand::season();
    season.trial.pairs = "pair";
    const StandardField field = standardise(season, raw).fields[0];
    EXPECT_EQ(field.method_areas[0].block, "P1");
    EXPECT_EQ(field.method_areas[1].block, "");
}

TEST(Land, UsesTheGeodesicAreaOnTheEarth) {
    Raw raw = by_hand::raw({{-113.5, 52.3}});
    raw.local_metres = false;
    raw.fields = {area("home", rectangle(-113.505, 52.296, -113.495, 52.304))};
    raw.method_areas = {area("swathed", rectangle(-113.505, 52.296, -113.495, 52.304))};
    const StandardField field = standardise(by_hand::season(), raw).fields[0];
    EXPECT_DOUBLE_EQ(field.area_m2, geodesic_area_m2(raw.fields[0].shape_deg));
    EXPECT_NEAR(planar_area(field.boundary_m) / field.area_m2, 1.0, 1e-6);
}

TEST(Land, NotesAFieldWithoutRecords) {
    Raw raw = by_hand::raw({{50, 50}});
    raw.fields.push_back(area("empty", rectangle(1000, 0, 1100, 100), 2));
    EXPECT_TRUE(by_hand::has_issue(standardise(by_hand::season(), raw).issues, "field-without-records"));
}

TEST(Land, RefusesMethodAreasThatMeetNoField) {
    Raw raw = by_hand::raw({{50, 50}});
    raw.method_areas = {area("swathed", rectangle(5000, 0, 5050, 100)),
                        area("standing", rectangle(5050, 0, 5100, 100), 2)};
    const std::string message = by_hand::error_of<DataError>(by_hand::season(), raw);
    EXPECT_THAT(message, HasSubstr("No method area"));
    EXPECT_THAT(message, HasSubstr("Method areas: x 5000.0 to 5100.0 m"));
    EXPECT_THAT(message, HasSubstr("Fields: x 0.0 to 100.0 m"));
}

TEST(Land, RefusesABoundaryWithoutArea) {
    Raw raw = by_hand::raw({{50, 50}});
    raw.fields[0].shape_deg = {{{{0, 0}, {100, 0}, {50, 0}}, {}}};
    EXPECT_THAT(by_hand::error_of<DataError>(by_hand::season(), raw), HasSubstr("encloses no area"));
}

} // namespace
} // namespace quartercut
