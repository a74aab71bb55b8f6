// SPDX-License-Identifier: MIT
// The zones as a table: areas on the plane against PROJ's geodesic areas (tests/standardise checks those against
// GeographicLib), and the maps of zones nobody compared.
#include "files.hpp"

#include "quartercut/write.hpp"

#include "../support/sample_results.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>

namespace quartercut {
namespace {

using nlohmann::json;

TEST(ZonesTable, HasOneRowAZone) {
    const Results results = sample::results();
    std::size_t zones = 0;
    for (const ZonedField& field : results.zoned)
        zones += field.zones.size();
    const std::string text = zones_csv(results);
    EXPECT_EQ(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')), zones + 1);
    EXPECT_EQ(text.substr(0, 27), "zone_id,field,method,reason");
}

/// The plane of a field's frame is worth its name: a ten-thousandth is what is asked for, a millionth is kept.
TEST(ZonesTable, MeasuresPlaneAndEllipsoidAlike) {
    const json all = json::parse(zones_json(sample::results()));
    EXPECT_EQ(all["schema"], "quartercut.zones/1");
    std::size_t measured = 0;
    for (const json& field : all["fields"])
        for (const json& zone : field["zones"]) {
            EXPECT_NEAR(zone["plane_ha"].get<double>() / zone["ellipsoid_ha"].get<double>(), 1.0, 1e-6) << zone["id"];
            EXPECT_GE(zone["harvested_ha"].get<double>(), 0.0);
            ++measured;
        }
    EXPECT_GT(measured, 5U);
}

TEST(ZonesTable, SaysWhyLandIsInNoMethod) {
    const json all = json::parse(zones_json(sample::results()));
    for (const json& field : all["fields"])
        for (const json& zone : field["zones"])
            EXPECT_EQ(zone["method"].is_null(), zone["reason"] == "no method area") << zone["id"];
}

TEST(ZonesNotCompared, ComeWithoutSegmentsAndYieldSurface) {
    Results results = sample::results();
    results.comparison = Comparison{};
    const std::filesystem::path folder = fresh_folder();
    write_layers(results, folder,
                 {Format::geopackage, Format::geojson, Format::kml, Format::geotiff, Format::shapefile});
    EXPECT_FALSE(std::filesystem::exists(folder / "yield.tif"));
    EXPECT_TRUE(std::filesystem::exists(folder / "zones.shp"));
    const std::string package = text_of(folder / "zones.gpkg");
    EXPECT_EQ(package.find("rtree_segments"), std::string::npos);
    EXPECT_NE(package.find("rtree_zones"), std::string::npos);
}

TEST(Formats, AreNamedByTheirEndings) {
    EXPECT_EQ(format_from("gpkg"), Format::geopackage);
    EXPECT_EQ(format_from("tif"), Format::geotiff);
    EXPECT_EQ(format_from("shp"), Format::shapefile);
    EXPECT_FALSE(format_from("gif").has_value());
    EXPECT_EQ(map_file(Format::flatgeobuf), "zones.fgb");
}

} // namespace
} // namespace quartercut
