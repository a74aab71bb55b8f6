// SPDX-License-Identifier: MIT
// The map files, read back by GDAL and checked against the standards they follow.
#include "../support/sample_results.hpp"
#include "files.hpp"
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"

#include <gdal_priv.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <ogrsf_frmts.h>

#include <cmath>
#include <map>
#include <set>

namespace quartercut {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

/// All formats of the sample season, written once.
const fs::path& sample_folder() {
    static const fs::path folder = [] {
        const fs::path made = fresh_folder();
        write_layers(sample::results(), made, {Format::geopackage, Format::geojson, Format::kml, Format::geotiff});
        fs::create_directories(made / "asked");
        write_layers(sample::results(), made / "asked", {Format::flatgeobuf, Format::shapefile});
        return made;
    }();
    return folder;
}

/// Messages GDAL gave while a file was read.
std::vector<std::string>& gdal_messages() {
    static std::vector<std::string> messages;
    return messages;
}

void CPL_STDCALL keep_message(CPLErr, CPLErrorNum, const char* text) { gdal_messages().emplace_back(text); }

GDALDatasetUniquePtr open(const fs::path& file) {
    GDALAllRegister();
    CPLSetErrorHandler(keep_message);
    return GDALDatasetUniquePtr(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_RASTER));
}

/// First column of the answer of an SQL statement.
std::vector<std::string> ask(GDALDataset& dataset, const std::string& sql) {
    std::vector<std::string> out;
    OGRLayer* answer = dataset.ExecuteSQL(sql.c_str(), nullptr, nullptr);
    if (answer == nullptr) return out;
    for (auto& feature : *answer)
        out.emplace_back(feature->GetFieldAsString(0));
    dataset.ReleaseResultSet(answer);
    return out;
}

std::size_t removed_records() {
    std::size_t n = 0;
    const Results results = sample::results();
    for (const CleanedField& field : results.cleaned.fields) {
        for (const Removal removal : field.removal)
            n += removal == Removal::kept ? 0 : 1;
    }
    return n;
}

std::size_t all_segments() {
    std::size_t n = 0;
    for (const ZonedField& field : sample::results().zoned)
        n += field.segments.size();
    return n;
}

TEST(ZonesGeoPackage, HoldsTheFourLayersInFull) {
    auto in = open(sample_folder() / "zones.gpkg");
    ASSERT_NE(in, nullptr);
    const std::map<std::string, std::size_t> expected{
        {"fields", 3}, {"zones", 8 + 3 + 1}, {"segments", all_segments()}, {"removed", removed_records()}};
    for (const auto& [name, rows] : expected) {
        OGRLayer* layer = in->GetLayerByName(name.c_str());
        ASSERT_NE(layer, nullptr) << name;
        EXPECT_EQ(layer->GetFeatureCount(), static_cast<GIntBig>(rows)) << name;
        EXPECT_STREQ(layer->GetGeometryColumn(), "geom");
        EXPECT_STREQ(layer->GetSpatialRef()->GetAuthorityCode(nullptr), "4326");
        EXPECT_TRUE(layer->TestCapability(OLCFastSpatialFilter)) << name << " has no spatial index";
    }
}

TEST(ZonesGeoPackage, GivesZonesTheirNumbersWithUnits) {
    auto in = open(sample_folder() / "zones.gpkg");
    OGRLayer* zones = in->GetLayerByName("zones");
    zones->SetAttributeFilter("zone_id = 'Home quarter/swathed/1'");
    OGRFeatureUniquePtr zone(zones->GetNextFeature());
    ASSERT_NE(zone, nullptr);
    const Zone source = sample::results().zoned[0].zones[0];
    EXPECT_DOUBLE_EQ(zone->GetFieldAsDouble("area_ha"), 2.0); // 50 m x 400 m
    EXPECT_DOUBLE_EQ(zone->GetFieldAsDouble("yield_t_ha"), source.yield_t_ha());
    EXPECT_NEAR(zone->GetFieldAsDouble("harvested_share_pct"), 100.0 * 1.88 / 2.0, 1e-9);
    EXPECT_EQ(zone->GetFieldAsInteger("records"), 188);
    // 1757000000 s after 1970-01-01 is 2025-09-04 15:33:20 UTC (date -u -d @1757000000); the first record used is 5 s later
    EXPECT_STREQ(zone->GetFieldAsString("first_time"), "2025-09-04T15:33:25Z");
    EXPECT_THAT(zone->GetFieldAsString("label"), HasSubstr("Swathed, then picked up\n"));
    EXPECT_THAT(zone->GetFieldAsString("label"), HasSubstr(" bu/ac"));
}

TEST(ZonesGeoPackage, DrawsZonesWhoseAreasAddUpToTheField) {
    auto in = open(sample_folder() / "zones.gpkg");
    const auto area_of = [&](const char* layer_name, const std::string& filter) {
        OGRLayer* layer = in->GetLayerByName(layer_name);
        layer->SetAttributeFilter(filter.c_str());
        double sum = 0.0;
        for (auto& feature : *layer)
            sum += feature->GetGeometryRef()->toMultiPolygon()->get_Area();
        return sum;
    };
    for (const char* name : {sample::strips_field, sample::split_field, sample::whole_field}) {
        const std::string filter = std::string("field = '") + name + "'";
        const double field_deg2 = area_of("fields", filter);
        EXPECT_GT(field_deg2, 0.0);
        // straight in metres is not quite straight in degrees where only one side has the vertex: 1e-6 covers it
        EXPECT_NEAR(area_of("zones", filter) / field_deg2, 1.0, 1e-6) << name;
    }
}

TEST(ZonesGeoPackage, CarriesStylesThatAViewerLoadsByItself) {
    auto in = open(sample_folder() / "zones.gpkg");
    const auto defaults = ask(*in, "SELECT f_table_name FROM layer_styles WHERE useAsDefault = 1 ORDER BY 1");
    EXPECT_THAT(defaults, testing::ElementsAre("fields", "removed", "segments", "zones"));
    // a wrong geometry column and the style is ignored (tried with the viewer, tests/write/check_in_viewer.py)
    EXPECT_TRUE(ask(*in,
                    "SELECT 1 FROM layer_styles s LEFT JOIN gpkg_geometry_columns g ON s.f_table_name = g.table_name "
                    "AND s.f_geometry_column = g.column_name WHERE g.table_name IS NULL")
                    .empty());
    const auto zones = ask(*in, "SELECT styleQML FROM layer_styles WHERE f_table_name='zones' AND useAsDefault=1");
    EXPECT_THAT(zones[0], HasSubstr("type=\"categorizedSymbol\" attr=\"method\""));
    EXPECT_THAT(zones[0], HasSubstr("value=\"standing\" label=\"Cut standing\""));
    EXPECT_THAT(zones[0], HasSubstr("name=\"Yield (t/ha)\""));
    const auto segments = ask(*in, "SELECT styleQML FROM layer_styles WHERE f_table_name='segments'");
    EXPECT_THAT(segments[0], HasSubstr("graduatedSymbol"));
    EXPECT_THAT(segments[0], HasSubstr("(fifth 5 of 5 by count)"));
    for (const std::string& xml :
         ask(*in, "SELECT styleQML FROM layer_styles UNION ALL SELECT styleSLD FROM layer_styles")) {
        CPLXMLNode* tree = CPLParseXMLString(xml.c_str());
        EXPECT_NE(tree, nullptr) << xml;
        CPLDestroyXMLNode(tree);
    }
}

TEST(ZonesGeoPackage, TellsTitlesOfColumnsInTheStandardTable) {
    auto in = open(sample_folder() / "zones.gpkg");
    EXPECT_THAT(ask(*in, "SELECT title FROM gpkg_data_columns WHERE table_name='zones' AND column_name='mass_t'"),
                testing::ElementsAre("Mass (t)"));
    EXPECT_EQ(ask(*in, "SELECT 1 FROM gpkg_extensions WHERE extension_name='gpkg_schema'").size(), 2U);
    EXPECT_STREQ(in->GetMetadataItem("TITLE"), "Invented farm, canola");
    EXPECT_THAT(ask(*in, "PRAGMA integrity_check"), testing::ElementsAre("ok"));
    EXPECT_TRUE(ask(*in, "PRAGMA foreign_key_check").empty());
}

TEST(MapFiles, AreTheSameBytesTwice) {
    const fs::path again = fresh_folder();
    write_layers(sample::results(), again, {Format::geopackage, Format::geojson, Format::kml, Format::geotiff});
    std::size_t files = 0;
    for (const auto& entry : fs::directory_iterator(again)) {
        EXPECT_EQ(text_of(entry.path()), text_of(sample_folder() / entry.path().filename())) << entry.path().filename();
        ++files;
    }
    EXPECT_EQ(files, 8U); // gpkg, geojson, kml, tif and the side-cars of geojson and tif (two names)
}

TEST(MapFiles, OpenWithoutAWordFromGdal) {
    for (const char* name :
         {"zones.gpkg", "zones.geojson", "zones.kml", "yield.tif", "asked/zones.fgb", "asked/zones.shp"}) {
        gdal_messages().clear();
        auto in = open(sample_folder() / name);
        ASSERT_NE(in, nullptr) << name;
        for (int l = 0; l < in->GetLayerCount(); ++l) {
            for (auto& feature : *in->GetLayer(l))
                EXPECT_NE(feature->GetFID(), OGRNullFID);
        }
        EXPECT_THAT(gdal_messages(), testing::IsEmpty()) << name;
    }
}

// ---- RFC 7946 ----------------------------------------------------------------------------------------------------

double ring_area(const json& ring) {
    double twice = 0.0;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
        const double x0 = ring[0][0], y0 = ring[0][1];
        twice += (ring[i][0].get<double>() - x0) * (ring[i + 1][1].get<double>() - y0) -
                 (ring[i + 1][0].get<double>() - x0) * (ring[i][1].get<double>() - y0);
    }
    return 0.5 * twice;
}

void expect_rfc7946_polygon(const json& polygon) {
    for (std::size_t r = 0; r < polygon.size(); ++r) {
        ASSERT_GE(polygon[r].size(), 4U);                 // section 3.1.6: four or more positions
        EXPECT_EQ(polygon[r].front(), polygon[r].back()); // closed
        EXPECT_EQ(ring_area(polygon[r]) > 0.0, r == 0);   // right-hand rule: shells counter-clockwise, holes clockwise
        for (const json& position : polygon[r]) {
            EXPECT_EQ(position.size(), 2U);
            EXPECT_LE(std::abs(position[0].get<double>()), 180.0); // section 4: longitude, latitude
            EXPECT_LE(std::abs(position[1].get<double>()), 90.0);
            EXPECT_NEAR(position[1].get<double>(), 52.5, 0.01); // where the sample lies
        }
    }
}

/// Polygons of a Polygon or MultiPolygon.
json polygons_of(const json& geometry) {
    if (geometry["type"] == "Polygon") return json::array({geometry["coordinates"]});
    EXPECT_EQ(geometry["type"], "MultiPolygon");
    return geometry["coordinates"];
}

TEST(ZonesGeoJson, FollowsRfc7946) {
    const json all = json::parse(text_of(sample_folder() / "zones.geojson"));
    EXPECT_EQ(all["type"], "FeatureCollection");
    EXPECT_FALSE(all.contains("crs")); // section 4 takes it out
    ASSERT_EQ(all["bbox"].size(), 4U);
    EXPECT_LT(all["bbox"][0].get<double>(), all["bbox"][2].get<double>());
    ASSERT_EQ(all["features"].size(), 12U);
    std::set<std::string> ids;
    for (const json& feature : all["features"]) {
        EXPECT_EQ(feature["type"], "Feature");
        for (const json& polygon : polygons_of(feature["geometry"]))
            expect_rfc7946_polygon(polygon);
        ids.insert(feature["properties"]["zone_id"].get<std::string>());
    }
    EXPECT_EQ(ids.size(), 12U);
    EXPECT_THAT(text_of(sample_folder() / "zones.geojson"), Not(testing::ContainsRegex("[0-9]\\.[0-9]{8}[^\"]*\\]")));
}

TEST(ZonesGeoJson, KeepsTheHoleAndTheUnknown) {
    const json all = json::parse(text_of(sample_folder() / "zones.geojson"));
    for (const json& feature : all["features"]) {
        if (feature["properties"]["zone_id"] == std::string(sample::split_field) + "/standing/1") {
            EXPECT_EQ(polygons_of(feature["geometry"])[0].size(), 2U); // shell and slough
        }
        if (feature["properties"]["reason"] == "no method area") {
            EXPECT_TRUE(feature["properties"]["method"].is_null());
            EXPECT_TRUE(feature["properties"]["yield_t_ha"].is_null());
        }
    }
}

// ---- KML ---------------------------------------------------------------------------------------------------------

TEST(ZonesKml, SharesStylesAndHoldsUntypedData) {
    const std::string text = text_of(sample_folder() / "zones.kml");
    CPLXMLNode* tree = CPLParseXMLString(text.c_str());
    ASSERT_NE(tree, nullptr);
    CPLDestroyXMLNode(tree);
    EXPECT_THAT(text, HasSubstr("http://www.opengis.net/kml/2.2"));
    EXPECT_THAT(text, HasSubstr("<Style id=\"method_1\">"));
    EXPECT_THAT(text, HasSubstr("<styleUrl>#method_1</styleUrl>"));
    EXPECT_THAT(text, HasSubstr("<color>b3009fe6</color>")); // Okabe-Ito orange E69F00 at 70 %, as aabbggrr
    EXPECT_THAT(text, HasSubstr("<Data name=\"yield_t_ha\">"));
    EXPECT_THAT(text, Not(HasSubstr("<SchemaData")));
}

TEST(ZonesKml, IsReadBackWithAllZones) {
    auto in = open(sample_folder() / "zones.kml");
    ASSERT_NE(in, nullptr);
    EXPECT_EQ(in->GetLayer(0)->GetFeatureCount(), 12);
    for (auto& feature : *in->GetLayer(0)) {
        EXPECT_STRNE(feature->GetFieldAsString("Name"), "");
        const std::string balloon = feature->GetFieldAsString("description");
        EXPECT_THAT(balloon, HasSubstr("<table><tr><td>Zone</td>"));
        EXPECT_THAT(balloon, Not(HasSubstr("<script>"))); // a balloon is HTML: names must stay text in it
    }
}

// ---- Shapefile and FlatGeobuf ------------------------------------------------------------------------------------

TEST(ZonesShapefile, MapsItsTenLetterNames) {
    auto in = open(sample_folder() / "asked/zones.shp");
    ASSERT_NE(in, nullptr);
    EXPECT_EQ(in->GetLayer(0)->GetFeatureCount(), 12);
    const std::string map = text_of(sample_folder() / "asked/zones_fields.csv");
    const OGRFeatureDefn* columns = in->GetLayer(0)->GetLayerDefn();
    for (int c = 0; c < columns->GetFieldCount(); ++c) {
        EXPECT_THAT(map, HasSubstr(std::string("\n") + columns->GetFieldDefn(c)->GetNameRef() + ",")) << c;
    }
    EXPECT_THAT(map, HasSubstr("harv_pct,harvested_share_pct,Harvested of mapped (%)"));
    EXPECT_TRUE(fs::exists(sample_folder() / "asked/zones.cpg"));
    OGRFeatureUniquePtr first(in->GetLayer(0)->GetNextFeature());
    EXPECT_STREQ(first->GetFieldAsString("first_time"),
                 "2025-09-04T15:33:25Z"); // text: the format's dates hold no time
}

TEST(ZonesFlatGeobuf, HoldsAllZones) {
    auto in = open(sample_folder() / "asked/zones.fgb");
    ASSERT_NE(in, nullptr);
    EXPECT_EQ(in->GetLayer(0)->GetFeatureCount(), 12);
    EXPECT_TRUE(fs::exists(sample_folder() / "asked/zones.qml"));
}

// ---- yield.tif ---------------------------------------------------------------------------------------------------

TEST(YieldRaster, IsACloudOptimizedGeoTiff) {
    auto in = open(sample_folder() / "yield.tif");
    ASSERT_NE(in, nullptr);
    EXPECT_STREQ(in->GetMetadataItem("LAYOUT", "IMAGE_STRUCTURE"), "COG");
    EXPECT_STREQ(in->GetMetadataItem("COMPRESSION", "IMAGE_STRUCTURE"), "DEFLATE");
    EXPECT_STREQ(in->GetSpatialRef()->GetAuthorityCode(nullptr), "32612"); // 112.5 degrees west is UTM zone 12 north
    ASSERT_EQ(in->GetRasterCount(), 2);
    // three fields of 400 m, 0.01 degrees (680 m at 52.5 degrees north) apart, cells of 5 m, and a cell at each side
    EXPECT_NEAR(in->GetRasterXSize(), (2.0 * 680.0 + 400.0) / 5.0, 6.0);
    EXPECT_NEAR(in->GetRasterYSize(), 400.0 / 5.0, 10.0);
    GDALRasterBand* band = in->GetRasterBand(1);
    int tile_width = 0, tile_height = 0;
    band->GetBlockSize(&tile_width, &tile_height);
    EXPECT_EQ(tile_width, 256);
    EXPECT_EQ(tile_height, 256);
    EXPECT_GE(band->GetOverviewCount(), 1);
    EXPECT_STREQ(band->GetUnitType(), "t/ha");
    EXPECT_STREQ(band->GetDescription(), "yield_t_ha");
    int has_no_data = 0;
    EXPECT_EQ(band->GetNoDataValue(&has_no_data), -9999.0);
    EXPECT_EQ(has_no_data, 1);
    EXPECT_NE(band->GetMetadataItem("STATISTICS_MEAN"), nullptr);
}

/// Value of a band at a place of a field's frame.
double raster_at(GDALDataset& raster, int band, const Frame& frame, Point p_m) {
    OGRSpatialReference degrees;
    degrees.importFromEPSG(4326);
    degrees.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    const std::unique_ptr<OGRCoordinateTransformation> to_grid(
        OGRCreateCoordinateTransformation(&degrees, raster.GetSpatialRef()));
    Point p = frame.to_degrees(p_m);
    to_grid->Transform(1, &p.x, &p.y);
    double g[6];
    raster.GetGeoTransform(g);
    float value = 0.0F;
    const auto column = static_cast<int>((p.x - g[0]) / g[1]), row = static_cast<int>((p.y - g[3]) / g[5]);
    EXPECT_EQ(
        raster.GetRasterBand(band)->RasterIO(GF_Read, column, row, 1, 1, &value, 1, 1, GDT_Float32, 0, 0, nullptr),
        CE_None);
    return static_cast<double>(value);
}

TEST(YieldRaster, FollowsTheLandAndKeepsTheStepBetweenMethods) {
    auto in = open(sample_folder() / "yield.tif");
    const Results results = sample::results();
    const Frame& frame = results.standardised.fields[0].frame;
    // the sample's yield is a smooth wave plus 0.09 where cut standing; 0.05 covers a cell's and a segment's size
    for (const double x : {-175.0, -125.0, 25.0, 75.0}) {
        const int method = static_cast<int>(std::floor((x + 200.0) / 50.0)) % 2;
        EXPECT_NEAR(raster_at(*in, 1, frame, {x, 10.0}), sample::yield_at(method, x, 10.0), 0.05) << x;
        const double se = raster_at(*in, 2, frame, {x, 10.0});
        EXPECT_GT(se, 0.0);
        EXPECT_LT(se, 0.2);
    }
    // 6 m either side of the border at x = 0 (standing west of it, swathed east)
    EXPECT_GT(raster_at(*in, 1, frame, {-6.0, 10.0}) - raster_at(*in, 1, frame, {6.0, 10.0}), 0.03);
}

TEST(YieldRaster, HasNoValueInTheSloughAndOutside) {
    auto in = open(sample_folder() / "yield.tif");
    const Frame frame = sample::results().standardised.fields[1].frame;
    EXPECT_EQ(raster_at(*in, 1, frame, {110.0, 60.0}), -9999.0); // the slough
    EXPECT_EQ(raster_at(*in, 1, frame, {0.0, -190.0}), -9999.0); // headland in no method
    EXPECT_GT(raster_at(*in, 1, frame, {-100.0, 0.0}), 2.0);
}

// ---- odd seasons -------------------------------------------------------------------------------------------------

TEST(WriteLayers, LeavesOutDegreesForLocalMetresAndSaysSo) {
    Results results = sample::results();
    for (StandardField& field : results.standardised.fields)
        field.frame = Frame();
    const fs::path folder = fresh_folder();
    write_layers(results, folder, {Format::geopackage, Format::geojson, Format::kml, Format::geotiff});
    EXPECT_FALSE(fs::exists(folder / "zones.geojson"));
    EXPECT_FALSE(fs::exists(folder / "zones.kml"));
    EXPECT_TRUE(fs::exists(folder / "yield.tif"));
    EXPECT_EQ(json::parse(inputs_json(results))["not_written"].size(), 2U);
    auto in = open(folder / "zones.gpkg");
    const OGRSpatialReference* crs = in->GetLayerByName("zones")->GetSpatialRef();
    EXPECT_TRUE(crs == nullptr || crs->IsLocal() != 0 || crs->GetAuthorityCode(nullptr) == nullptr);
}

TEST(WriteLayers, WritesASeasonWithNothingUsed) {
    Results results = sample::results();
    for (ZonedField& field : results.zoned)
        field.segments.clear();
    const fs::path folder = fresh_folder();
    write_layers(results, folder, {Format::geopackage, Format::geojson, Format::kml, Format::geotiff});
    auto in = open(folder / "zones.gpkg");
    EXPECT_EQ(in->GetLayerByName("segments")->GetFeatureCount(), 0);
    EXPECT_NE(open(folder / "yield.tif"), nullptr);
}

TEST(WriteLayers, ThrowsWhereTheFolderIsMissing) {
    for (const Format format :
         {Format::geopackage, Format::geojson, Format::kml, Format::geotiff, Format::flatgeobuf, Format::shapefile}) {
        EXPECT_THROW(write_layers(sample::results(), fresh_folder() / "none", {format}), WriteError);
    }
}

} // namespace
} // namespace quartercut
