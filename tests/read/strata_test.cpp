// SPDX-License-Identifier: MIT
// Strata from rasters and layers of numbers. The rasters are written here cell by cell (ASCII grid, Esri's published
// format, read by GDAL), so every class and its land can be counted by hand.
#include "season_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fmt/format.h>
#include <gdal_priv.h>

namespace quartercut::read_test {
namespace {

using testing::HasSubstr;

/// Ten by ten cells of 0.001 degrees over the field "Home"; rows from north to south.
template <class Value>
std::string grid(const Value& value) {
    std::string text = "ncols 10\nnrows 10\nxllcorner -112\nyllcorner 52\ncellsize 0.001\nNODATA_value -9999\n";
    for (int row = 0; row < 10; ++row) {
        for (int column = 0; column < 10; ++column)
            text += fmt::format("{} ", value(row, column));
        text += "\n";
    }
    return text;
}

std::string raster_table(const std::string& lines) {
    return "[strata]\nkind = \"raster\"\nfile = \"soil.asc\"\ncrs = \"EPSG:4326\"\n" + lines;
}

/// Share of the field's land under each name, in hundredths: one cell is one.
std::map<std::string, double> land_of(const Raw& raw) {
    std::map<std::string, double> land;
    for (const RawArea& area : raw.strata)
        land[area.name] += planar_area(area.shape_deg) / 1e-6;
    return land;
}

TEST(RasterStrata, OfFewValuesAreOneClassEach) {
    SeasonFolder folder;
    folder.write("soil.asc", grid([](int row, int column) { return row == 9 ? -9999 : column < 3 ? 7 : 12; }));
    folder.more = raster_table("");
    const auto land = land_of(folder.read());
    ASSERT_EQ(land.size(), 2U);
    EXPECT_NEAR(land.at("7"), 27.0, 1e-6);
    EXPECT_NEAR(land.at("12"), 63.0, 1e-6); // nine rows: the last has no value and no stratum
}

TEST(RasterStrata, OfManyValuesArePutIntoClassesOfEqualCount) {
    SeasonFolder folder;
    folder.write("soil.asc", grid([](int row, int column) { return 0.5 * (10 * row + column); })); // 0, 0.5 .. 49.5
    folder.more = raster_table("classes = 4\n");
    const auto land = land_of(folder.read());
    ASSERT_EQ(land.size(), 4U);
    for (const auto& [name, cells] : land)
        EXPECT_NEAR(cells, 25.0, 1e-6) << name;
    EXPECT_EQ(land.begin()->first, "class 1 of 4 (0 to 12.5)");
}

TEST(RasterStrata, AreRefusedWhereNobodyCouldTellTheClasses) {
    SeasonFolder folder;
    folder.write("soil.asc", grid([](int row, int column) { return 10 * row + column; }));
    folder.more = raster_table("");
    EXPECT_THAT(folder.refusal(), HasSubstr("100 different numbers"));
    EXPECT_THAT(folder.refusal(), HasSubstr("classes = 4"));
    folder.more = "[strata]\nkind = \"raster\"\nfile = \"soil.asc\"\n";
    EXPECT_THAT(folder.refusal(), HasSubstr("soil.asc")); // no coordinate system is ever assumed
    folder.more = raster_table("band = 3\nclasses = 2\n");
    EXPECT_THAT(folder.refusal(), HasSubstr("no band 3"));
    folder.write("soil.asc", grid([](int, int) { return -9999; }));
    folder.more = raster_table("classes = 2\n");
    EXPECT_THAT(folder.refusal(), HasSubstr("no cell with a number"));
    folder.write("soil.asc", "not a raster at all");
    EXPECT_THAT(folder.refusal(), HasSubstr("no raster that can be read"));
}

TEST(RasterStrata, OfThisHarvestAreRefused) {
    SeasonFolder folder;
    folder.write("soil.asc", grid([](int, int column) { return column; }));
    GDALAllRegister();
    {
        const std::unique_ptr<GDALDataset> from(GDALDataset::Open(folder.path("soil.asc").c_str()));
        const std::unique_ptr<GDALDataset> to(GetGDALDriverManager()->GetDriverByName("GTiff")->CreateCopy(
            folder.path("surface.tif").c_str(), from.get(), FALSE, nullptr, nullptr, nullptr));
        to->SetMetadataItem("HARVEST_YEAR", "2025"); // as our own yield.tif says it
    }
    folder.more = "[strata]\nkind = \"raster\"\nfile = \"surface.tif\"\ncrs = \"EPSG:4326\"\nclasses = 3\n";
    EXPECT_THAT(folder.refusal(), HasSubstr("this is the yield of 2025"));
}

std::string fuzzy_table(const std::string& layers) {
    return "[strata]\nkind = \"fuzzy-classes\"\nlayers = [" + layers + "]\n";
}

TEST(ClassLayers, ComeFromRastersAndFromPoints) {
    SeasonFolder folder;
    folder.write("relief.asc", grid([](int row, int) { return 700 + row; }));
    folder.write("survey.csv", "longitude,latitude,ec\n-111.999,52.001,11.5\n-111.991,52.009,\n-111.995,52.005,40\n");
    folder.more =
        fuzzy_table("{ file = \"relief.asc\", crs = \"EPSG:4326\" }, { file = \"survey.csv\", column = \"ec\" }");
    const Raw raw = folder.read();
    ASSERT_EQ(raw.numbers.size(), 2U);
    ASSERT_EQ(raw.numbers[0].values.size(), 100U);
    EXPECT_EQ(raw.numbers[0].values[0], 700.0);
    EXPECT_NEAR(raw.numbers[0].lon_deg[0], -111.9995, 1e-9); // the middle of the north-western cell
    EXPECT_NEAR(raw.numbers[0].lat_deg[0], 52.0095, 1e-9);
    ASSERT_EQ(raw.numbers[1].values.size(), 3U);
    EXPECT_EQ(raw.numbers[1].values[2], 40.0);
    EXPECT_EQ(raw.numbers[1].lon_deg[2], -111.995);
}

TEST(ClassLayers, AreNeverTheHarvestBeingCompared) {
    SeasonFolder folder;
    std::filesystem::copy(folder.path("yield.csv"), folder.path("last_year.csv"));
    folder.more = fuzzy_table("{ file = \"last_year.csv\", column = \"moisture_pct\" }");
    EXPECT_THAT(folder.refusal(),
                testing::AllOf(HasSubstr("last_year.csv"), HasSubstr("is the record file yield.csv")));
}

} // namespace
} // namespace quartercut::read_test
