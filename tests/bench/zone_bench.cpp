// SPDX-License-Identifier: MIT
// How fast fields are cut and records find their zone, against the plain way: PROJ for each record by itself, then GEOS
// prepared geometries one after the other. Both ways answer the same questions, and their answers are compared.
#include "quartercut/zone.hpp"

#include "base/random.hpp"

#include <benchmark/benchmark.h>
#include <geos_c.h>
#include <proj.h>

#include <atomic>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <thread>

namespace quartercut {
namespace {

constexpr double half_m = 402.336; // a quarter section is half a mile square
constexpr int strips = 20, strata = 10;

Polygon rectangle(double x0, double y0, double x1, double y1) { return {{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}; }

Season bench_season() {
    Season season;
    season.methods = {{"swathed", "Swathed", 10.0}, {"standing", "Standing", 12.0}};
    season.strata.emplace();
    return season;
}

/// A quarter of 20 strips and 10 wavy strata that cross them, as seeded.
StandardField bench_field(std::uint64_t seed) {
    Random random(seed);
    StandardField field;
    field.name = "quarter " + std::to_string(seed);
    field.boundary_m = {rectangle(-half_m, -half_m, half_m, half_m)};
    field.area_m2 = planar_area(field.boundary_m);
    const double width_m = 2.0 * half_m / strips;
    for (int strip = 0; strip < strips; ++strip) {
        const double x = -half_m + strip * width_m;
        field.method_areas.push_back({{rectangle(x, -half_m - 5.0, x + width_m, half_m + 5.0)},
                                      strip % 2,
                                      "",
                                      static_cast<std::size_t>(strip) + 1});
    }
    const auto wave = [](double x, double base, double phase) { return base + 15.0 * std::sin(x / 60.0 + phase); };
    std::vector<double> phases;
    for (int k = 0; k <= strata; ++k)
        phases.push_back(random.uniform(0.0, 2.0 * std::numbers::pi));
    for (int k = 0; k < strata; ++k) {
        const auto edge = static_cast<std::size_t>(k);
        const double low = -half_m + 2.0 * half_m * k / strata, high = low + 2.0 * half_m / strata;
        Polygon band;
        for (int i = 0; i <= 40; ++i) {
            const double x = -half_m - 20.0 + 21.2 * i;
            band.shell.push_back({x, k == 0 ? low - 40.0 : wave(x, low, phases[edge])});
        }
        for (int i = 40; i >= 0; --i) {
            const double x = -half_m - 20.0 + 21.2 * i;
            band.shell.push_back({x, k == strata - 1 ? high + 40.0 : wave(x, high, phases[edge + 1])});
        }
        field.strata.push_back({{band}, "soil " + std::to_string(k)});
    }
    return field;
}

/// 1,000 fields x 20 strips x 10 strata on as many threads as asked for.
void cut_a_thousand_fields(benchmark::State& state) {
    const Season season = bench_season();
    std::vector<StandardField> fields;
    for (std::uint64_t seed = 0; seed < 1000; ++seed)
        fields.push_back(bench_field(seed));
    std::atomic<std::size_t> zones = 0;
    for (auto _ : state) {
        zones = 0;
        std::atomic<std::size_t> next = 0;
        std::vector<std::thread> threads;
        for (int t = 0; t < state.range(0); ++t)
            threads.emplace_back([&] {
                for (std::size_t f = next++; f < fields.size(); f = next++)
                    zones += zone(season, fields[f], CleanedField{}, ZoneOptions{}).zones.size();
            });
        for (std::thread& thread : threads)
            thread.join();
    }
    state.counters["zones"] = static_cast<double>(zones.load());
}
BENCHMARK(cut_a_thousand_fields)->Arg(1)->Arg(2)->Unit(benchmark::kSecond)->Iterations(1)->UseRealTime();

/// A million records in passes up and down one quarter, in degrees.
struct ManyRecords {
    Frame frame{-110.0, 52.0};
    std::vector<double> lon_deg, lat_deg;
    std::vector<Zone> zones;
    ManyRecords() {
        const StandardField field = bench_field(1);
        zones = zone(bench_season(), field, CleanedField{}, ZoneOptions{}).zones;
        constexpr int passes = 1000, records = 1000;
        for (int pass = 0; pass < passes; ++pass)
            for (int i = 0; i < records; ++i) {
                const double x = -half_m + 2.0 * half_m * (pass + 0.5) / passes;
                const double y = -half_m + 2.0 * half_m * (i + 0.5) / records;
                const Point place = frame.to_degrees({x, pass % 2 == 0 ? y : -y});
                lon_deg.push_back(place.x);
                lat_deg.push_back(place.y);
            }
    }
};

const ManyRecords& many_records() {
    static const ManyRecords made;
    return made;
}

std::vector<std::int32_t> zones_our_way(const ManyRecords& input) {
    std::vector<double> x = input.lon_deg, y = input.lat_deg;
    input.frame.to_metres(x, y);
    return zones_at(input.zones, x, y);
}

GEOSGeometry* geos_polygon(GEOSContextHandle_t handle, const Polygon& polygon) {
    std::vector<double> flat;
    for (const Point& p : polygon.shell)
        flat.insert(flat.end(), {p.x, p.y});
    flat.insert(flat.end(), {polygon.shell.front().x, polygon.shell.front().y});
    GEOSCoordSequence* sequence =
        GEOSCoordSeq_copyFromBuffer_r(handle, flat.data(), static_cast<unsigned>(flat.size() / 2), 0, 0);
    return GEOSGeom_createPolygon_r(handle, GEOSGeom_createLinearRing_r(handle, sequence), nullptr, 0);
}

std::vector<std::int32_t> zones_the_plain_way(const ManyRecords& input) {
    PJ_CONTEXT* context = proj_context_create();
    PJ* projection = proj_create(context, input.frame.definition().c_str());
    GEOSContextHandle_t handle = GEOS_init_r();
    std::vector<GEOSGeometry*> shapes;
    std::vector<const GEOSPreparedGeometry*> prepared;
    for (const Zone& each : input.zones) {
        shapes.push_back(geos_polygon(handle, each.shape_m.front())); // zones of the benchmark have one part, no holes
        prepared.push_back(GEOSPrepare_r(handle, shapes.back()));
    }
    std::vector<std::int32_t> found(input.lon_deg.size(), -1);
    for (std::size_t i = 0; i < found.size(); ++i) {
        const double radians = std::numbers::pi / 180.0;
        const PJ_COORD place =
            proj_trans(projection, PJ_FWD, proj_coord(input.lon_deg[i] * radians, input.lat_deg[i] * radians, 0, 0));
        GEOSGeometry* point = GEOSGeom_createPointFromXY_r(handle, place.xy.x, place.xy.y);
        for (std::size_t z = 0; z < prepared.size() && found[i] < 0; ++z)
            if (GEOSPreparedContains_r(handle, prepared[z], point) == 1) found[i] = static_cast<std::int32_t>(z);
        GEOSGeom_destroy_r(handle, point);
    }
    for (std::size_t z = 0; z < shapes.size(); ++z) {
        GEOSPreparedGeom_destroy_r(handle, prepared[z]);
        GEOSGeom_destroy_r(handle, shapes[z]);
    }
    GEOS_finish_r(handle);
    proj_destroy(projection);
    proj_context_destroy(context);
    return found;
}

void find_zones_of_a_million_records(benchmark::State& state) {
    const ManyRecords& input = many_records();
    for (auto _ : state)
        benchmark::DoNotOptimize(zones_our_way(input));
}
BENCHMARK(find_zones_of_a_million_records)->Unit(benchmark::kSecond);

void find_zones_of_a_million_records_plainly(benchmark::State& state) {
    const ManyRecords& input = many_records();
    std::vector<std::int32_t> plain;
    for (auto _ : state)
        plain = zones_the_plain_way(input);
    const std::vector<std::int32_t> ours = zones_our_way(input);
    std::size_t different = 0;
    for (std::size_t i = 0; i < ours.size(); ++i)
        different += ours[i] != plain[i] ? 1U : 0U;
    if (different > 0) state.SkipWithError("the two ways do not agree");
}
BENCHMARK(find_zones_of_a_million_records_plainly)->Unit(benchmark::kSecond)->Iterations(1);

} // namespace
} // namespace quartercut

BENCHMARK_MAIN();
