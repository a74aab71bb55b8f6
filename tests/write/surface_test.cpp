// SPDX-License-Identifier: MIT
// The kriged surface against arithmetic by hand, and the fitted covariance against a field made with a known one.
#include "../support/sample_results.hpp"
#include "write/surface.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace quartercut {
namespace {

using write::Covariance;
using write::Surface;
using write::SurfaceValue;

/// One zone of 400 m x 400 m with segments of 300 m2 at the given places and yields (t/ha).
ZonedField field_with(const std::vector<std::array<double, 3>>& places) {
    ZonedField field;
    field.zones = {sample::zone("F/swathed/1", 0, {sample::rectangle(-200, -200, 200, 200)})};
    for (const auto& [x_m, y_m, yield_t_ha] : places) {
        Segment s;
        s.zone = 0;
        s.pass = 0;
        s.x_m = x_m;
        s.y_m = y_m;
        s.length_m = 30.0;
        s.area_m2 = 300.0;
        s.mass_basis_kg = yield_t_ha * 300.0 / 10.0;
        field.segments.push_back(s);
    }
    return field;
}

const Covariance known{0.02, 0.10, 50.0, true};

TEST(Surface, GivesOneSegmentAllTheWeight) {
    const Surface surface(field_with({{10.0, 0.0, 2.5}}), known, 1e-6);
    const SurfaceValue at = surface.at(0, {0.0, 0.0});
    EXPECT_NEAR(at.yield_t_ha, 2.5, 1e-12);
    // var(land - segment) = C(0) + C(0) + nugget - 2 C(10 m), the cell being a point
    EXPECT_NEAR(at.se_t_ha, std::sqrt(0.10 + 0.10 + 0.02 - 2.0 * 0.10 * std::exp(-10.0 / 50.0)), 1e-6);
}

TEST(Surface, SplitsTheWeightBetweenTwoSegmentsEquallyFar) {
    const Surface surface(field_with({{-10.0, 0.0, 2.0}, {10.0, 0.0, 3.0}}), known, 1e-6);
    const SurfaceValue at = surface.at(0, {0.0, 0.0});
    EXPECT_NEAR(at.yield_t_ha, 2.5, 1e-12);
    // var(land - mean of two) = C(0) - 2 C(10) + (C(0) + nugget + C(20)) / 2
    const double c10 = 0.10 * std::exp(-10.0 / 50.0), c20 = 0.10 * std::exp(-20.0 / 50.0);
    EXPECT_NEAR(at.se_t_ha, std::sqrt(0.10 - 2.0 * c10 + (0.10 + 0.02 + c20) / 2.0), 1e-6);
}

TEST(Surface, HasWeightsThatAddUpToOne) {
    std::vector<std::array<double, 3>> places;
    for (int i = 0; i < 40; ++i)
        places.push_back({-150.0 + 37.0 * (i % 8), -150.0 + 61.0 * (i / 8), 2.345});
    const Surface surface(field_with(places), known, 5.0);
    for (const Point p : {Point{0, 0}, Point{-140, 20}, Point{99, -77}}) {
        EXPECT_NEAR(surface.at(0, p).yield_t_ha, 2.345, 1e-12); // equal yields give that yield everywhere
    }
}

TEST(Surface, IsLessSureFartherAwayAndSilentBeyondSixtyMetres) {
    const Surface surface(field_with({{0.0, 0.0, 2.5}}), known, 5.0);
    EXPECT_LT(surface.at(0, {5.0, 0.0}).se_t_ha, surface.at(0, {50.0, 0.0}).se_t_ha);
    EXPECT_TRUE(std::isfinite(surface.at(0, {59.0, 0.0}).yield_t_ha));
    EXPECT_TRUE(std::isnan(surface.at(0, {61.0, 0.0}).yield_t_ha));
    EXPECT_TRUE(std::isnan(surface.at(-1, {0.0, 0.0}).yield_t_ha));
}

TEST(Surface, NeverLooksIntoTheNextZone) {
    ZonedField field = field_with({{-20.0, 0.0, 2.0}, {20.0, 0.0, 4.0}});
    field.zones = {sample::zone("F/swathed/1", 0, {sample::rectangle(-200, -200, 0, 200)}),
                   sample::zone("F/standing/1", 1, {sample::rectangle(0, -200, 200, 200)})};
    field.segments[1].zone = 1;
    const Surface surface(field, known, 5.0);
    EXPECT_NEAR(surface.at(0, {-1.0, 0.0}).yield_t_ha, 2.0, 1e-12);
    EXPECT_NEAR(surface.at(1, {1.0, 0.0}).yield_t_ha, 4.0, 1e-12);
}

TEST(Surface, FallsBackToInverseDistanceWithoutAnError) {
    const ZonedField field = field_with({{-10.0, 0.0, 2.0}, {10.0, 0.0, 3.0}});
    const Covariance none = write::fit_covariance(field); // one pair cannot show a range
    EXPECT_FALSE(none.fitted);
    const SurfaceValue at = Surface(field, none, 5.0).at(0, {0.0, 0.0});
    EXPECT_NEAR(at.yield_t_ha, 2.5, 1e-12);
    EXPECT_TRUE(std::isnan(at.se_t_ha));
}

/// 300 lines of 20 segments, 20 m apart, each line a zone of its own. Along a line the land is a first-order
/// autoregression, whose covariance is exponential (Cressie 1993, Statistics for Spatial Data, section 2.3); every
/// segment has an independent error on top.
ZonedField lines_with(double sill, double range_m, double nugget) {
    std::mt19937_64 random(7);
    std::normal_distribution<double> normal;
    const double rho = std::exp(-20.0 / range_m);
    std::vector<std::array<double, 3>> places;
    ZonedField field;
    for (int line = 0; line < 300; ++line) {
        double land = std::sqrt(sill) * normal(random);
        for (int i = 0; i < 20; ++i) {
            places.push_back({20.0 * i, 0.0, 10.0 + land + std::sqrt(nugget) * normal(random)});
            land = rho * land + std::sqrt(sill * (1.0 - rho * rho)) * normal(random);
        }
    }
    field = field_with(places);
    field.zones.assign(300, field.zones[0]);
    for (std::size_t i = 0; i < field.segments.size(); ++i)
        field.segments[i].zone = static_cast<int>(i / 20);
    return field;
}

TEST(FitCovariance, FindsTheModelTheLandWasMadeWith) {
    const Covariance found = write::fit_covariance(lines_with(0.16, 60.0, 0.04));
    ASSERT_TRUE(found.fitted);
    // 6000 segments: the semivariance of a lag is known to about 2 %, range and nugget to about a fifth
    EXPECT_NEAR(found.nugget + found.sill, 0.20, 0.02);
    EXPECT_NEAR(found.range_m, 60.0, 15.0);
    EXPECT_NEAR(found.nugget, 0.04, 0.02);
}

TEST(FitCovariance, SeesAlmostNoStructureInPureNoise) {
    const Covariance found = write::fit_covariance(lines_with(0.0, 60.0, 0.20));
    if (!found.fitted) return;
    EXPECT_TRUE(found.sill < 0.02 || found.range_m < 15.0); // nothing that reaches the next segment
}

} // namespace
} // namespace quartercut
