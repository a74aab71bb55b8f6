// SPDX-License-Identifier: MIT
// [history] end to end: an earlier map of the same land and the results of an earlier year, through the program.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <fstream>

namespace quartercut::test {
namespace {

using nlohmann::json;
using testing::HasSubstr;

const std::string columns = std::string("\n") + history_columns;

bool has_input(const json& inputs, const std::string& path, const std::string& role) {
    for (const json& input : inputs["inputs"])
        if (input["path"] == path && input["role"] == role) return true;
    return false;
}

TEST(History, AnEarlierMapIsAskedTheSameQuestion) {
    TextFiles files = text_season();
    files["earlier.csv"] = files["points.csv"]; // as if the same difference had been there before anything was done
    files["season.toml"] += "\n[history]\nmaps = [\"earlier.csv\"]\n" + columns;
    const SeasonFolder folder(files);
    const Ran ran = folder.run("compare season.toml --json");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const json result = json::parse(ran.out);
    const json& contrast = result["fields"][0]["contrasts"][0];
    ASSERT_EQ(contrast["earlier"].size(), 1U);
    EXPECT_EQ(contrast["earlier"][0]["estimator"], "earlier.csv");
    EXPECT_NEAR(contrast["earlier"][0]["gain_t_ha"].get<double>(), 0.20, 0.02);
    EXPECT_THAT(result.dump(), HasSubstr("earlier-map-differs"));
    EXPECT_TRUE(has_input(json::parse(folder.text("results/inputs.json")), "earlier.csv", "history"));
}

TEST(History, AMapThatIsNotThereIsLookedForUnderItsOwnTable) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[history]\nmaps = [\"gone.csv\"]\n" + columns;
    const Ran ran = SeasonFolder(files).run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, HasSubstr("[history] maps, \"gone.csv\": gone.csv: no such file for maps."));
    EXPECT_THAT(ran.err, testing::Not(HasSubstr("[points")));
}

// Two maps, an earlier answer and a ticket at fault: told at once, not one after the other is mended.
TEST(History, CheckTellsAllFaultsOfEarlierYearsWithTheOthers) {
    TextFiles files = text_season();
    files["first.csv"] = files["second.csv"] = files["points.csv"];
    replace_once(files["first.csv"], "moisture_pct", "wetness");
    replace_once(files["first.csv"], "dist_m", "way_m");
    replace_once(files["second.csv"], "flow_kg_s", "stream");
    files["last.json"] = "{}";
    files["tickets.csv"] = "ticket,field,net_kg,moisture_pct,dockage_pct\n1,Home,heavy,8.1,1.5\n";
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n[history]\nmaps = [\"first.csv\", \"second.csv\"]\n"
                            "results = [\"last.json\"]\n" +
                            columns;
    const Ran ran = SeasonFolder(files).run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    for (const char* words : {"[history] maps, \"first.csv\"", "there is no column 'moisture_pct'", "'dist_m'",
                              "[history] maps, \"second.csv\"", "'flow_kg_s'", "last.json", "row 1, column 'net_kg'"})
        EXPECT_THAT(ran.err, HasSubstr(words));
    EXPECT_THAT(ran.err, testing::Not(HasSubstr("[points.columns]")));
}

TEST(History, EarlierResultsArePutBesideThisSeasons) {
    TextFiles files = text_season();
    const SeasonFolder first(files);
    ASSERT_EQ(first.run("compare season.toml").exit_code, 0);
    for (const int year : {2022, 2023}) {
        json earlier = json::parse(first.text("results/comparison.json"));
        earlier["season"]["year"] = year;
        files["r" + std::to_string(year) + ".json"] = earlier.dump();
    }
    files["season.toml"] += "\n[history]\nresults = [\"r*.json\"]\n";
    const SeasonFolder folder(files);
    const Ran ran = folder.run("compare season.toml --json");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const json result = json::parse(ran.out);
    ASSERT_EQ(result["farm"]["seasons"].size(), 1U);
    const json& row = result["farm"]["seasons"][0];
    EXPECT_EQ(row["years"], 3);
    EXPECT_EQ(row["fields"], 3);
    EXPECT_NEAR(row["gain_t_ha"].get<double>(), 0.20, 0.02);
    EXPECT_EQ(result["farm"]["contrasts"][0]["years"], 1);
}

TEST(History, WithoutItsFileStopsCheckAndCompareAlike) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[history]\nmaps = [\"lost.csv\"]\n";
    const SeasonFolder folder(files);
    for (const char* command : {"check season.toml", "compare season.toml"}) {
        const Ran ran = folder.run(command);
        EXPECT_EQ(ran.exit_code, 1) << command;
        EXPECT_THAT(ran.err + ran.out, HasSubstr("lost.csv"));
        EXPECT_THAT(ran.err + ran.out, HasSubstr("[history]"));
    }
}

} // namespace
} // namespace quartercut::test
