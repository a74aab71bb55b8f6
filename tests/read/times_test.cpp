// SPDX-License-Identifier: MIT
// Times. Seconds since 1970 by `date -u -d ... +%s`.
#include "read/times.hpp"

#include <gtest/gtest.h>

namespace quartercut::reading {
namespace {

constexpr double september = 1757000000.0; // 2025-09-04T15:33:20Z

TEST(Moments, StateTheirZoneOrNot) {
    const auto zulu = parse_moment("2025-09-04T15:33:20Z");
    ASSERT_TRUE(zulu);
    EXPECT_EQ(zulu->seconds, september);
    EXPECT_TRUE(zulu->zoned);
    EXPECT_EQ(parse_moment("2025-09-04T17:33:20+0200")->seconds, september);
    EXPECT_EQ(parse_moment("2025-09-04 15:33:20 UTC")->seconds, september);
    EXPECT_FALSE(parse_moment("2025-09-04 15:33:20")->zoned);
    EXPECT_NEAR(parse_moment("2025-09-04T15:33:20.25Z")->seconds, september + 0.25, 1e-6);
}

TEST(Moments, ThatCannotBeAreNone) {
    for (const char* text : {"", "noon", "2025-13-01", "2025-02-30", "2025-09-04T25:00:00", "2025-09-04T12:61:00",
                             "2025-09-04T12:00:00X", "2025-09-04T12", "9/31/2025", "13:00 PM", "1757000000x"})
        EXPECT_FALSE(parse_moment(text, DateOrder::month_first).has_value()) << text;
}

TEST(Moments, InHalvesOfTheDay) {
    EXPECT_EQ(parse_clock("12:00:00 AM"), 0.0);
    EXPECT_EQ(parse_clock("12:30 PM"), 12.5 * 3600.0);
    EXPECT_EQ(parse_clock("11:59:59 pm"), 86399.0);
    EXPECT_FALSE(parse_clock("13:00 PM").has_value());
}

TEST(Clocks, MayBeCompact) {
    EXPECT_EQ(parse_clock("153320"), 15 * 3600.0 + 33 * 60.0 + 20.0);
    EXPECT_EQ(parse_clock("93320"), 9 * 3600.0 + 33 * 60.0 + 20.0) << "the leading nought got lost";
}

TEST(DateOrders, AreToldByNumbersAboveTwelve) {
    EXPECT_EQ(date_order({"9/4/2025", "9/24/2025"}), DateOrder::month_first);
    EXPECT_EQ(date_order({"4/9/2025", "24/9/2025"}), DateOrder::day_first);
    EXPECT_EQ(date_order({"4/9/2025", "5/9/2025"}), DateOrder::unclear);
    EXPECT_EQ(date_order({"2025-09-04"}), DateOrder::year_first);
}

TEST(Zones, AreOffsets) {
    EXPECT_EQ(zone_offset_s("-06:00"), -21600.0);
    EXPECT_EQ(zone_offset_s("+0530"), 19800.0);
    EXPECT_EQ(zone_offset_s("Z"), 0.0);
    EXPECT_FALSE(zone_offset_s("here").has_value());
}

// GPS time was 13 s ahead of UTC from 1999, 15 s from 2009, 18 s from 2017 (IERS Bulletin C).
TEST(GpsSeconds, AreAheadByTheLeapSeconds) {
    EXPECT_EQ(unix_from_gps_s(0.0), 315964800.0);
    EXPECT_EQ(unix_from_gps_s(1441035218.0), september);
    EXPECT_EQ(unix_from_gps_s(1320514683.0 - 315964800.0 + 15.0), 1320514683.0);
}

TEST(TimeCounts, AreToldByRangeAndYear) {
    EXPECT_EQ(time_count({september, september + 1}, 2025), TimeCount::unix_s);
    EXPECT_EQ(time_count({september - 315964800.0 + 18.0}, 2025), TimeCount::gps_s);
    EXPECT_EQ(time_count({september * 1000.0}, 2025), TimeCount::unix_ms);
    EXPECT_EQ(time_count({401618.0}, 2025), TimeCount::gps_week_s);
    EXPECT_EQ(time_count({-5.0, 1e20}, 2025), TimeCount::unknown);
    EXPECT_EQ(time_count({}, 2025), TimeCount::unknown);
}

} // namespace
} // namespace quartercut::reading
