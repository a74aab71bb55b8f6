// SPDX-License-Identifier: MIT
// What must hold for any layout: drawn from seeds, so that a failure can be drawn again.
#include "field_by_hand.hpp"

#include "base/random.hpp"

#include <gtest/gtest.h>

#include <numbers>
#include <set>

namespace quartercut {
namespace {

using by_hand::rectangle;

/// A star-shaped ring around a place.
Ring star(Point centre, double low_m, double high_m, int vertices, Random& random) {
    Ring ring;
    for (int i = 0; i < vertices; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / vertices, r = random.uniform(low_m, high_m);
        ring.push_back({centre.x + r * std::cos(angle), centre.y + r * std::sin(angle)});
    }
    return ring;
}

struct Layout {
    Season season = by_hand::season();
    StandardField field;
};

/// A ragged quarter with sloughs, strips at an angle (some with gaps), and soil polygons that may overlap.
Layout draw_layout(std::uint64_t seed) {
    Random random(seed);
    Layout layout;
    Polygon boundary{star({0, 0}, 300, 500, 12 + static_cast<int>(random.below(60)), random), {}};
    for (const Point slough : {Point{-120, 40}, Point{150, -60}}) {
        Ring ring = star(slough, 10, 45, 9, random);
        std::reverse(ring.begin(), ring.end());
        boundary.holes.push_back(ring);
    }
    layout.field = by_hand::field({boundary});
    const double angle = random.uniform(0.0, 3.0), width_m = random.uniform(20.0, 60.0);
    const double gap_m = random.below(2) == 0 ? 0.0 : random.uniform(0.0, 6.0);
    int strip = 0;
    for (double x = -400.0; x < 400.0; x += width_m)
        by_hand::add_area(layout.field, strip++ % 2,
                          by_hand::turned({rectangle(x, -600, x + width_m - gap_m, 600)}, angle, {0, 0}));
    layout.season = by_hand::with_strata(StrataKind::polygons);
    for (int s = 0; s < 5; ++s)
        by_hand::add_stratum(layout.field, "soil " + std::to_string(s % 4),
                             {{star({random.uniform(-300, 300), random.uniform(-300, 300)}, 40, 200, 25, random), {}}});
    return layout;
}

std::vector<PointLocator> locators_of(const std::vector<Zone>& zones) {
    std::vector<PointLocator> locators;
    for (const Zone& zone : zones)
        locators.emplace_back(zone.shape_m);
    return locators;
}

std::size_t owners(const std::vector<PointLocator>& locators, Point place) {
    return static_cast<std::size_t>(std::count_if(locators.begin(), locators.end(),
                                                  [&](const PointLocator& each) { return each.contains(place); }));
}

class AnyLayout : public testing::TestWithParam<std::uint64_t> {};

TEST_P(AnyLayout, IsAPartition) {
    const Layout layout = draw_layout(GetParam());
    const std::vector<Zone> zones = by_hand::zones_of(layout.season, layout.field);
    const auto ids = by_hand::ids_of(zones);
    EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), ids.size());
    EXPECT_NEAR(by_hand::sum_of_areas(zones) / layout.field.area_m2, 1.0, 1e-12);
    double planar_m2 = 0.0;
    for (const Zone& zone : zones)
        planar_m2 += planar_area(zone.shape_m);
    EXPECT_NEAR(planar_m2 / planar_area(layout.field.boundary_m), 1.0, 1e-9);
    const PointLocator boundary(layout.field.boundary_m);
    const auto locators = locators_of(zones);
    Random random(GetParam() + 1000);
    for (int i = 0; i < 400; ++i) {
        const Point place{random.uniform(-520, 520), random.uniform(-520, 520)};
        EXPECT_EQ(owners(locators, place), boundary.contains(place) ? 1u : 0u) << place.x << " " << place.y;
    }
    std::vector<double> x_m, y_m;
    for (int i = 0; i < 200; ++i) {
        x_m.push_back(random.uniform(-520, 520));
        y_m.push_back(random.uniform(-520, 520));
    }
    const std::vector<std::int32_t> found = zones_at(zones, x_m, y_m);
    for (std::size_t i = 0; i < found.size(); ++i) {
        const Point place{x_m[i], y_m[i]};
        EXPECT_EQ(found[i] >= 0, boundary.contains(place));
        if (found[i] < 0) continue;
        EXPECT_TRUE(locators[static_cast<std::size_t>(found[i])].contains(place));
    }
    // Places on corners of zones belong to one zone at most, and to none only on the outline.
    for (const Zone& zone : zones)
        for (const Point& vertex : zone.shape_m.front().shell)
            EXPECT_LE(owners(locators, vertex), 1u);
}

bool same_shape(const MultiPolygon& a, const MultiPolygon& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const Polygon& p, const Polygon& q) { return p.shell == q.shell && p.holes == q.holes; });
}

/// Two lines that ran within a grid step of each other may gain a vertex where they met, so areas may differ by what
/// one step of the grid (2^-23 m) along the outline holds; nothing else may change.
void expect_same_when_cut_again(const Layout& layout, const ZoneOptions& options) {
    const auto zones = zone(layout.season, layout.field, CleanedField{}, options).zones;
    StandardField again = by_hand::field(layout.field.boundary_m);
    std::vector<double> first_m2;
    for (const Zone& each : zones) {
        if (each.method < 0) continue;
        by_hand::add_area(again, each.method, each.shape_m);
        first_m2.push_back(each.area_m2);
    }
    std::vector<double> second_m2(first_m2.size(), 0.0);
    for (const Zone& each : zone(by_hand::season(), again, CleanedField{}, options).zones)
        if (each.area_index >= 0) second_m2[static_cast<std::size_t>(each.area_index)] += each.area_m2;
    for (std::size_t z = 0; z < first_m2.size(); ++z)
        EXPECT_NEAR(second_m2[z], first_m2[z], 1e-4) << z;
}

TEST_P(AnyLayout, CutAgainByItsOwnZonesChangesNothing) {
    expect_same_when_cut_again(draw_layout(GetParam()), ZoneOptions{});
}

TEST_P(AnyLayout, CutAgainByItsOwnZonesChangesNothingWhenSliversAreKept) {
    expect_same_when_cut_again(draw_layout(GetParam()), ZoneOptions{30.0, 1e-6});
}

TEST_P(AnyLayout, DoesNotDependOnWhereRingsStartOrWhichWayTheyRun) {
    Layout layout = draw_layout(GetParam());
    const std::vector<Zone> zones = by_hand::zones_of(layout.season, layout.field);
    const auto stir = [](MultiPolygon& shape) {
        for (Polygon& polygon : shape) {
            std::rotate(polygon.shell.begin(), polygon.shell.begin() + 2, polygon.shell.end());
            std::reverse(polygon.shell.begin(), polygon.shell.end());
            std::reverse(polygon.holes.begin(), polygon.holes.end());
        }
    };
    stir(layout.field.boundary_m);
    for (MethodArea& area : layout.field.method_areas)
        stir(area.shape_m);
    for (StratumArea& stratum : layout.field.strata)
        stir(stratum.shape_m);
    const std::vector<Zone> stirred = by_hand::zones_of(layout.season, layout.field);
    ASSERT_EQ(by_hand::ids_of(zones), by_hand::ids_of(stirred));
    for (std::size_t z = 0; z < zones.size(); ++z)
        EXPECT_TRUE(same_shape(zones[z].shape_m, stirred[z].shape_m)) << zones[z].id;
}

/// Without slivers: whether a part is just narrower than a metre or just not is a matter of the last digit.
TEST_P(AnyLayout, KeepsItsAreasWhenTurnedAndMoved) {
    Layout layout = draw_layout(GetParam());
    const ZoneOptions no_slivers{30.0, 1e-6};
    const auto zones = zone(layout.season, layout.field, CleanedField{}, no_slivers).zones;
    const auto move = [](MultiPolygon& shape) { shape = by_hand::turned(shape, 0.7, {12345.6, -65432.1}); };
    move(layout.field.boundary_m);
    for (MethodArea& area : layout.field.method_areas)
        move(area.shape_m);
    for (StratumArea& stratum : layout.field.strata)
        move(stratum.shape_m);
    const auto moved = zone(layout.season, layout.field, CleanedField{}, no_slivers).zones;
    ASSERT_EQ(by_hand::ids_of(zones), by_hand::ids_of(moved));
    for (std::size_t z = 0; z < zones.size(); ++z)
        EXPECT_NEAR(zones[z].area_m2, moved[z].area_m2, 1e-3) << zones[z].id;
}

INSTANTIATE_TEST_SUITE_P(Seeds, AnyLayout, testing::Range<std::uint64_t>(1, 41));
/// A gap that tapers from 2.4 m to 0.2 m beside a slough: cut whole it was no arm, cut in two by a stratum it was one.
INSTANTIATE_TEST_SUITE_P(Wedge, AnyLayout, testing::Values(85));

} // namespace
} // namespace quartercut
