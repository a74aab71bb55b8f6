// SPDX-License-Identifier: MIT
// A first look at files nobody has described.
#include "season_folder.hpp"

#include <gmock/gmock.h>

namespace quartercut::read_test {
namespace {

using Kind = LayerSketch::Kind;

TEST(Sketch, TellsLandFromRecordsFromTickets) {
    const SeasonFolder folder;
    folder.write("tickets.csv", "ticket,net_kg,moisture_pct\n17,8000,9\n");
    folder.write("notes.csv", "who,what\nme,rain\nyou,wind\n");
    EXPECT_EQ(sketch_file(folder.path("fields.geojson")).at(0).kind, Kind::polygons);
    EXPECT_EQ(sketch_file(folder.path("yield.csv")).at(0).kind, Kind::points);
    EXPECT_EQ(sketch_file(folder.path("tickets.csv")).at(0).kind, Kind::tickets);
    EXPECT_EQ(sketch_file(folder.path("notes.csv")).at(0).kind, Kind::table);
}

TEST(Sketch, SaysWhatTheColumnsMean) {
    const SeasonFolder folder;
    const LayerSketch sketch = sketch_file(folder.path("yield.csv")).at(0);
    EXPECT_EQ(sketch.meanings.at(Meaning::flow).column, "flow_kg_s");
    EXPECT_EQ(sketch.meanings.at(Meaning::flow).unit, "kg/s");
    EXPECT_EQ(sketch.trouble, "");
}

TEST(Sketch, ListsLayersAndTheWordsInThem) {
    const SeasonFolder folder;
    folder.convert("fields.geojson", "land.gpkg", {"-nln", "boundaries"});
    folder.convert("methods.geojson", "land.gpkg", {"-nln", "methods", "-update"});
    const std::vector<LayerSketch> layers = sketch_file(folder.path("land.gpkg"));
    ASSERT_EQ(layers.size(), 2U);
    EXPECT_EQ(layers[0].layer, "boundaries");
    EXPECT_EQ(layers[1].rows, 2U);
    EXPECT_EQ(layers[1].values.at("method"), (std::vector<std::string>{"standing", "swathed"}));
    EXPECT_THAT(layers[1].crs, testing::HasSubstr("WGS 84"));
}

TEST(Sketch, SaysWhatIsWrongInsteadOfStopping) {
    const SeasonFolder folder;
    folder.write("rubbish.gpkg", "nothing");
    const LayerSketch sketch = sketch_file(folder.path("rubbish.gpkg")).at(0);
    EXPECT_EQ(sketch.kind, Kind::unknown);
    EXPECT_THAT(sketch.trouble, testing::HasSubstr("cannot be read"));
}

} // namespace
} // namespace quartercut::read_test
