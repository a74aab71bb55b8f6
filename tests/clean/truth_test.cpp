// SPDX-License-Identifier: MIT
// Short seeded version of tests/study/cleaning_study.cpp: harvests of the demo's simulator, whose truth is known.
#include "clean/coverage.hpp"
#include "clean/directions.hpp"
#include "clean/passes.hpp"
#include "demo_records.hpp"

#include <geos_c.h>
#include <gtest/gtest.h>
#include <numeric>

namespace quartercut {
namespace {

using namespace test;

DemoOptions demo_options(std::uint64_t seed) {
    DemoOptions options;
    options.seed = seed;
    options.record_interval_s = 2.0;
    return options;
}

TEST(Truth, LagsOfBothMachinesAreNearTheSimulatorsAndMassesOfZonesWithinAPercentOfWhatWasCut) {
    const DemoSeason season = simulate_harvest({strips_plan()}, demo_options(5));
    const Standardised input = standardised(season);
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    ASSERT_EQ(cleaned.lag.size(), 4U);
    for (std::size_t g = 0; g < 4; ++g) { // A swathed, A standing, B swathed, B standing, as the monitors
        EXPECT_TRUE(cleaned.lag[g].applied) << cleaned.lag[g].why;
        EXPECT_NEAR(cleaned.lag[g].lag_s, season.monitors[g].lag_s(), 1.25);
    }
    const MassErrors errors = mass_errors(season.fields[0], input.fields[0], cleaned.fields[0]);
    for (const double error_pct : errors.methods_pct)
        EXPECT_LT(std::abs(error_pct), 1.0);
    for (const double error_pct : errors.strips_pct) // a strip of five passes: the sensor drifts from strip to strip
        EXPECT_LT(std::abs(error_pct), 2.0);
}

GEOSGeometry* outline(GEOSContextHandle_t geos, const cleaning::Quad& quad) {
    GEOSCoordSequence* ring = GEOSCoordSeq_create_r(geos, 5, 2);
    for (unsigned k = 0; k < 5; ++k)
        GEOSCoordSeq_setXY_r(geos, ring, k, quad[k % 4].x, quad[k % 4].y);
    GEOSGeometry* drawn = GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, ring), nullptr, 0);
    GEOSGeometry* valid = GEOSMakeValid_r(geos, drawn);
    GEOSGeom_destroy_r(geos, drawn);
    return valid;
}

/// Union area by GEOS of the header rectangles of all records.
double union_area_m2(const cleaning::FieldWork& work) {
    GEOSContextHandle_t geos = GEOS_init_r();
    std::vector<GEOSGeometry*> outlines;
    std::int32_t pass = -1;
    for (std::size_t i = 0; i < work.size(); ++i) {
        const std::size_t before = work.out->pass[i] == pass && i > 0 ? i - 1 : i;
        pass = work.out->pass[i];
        outlines.push_back(outline(geos, cleaning::header_quad(work, before, i)));
    }
    GEOSGeometry* all = GEOSGeom_createCollection_r(geos, GEOS_GEOMETRYCOLLECTION, outlines.data(),
                                                    static_cast<unsigned>(outlines.size()));
    GEOSGeometry* together = GEOSUnaryUnion_r(geos, all);
    double area_m2 = 0.0;
    GEOSArea_r(geos, together, &area_m2);
    GEOSGeom_destroy_r(geos, together);
    GEOSGeom_destroy_r(geos, all);
    GEOS_finish_r(geos);
    return area_m2;
}

/// Passes at all angles across each other and along curves, `order` first to last.
StandardField crossing_passes(std::uint64_t seed, bool backwards) {
    StandardField field = plain_field(200.0, 200.0);
    Random random(seed);
    std::vector<std::array<double, 4>> ways; // x, y, heading, bend a record
    for (int p = 0; p < 8; ++p)
        ways.push_back(
            {random.uniform(40, 160), random.uniform(40, 160), random.uniform(0, 6.28), random.uniform(-0.015, 0.015)});
    if (backwards) std::reverse(ways.begin(), ways.end());
    double time_s = 0.0;
    for (auto [x, y, heading, bend] : ways) {
        for (int k = 0; k < 40; ++k) {
            Row row;
            row.x_m = x += 2.0 * std::sin(heading);
            row.y_m = y += 2.0 * std::cos(heading);
            row.time_s = time_s += 1.0;
            heading += bend;
            add(field.records, row);
        }
        time_s += 100.0;
    }
    return field;
}

TEST(Truth, CoverageIsTheUnionOfTheHeadersRectanglesWhateverTheOrder) {
    CleanOptions bare;
    bare.steps =
        CleaningChoice{false, false, false, true, false, false, false, false, false, false, false, false, false};
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        std::array<double, 2> swept{}, found{};
        for (const bool backwards : {false, true}) {
            const StandardField field = crossing_passes(seed, backwards);
            CleanedField out;
            out.removal.assign(field.records.size(), Removal::kept);
            cleaning::FieldWork work;
            work.field = &field;
            work.out = &out;
            cleaning::prepare_clock(work);
            cleaning::find_jumps(work);
            cleaning::find_directions(work);
            cleaning::find_passes(work);
            swept[backwards] = union_area_m2(work);
            const CleanedField cleaned = clean(plain_season(), season_of(field), bare).fields[0];
            found[backwards] = std::accumulate(cleaned.area_m2.begin(), cleaned.area_m2.end(), 0.0);
        }
        EXPECT_NEAR(found[0] / swept[0], 1.0, 0.003); // squares of 0.25 m, records of 2 m by 10 m
        EXPECT_NEAR(found[1] / found[0], 1.0, 0.001);
    }
}

} // namespace
} // namespace quartercut
