// SPDX-License-Identifier: MIT
// Geodesic areas against GeographicLib and against the closed formula for the whole ellipsoid.
#include "quartercut/standardise.hpp"

#include "base/random.hpp"

#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace quartercut {
namespace {

double geographiclib_area_m2(const Ring& ring) {
    GeographicLib::PolygonArea polygon(GeographicLib::Geodesic::WGS84());
    for (const Point& vertex : ring)
        polygon.AddPoint(vertex.y, vertex.x);
    double perimeter_m = 0.0, area_m2 = 0.0;
    polygon.Compute(false, true, perimeter_m, area_m2);
    return std::abs(area_m2);
}

/// A ring around a place, its radius wandering from vertex to vertex.
Ring wandering_ring(Point centre, double radius_deg, Random& random) {
    Ring ring;
    for (int i = 0; i < 37; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / 37.0, r = radius_deg * random.uniform(0.5, 1.0);
        ring.push_back({centre.x + 1.6 * r * std::cos(angle), centre.y + r * std::sin(angle)});
    }
    return ring;
}

TEST(GeodesicArea, AgreesWithAnIndependentImplementation) {
    Random random(7);
    for (int i = 0; i < 200; ++i) {
        const Point centre{random.uniform(-179.0, 179.0), random.uniform(-70.0, 70.0)};
        const Ring ring = wandering_ring(centre, 0.01, random);
        const double expected_m2 = geographiclib_area_m2(ring);
        EXPECT_NEAR(geodesic_area_m2({{ring, {}}}) / expected_m2, 1.0, 1e-9);
    }
}

TEST(GeodesicArea, OfAnOctantIsAnEighthOfTheEllipsoid) {
    // Surface of an oblate spheroid: 2 pi a^2 + pi b^2 / e ln((1 + e) / (1 - e)).
    const double a = 6378137.0, f = 1.0 / 298.257223563, b = a * (1.0 - f), e = std::sqrt(f * (2.0 - f));
    const double surface_m2 =
        2.0 * std::numbers::pi * a * a + std::numbers::pi * b * b / e * std::log((1.0 + e) / (1.0 - e));
    const MultiPolygon octant = {{{{0.0, 0.0}, {90.0, 0.0}, {0.0, 90.0}}, {}}};
    EXPECT_NEAR(geodesic_area_m2(octant) / (surface_m2 / 8.0), 1.0, 1e-13);
}

TEST(GeodesicArea, TakesHolesOffAndAddsParts) {
    Random random(11);
    const Ring outer = wandering_ring({-110.0, 52.0}, 0.02, random),
               other = wandering_ring({-110.2, 52.0}, 0.01, random);
    Ring hole = wandering_ring({-110.0, 52.0}, 0.005, random);
    const double expected_m2 =
        geographiclib_area_m2(outer) - geographiclib_area_m2(hole) + geographiclib_area_m2(other);
    EXPECT_NEAR(geodesic_area_m2({{outer, {hole}}, {other, {}}}) / expected_m2, 1.0, 1e-9);
}

TEST(GeodesicArea, DoesNotDependOnTheDirectionOfTheRing) {
    Random random(13);
    Ring ring = wandering_ring({-110.0, 52.0}, 0.02, random);
    const double forward_m2 = geodesic_area_m2({{ring, {}}});
    std::reverse(ring.begin(), ring.end());
    EXPECT_NEAR(geodesic_area_m2({{ring, {}}}), forward_m2, 1e-4);
}

} // namespace
} // namespace quartercut
