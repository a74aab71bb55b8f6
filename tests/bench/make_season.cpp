// SPDX-License-Identifier: MIT
// A season of any size for benchmarks: the invented farm, harvested with a short logging interval, set down side by side
// until there are records enough. Streams to disk; 100 million records need no more memory than one farm.
//
//   make_season RECORDS FOLDER      writes, in whole fields and so with a few records more,
//                                    FOLDER/season.toml, fields.gpkg, records.gpkg, tickets.csv
#include "quartercut/demo.hpp"

#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>
#include <fmt/os.h>
#include <ogrsf_frmts.h>
#include <stdexcept>

namespace {

namespace fs = std::filesystem;
using namespace quartercut;

constexpr double records_per_field = 30000.0;
constexpr double farm_width_deg = 0.12;

/// The farm with about as many records a field as a quarter section yields when logged every second.
DemoSeason farm() {
    DemoOptions options;
    const DemoSeason coarse = simulate_harvest(demo_farm(options), options);
    std::size_t records = 0;
    for (const DemoField& field : coarse.fields)
        records += field.records.size();
    const double mean = static_cast<double>(records) / static_cast<double>(coarse.fields.size());
    options.record_interval_s *= mean / records_per_field;
    return simulate_harvest(demo_farm(options), options);
}

class Folder {
public:
    explicit Folder(const fs::path& folder)
        : fields_(create(folder / "fields.gpkg")), points_(create(folder / "records.gpkg")),
          tickets_(fmt::output_file((folder / "tickets.csv").string())) {
        boundaries_ = layer(*fields_, "boundaries", wkbPolygon, {{"name", OFTString}});
        methods_ = layer(*fields_, "methods", wkbPolygon, {{"method", OFTString}, {"block", OFTString}});
        records_ = layer(*points_, "records", wkbPoint,
                         {{"time", OFTInteger64},
                          {"flow_kg_s", OFTReal},
                          {"moisture_pct", OFTReal},
                          {"speed_m_s", OFTReal},
                          {"dist_m", OFTReal},
                          {"dur_s", OFTReal},
                          {"width_m", OFTReal},
                          {"header_up", OFTInteger},
                          {"combine", OFTString}});
        tickets_.print("ticket,field,machine,method,start,end,net_kg,moisture_pct,dockage_pct\n");
    }

    void finish() {
        fields_->CommitTransaction();
        points_->CommitTransaction();
    }

    /// One field of the farm's copy `number`, `east_deg` further east, with its tickets. Returns its records.
    std::size_t add(const DemoSeason& season, std::size_t f, std::size_t number) {
        const DemoField& field = season.fields[f];
        const double east_deg = farm_width_deg * static_cast<double>(number);
        const std::string name = fmt::format("{} {}", field.plan.name, number + 1);
        add_shape(*boundaries_, field.boundary_deg, east_deg, {name});
        for (const DemoArea& area : field.areas)
            add_shape(*methods_, area.shape_deg, east_deg,
                      {demo_method_names.at(static_cast<std::size_t>(area.method)), area.block});
        for (const DemoTicket& t : season.tickets)
            if (static_cast<std::size_t>(t.field) == f)
                tickets_.print("{}-{},{},{},{},{:.0f},{:.0f},{:.0f},{:.1f},{:.1f}\n", t.id, number + 1, name,
                               machine(t.machine, number), demo_method_names.at(static_cast<std::size_t>(t.method)),
                               t.start_s, t.end_s, t.net_kg, t.moisture_pct, t.dockage_pct);
        for (const DemoRecord& record : field.records)
            add_record(record, east_deg, number);
        return field.records.size();
    }

private:
    static GDALDatasetUniquePtr create(const fs::path& file) {
        GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
        GDALDatasetUniquePtr dataset(driver->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
        if (!dataset) throw std::runtime_error("cannot create " + file.string());
        dataset->StartTransaction();
        return dataset;
    }
    static OGRLayer* layer(GDALDataset& dataset, const char* name, OGRwkbGeometryType kind,
                           const std::vector<std::pair<const char*, OGRFieldType>>& columns) {
        OGRSpatialReference wgs84;
        wgs84.SetWellKnownGeogCS("WGS84");
        wgs84.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
        const char* no_index[] = {"SPATIAL_INDEX=NO", nullptr};                                // NOLINT
        OGRLayer* out = dataset.CreateLayer(name, &wgs84, kind, const_cast<char**>(no_index)); // NOLINT
        for (const auto& [column, type] : columns) {
            OGRFieldDefn definition(column, type);
            out->CreateField(&definition);
        }
        return out;
    }
    static void add_shape(OGRLayer& layer, const MultiPolygon& shape, double east_deg,
                          const std::vector<std::string>& words) {
        OGRPolygon polygon;
        const auto add_ring = [&](const Ring& ring) {
            auto line = std::make_unique<OGRLinearRing>();
            for (const Point& p : ring)
                line->addPoint(p.x + east_deg, p.y);
            line->closeRings();
            polygon.addRingDirectly(line.release());
        };
        add_ring(shape.front().shell);
        for (const Ring& hole : shape.front().holes)
            add_ring(hole);
        OGRFeature feature(layer.GetLayerDefn());
        feature.SetGeometry(&polygon);
        for (std::size_t i = 0; i < words.size(); ++i)
            feature.SetField(static_cast<int>(i), words[i].c_str());
        if (layer.CreateFeature(&feature) != OGRERR_NONE) throw std::runtime_error("cannot write a polygon");
    }
    static std::string machine(int code, std::size_t number) {
        return fmt::format("{}{}", demo_machine_names.at(static_cast<std::size_t>(code)), number + 1);
    }
    void add_record(const DemoRecord& r, double east_deg, std::size_t number) {
        OGRFeature feature(records_->GetLayerDefn());
        OGRPoint place(r.lon_deg + east_deg, r.lat_deg);
        feature.SetGeometry(&place);
        int column = 0;
        feature.SetField(column++, static_cast<GIntBig>(std::llround(r.time_s)));
        for (const double value : {r.flow_kg_s, r.moisture_pct, r.speed_m_s, r.distance_m, r.duration_s, r.width_m})
            feature.SetField(column++, value);
        feature.SetField(column++, r.header_up ? 1 : 0);
        feature.SetField(column, machine(r.machine, number).c_str());
        if (records_->CreateFeature(&feature) != OGRERR_NONE) throw std::runtime_error("cannot write a record");
        if (++written_ % 1000000 == 0) {
            points_->CommitTransaction();
            points_->StartTransaction();
        }
    }

    GDALDatasetUniquePtr fields_, points_;
    fmt::ostream tickets_;
    OGRLayer *boundaries_ = nullptr, *methods_ = nullptr, *records_ = nullptr;
    std::size_t written_ = 0;
};

constexpr const char* season_text = R"(title = "Invented season for benchmarks"
year = 2025
crop = "canola"
baseline = "swathed"
units = "bu/ac"
[fields]
file = "fields.gpkg"
layer = "boundaries"
name = "name"
[points]
files = ["records.gpkg"]
[points.columns]
time     = { column = "time" }
flow     = { column = "flow_kg_s", unit = "kg/s" }
moisture = { column = "moisture_pct", unit = "%" }
speed    = { column = "speed_m_s", unit = "m/s" }
distance = { column = "dist_m", unit = "m" }
duration = { column = "dur_s", unit = "s" }
width    = { column = "width_m", unit = "m" }
header   = { column = "header_up", up = "1" }
machine  = { column = "combine" }
[methods]
file = "fields.gpkg"
layer = "methods"
column = "method"
[[method]]
name = "swathed"
cut_width = "35 ft"
[[method]]
name = "standing"
cut_width = "40 ft"
[tickets]
file = "tickets.csv"
[trial]
randomised = true
pairs = "block"
)";

void make(std::size_t records, const fs::path& folder) {
    fs::create_directories(folder);
    const DemoSeason season = farm();
    Folder files(folder);
    std::size_t written = 0, fields = 0;
    for (std::size_t number = 0; written < records; ++number)
        for (std::size_t f = 0; f < season.fields.size() && written < records; ++f, ++fields)
            written += files.add(season, f, number);
    files.finish();
    fmt::output_file((folder / "season.toml").string()).print("{}", season_text);
    fmt::print("{} records on {} fields in {}\n", written, fields, folder.string());
}

} // namespace

int main(int argc, char** argv) {
    std::size_t records = 0;
    if (argc != 3 || std::from_chars(argv[1], argv[1] + std::strlen(argv[1]), records).ec != std::errc{} ||
        records == 0) {
        std::fputs("usage: make_season RECORDS FOLDER\n", stderr);
        return 2;
    }
    GDALAllRegister();
    try {
        make(records, argv[2]);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "make_season: %s\n", error.what());
        return 1;
    }
    return 0;
}
