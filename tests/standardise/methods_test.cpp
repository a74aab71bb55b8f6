// SPDX-License-Identifier: MIT
// Record to method: by area, by whole field, by the records' own column.
#include "raw_by_hand.hpp"

namespace quartercut {
namespace {

using by_hand::area;
using by_hand::rectangle;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Methods, ComeFromTheAreaTheRecordLiesIn) {
    Raw raw = by_hand::raw({{10, 10}, {90, 10}, {10, 90}});
    raw.method_areas[0].shape_deg = {rectangle(0, 0, 50, 80)};
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_THAT(records.method, ElementsAre(0, 1, -1));
    EXPECT_THAT(records.area, ElementsAre(0, 1, -1));
}

TEST(Methods, OfOverlappingAreasAreThoseOfTheFirstRow) {
    Raw raw = by_hand::raw({{49.8, 10}});
    raw.method_areas[1].shape_deg = {rectangle(49.5, 0, 100, 100)};
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.method, ElementsAre(0));
}

TEST(Methods, GiveARecordOnASharedEdgeToExactlyOneArea) {
    const Records records = standardise(by_hand::season(), by_hand::raw({{50, 10}, {50, 30}})).fields[0].records;
    EXPECT_THAT(records.method, testing::Each(testing::AnyOf(0, 1)));
}

TEST(Methods, OfTheWholeFieldComeFromItsBoundary) {
    Raw raw = by_hand::raw({{10, 10}, {150, 10}});
    raw.method_areas.clear();
    raw.fields[0].attributes["cut"] = "straight";
    Season season = by_hand::season();
    season.methods_from.source = MethodSource::fields;
    season.methods_from.column = "cut";
    season.methods_from.values = {{"straight", "standing"}};
    const StandardField field = standardise(season, raw).fields[0];
    EXPECT_THAT(field.records.method, ElementsAre(1, 1));
    EXPECT_THAT(field.records.area, ElementsAre(0, 0));
    ASSERT_EQ(field.method_areas.size(), 1u);
    EXPECT_DOUBLE_EQ(planar_area(field.method_areas[0].shape_m), 10000.0);
}

TEST(Methods, OfAFieldWithABlankValueAreNoneAndThatIsSaid) {
    Raw raw = by_hand::raw({{10, 10}});
    raw.method_areas.clear();
    raw.fields[0].attributes["cut"] = "";
    Season season = by_hand::season();
    season.methods_from.source = MethodSource::fields;
    season.methods_from.column = "cut";
    const StandardField field = standardise(season, raw).fields[0];
    EXPECT_THAT(field.records.method, ElementsAre(-1));
    EXPECT_TRUE(by_hand::has_issue(field.issues, "field-without-method"));
}

Season season_from_points() {
    Season season = by_hand::season();
    season.methods_from.source = MethodSource::points;
    season.methods_from.column = "head";
    season.methods_from.values = {{"draper", "standing"}, {"pickup", "swathed"}};
    return season;
}

TEST(Methods, ComeFromAColumnOfTheRecords) {
    Raw raw = by_hand::raw({{10, 10}, {20, 10}, {30, 10}});
    by_hand::add_words(raw, Meaning::method, {"draper", "pickup", ""});
    const StandardField field = standardise(season_from_points(), raw).fields[0];
    EXPECT_THAT(field.records.method, ElementsAre(1, 0, -1));
    EXPECT_THAT(field.records.area, ElementsAre(-1, -1, -1));
    EXPECT_TRUE(by_hand::has_issue(field.issues, "records-without-method"));
}

TEST(Methods, RefuseAnUnmappedValueAndNameTheNearest) {
    Raw raw = by_hand::raw({{10, 10}});
    by_hand::add_words(raw, Meaning::method, {"drapper"});
    const std::string message = by_hand::error_of<DataError>(season_from_points(), raw);
    EXPECT_THAT(message, HasSubstr("\"drapper\""));
    EXPECT_THAT(message, HasSubstr("yield.csv, column \"head\""));
    EXPECT_THAT(message, HasSubstr("Did you mean \"draper\"?"));
}

TEST(Methods, RefuseAFileWithoutTheColumn) {
    EXPECT_THAT(by_hand::error_of<DataError>(season_from_points(), by_hand::raw({{10, 10}})),
                HasSubstr("yield.csv: the file has no column \"head\""));
}

} // namespace
} // namespace quartercut
