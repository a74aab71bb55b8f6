// SPDX-License-Identifier: MIT
// write_layer: the plain tables of the demo, read back by GDAL.
#include "files.hpp"
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"

#include <gdal_priv.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <ogrsf_frmts.h>

#include <cmath>
#include <limits>

namespace quartercut {
namespace {

namespace fs = std::filesystem;

Layer two_points() {
    Layer layer;
    layer.name = "points";
    layer.points_deg = {{-112.5, 52.25}, {-112.4, 52.125}};
    layer.columns.push_back({"combine", {"red, \"big\"", "=2+3"}, {}});
    layer.columns.push_back({"flow_kg_s", {}, {4.5, std::numeric_limits<double>::quiet_NaN()}});
    return layer;
}

TEST(WriteLayer, WritesPointsAsCsvByRfc4180) {
    const fs::path file = fresh_folder() / "points.csv";
    write_layer(two_points(), file);
    EXPECT_EQ(text_of(file), "lon_deg,lat_deg,combine,flow_kg_s\n"
                             "-112.50000000,52.25000000,\"red, \"\"big\"\"\",4.5\n"
                             "-112.40000000,52.12500000,=2+3,\n");
}

TEST(WriteLayer, AddsASecondLayerToAGeoPackage) {
    const fs::path file = fresh_folder() / "season.gpkg";
    write_layer(two_points(), file);
    Layer fields;
    fields.name = "boundaries";
    fields.shapes_deg = {{Polygon{{{-112.5, 52.0}, {-112.4, 52.0}, {-112.4, 52.1}, {-112.5, 52.1}}, {}}}};
    fields.columns.push_back({"name", {"NE 16"}, {}});
    write_layer(fields, file);

    GDALAllRegister();
    GDALDatasetUniquePtr in(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
    ASSERT_NE(in, nullptr);
    ASSERT_EQ(in->GetLayerCount(), 2);
    OGRLayer* points = in->GetLayerByName("points");
    ASSERT_NE(points, nullptr);
    EXPECT_EQ(points->GetFeatureCount(), 2);
    OGRFeatureUniquePtr first(points->GetNextFeature());
    OGRFeatureUniquePtr second(points->GetNextFeature());
    EXPECT_DOUBLE_EQ(first->GetGeometryRef()->toPoint()->getX(), -112.5);
    EXPECT_DOUBLE_EQ(first->GetFieldAsDouble("flow_kg_s"), 4.5);
    EXPECT_TRUE(second->IsFieldNull(second->GetFieldIndex("flow_kg_s")));
    EXPECT_STREQ(second->GetFieldAsString("combine"), "=2+3");
    OGRFeatureUniquePtr field(in->GetLayerByName("boundaries")->GetNextFeature());
    EXPECT_NEAR(field->GetGeometryRef()->toMultiPolygon()->get_Area(), 0.1 * 0.1, 1e-12);
}

TEST(WriteLayer, WritesTheSameBytesTwice) {
    const fs::path folder = fresh_folder();
    for (const char* ending : {".gpkg", ".geojson", ".csv"}) {
        const fs::path a = folder / (std::string("a") + ending), b = folder / (std::string("b") + ending);
        write_layer(two_points(), a);
        write_layer(two_points(), b);
        EXPECT_EQ(text_of(a), text_of(b)) << ending;
    }
}

TEST(WriteLayer, RefusesAnUnknownEndingAndAMissingFolder) {
    EXPECT_THROW(write_layer(two_points(), fresh_folder() / "points.xls"), WriteError);
    for (const char* name : {"none/points.gpkg", "none/points.geojson", "none/points.csv"}) {
        EXPECT_THROW(write_layer(two_points(), fresh_folder() / name), WriteError) << name;
    }
}

} // namespace
} // namespace quartercut
