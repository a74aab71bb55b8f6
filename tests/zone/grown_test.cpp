// SPDX-License-Identifier: MIT
// Method areas grown from passes: where the true edge is known.
#include "field_by_hand.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

using by_hand::rectangle;
using by_hand::Row;

Season season_from_points() {
    Season season = by_hand::season();
    season.methods_from.source = MethodSource::points;
    return season;
}

/// Passes 10 m apart and 10 m wide up and down a field of 200 m x 200 m; `method_of(pass)` says who cut it, -1: nobody.
template <class MethodOf>
ZonedField grown(const MethodOf& method_of, double first_m = 5.0) {
    StandardField field = by_hand::field({rectangle(0, 0, 200, 200)});
    CleanedField cleaned;
    std::vector<Row> rows;
    for (int pass = 0; pass < 20; ++pass)
        for (double s = 2.0; s <= 200.0; s += 2.0) {
            Row row;
            row.x_m = first_m + 10.0 * pass;
            row.y_m = pass % 2 == 0 ? s : 200.0 - s;
            row.pass = pass;
            row.method = method_of(pass);
            if (row.method >= 0) rows.push_back(row);
        }
    by_hand::add_rows(rows, field, cleaned);
    return zone(season_from_points(), field, cleaned, ZoneOptions{});
}

TEST(GrownZones, MeetHalfwayBetweenPasses) {
    const ZonedField zoned = grown([](int pass) { return pass < 8 ? 0 : 1; });
    ASSERT_EQ(zoned.zones.size(), 2u);
    EXPECT_NEAR(zoned.zones[0].area_m2, 80.0 * 200.0, 0.01 * 80.0 * 200.0);
    EXPECT_NEAR(zoned.zones[1].area_m2, 120.0 * 200.0, 0.01 * 120.0 * 200.0);
    EXPECT_NEAR(by_hand::sum_of_areas(zoned.zones), 40000.0, 1e-6);
}

TEST(GrownZones, AreOnePerStrip) {
    const ZonedField zoned = grown([](int pass) { return pass / 5 % 2; });
    ASSERT_EQ(zoned.zones.size(), 4u);
    for (const Zone& zone : zoned.zones)
        EXPECT_NEAR(zone.area_m2, 50.0 * 200.0, 0.02 * 50.0 * 200.0) << zone.id;
}

TEST(GrownZones, LeaveWideUncutLandInNoMethod) {
    const ZonedField zoned = grown([](int pass) { return pass < 5 ? 0 : pass < 15 ? -1 : 1; });
    ASSERT_EQ(zoned.zones.size(), 3u);
    EXPECT_EQ(zoned.zones[2].method, -1);
    EXPECT_EQ(zoned.zones[2].reason, "no pass");
    EXPECT_NEAR(zoned.zones[2].area_m2, 100.0 * 200.0, 0.02 * 100.0 * 200.0);
}

TEST(GrownZones, CloseASkippedPassAndTheRimOfTheField) {
    // One pass is missing inside and 4 m along the west edge: both narrower than a swath.
    const ZonedField zoned = grown([](int pass) { return pass == 10 ? -1 : 0; }, 9.0);
    ASSERT_EQ(zoned.zones.size(), 1u);
    EXPECT_NEAR(zoned.zones[0].area_m2, 40000.0, 1e-6);
}

TEST(GrownZones, HoldTheirRecords) {
    const ZonedField zoned = grown([](int pass) { return pass / 5 % 2; });
    for (const std::int32_t zone : zoned.record_zone)
        EXPECT_GE(zone, 0);
    std::size_t records = 0;
    for (const Zone& zone : zoned.zones)
        records += zone.records;
    EXPECT_EQ(records, zoned.record_zone.size());
}

} // namespace
} // namespace quartercut
