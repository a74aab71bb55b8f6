// SPDX-License-Identifier: MIT
// Records to zones and the zones' numbers, by hand.
#include "field_by_hand.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

using by_hand::add_area;
using by_hand::rectangle;
using by_hand::Row;

struct Made {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    CleanedField cleaned;
    Made() {
        add_area(field, 0, {rectangle(0, 0, 50, 100)});
        add_area(field, 1, {rectangle(50, 0, 100, 100)});
    }
    [[nodiscard]] ZonedField zoned() const { return zone(by_hand::season(), field, cleaned, ZoneOptions{}); }
};

Row row(double x_m, int method, double mass_kg, double area_m2, double moisture_pct, double time_s) {
    Row made;
    made.x_m = x_m;
    made.y_m = 50.0;
    made.method = made.area = method;
    made.mass_kg = mass_kg;
    made.area_m2 = area_m2;
    made.moisture_pct = moisture_pct;
    made.time_s = time_s;
    return made;
}

TEST(ZoneNumbers, AreSumsOverTheRecordsUsed) {
    Made made;
    Row removed = row(12, 0, 100, 100, 30, 1);
    removed.removal = Removal::speed;
    by_hand::add_rows({row(10, 0, 6, 20, 8, 30), row(20, 0, 2, 20, 12, 10), removed}, made.field, made.cleaned);
    const Zone zone = made.zoned().zones[0];
    EXPECT_EQ(zone.records, 2u);
    EXPECT_DOUBLE_EQ(zone.harvested_m2, 40.0);
    EXPECT_DOUBLE_EQ(zone.mass_basis_kg, 8.0);
    EXPECT_DOUBLE_EQ(zone.yield_t_ha(), 2.0); // 8 kg on 40 m2
    EXPECT_DOUBLE_EQ(zone.moisture_pct, 9.0); // (6 * 8 + 2 * 12) / 8
    EXPECT_DOUBLE_EQ(zone.first_s, 10.0);
    EXPECT_DOUBLE_EQ(zone.last_s, 30.0);
}

TEST(ZonesTakenOver, HoldTheNumbersOfTheNewCleaning) {
    Made made;
    by_hand::add_rows({row(10, 0, 6, 20, 8, 30), row(20, 0, 2, 20, 12, 10), row(70, 1, 4, 20, 9, 50)}, made.field,
                      made.cleaned);
    const ZonedField before = made.zoned();
    made.cleaned.removal[0] = Removal::speed;
    made.cleaned.mass_basis_kg[2] = 5.0;
    ZoneOptions over;
    over.earlier = &before;
    const ZonedField anew = made.zoned(), taken = zone(by_hand::season(), made.field, made.cleaned, over);
    ASSERT_EQ(taken.zones.size(), anew.zones.size());
    for (std::size_t z = 0; z < anew.zones.size(); ++z) {
        EXPECT_EQ(taken.zones[z].id, anew.zones[z].id);
        EXPECT_EQ(taken.zones[z].area_m2, anew.zones[z].area_m2);
        EXPECT_EQ(taken.zones[z].records, anew.zones[z].records);
        EXPECT_EQ(taken.zones[z].mass_basis_kg, anew.zones[z].mass_basis_kg);
        EXPECT_EQ(taken.zones[z].first_s, anew.zones[z].first_s);
        EXPECT_NE(taken.zones[z].mass_basis_kg, before.zones[z].mass_basis_kg);
    }
    EXPECT_EQ(taken.record_zone, anew.record_zone);
    EXPECT_EQ(taken.segments.size(), anew.segments.size());
}

TEST(ZonesTakenOver, AreCutAnewWhereTheyFollowThePasses) {
    Season season = by_hand::season();
    season.methods_from.source = MethodSource::points;
    Made made;
    by_hand::add_rows({row(10, 0, 6, 20, 8, 30), row(12, 0, 2, 20, 12, 32)}, made.field, made.cleaned);
    const ZonedField nothing;
    ZoneOptions over;
    over.earlier = &nothing;
    EXPECT_FALSE(zone(season, made.field, made.cleaned, over).zones.empty());
}

TEST(ZoneNumbers, LeaveOutRecordsThatStraddleMethodsUnlessThereAreNoOthers) {
    Made made;
    Row west = row(10, 0, 6, 20, 8, 1), edge = row(49, 0, 9, 20, 8, 2), lone_edge = row(51, 1, 7, 20, 8, 3);
    edge.edge = lone_edge.edge = true;
    by_hand::add_rows({west, edge, lone_edge}, made.field, made.cleaned);
    const auto zones = made.zoned().zones;
    EXPECT_DOUBLE_EQ(zones[0].mass_basis_kg, 6.0);
    EXPECT_DOUBLE_EQ(zones[1].mass_basis_kg, 7.0);
}

TEST(ZoneNumbers, WithoutMoistureOrTimesSayUnknown) {
    Made made;
    by_hand::add_rows({row(10, 0, 6, 20, by_hand::nan, by_hand::nan)}, made.field, made.cleaned);
    const Zone zone = made.zoned().zones[0];
    EXPECT_TRUE(std::isnan(zone.moisture_pct));
    EXPECT_TRUE(std::isnan(zone.first_s));
    EXPECT_DOUBLE_EQ(zone.mass_basis_kg, 6.0);
}

TEST(RecordZones, FollowTheRecordsMethodNeverTheOther) {
    Made made;
    Row strayed = row(50.3, 0, 5, 20, 8, 1); // over the edge, but cut with the west strip
    Row nobody = row(20, -1, 5, 20, 8, 2);
    Row outside = row(20, 0, 5, 20, 8, 3);
    outside.off_field = true;
    by_hand::add_rows({row(10, 0, 5, 20, 8, 0), row(90, 1, 5, 20, 8, 0), strayed, nobody, outside}, made.field,
                      made.cleaned);
    EXPECT_EQ(made.zoned().record_zone, (std::vector<std::int32_t>{0, 1, 0, -1, -1}));
}

TEST(RecordZones, OnAMergedSliverGoToTheNearestZoneOfTheirMethod) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    CleanedField cleaned;
    add_area(field, 0, {rectangle(0, 0, 50, 100)});
    add_area(field, 1, {rectangle(50, 0, 50.8, 100)}); // becomes no zone
    add_area(field, 1, {rectangle(50.8, 0, 100, 100)});
    Row on_sliver = row(50.4, 1, 5, 20, 8, 0);
    by_hand::add_rows({on_sliver}, field, cleaned);
    const ZonedField zoned = zone(by_hand::season(), field, cleaned, ZoneOptions{});
    ASSERT_EQ(zoned.zones.size(), 2u);
    EXPECT_EQ(zoned.record_zone[0], 1);
}

TEST(RecordZones, FollowTheStratumWithinTheArea) {
    Made made;
    by_hand::add_stratum(made.field, "loam", {rectangle(0, 0, 100, 40)});
    by_hand::add_stratum(made.field, "sand", {rectangle(0, 40, 100, 100)});
    Row low = row(10, 0, 5, 20, 8, 0), high = row(10, 0, 5, 20, 8, 0);
    low.y_m = 20;
    high.y_m = 70;
    by_hand::add_rows({low, high}, made.field, made.cleaned);
    const ZonedField zoned = zone(by_hand::with_strata(StrataKind::polygons), made.field, made.cleaned, ZoneOptions{});
    EXPECT_EQ(zoned.zones[static_cast<std::size_t>(zoned.record_zone[0])].stratum, "loam");
    EXPECT_EQ(zoned.zones[static_cast<std::size_t>(zoned.record_zone[1])].stratum, "sand");
}

} // namespace
} // namespace quartercut
