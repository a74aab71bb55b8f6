// SPDX-License-Identifier: MIT
// Segments of passes: lengths by hand, and nothing lost on the way.
#include "field_by_hand.hpp"

#include "base/random.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

using by_hand::add_area;
using by_hand::rectangle;
using by_hand::Row;

StandardField long_field() {
    StandardField field = by_hand::field({rectangle(0, 0, 1000, 100)});
    add_area(field, 0, {rectangle(0, 0, 500, 100)});
    add_area(field, 1, {rectangle(500, 0, 1000, 100)});
    return field;
}

/// A pass along y = 50, a record every 2 m from x0 to x1, as its method areas say.
std::vector<Row> pass_rows(double x0, double x1, int pass = 0) {
    std::vector<Row> rows;
    for (double x = x0 + 2.0; x <= x1; x += 2.0) {
        Row row;
        row.x_m = x - 1.0;
        row.y_m = 50.0;
        row.pass = pass;
        row.method = row.area = row.x_m < 500.0 ? 0 : 1;
        row.time_s = x;
        rows.push_back(row);
    }
    return rows;
}

std::vector<Segment> segments_of(const std::vector<Row>& rows) {
    StandardField field = long_field();
    CleanedField cleaned;
    by_hand::add_rows(rows, field, cleaned);
    cleaned.passes.resize(3);
    return zone(by_hand::season(), field, cleaned, ZoneOptions{}).segments;
}

TEST(Segments, AreOfEqualLengthNearestToTheOneAskedFor) {
    const auto segments = segments_of(pass_rows(0, 100)); // 100 m by 30 m: three of 33.3 m
    ASSERT_EQ(segments.size(), 3u);
    for (const Segment& segment : segments) {
        EXPECT_NEAR(segment.length_m, 100.0 / 3.0, 2.0);
        EXPECT_DOUBLE_EQ(segment.yield_t_ha(), 2.5); // 5 kg on 20 m2
    }
    EXPECT_NEAR(segments[0].x_m, 17.0, 1.0);
    EXPECT_DOUBLE_EQ(segments[0].y_m, 50.0);
}

TEST(Segments, EndWhereTheZoneEnds) {
    const auto segments = segments_of(pass_rows(440, 560));
    ASSERT_EQ(segments.size(), 4u);
    EXPECT_EQ(segments[1].zone, 0);
    EXPECT_EQ(segments[2].zone, 1);
    EXPECT_NEAR(segments[1].length_m, 30.0, 1e-9);
}

TEST(Segments, TooShortJoinTheOneBefore) {
    // 60 m, then a hole of 20 m without kept records, then 10 m.
    std::vector<Row> rows = pass_rows(0, 90);
    for (Row& row : rows)
        if (row.x_m > 60.0 && row.x_m < 80.0) row.removal = Removal::no_flow;
    const auto segments = segments_of(rows);
    ASSERT_EQ(segments.size(), 2u);
    EXPECT_NEAR(segments[1].length_m, 40.0, 1e-9);
}

TEST(Segments, BridgeASingleRemovedRecord) {
    std::vector<Row> rows = pass_rows(0, 60);
    rows[7].removal = Removal::far_from_neighbours;
    EXPECT_EQ(segments_of(rows).size(), 2u);
}

TEST(Segments, ShorterThanAskedForAreKeptWhenAlone) {
    const auto segments = segments_of(pass_rows(0, 10));
    ASSERT_EQ(segments.size(), 1u);
    EXPECT_EQ(segments[0].records, 5u);
}

TEST(Segments, CarryWeightedMeansAndTheEdgeMark) {
    std::vector<Row> rows = pass_rows(0, 4);
    rows[0].mass_kg = 6;
    rows[0].moisture_pct = 8;
    rows[0].area_m2 = 30;
    rows[1].mass_kg = 2;
    rows[1].moisture_pct = 12;
    rows[1].area_m2 = 10;
    rows[1].edge = true;
    const auto segments = segments_of(rows);
    ASSERT_EQ(segments.size(), 1u);
    EXPECT_DOUBLE_EQ(segments[0].moisture_pct, 9.0);
    EXPECT_DOUBLE_EQ(segments[0].x_m, 1.5); // (30 * 1 + 10 * 3) / 40
    EXPECT_DOUBLE_EQ(segments[0].time_s, 3.0);
    EXPECT_TRUE(segments[0].edge);
}

TEST(Segments, OfDifferentPassesStayApart) {
    std::vector<Row> rows = pass_rows(0, 30, 0);
    const std::vector<Row> more = pass_rows(30, 60, 1);
    rows.insert(rows.end(), more.begin(), more.end());
    const auto segments = segments_of(rows);
    ASSERT_EQ(segments.size(), 2u);
    EXPECT_EQ(segments[0].pass, 0);
    EXPECT_EQ(segments[1].pass, 1);
}

TEST(Segments, LoseNoMassAndNoArea) {
    Random random(5);
    for (int round = 0; round < 200; ++round) {
        std::vector<Row> rows;
        double mass_kg = 0.0, area_m2 = 0.0;
        std::size_t kept = 0;
        for (int pass = 0; pass < 3; ++pass)
            for (Row row : pass_rows(random.uniform(0, 300), random.uniform(310, 990), pass)) {
                row.y_m = 30.0 + 10.0 * pass;
                row.mass_kg = random.uniform(0.0, 9.0);
                row.area_m2 = random.uniform(0.0, 24.0);
                row.distance_m = random.uniform(0.0, 4.0);
                if (random.uniform() < 0.1) row.removal = Removal::turn;
                if (row.removal == Removal::kept) {
                    mass_kg += row.mass_kg;
                    area_m2 += row.area_m2;
                    ++kept;
                }
                rows.push_back(row);
            }
        double mass_out_kg = 0.0, area_out_m2 = 0.0;
        std::size_t records_out = 0;
        for (const Segment& segment : segments_of(rows)) {
            mass_out_kg += segment.mass_basis_kg;
            area_out_m2 += segment.area_m2;
            records_out += segment.records;
        }
        ASSERT_NEAR(mass_out_kg, mass_kg, 1e-9);
        ASSERT_NEAR(area_out_m2, area_m2, 1e-9);
        ASSERT_EQ(records_out, kept);
    }
}

} // namespace
} // namespace quartercut
