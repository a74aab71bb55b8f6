// SPDX-License-Identifier: MIT
// One season in every format, metric and imperial, comes out the same.
#include "season_folder.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace quartercut::read_test {
namespace {

struct FormatCase {
    std::string name;
    std::string file;                 ///< ending decides the format
    std::vector<std::string> options; ///< for GDAL
    double place_tolerance_deg = 1e-9;
};

void PrintTo(const FormatCase& format, std::ostream* out) { *out << format.name; }

class EveryFormat : public testing::TestWithParam<FormatCase> {};

Sheet sheet() { return Sheet(plain_sheet()).column("machine", Holds::machine).column("time", Holds::iso_z); }

void expect_same_records(const RawRecords& got, const RawRecords& wanted, double place_tolerance_deg) {
    ASSERT_EQ(got.size(), wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        EXPECT_NEAR(got.lon_deg[i], wanted.lon_deg[i], place_tolerance_deg);
        EXPECT_NEAR(got.lat_deg[i], wanted.lat_deg[i], place_tolerance_deg);
        EXPECT_DOUBLE_EQ(got.time_s.at(i), wanted.time_s.at(i));
    }
    for (const auto& [meaning, column] : wanted.numbers) {
        ASSERT_TRUE(got.numbers.contains(meaning)) << meaning_word(meaning);
        const NumberColumn& other = got.numbers.at(meaning);
        const auto to_si = [&](const NumberColumn& c) {
            static const std::map<Meaning, Dimension> dimensions{{Meaning::flow, Dimension::mass_flow},
                                                                 {Meaning::moisture, Dimension::moisture},
                                                                 {Meaning::distance, Dimension::length},
                                                                 {Meaning::duration, Dimension::duration},
                                                                 {Meaning::width, Dimension::length}};
            return unit_factor(dimensions.at(meaning), c.unit).value();
        };
        for (std::size_t i = 0; i < wanted.size(); ++i)
            EXPECT_NEAR(other.values[i] * to_si(other), column.values[i] * to_si(column), 1e-6 * column.values[i])
                << meaning_word(meaning);
    }
    const TextColumn &machine = got.texts.at(Meaning::machine), &wanted_machine = wanted.texts.at(Meaning::machine);
    for (std::size_t i = 0; i < wanted.size(); ++i)
        EXPECT_EQ(machine.words[static_cast<std::size_t>(machine.codes[i])],
                  wanted_machine.words[static_cast<std::size_t>(wanted_machine.codes[i])]);
}

Raw from_csv() {
    SeasonFolder folder;
    folder.write("yield.csv", sheet().csv());
    return folder.read();
}

TEST_P(EveryFormat, GivesTheSameSeason) {
    const FormatCase& format = GetParam();
    const Raw wanted = from_csv();
    SeasonFolder folder;
    folder.write("points.geojson", sheet().geojson());
    folder.convert("points.geojson", "yield-" + format.file, format.options);
    folder.convert("fields.geojson", "fields-" + format.file, format.options);
    folder.convert("methods.geojson", "methods-" + format.file, format.options);
    folder.points = "files = [\"yield-" + format.file + "\"]\n";
    folder.fields = "file = \"fields-" + format.file + "\"\nname = \"name\"\n";
    folder.methods = "file = \"methods-" + format.file + "\"\ncolumn = \"method\"\n";
    testing::internal::CaptureStderr();
    const Raw raw = folder.read();
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
    expect_same_records(raw.records.at(0), wanted.records.at(0), format.place_tolerance_deg);
    ASSERT_EQ(raw.method_areas.size(), 2U);
    EXPECT_EQ(raw.method_areas[1].name, "standing");
    EXPECT_NEAR(planar_area(raw.fields.at(0).shape_deg), 1e-4, 1e-4 * 1e-6);
}

// Projected files lose digits on the way there and back; KML writes 15 digits, GML as many.
constexpr double back_and_forth_deg = 2e-9;
INSTANTIATE_TEST_SUITE_P(
    Formats, EveryFormat,
    testing::Values(
        FormatCase{"GeoPackage", "x.gpkg", {"-nln", "layer"}},
        FormatCase{"Shapefile", "x.shp", {"-fieldTypeToString", "DateTime"}},
        FormatCase{"ShapefileInMetres",
                   "x.shp",
                   {"-fieldTypeToString", "DateTime", "-t_srs", "EPSG:32612"},
                   back_and_forth_deg},
        FormatCase{"GeoPackageInMetres", "x.gpkg", {"-t_srs", "EPSG:32612", "-nln", "layer"}, back_and_forth_deg},
        FormatCase{"ZippedShapefile", "x.shz", {"-f", "ESRI Shapefile", "-fieldTypeToString", "DateTime"}},
        FormatCase{"GeoJson", "x.geojson", {}}, FormatCase{"GeoJsonLines", "x.geojsonl", {"-f", "GeoJSONSeq"}},
        FormatCase{"FlatGeobuf", "x.fgb", {"-lco", "SPATIAL_INDEX=NO"}},
        FormatCase{
            "FlatGeobufInMetres", "x.fgb", {"-lco", "SPATIAL_INDEX=NO", "-t_srs", "EPSG:32612"}, back_and_forth_deg},
        FormatCase{"Kml", "x.kml", {"-f", "LIBKML", "-fieldTypeToString", "DateTime"}},
        FormatCase{"Kmz", "x.kmz", {"-f", "LIBKML", "-fieldTypeToString", "DateTime"}},
        FormatCase{"Gml", "x.gml", {"-f", "GML"}}),
    [](const auto& tested) { return tested.param.name; });

TEST(Imperial, GivesTheSameSeasonAsMetric) {
    SeasonFolder folder;
    folder.write("yield.csv", Sheet()
                                  .column("Longitude", Holds::lon)
                                  .column("Latitude", Holds::lat)
                                  .column("Flow (lb/s)", Holds::flow, 1.0 / 0.45359237)
                                  .column("Moisture (%)", Holds::moisture)
                                  .column("Distance (ft)", Holds::distance, 1.0 / 0.3048)
                                  .column("Duration (s)", Holds::duration)
                                  .column("Swath width (in)", Holds::width, 1.0 / 0.0254)
                                  .column("machine", Holds::machine)
                                  .column("time", Holds::iso_z)
                                  .csv());
    expect_same_records(folder.read().records.at(0), from_csv().records.at(0), 1e-12);
}

TEST(ZippedShapefile, InAFolderOfTheZipIsFound) {
    SeasonFolder folder;
    folder.convert("fields.geojson", "fields.shz", {"-f", "ESRI Shapefile"});
    std::filesystem::rename(folder.path("fields.shz"), folder.path("land.zip"));
    folder.fields = "file = \"land.zip\"\nname = \"name\"\n";
    EXPECT_EQ(folder.read().fields.at(0).name, "Home");
}

TEST(LongColumnNames, CutByShapefilesAreFoundByTheirBeginning) {
    SeasonFolder folder;
    folder.write("points.geojson", Sheet(plain_sheet()).column("Instant grain rate", Holds::flow).geojson());
    folder.convert(
        "points.geojson", "yield.shp",
        {"-sql", "SELECT \"Instant grain rate\", moisture_pct, distance_m, duration_s, width_m FROM points"});
    folder.points = "files = [\"yield.shp\"]\n";
    folder.columns = "flow = { column = \"Instant grain rate\", unit = \"kg/s\" }\n";
    EXPECT_EQ(folder.read().records.at(0).numbers.at(Meaning::flow).values.size(), 40U);
}

TEST(FlatGeobuf, WithoutTimesMayHaveLostItsOrder) {
    SeasonFolder folder;
    folder.write("points.geojson", plain_sheet().geojson());
    folder.convert("points.geojson", "yield.fgb", {});
    folder.points = "files = [\"yield.fgb\"]\n";
    const std::vector<std::string> found = codes(folder.read().issues);
    EXPECT_NE(std::find(found.begin(), found.end(), "order-unsure"), found.end());
}

/// Columns by GDAL's Arrow interface: its bits for "null" must not become zeros.
TEST(ColumnarFormats, KeepMissingValuesAndRowsWithoutAPlace) {
    const auto feature = [](const std::string& flow, const std::string& geometry) {
        return "{\"type\":\"Feature\",\"properties\":{\"flow_kg_s\":" + flow +
               ",\"moisture_pct\":12.5,\"machine\":" + (flow == "null" ? "null" : "\"red\"") +
               "},\"geometry\":" + geometry + "}";
    };
    const std::string place = "{\"type\":\"Point\",\"coordinates\":[-111.995,52.005]}";
    for (const std::string ending : {"gpkg", "fgb"}) {
        SeasonFolder folder;
        folder.write("points.geojson", "{\"type\":\"FeatureCollection\",\"features\":[" + feature("5.5", place) + "," +
                                           feature("null", place) + "," + feature("5.5", "null") + "," +
                                           feature("6.5", place) + "]}");
        folder.convert("points.geojson", "yield." + ending,
                       ending == "fgb" ? std::vector<std::string>{"-lco", "SPATIAL_INDEX=NO"}
                                       : std::vector<std::string>{});
        folder.points = "files = [\"yield." + ending + "\"]\n";
        const Raw raw = folder.read();
        const RawRecords& records = raw.records.at(0);
        // GDAL does not write rows without a place into FlatGeobuf.
        ASSERT_EQ(records.row, ending == "gpkg" ? std::vector<std::uint32_t>({1, 2, 4}) : std::vector<std::uint32_t>());
        ASSERT_EQ(records.size(), 3U) << ending;
        const std::vector<double>& flow = records.numbers.at(Meaning::flow).values;
        EXPECT_EQ(flow[0], 5.5);
        EXPECT_TRUE(std::isnan(flow[1])) << ending;
        EXPECT_EQ(flow[2], 6.5);
        EXPECT_EQ(records.texts.at(Meaning::machine).codes, (std::vector<std::int32_t>{0, -1, 0}));
    }
}

TEST(TimesInShapefiles, ThatBecameDaysAreNoTimes) {
    SeasonFolder folder;
    folder.write("points.geojson", sheet().geojson());
    folder.convert("points.geojson", "yield.shp", {}); // GDAL makes a day of a moment here
    folder.points = "files = [\"yield.shp\"]\n";
    const Raw raw = folder.read();
    EXPECT_TRUE(raw.records.at(0).time_s.empty());
    const std::vector<std::string> found = codes(raw.issues);
    EXPECT_NE(std::find(found.begin(), found.end(), "no-times"), found.end());
}

TEST(CsvWithPrj, SaysItsCoordinateSystem) {
    SeasonFolder folder;
    folder.convert("fields.geojson", "utm.shp", {"-t_srs", "EPSG:32612"});
    std::filesystem::rename(folder.path("utm.prj"), folder.path("yield.prj"));
    // 500000 m E is the central meridian of zone 12, 111 W, by definition.
    folder.write("yield.csv", "easting,northing,flow_kg_s,moisture_pct\n500000,5761040,5,12\n");
    EXPECT_NEAR(folder.read().records.at(0).lon_deg.at(0), -111.0, 1e-9);
}

} // namespace
} // namespace quartercut::read_test
