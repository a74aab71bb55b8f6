// SPDX-License-Identifier: MIT
// Zones of fields drawn by hand: every area can be checked on squared paper.
#include "field_by_hand.hpp"

#include "quartercut/error.hpp"

#include "zone/cutting.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

using by_hand::add_area;
using by_hand::add_stratum;
using by_hand::hole;
using by_hand::ids_of;
using by_hand::rectangle;
using by_hand::zones_of;

using Words = std::vector<std::string>;

TEST(Zones, AreOnePerStripInTheOrderOfTheRows) {
    StandardField field = by_hand::field({rectangle(0, 0, 90, 100)});
    add_area(field, 1, {rectangle(30, -5, 60, 105)});
    add_area(field, 0, {rectangle(0, 0, 30, 100)});
    add_area(field, 1, {rectangle(60, 0, 95, 100)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    EXPECT_EQ(ids_of(zones), (Words{"home/standing/1", "home/swathed/1", "home/standing/2"}));
    for (const Zone& zone : zones)
        EXPECT_DOUBLE_EQ(zone.area_m2, 3000.0);
    EXPECT_EQ(zones[0].area_index, 0);
    EXPECT_TRUE(std::isnan(zones[0].yield_t_ha()));
}

TEST(Zones, OfLandInNoMethodAreaSayWhy) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 60, 100)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 2u);
    EXPECT_EQ(zones[1].id, "home/no-method/1");
    EXPECT_EQ(zones[1].method, -1);
    EXPECT_EQ(zones[1].reason, "no method area");
    EXPECT_DOUBLE_EQ(zones[1].area_m2, 4000.0);
}

TEST(Zones, LeaveHolesOut) {
    Polygon boundary = rectangle(0, 0, 100, 100);
    boundary.holes = {hole(40, 40, 60, 60)};
    StandardField field = by_hand::field({boundary});
    add_area(field, 0, {rectangle(0, 0, 50, 100)});
    add_area(field, 1, {rectangle(50, 0, 100, 100)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 2u);
    EXPECT_DOUBLE_EQ(zones[0].area_m2, 4800.0);
    EXPECT_DOUBLE_EQ(zones[1].area_m2, 4800.0);
}

TEST(Zones, KeepAHoleThatTouchesTheShellAtOnePoint) {
    Polygon boundary = rectangle(0, 0, 100, 100);
    boundary.holes = {{{0, 50}, {20, 60}, {20, 40}}};
    StandardField field = by_hand::field({boundary});
    add_area(field, 0, {rectangle(0, 0, 100, 100)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 1u);
    EXPECT_DOUBLE_EQ(zones[0].area_m2, 9800.0);
}

TEST(Zones, OfFieldsInSeveralPartsKeepTheParts) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 50), rectangle(0, 70, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 40, 100)});
    add_area(field, 1, {rectangle(40, 0, 100, 100)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 2u);
    EXPECT_EQ(zones[0].shape_m.size(), 2u);
    EXPECT_DOUBLE_EQ(zones[0].area_m2, 40.0 * 80.0);
    EXPECT_DOUBLE_EQ(zones[1].area_m2, 60.0 * 80.0);
}

TEST(Zones, ShareEdgesVertexForVertex) {
    // The corner of the small area lies on the edge of the large one: both carry it as a vertex.
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 50, 100)});
    add_area(field, 1, {rectangle(50, 0, 100, 33.25)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 3u);
    const Ring& west = zones[0].shape_m[0].shell;
    EXPECT_NE(std::find(west.begin(), west.end(), Point{50, 33.25}), west.end());
}

TEST(Zones, AreCutByStrataToo) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 50, 100)});
    add_area(field, 1, {rectangle(50, 0, 100, 100)});
    add_stratum(field, "loam", {rectangle(-10, -10, 110, 30)});
    add_stratum(field, "sand", {rectangle(-10, 30, 110, 80)});
    add_stratum(field, "loam", {rectangle(-10, 80, 110, 90)});
    const std::vector<Zone> zones = zones_of(by_hand::with_strata(StrataKind::polygons), field);
    EXPECT_EQ(ids_of(zones), (Words{"home/swathed/1/loam", "home/swathed/1/sand", "home/swathed/1",
                                    "home/standing/1/loam", "home/standing/1/sand", "home/standing/1"}));
    EXPECT_DOUBLE_EQ(zones[0].area_m2, 50.0 * 40.0);
    EXPECT_DOUBLE_EQ(zones[1].area_m2, 50.0 * 50.0);
    EXPECT_EQ(zones[2].reason, "no stratum");
    EXPECT_DOUBLE_EQ(zones[2].area_m2, 50.0 * 10.0);
}

TEST(Zones, AreScaledToTheAreaOnTheEllipsoid) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    field.area_m2 = 10001.0;
    add_area(field, 0, {rectangle(0, 0, 25, 100)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    EXPECT_NEAR(zones[0].area_m2, 2500.25, 1e-9);
    EXPECT_NEAR(by_hand::sum_of_areas(zones), 10001.0, 1e-8);
}

TEST(Slivers, BetweenStripsJoinTheNeighbour) {
    // Half a metre was left between the strips when they were drawn.
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 49.5, 100)});
    add_area(field, 1, {rectangle(50, 0, 100, 100)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 2u);
    EXPECT_DOUBLE_EQ(by_hand::sum_of_areas(zones), 10000.0);
}

TEST(Slivers, JoinTheNeighbourWithTheLongerEdge) {
    // The gap touches the first strip along 100 m and the second along 60 m.
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 50, 100)});
    add_area(field, 1, {rectangle(50.5, 0, 100, 60)});
    add_area(field, 1, {rectangle(50, 60, 100, 100)});
    add_area(field, 0, {rectangle(50, 59.9, 50.2, 60)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 3u);
    EXPECT_NEAR(zones[0].area_m2, 50.0 * 100.0, 0.1 + 30.0);
    EXPECT_NEAR(by_hand::sum_of_areas(zones), 10000.0, 1e-6);
}

TEST(Slivers, OfOverlapGoToTheFirstRow) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 50.4, 100)});
    add_area(field, 1, {rectangle(50, 0, 100, 100)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 2u);
    EXPECT_DOUBLE_EQ(by_hand::sum_of_areas(zones), 10000.0);
}

TEST(Slivers, ThatHangOnWiderLandAreCutOffIt) {
    // A headland of 20 m in no method, with arms of 0.5 m reaching up between three strips.
    StandardField field = by_hand::field({rectangle(0, 0, 91, 120)});
    add_area(field, 0, {rectangle(0, 20, 30, 120)});
    add_area(field, 1, {rectangle(30.5, 20, 60.5, 120)});
    add_area(field, 0, {rectangle(61, 20, 91, 120)});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 4u);
    EXPECT_NEAR(zones[3].area_m2, 91.0 * 20.0, 2.0);
    EXPECT_NEAR(by_hand::sum_of_areas(zones), 91.0 * 120.0, 1e-6);
}

/// Land in no method tapers from 2.4 m to 0.2 m over 220 m. It is narrower than a metre beyond 140 m; what lies before
/// measures 140 m * (2.4 m + 1 m) / 2.
TEST(Slivers, ThatAreTheThinEndOfAWedgeAreCutOffIt) {
    StandardField field = by_hand::field({rectangle(0, 0, 60, 220)});
    add_area(field, 0, {rectangle(0, 0, 30, 220)});
    add_area(field, 1, {{{{32.4, 0}, {60, 0}, {60, 220}, {30.2, 220}}, {}}});
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 3u);
    EXPECT_NEAR(zones[2].area_m2, 238.0, 4.0);
    EXPECT_NEAR(by_hand::sum_of_areas(zones), 60.0 * 220.0, 1e-6);
}

/// An arm of 0.5 m x 30 m on land of area 0, along land of area 1; it shares 0.5 m with its own and 30 m with the other.
int taker_of_arm(const std::vector<int>& method_of_area) {
    std::vector<zone_room::Face> faces(3);
    faces[0].shape = {{{0, -20}, {50, -20}, {50, 0}, {0.5, 0}, {0, 0}}, {}};
    faces[1].shape = {{{0.5, 0}, {50, 0}, {50, 30}, {0.5, 30}}, {}};
    faces[2].shape = {{{0, 0}, {0.5, 0}, {0.5, 30}, {0, 30}}, {}};
    faces[0].area = faces[2].area = 0;
    faces[1].area = 1;
    faces[2].sliver = true;
    zone_room::merge_slivers(faces, method_of_area);
    return faces[2].area;
}

/// Also where land in no method is cut again as an area of its own (method -1): as it was when cut first.
TEST(Slivers, OfLandInNoMethodGoToTheLongestEdgeThoseOfAMethodStayWithIt) {
    EXPECT_EQ(taker_of_arm({-1, 0}), 1);
    EXPECT_EQ(taker_of_arm({1, 0}), 0);
    EXPECT_EQ(taker_of_arm({0, 0}), 0);
}

TEST(Slivers, OfAWholeMethodAreaAreTold) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 50, 100)});
    add_area(field, 1, {rectangle(50, 0, 50.8, 100)});
    const ZonedField zoned = zone(by_hand::season(), field, CleanedField{}, ZoneOptions{});
    EXPECT_EQ(ids_of(zoned.zones), (Words{"home/swathed/1", "home/no-method/1"}));
    EXPECT_TRUE(by_hand::has_issue(zoned.issues, "method-area-lost"));
}

TEST(Overlaps, OfDifferentMethodsAreRefusedWithRowsAndPlace) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 60, 100)});
    add_area(field, 1, {rectangle(50, 0, 100, 100)});
    try {
        static_cast<void>(zones_of(by_hand::season(), field));
        FAIL() << "ten metres of overlap were let pass";
    } catch (const DataError& error) {
        const std::string message = error.what();
        EXPECT_NE(message.find("row 1 (\"swathed\") and row 2 (\"standing\") overlap by 1000 m2"), std::string::npos)
            << message;
        EXPECT_NE(message.find("x 55.0 m, y 50.0 m"), std::string::npos) << message;
    }
}

TEST(Overlaps, OfOneMethodGoToTheFirstRowWithANote) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 60, 100)});
    add_area(field, 0, {rectangle(50, 0, 100, 100)});
    const ZonedField zoned = zone(by_hand::season(), field, CleanedField{}, ZoneOptions{});
    EXPECT_DOUBLE_EQ(zoned.zones[0].area_m2, 6000.0);
    EXPECT_DOUBLE_EQ(zoned.zones[1].area_m2, 4000.0);
    EXPECT_TRUE(by_hand::has_issue(zoned.issues, "method-areas-overlap"));
}

TEST(Repair, OfACrossingBoundaryIsNoted) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    field.boundary_m = {{{{0, 0}, {100, 100}, {100, 0}, {0, 100}}, {}}}; // a bow tie of two triangles of 2500 m2
    field.area_m2 = 5000.0;
    add_area(field, 0, {rectangle(0, 0, 100, 100)});
    const ZonedField zoned = zone(by_hand::season(), field, CleanedField{}, ZoneOptions{});
    EXPECT_TRUE(by_hand::has_issue(zoned.issues, "polygon-repaired"));
    EXPECT_NEAR(by_hand::sum_of_areas(zoned.zones), 5000.0, 1e-6);
}

/// A square in a frame of its own: area on the plane here, area on the ellipsoid by PROJ's geodesic routines.
ZonedField zoned_square(double side_m) {
    StandardField field = by_hand::field({rectangle(-0.5 * side_m, -0.5 * side_m, 0.5 * side_m, 0.5 * side_m)});
    field.frame = Frame(-106.5, 52.1);
    MultiPolygon in_degrees{{}};
    const Ring& ring = field.boundary_m.front().shell;
    constexpr int steps = 100; // straight on the plane is not straight on the ellipsoid
    for (std::size_t i = 0; i < ring.size(); ++i)
        for (int k = 0; k < steps; ++k) {
            const Point a = ring[i], b = ring[(i + 1) % ring.size()];
            const double part = static_cast<double>(k) / steps;
            in_degrees.front().shell.push_back(
                field.frame.to_degrees({a.x + part * (b.x - a.x), a.y + part * (b.y - a.y)}));
        }
    field.area_m2 = geodesic_area_m2(in_degrees);
    add_area(field, 0, {rectangle(-side_m, -side_m, 0, side_m)});
    add_area(field, 1, {rectangle(0, -side_m, side_m, side_m)});
    return zone(by_hand::season(), field, CleanedField{}, ZoneOptions{});
}

/// The scale of a transverse Mercator plane grows by x^2 / (2 R^2) to the sides (Snyder 1987, USGS Professional Paper
/// 1395, p. 58), areas of a square of side s by s^2 / (12 R^2) on the whole: 0.0000001 % for a quarter, 0.02 % where
/// s = 312 km (R = 6371 km).
TEST(AreasOnPlaneAndEllipsoid, AgreeForFieldsAndAreWarnedOfWhereTheyDoNot) {
    EXPECT_FALSE(by_hand::has_issue(zoned_square(804.672).issues, "areas-differ"));
    EXPECT_FALSE(by_hand::has_issue(zoned_square(9656.0).issues, "areas-differ")); // a township
    const ZonedField country = zoned_square(312000.0);
    ASSERT_TRUE(by_hand::has_issue(country.issues, "areas-differ"));
    const auto warning = std::find_if(country.issues.begin(), country.issues.end(),
                                      [](const Issue& issue) { return issue.code == "areas-differ"; });
    EXPECT_EQ(warning->severity, Severity::warning);
    EXPECT_NE(warning->message.find("+0.020 %"), std::string::npos) << warning->message;
}

/// Just inside and just outside of the 0.01 % that is let pass.
TEST(AreasOnPlaneAndEllipsoid, ThatDifferByMoreThanATenThousandthAreWarnedOf) {
    StandardField field = by_hand::field({rectangle(0, 0, 100, 100)});
    add_area(field, 0, {rectangle(0, 0, 100, 100)});
    field.area_m2 = 10000.0 * (1.0 - 0.9e-4);
    EXPECT_FALSE(
        by_hand::has_issue(zone(by_hand::season(), field, CleanedField{}, ZoneOptions{}).issues, "areas-differ"));
    field.area_m2 = 10000.0 * (1.0 - 1.1e-4);
    const ZonedField zoned = zone(by_hand::season(), field, CleanedField{}, ZoneOptions{});
    EXPECT_TRUE(by_hand::has_issue(zoned.issues, "areas-differ"));
    EXPECT_NEAR(by_hand::sum_of_areas(zoned.zones), field.area_m2, 1e-6); // and still add up to the field's
}

TEST(Coordinates, FarFromTheOriginCostNothing) {
    const Point far{1e7 + 0.125, -1e7 - 0.375};
    StandardField field = by_hand::field(by_hand::turned({rectangle(0, 0, 90, 100)}, 0.0, far));
    for (int strip = 0; strip < 3; ++strip)
        add_area(field, strip % 2, by_hand::turned({rectangle(30 * strip, -3, 30 * strip + 30, 103)}, 0.0, far));
    const std::vector<Zone> zones = zones_of(by_hand::season(), field);
    ASSERT_EQ(zones.size(), 3u);
    for (const Zone& zone : zones)
        EXPECT_NEAR(zone.area_m2, 3000.0, 1e-5);
}

} // namespace
} // namespace quartercut
