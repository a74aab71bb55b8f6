// SPDX-License-Identifier: MIT
// Records per second per format, beside a bare GDAL loop over the same file in the same run.
//
// The bare loop does what any first program would: every feature, its point, every field as a number or a text.
#include "bare_loop.hpp"
#include "quartercut/read.hpp"
#include "read/record_source.hpp"
#include "read/records.hpp"

#include <benchmark/benchmark.h>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <fstream>
#include <gdal_priv.h>
#include <gdal_utils.h>
#include <ogrsf_frmts.h>

namespace {

namespace fs = std::filesystem;
using namespace quartercut;

constexpr std::size_t record_count = 300000;

/// The same records in every format, written once.
class Files {
public:
    static const Files& instance() {
        static const Files files;
        return files;
    }
    [[nodiscard]] fs::path path(const std::string& ending) const { return folder_ / ("records." + ending); }

private:
    Files() {
        std::string name = (fs::temp_directory_path() / "quartercut-bench-XXXXXX").string();
        if (::mkdtemp(name.data()) == nullptr) std::abort();
        folder_ = name;
        write_csv();
        GDALAllRegister();
        for (const char* ending : {"gpkg", "fgb", "shp", "geojson"})
            convert(ending);
    }
    ~Files() {
        std::error_code ignored;
        fs::remove_all(folder_, ignored);
    }
    void write_csv() const {
        std::ofstream out(path("csv"));
        out << "longitude,latitude,flow_kg_s,moisture_pct,speed_m_s,distance_m,duration_s,width_m,heading_deg,unix,"
               "machine\n";
        for (std::size_t i = 0; i < record_count; ++i) {
            const double n = static_cast<double>(i);
            out << fmt::format("{:.8f},{:.8f},{:.4f},{:.2f},2.01,2.01,1,10.668,{:.1f},{},red\n", -112.0 + 1e-7 * n,
                               52.0 + 1e-8 * n, 5.0 + std::sin(n), 10.0 + std::cos(n), std::fmod(n, 360.0),
                               1757000000 + i);
        }
    }
    void convert(const std::string& ending) const {
        const char* options[] = {"-a_srs", "EPSG:4326", nullptr}; // NOLINT
        const char* open[] = {"X_POSSIBLE_NAMES=longitude", "Y_POSSIBLE_NAMES=latitude", "AUTODETECT_TYPE=YES",
                              nullptr}; // NOLINT
        GDALDatasetH source = GDALOpenEx(path("csv").c_str(), GDAL_OF_VECTOR, nullptr, open, nullptr);
        GDALVectorTranslateOptions* how = GDALVectorTranslateOptionsNew(const_cast<char**>(options), nullptr); // NOLINT
        GDALClose(GDALVectorTranslate(path(ending).c_str(), nullptr, 1, &source, how, nullptr));
        GDALVectorTranslateOptionsFree(how);
        GDALClose(source);
    }
    fs::path folder_;
};

void bare_gdal(benchmark::State& state, const std::string& ending) {
    const fs::path path = Files::instance().path(ending);
    const char* csv_options[] = {"X_POSSIBLE_NAMES=longitude", "Y_POSSIBLE_NAMES=latitude", "AUTODETECT_TYPE=YES",
                                 nullptr}; // NOLINT
    for (auto _ : state) {
        GDALDatasetUniquePtr dataset(
            GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR, nullptr, ending == "csv" ? csv_options : nullptr));
        double sum = bare_loop(*dataset);
        benchmark::DoNotOptimize(sum);
    }
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(record_count));
}

void quartercut_read(benchmark::State& state, const std::string& ending) {
    const fs::path path = Files::instance().path(ending);
    const Season season =
        parse_season("year = 2025\ncrop = \"canola\"\nbaseline = \"a\"\ntitle = \"t\"\n[fields]\nfile = \"f\"\n"
                     "name = \"n\"\n[points]\nfiles = [\"p\"]\n[methods]\nfile = \"m\"\ncolumn = \"c\"\n"
                     "[[method]]\nname = \"a\"\n[[method]]\nname = \"b\"\n",
                     "season.toml");
    for (auto _ : state) {
        Raw raw;
        reading::Context context{season, raw};
        const auto source = reading::open_records({path.filename().string(), path}, "");
        const auto read = reading::records_of(context, *source, {});
        benchmark::DoNotOptimize(read.records.lon_deg.data());
    }
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(record_count));
}

#define BOTH(format)                                                                                                   \
    BENCHMARK_CAPTURE(bare_gdal, format, #format)->Unit(benchmark::kMillisecond);                                      \
    BENCHMARK_CAPTURE(quartercut_read, format, #format)->Unit(benchmark::kMillisecond)
BOTH(gpkg);
BOTH(fgb);
BOTH(shp);
BOTH(csv);
BOTH(geojson);
#undef BOTH

} // namespace

BENCHMARK_MAIN();
