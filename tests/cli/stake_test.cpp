// SPDX-License-Identifier: MIT
// `quartercut stake`: zones with and without records, what is refused, and what is left alone. The field is a rectangle
// of 160 m x 400 m in eight strips of 20 m (text_season.hpp): areas by hand.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace quartercut::test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using Json = nlohmann::json;

constexpr double strip_ha = 0.8;
/// The file's degrees are good to centimetres, a strip's width among them to 0.1 %.
constexpr double tolerance_ha = 0.002;

/// Boundaries and method areas before any harvest: no file of records, and no word of one.
TextFiles before_harvest() {
    TextFiles files = text_season();
    files.erase("points.csv");
    return files;
}

Json only_field(const Json& staked) {
    EXPECT_EQ(staked.at("fields").size(), 1u);
    return staked.at("fields").front();
}

/// Eight strips in the order of the file, in the methods by turns.
void expect_strips(const Json& field) {
    const Json& zones = field.at("zones");
    ASSERT_EQ(zones.size(), 8u);
    for (const Json& zone : zones) {
        EXPECT_NEAR(zone.at("area_ha").get<double>(), strip_ha, tolerance_ha) << zone.at("id");
        EXPECT_FALSE(zone.at("method").is_null()) << zone.at("id");
    }
    EXPECT_EQ(zones.front().at("method"), "standing");
    EXPECT_NEAR(field.at("area_ha").get<double>(), 8.0 * strip_ha, 8.0 * tolerance_ha);
}

std::size_t lines_of(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

TEST(Stake, NeverTakesThePlaceOfAComparisonNorTheOtherWayRound) {
    const SeasonFolder folder(text_season());
    ASSERT_EQ(folder.run("compare season.toml").exit_code, 0);
    const Ran staked = folder.run("stake season.toml --out results");
    EXPECT_EQ(staked.exit_code, 74);
    EXPECT_THAT(staked.err, AllOf(HasSubstr("the results of a comparison"), HasSubstr("untouched")));
    EXPECT_TRUE(folder.has("results/comparison.json") && folder.has("results/report.html"));
    ASSERT_EQ(folder.run("stake season.toml").exit_code, 0);
    const Ran compared = folder.run("compare season.toml --out zones");
    EXPECT_EQ(compared.exit_code, 74);
    EXPECT_THAT(compared.err, HasSubstr("zones staked out"));
    EXPECT_FALSE(folder.has("zones/comparison.json"));
    EXPECT_EQ(folder.run("compare season.toml").exit_code, 0) << "its own kind is replaced";
}

TEST(Stake, WithRecordsWritesZonesAndTheLandHarvested) {
    const SeasonFolder folder(text_season());
    const Ran ran = folder.run("stake season.toml");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("Home"), HasSubstr("harvested ha"), HasSubstr("zones.csv")));
    for (const char* name :
         {"zones/zones.csv", "zones/inputs.json", "zones/zones.gpkg", "zones/zones.geojson", "zones/zones.kml"})
        EXPECT_TRUE(folder.has(name)) << name;
    EXPECT_FALSE(folder.has("results")) << "nothing is compared";
    EXPECT_FALSE(folder.has("zones/comparison.json"));
    EXPECT_EQ(lines_of(folder.text("zones/zones.csv")), 9u); // a head and eight strips
    EXPECT_EQ(Json::parse(folder.text("zones/zones.geojson")).at("type"), "FeatureCollection");
}

TEST(Stake, AsJsonHasAreasByHandAndTheLandHarvested) {
    const SeasonFolder folder(text_season());
    const Ran ran = folder.run("stake season.toml --json --formats geojson");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const Json field = only_field(Json::parse(ran.out));
    expect_strips(field);
    for (const Json& zone : field.at("zones")) {
        EXPECT_GT(zone.at("records").get<int>(), 300) << zone.at("id"); // 2 passes of 200, less the ends
        EXPECT_NEAR(zone.at("harvested_ha").get<double>(), strip_ha, 0.1) << zone.at("id");
    }
}

TEST(Stake, WithoutRecordsCutsTheSameZones) {
    const SeasonFolder folder(before_harvest());
    const Ran with = folder.run("stake season.toml");
    EXPECT_EQ(with.exit_code, 1) << "records are named and not there";
    EXPECT_EQ(folder.left_behind(), "");
    const Ran ran = folder.run("stake season.toml --no-records --json");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const Json field = only_field(Json::parse(ran.out));
    expect_strips(field);
    for (const Json& zone : field.at("zones"))
        EXPECT_EQ(zone.at("records"), 0) << zone.at("id");
    EXPECT_TRUE(folder.has("zones/zones.gpkg"));
}

TEST(Stake, WithoutRecordsSaysNothingOfLandHarvested) {
    const SeasonFolder folder(before_harvest());
    const Ran ran = folder.run("stake season.toml --no-records --formats geojson");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("in no method"), Not(HasSubstr("harvested"))));
}

TEST(Stake, WithoutRecordsRefusesStrataThatComeFromThem) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[strata]\nkind = \"pass-direction\"\n";
    const SeasonFolder folder(files);
    const Ran ran = folder.run("stake season.toml --no-records");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, HasSubstr("come from the records"));
    EXPECT_EQ(folder.left_behind(), "");
}

TEST(Stake, WritesTheFormatsAskedForAndNoOthers) {
    const SeasonFolder folder(before_harvest());
    const Ran ran = folder.run("stake season.toml --no-records --formats fgb,geojson --out plan");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_TRUE(folder.has("plan/zones.geojson"));
    EXPECT_FALSE(folder.has("plan/zones.gpkg"));
    EXPECT_FALSE(folder.has("plan/zones.kml"));
    EXPECT_EQ(folder.left_behind(), "plan ");
}

TEST(Stake, NamesOnlyMapsThatItWrote) {
    const SeasonFolder folder(before_harvest());
    for (const std::string format : {"gpkg", "geojson", "kml", "fgb", "shp"}) {
        const Ran ran = folder.run("stake season.toml --no-records --formats " + format);
        ASSERT_EQ(ran.exit_code, 0) << ran.err;
        std::istringstream words(ran.out.substr(ran.out.find("Maps:") + 5));
        std::string named;
        words >> named;
        EXPECT_TRUE(folder.has(named)) << named;
    }
}

TEST(Stake, UnknownWordsAmongTheFormatsAreWrongUsage) {
    const SeasonFolder folder(before_harvest());
    const Ran ran = folder.run("stake season.toml --no-records --formats gpkg,dwg");
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_THAT(ran.err, AllOf(HasSubstr("--formats"), HasSubstr("dwg")));
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(folder.left_behind(), "");
}

TEST(Stake, AYieldSurfaceIsWrongUsageBecauseNothingIsCompared) {
    const SeasonFolder folder(before_harvest());
    const Ran ran = folder.run("stake season.toml --no-records --formats gpkg,tif");
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_THAT(ran.err, HasSubstr("quartercut compare"));
    EXPECT_EQ(folder.left_behind(), "");
}

TEST(Stake, AFolderThatIsNotOursIsNeverTouched) {
    const SeasonFolder folder(before_harvest());
    std::filesystem::create_directory(folder.path() / "zones");
    std::ofstream(folder.path() / "zones" / "zones.csv") << "mine";
    const Ran ran = folder.run("stake season.toml --no-records");
    EXPECT_EQ(ran.exit_code, 74) << ran.err;
    EXPECT_THAT(ran.err, AllOf(HasSubstr("zones"), HasSubstr("left untouched")));
    EXPECT_EQ(folder.text("zones/zones.csv"), "mine");
    EXPECT_FALSE(folder.has("zones/zones.gpkg"));
    EXPECT_EQ(folder.left_behind(), "zones ");
}

TEST(Stake, AnEarlierRunOfItsOwnIsReplaced) {
    const SeasonFolder folder(before_harvest());
    ASSERT_EQ(folder.run("stake season.toml --no-records").exit_code, 0);
    const std::string first = folder.text("zones/zones.csv");
    const Ran ran = folder.run("stake season.toml --no-records --formats geojson");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_FALSE(folder.has("zones/zones.gpkg")) << "the folder is replaced whole";
    EXPECT_EQ(folder.text("zones/zones.csv"), first);
}

TEST(Stake, HelpNamesTheFolderItWrites) {
    const SeasonFolder folder(TextFiles{});
    const Ran ran = folder.run("stake --help");
    EXPECT_EQ(ran.exit_code, 0);
    EXPECT_THAT(ran.out, AllOf(HasSubstr("default: 'zones' beside the season file"), Not(HasSubstr("'results'")),
                               Not(HasSubstr(",tif,"))));
    EXPECT_THAT(folder.run("compare --help").out, HasSubstr("default: 'results' beside the season file"));
}

} // namespace
} // namespace quartercut::test
