// SPDX-License-Identifier: MIT
// Which field a record belongs to; answers by hand on squares of 100 m.
#include "raw_by_hand.hpp"

namespace quartercut {
namespace {

using by_hand::area;
using by_hand::rectangle;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Placing, GivesRecordsToTheFieldTheyLieIn) {
    Raw raw = by_hand::raw({{10, 10}, {310, 10}, {20, 20}});
    raw.fields.push_back(area("away", rectangle(300, 0, 400, 100), 2));
    const Standardised result = standardise(by_hand::season(), raw);
    ASSERT_EQ(result.fields.size(), 2u);
    EXPECT_THAT(result.fields[0].records.row, ElementsAre(1u, 3u));
    EXPECT_THAT(result.fields[1].records.row, ElementsAre(2u));
    EXPECT_EQ(result.records_read, 3u);
    EXPECT_EQ(result.records_outside, 0u);
}

TEST(Placing, MarksRecordsWithinAHundredMetresAsOffField) {
    const Standardised result = standardise(by_hand::season(), by_hand::raw({{50, 50}, {199, 50}, {201, 50}}));
    EXPECT_THAT(result.fields[0].records.off_field, ElementsAre(0, 1));
    EXPECT_EQ(result.records_outside, 1u);
    ASSERT_TRUE(by_hand::has_issue(result.issues, "records-outside"));
    EXPECT_THAT(result.issues.front().message, HasSubstr("1 of 3 records"));
    EXPECT_THAT(result.issues.front().message, HasSubstr("x 201.0 to 201.0 m"));
}

TEST(Placing, MeasuresTheHundredMetresFromTheBoundaryNotItsBox) {
    // 80 m east and 80 m north of the corner are 113 m away, though within 100 m of the box.
    const Standardised result = standardise(by_hand::season(), by_hand::raw({{50, 50}, {180, 180}, {170, 170}}));
    EXPECT_EQ(result.records_outside, 1u);
    EXPECT_THAT(result.fields[0].records.row, ElementsAre(1u, 3u));
}

TEST(Placing, GivesARecordBetweenFieldsToTheNearest) {
    Raw raw = by_hand::raw({{50, 50}, {130, 50}, {175, 50}});
    raw.fields.push_back(area("east", rectangle(200, 0, 300, 100), 2));
    const Standardised result = standardise(by_hand::season(), raw);
    EXPECT_THAT(result.fields[0].records.row, ElementsAre(1u, 2u));
    EXPECT_THAT(result.fields[1].records.row, ElementsAre(3u));
    EXPECT_THAT(result.fields[1].records.off_field, ElementsAre(1));
}

TEST(Placing, TakesAHoleAsOutside) {
    Raw raw = by_hand::raw({{50, 50}, {10, 10}});
    raw.fields[0].shape_deg[0].holes = {{{40, 40}, {40, 60}, {60, 60}, {60, 40}}};
    const Standardised result = standardise(by_hand::season(), raw);
    EXPECT_THAT(result.fields[0].records.off_field, ElementsAre(1, 0));
    EXPECT_DOUBLE_EQ(result.fields[0].area_m2, 9600.0);
}

TEST(Placing, GivesARecordOnASharedEdgeToExactlyOneField) {
    Raw raw = by_hand::raw({{100, 50}, {100, 70}, {50, 50}});
    raw.fields.push_back(area("east", rectangle(100, 0, 200, 100), 2));
    const Standardised result = standardise(by_hand::season(), raw);
    EXPECT_EQ(result.fields[0].records.size() + result.fields[1].records.size(), 3u);
    EXPECT_FALSE(by_hand::has_issue(result.issues, "fields-overlap"));
}

TEST(Placing, SaysWhenFieldsOverlap) {
    Raw raw = by_hand::raw({{95, 50}, {50, 50}});
    raw.fields.push_back(area("east", rectangle(90, 0, 190, 100), 2));
    const Standardised result = standardise(by_hand::season(), raw);
    EXPECT_EQ(result.fields[0].records.size(), 2u);
    EXPECT_TRUE(by_hand::has_issue(result.issues, "fields-overlap"));
}

TEST(Placing, RefusesRecordsThatMeetNoFieldAndGivesBothExtents) {
    const std::string message =
        by_hand::error_of<DataError>(by_hand::season(), by_hand::raw({{5000, 5000}, {5010, 5020}}));
    EXPECT_THAT(message, HasSubstr("x 5000.0 to 5010.0 m, y 5000.0 to 5020.0 m"));
    EXPECT_THAT(message, HasSubstr("x 0.0 to 100.0 m, y 0.0 to 100.0 m"));
    EXPECT_THAT(message, HasSubstr("crs"));
}

TEST(Placing, SeesThatLongitudeAndLatitudeWereExchanged) {
    Raw raw = by_hand::raw({{52.301, -113.499}});
    raw.local_metres = false;
    raw.fields = {area("home", rectangle(-113.505, 52.296, -113.495, 52.304))};
    raw.method_areas = {area("swathed", rectangle(-113.505, 52.296, -113.495, 52.304))};
    EXPECT_THAT(by_hand::error_of<DataError>(by_hand::season(), raw), HasSubstr("exchanged"));
}

TEST(Placing, WorksInDegreesThroughTheFieldsOwnFrame) {
    Raw raw = by_hand::raw({{-113.499, 52.301}, {-113.4943, 52.3}, {-113.4925, 52.3}});
    raw.local_metres = false;
    raw.fields = {area("home", rectangle(-113.505, 52.296, -113.495, 52.304))};
    raw.method_areas = {area("swathed", rectangle(-113.505, 52.296, -113.495, 52.304))};
    const Standardised result = standardise(by_hand::season(), raw);
    // A degree of longitude there is 68.2 km: 0.0007 degrees are 48 m, 0.0025 degrees are 170 m.
    EXPECT_THAT(result.fields[0].records.off_field, ElementsAre(0, 1));
    EXPECT_EQ(result.records_outside, 1u);
    const Frame frame(-113.5, 52.3);
    const Point expected = frame.to_metres({-113.499, 52.301});
    EXPECT_NEAR(result.fields[0].records.x_m[0], expected.x, 1e-9);
    EXPECT_NEAR(result.fields[0].records.y_m[0], expected.y, 1e-9);
}

TEST(Placing, RefusesAFileHalfACountryAwayAndKeepsOneNextDoor) {
    const auto season_of = [](double lon_deg, double lat_deg) {
        Raw raw = by_hand::raw({{-113.499, 52.301}, {-113.498, 52.301}});
        raw.local_metres = false;
        raw.fields = {area("home", rectangle(-113.505, 52.296, -113.495, 52.304))};
        raw.method_areas = {area("swathed", rectangle(-113.505, 52.296, -113.495, 52.304))};
        raw.records.push_back(by_hand::raw({{lon_deg, lat_deg}, {lon_deg, lat_deg}}).records[0]);
        return raw;
    };
    // Degrees taken for the metres of zone 14 come out where the zone's axis meets the equator.
    EXPECT_THAT(by_hand::error_of<DataError>(by_hand::season(), season_of(-103.49, 0.0005)),
                HasSubstr("far from every"));
    EXPECT_EQ(standardise(by_hand::season(), season_of(-113.9, 52.4)).records_outside, 2U);
}

TEST(Placing, CountsRecordsWithoutAPositionAsOutside) {
    const Standardised result = standardise(by_hand::season(), by_hand::raw({{50, 50}, {by_hand::nan, 50}}));
    EXPECT_EQ(result.records_outside, 1u);
}

TEST(Placing, RefusesFilesWithoutRecords) {
    EXPECT_THAT(by_hand::error_of<DataError>(by_hand::season(), by_hand::raw({})), HasSubstr("no record"));
}

TEST(Placing, KeepsTheRowsOfTheFileWhereRecordsWereLeftOut) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}, {14, 10}});
    raw.records[0].row = {2, 5, 6}; // rows 1, 3 and 4 had no place
    by_hand::add_numbers(raw, Meaning::flow, "kg/s", {1.0, 2.0, 3.0});
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_THAT(records.row, testing::ElementsAre(2u, 5u, 6u));
    EXPECT_THAT(records.mass_kg, testing::ElementsAre(1.0, 2.0, 3.0));
}

} // namespace
} // namespace quartercut
