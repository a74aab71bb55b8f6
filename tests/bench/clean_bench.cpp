// SPDX-License-Identifier: MIT
// The whole cleaning of a season beside GDAL's bare reading of the same records from a GeoPackage, in the same run.
//
// Quarter sections of 31,700 records a piece, logged every second, two methods each, delays to be found and grain to be
// weighed. `ratio` is the time of the cleaning over that of the reading, both by the clock, cleaning on all cores;
// `bytes_per_record` is what the cleaning adds to the peak of the process, its result included.
#include "../clean/harvest.hpp"

#include <benchmark/benchmark.h>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <gdal_priv.h>
#include <iterator>
#include <malloc.h>
#include <map>
#include <ogrsf_frmts.h>
#include <string>

namespace {

namespace fs = std::filesystem;
using namespace quartercut;

constexpr std::size_t all_records = 1000000;

StandardField quarter(std::size_t number) {
    test::Harvest harvest;
    harvest.width_m = harvest.height_m = 805.0;
    harvest.cut_m = 10.7333;
    harvest.seed = number + 1;
    harvest.yield_t_ha = test::rough_surface(number + 1);
    harvest.method = [](double x, double) { return x < 402.5 ? 0 : 1; };
    StandardField field = test::simulate(harvest);
    field.name = "Quarter " + std::to_string(number + 1);
    field.method_areas = {{test::rectangle(0, 0, 402.5, 805), 0, "", 1},
                          {test::rectangle(402.5, 0, 805, 805), 1, "", 2}};
    Records& r = field.records;
    for (std::size_t i = 0; i < r.size(); ++i) {
        r.time_s[i] += 1.0e5 * static_cast<double>(number);
        r.at_basis[i] = 0;
        r.moisture_pct[i] = 9.5 + 0.5 * std::sin(0.01 * static_cast<double>(i));
    }
    return field;
}

/// Cuts a column down to the first `count` records.
void shorten(StandardField& field, std::size_t count) {
    Records& r = field.records;
    const auto cut = [count](auto& column) { column.resize(std::min(count, column.size())); };
    cut(r.x_m), cut(r.y_m), cut(r.time_s), cut(r.duration_s), cut(r.distance_m), cut(r.width_m), cut(r.speed_m_s);
    cut(r.heading_deg), cut(r.mass_kg), cut(r.moisture_pct), cut(r.logged_yield_t_ha), cut(r.at_basis);
    cut(r.header_up), cut(r.machine), cut(r.method), cut(r.area), cut(r.load), cut(r.off_field), cut(r.input);
    cut(r.row);
}

Standardised season_of_records(std::size_t count) {
    Standardised season;
    season.machines = {"red"};
    for (std::size_t number = 0, have = 0; have < count; ++number) {
        season.fields.push_back(quarter(number));
        if (have + season.fields.back().records.size() > count) shorten(season.fields.back(), count - have);
        have += season.fields.back().records.size();
    }
    return season;
}

const Standardised& season_with(std::size_t count) {
    static std::map<std::size_t, Standardised> seasons;
    auto found = seasons.find(count);
    if (found == seasons.end()) found = seasons.emplace(count, season_of_records(count)).first;
    return found->second;
}

constexpr const char* columns[] = {"time_s", "flow_kg_s",  "moisture_pct", "speed_m_s",
                                   "dist_m", "duration_s", "width_m",      "heading_deg"};

/// The records of a season as any program would export them: points with eight numbers and the machine's name.
fs::path write_geopackage(const Standardised& season) {
    std::string folder = (fs::temp_directory_path() / "quartercut-bench-XXXXXX").string();
    if (::mkdtemp(folder.data()) == nullptr) std::abort();
    GDALAllRegister();
    const fs::path path = fs::path(folder) / "records.gpkg";
    GDALDatasetUniquePtr file(
        GetGDALDriverManager()->GetDriverByName("GPKG")->Create(path.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRSpatialReference earth;
    earth.importFromEPSG(4326);
    OGRLayer* layer = file->CreateLayer("records", &earth, wkbPoint, nullptr);
    for (const char* name : columns) {
        OGRFieldDefn column(name, OFTReal);
        if (layer->CreateField(&column) != OGRERR_NONE) std::abort();
    }
    OGRFieldDefn machine("machine", OFTString);
    if (layer->CreateField(&machine) != OGRERR_NONE) std::abort();
    file->StartTransaction();
    for (const StandardField& field : season.fields) {
        const Records& r = field.records;
        for (std::size_t i = 0; i < r.size(); ++i) {
            OGRFeature feature(layer->GetLayerDefn());
            const double values[] = {r.time_s[i],     r.mass_kg[i],    r.moisture_pct[i], r.speed_m_s[i],
                                     r.distance_m[i], r.duration_s[i], r.width_m[i],      90.0};
            for (std::size_t k = 0; k < std::size(values); ++k)
                feature.SetField(static_cast<int>(k), values[k]);
            feature.SetField(static_cast<int>(std::size(values)), "red");
            OGRPoint point(-112.0 + 1e-5 * r.x_m[i], 52.0 + 1e-5 * r.y_m[i]);
            feature.SetGeometry(&point);
            if (layer->CreateFeature(&feature) != OGRERR_NONE) std::abort();
        }
    }
    file->CommitTransaction();
    return path;
}

/// What any first program would do: every feature, its point, every column.
double read_bare(const fs::path& path) {
    const GDALDatasetUniquePtr file(GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR));
    double sum = 0.0;
    for (const OGRFeatureUniquePtr& feature : *file->GetLayer(0)) {
        const OGRPoint* point = feature->GetGeometryRef()->toPoint();
        sum += point->getX() + point->getY();
        for (int k = 0; k < feature->GetFieldCount(); ++k)
            sum += feature->GetFieldDefnRef(k)->GetType() == OFTString ? feature->GetFieldAsString(k)[0]
                                                                       : feature->GetFieldAsDouble(k);
    }
    return sum;
}

double read_s = 0.0; // time of one bare reading of all records, set by the first benchmark

void gdal_reads_a_million_records(benchmark::State& state) {
    const fs::path path = write_geopackage(season_with(all_records));
    double seconds = 0.0;
    for (auto _ : state) {
        const auto start = std::chrono::steady_clock::now();
        benchmark::DoNotOptimize(read_bare(path));
        seconds += std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    }
    read_s = seconds / static_cast<double>(state.iterations());
    fs::remove_all(path.parent_path());
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(all_records));
}
BENCHMARK(gdal_reads_a_million_records)->Unit(benchmark::kMillisecond)->UseRealTime();

/// Bytes of a line of /proc/self/status, such as "VmHWM:".
double status_bytes(const std::string& name) {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;)
        if (word == name) {
            double kilobytes = 0.0;
            status >> kilobytes;
            return 1024.0 * kilobytes;
        }
    return 0.0;
}

/// Processor time of all threads of this process so far.
double cpu_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

void cleaning(benchmark::State& state) {
    const auto records = static_cast<std::size_t>(state.range(0));
    const Standardised& input = season_with(records);
    const Season season = test::plain_season();
    ::malloc_trim(0);                              // what earlier runs freed goes back first
    std::ofstream("/proc/self/clear_refs") << "5"; // the peak counts from here
    const double before = status_bytes("VmRSS:");
    double seconds = 0.0;
    const double cpu_before = cpu_s();
    for (auto _ : state) {
        const auto start = std::chrono::steady_clock::now();
        const Cleaned cleaned = clean(season, input, CleanOptions{});
        benchmark::DoNotOptimize(cleaned.fields.data());
        seconds += std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
    state.counters["cpu_s"] = (cpu_s() - cpu_before) / static_cast<double>(state.iterations());
    state.counters["bytes_per_record"] = (status_bytes("VmHWM:") - before) / static_cast<double>(records);
    if (records == all_records && read_s > 0.0)
        state.counters["ratio"] = seconds / static_cast<double>(state.iterations()) / read_s;
}
BENCHMARK(cleaning)->Arg(250000)->Arg(500000)->Arg(1000000)->Unit(benchmark::kMillisecond)->UseRealTime();

} // namespace

BENCHMARK_MAIN();
