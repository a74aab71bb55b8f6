// SPDX-License-Identifier: MIT
// `start`: a folder nobody has described becomes a draft that `check` accepts once its questions are answered.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <fstream>

namespace quartercut::test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

TextFiles undescribed() {
    TextFiles files = text_season();
    files.erase("season.toml");
    files["tickets.csv"] = "field,method,net_kg,moisture_pct,dockage_pct\nHome,swathed,6500,8.1,1.5\n";
    files["letter.txt"] = "Dear neighbour\nit rained\n";
    return files;
}

/// Takes the # from the line below the question about the crop.
void answer_crop(const SeasonFolder& folder) {
    std::string text = folder.text("season.toml");
    replace_once(text, "# crop     = \"canola\"", "crop     = \"canola\"");
    std::ofstream(folder.path() / "season.toml") << text;
}

TEST(Start, RecognisesWhatLiesInAFolderAndSaysWhy) {
    const SeasonFolder folder(undescribed());
    const Ran ran = folder.run("start .");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    for (const char* words : {"boundaries    fields.geojson", "method areas  methods.geojson",
                              "records       points.csv", "tickets       tickets.csv", "unknown       letter.txt",
                              "'flow_kg_s': its name holds 'flow' (10 points) and the unit kg/s", "4 questions"})
        EXPECT_THAT(ran.out, HasSubstr(words));
    EXPECT_EQ(folder.left_behind(), "season.toml ");
}

TEST(Start, WritesADraftThatStopsAtItsQuestionAndIsAcceptedOnceItIsAnswered) {
    TextFiles files = undescribed();
    files.erase("tickets.csv"); // one load of a field cannot hold what these two strips yielded
    const SeasonFolder folder(files);
    ASSERT_EQ(folder.run("start .").exit_code, 0);
    EXPECT_THAT(folder.text("season.toml"), AllOf(HasSubstr("# QUESTION: which crop is it?"),
                                                  HasSubstr("baseline = \"swathed\""), HasSubstr("column = \"method\""),
                                                  HasSubstr("flow = { column = \"flow_kg_s\", unit = \"kg/s\" }")));
    const Ran open = folder.run("check season.toml");
    EXPECT_EQ(open.exit_code, 1);
    EXPECT_THAT(open.err, HasSubstr("\"crop\" is missing"));
    answer_crop(folder);
    const Ran answered = folder.run("check season.toml");
    EXPECT_EQ(answered.exit_code, 0) << answered.err << folder.text("season.toml");
}

TEST(Start, AsksWhatNoFileCanSayAndGoesOnWithoutTheAnswer) {
    TextFiles files = undescribed();
    files.erase("tickets.csv");
    replace_once(files["fields.geojson"], "\"name\":\"Home\"", "\"name\":\"Home\",\"crop\":\"canola\"");
    const SeasonFolder folder(files);
    const Ran ran = folder.run("start . --json");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    const auto json = nlohmann::json::parse(ran.out);
    EXPECT_EQ(json.at("questions").size(), 3U) << json.at("questions"); // two widths, and whether a coin was tossed
    EXPECT_THAT(folder.text("season.toml"),
                AllOf(HasSubstr("# QUESTION: how wide was \"swathed\" cut"), HasSubstr("# QUESTION: did a coin"),
                      HasSubstr("# randomised = true"), HasSubstr("year     = 2025")));
    const Ran check = folder.run("check season.toml");
    EXPECT_EQ(check.exit_code, 0) << check.err;
    EXPECT_THAT(check.out, HasSubstr("3 questions in the season file are not answered yet"));
}

TEST(Start, AsksForUnitsWidthsAndDockageThatNobodySays) {
    TextFiles files = undescribed();
    replace_once(files["points.csv"], "flow_kg_s", "flow");
    replace_once(files["points.csv"], "width_m", "remark");
    files["tickets.csv"] = "field,method,net_kg,moisture_pct\nHome,swathed,6500,8.1\n";
    const SeasonFolder folder(files);
    ASSERT_EQ(folder.run("start . --quiet").exit_code, 0);
    EXPECT_THAT(folder.text("season.toml"),
                AllOf(HasSubstr("# QUESTION: in which unit is the column 'flow' (flow)? Known are kg/s, lb/s, t/h, "
                                "bu/h.\n# flow = { column = \"flow\", unit = \"...\" }"),
                      HasSubstr("how wide was \"swathed\" cut"),
                      HasSubstr("# QUESTION: is dockage still in the masses?"), HasSubstr("6 questions are open")));
}

/// 10/9/2025 in one machine's export, a zone in the other's: two questions, and the draft of the answers is accepted.
TEST(Start, AsksForTheOrderOfDatesAndForAZoneThatOnlyOneFileStates) {
    TextFiles files = undescribed();
    files.erase("tickets.csv");
    std::string other = files["points.csv"];
    for (std::size_t at = other.find("2025-09-10T"); at != std::string::npos; at = other.find("2025-09-10T", at)) {
        other.replace(at, 11, "10/9/2025 ");
        other.erase(other.find('Z', at), 1);
    }
    files["other.csv"] = other;
    const SeasonFolder folder(files);
    ASSERT_EQ(folder.run("start . --quiet").exit_code, 0);
    std::string text = folder.text("season.toml");
    EXPECT_THAT(text, HasSubstr("# QUESTION: the dates of other.csv could be day/month or month/day; which are they?\n"
                                "# dates = \"day/month\"\n# QUESTION: the times of points.csv state their zone and "
                                "those of other.csv do not"));
    answer_crop(folder);
    EXPECT_THAT(folder.run("check season.toml").err, HasSubstr("dates = \"month/day\""));
    text = folder.text("season.toml");
    replace_once(text, "# dates = \"day/month\"", "dates = \"day/month\"");
    std::ofstream(folder.path() / "season.toml") << text;
    const Ran answered = folder.run("check season.toml");
    EXPECT_EQ(answered.exit_code, 0) << answered.err;
}

/// What only one of two files says: the other is asked for by its name.
TEST(Start, AsksForTheMachineAndThePlaceOfTheFileThatDoesNotSayThem) {
    TextFiles files = undescribed();
    files.erase("tickets.csv");
    std::string other = files["points.csv"];
    replace_once(other, "lon,lat", "x,y");
    replace_once(other, "moisture_pct", "moisture");
    replace_once(other, "combine", "vessel");
    for (std::size_t at = other.find("2025-09-10T"); at != std::string::npos; at = other.find("2025-09-10T", at))
        other.replace(at, 11, "2025-09-11T");
    files["other.csv"] = other;
    const SeasonFolder folder(files);
    ASSERT_EQ(folder.run("start . --quiet").exit_code, 0);
    const std::string text = folder.text("season.toml");
    for (const char* words :
         {"# QUESTION: in which coordinate system are the records of other.csv? The file does not say.",
          "# crs   = { \"other.csv\" = \"EPSG:...\", \"points.csv\" = \"EPSG:4326\" }",
          "# QUESTION: which machine cut what other.csv holds? No column there was taken for the "
          "machine's, as 'combine' of points.csv was.",
          "If one of the columns vessel names the machine", "# machine = { column = \"...\" }"})
        EXPECT_THAT(text, HasSubstr(words));
}

TEST(Start, AsksForTheUnitOfMoistureAndOffersThoseThatAreKnown) {
    TextFiles files = undescribed();
    files.erase("tickets.csv");
    replace_once(files["points.csv"], "moisture_pct", "moisture");
    const SeasonFolder folder(files);
    ASSERT_EQ(folder.run("start . --quiet").exit_code, 0);
    EXPECT_THAT(folder.text("season.toml"),
                HasSubstr("# QUESTION: in which unit is the column 'moisture' (moisture)? Known are %, fraction. "
                          "Unanswered, % is taken.\n# moisture = { column = \"moisture\", unit = \"...\" }"));
}

/// 9/4/2025 could be either; 9/13/2025, a thousand rows below, could not, and the other order is not offered.
TEST(Start, OffersTheOrderOfDatesThatLaterRowsLeave) {
    TextFiles files = undescribed();
    files.erase("tickets.csv");
    std::string& points = files["points.csv"];
    std::size_t row = 0;
    for (std::size_t at = points.find("2025-09-10T"); at != std::string::npos; at = points.find("2025-09-10T", at)) {
        points.replace(at, 11, ++row < 1000 ? "9/4/2025 " : "9/13/2025 ");
        points.erase(points.find('Z', at), 1);
    }
    const SeasonFolder folder(files);
    ASSERT_EQ(folder.run("start . --quiet").exit_code, 0);
    EXPECT_THAT(
        folder.text("season.toml"),
        AllOf(HasSubstr("\ndates = \"month/day\"   # points.csv has dates that only"), Not(HasSubstr("day/month"))));
}

/// A folder as it grows over the years: the same export twice, an older year beside it, a file that stayed empty.
TEST(Start, LeavesOutCopiesAndOtherYearsAndSaysSo) {
    TextFiles files = undescribed();
    files.erase("tickets.csv");
    files["points (1).csv"] = files["points.csv"];
    files["empty.csv"] = "";
    std::string older = files["points.csv"];
    for (std::size_t at = older.find("2025-"); at != std::string::npos; at = older.find("2025-", at))
        older.replace(at, 4, "2023");
    files["older.csv"] = older;
    const SeasonFolder folder(files);
    const Ran ran = folder.run("start .");
    for (const char* words : {"unknown       points (1).csv: the same to the byte as points.csv",
                              "unknown       empty.csv: the file is empty", "several years (2023 to 2025)"})
        EXPECT_THAT(ran.out, HasSubstr(words));
    EXPECT_THAT(folder.text("season.toml"),
                HasSubstr("files = [\n    # \"older.csv\",   # of 2023; earlier years may stand under [history], maps\n"
                          "    \"points.csv\",\n]"));
    answer_crop(folder);
    std::string text = folder.text("season.toml");
    replace_once(text, "# year     = 2025", "year     = 2025");
    std::ofstream(folder.path() / "season.toml") << text;
    const Ran check = folder.run("check season.toml");
    EXPECT_EQ(check.exit_code, 0) << check.err;
}

TEST(Start, TakesNoEarlierResultsForBoundaries) {
    const SeasonFolder made(text_season());
    ASSERT_EQ(made.run("compare season.toml --quiet").exit_code, 0);
    ASSERT_EQ(made.run("stake season.toml --quiet --out staked").exit_code, 0);
    const SeasonFolder folder(undescribed());
    for (const char* results : {"results", "staked"})
        std::filesystem::copy(made.path() / results, folder.path() / results);
    const Ran ran = folder.run("start .");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("boundaries    fields.geojson"), Not(HasSubstr("zones.gpkg"))));
}

TEST(Start, TakesTheStripsOfALayout) {
    TextFiles files = undescribed();
    files.erase("methods.geojson");
    const SeasonFolder folder(files);
    std::filesystem::create_directory(folder.path() / "layout-Home");
    for (const char* name : {".quartercut-results", "layout.json"})
        std::ofstream(folder.path() / "layout-Home" / name) << "{}\n";
    std::ofstream(folder.path() / "layout-Home" / "strips.geojson") << text_season()["methods.geojson"];
    const Ran ran = folder.run("start .");
    EXPECT_THAT(ran.out, HasSubstr("method areas  layout-Home/strips.geojson")) << ran.err;
}

TEST(Start, NeverOverwritesASeasonFile) {
    TextFiles files = undescribed();
    files["season.toml"] = "mine";
    const SeasonFolder folder(files);
    const Ran ran = folder.run("start .");
    EXPECT_EQ(ran.exit_code, 74);
    EXPECT_THAT(ran.err, HasSubstr("never overwritten"));
    EXPECT_EQ(folder.text("season.toml"), "mine");
}

TEST(Start, SaysWhenThereIsNothing) {
    const SeasonFolder folder(TextFiles{{"letter.txt", "Dear neighbour\n"}});
    for (const char* command : {"start .", "start nowhere", "start letter.txt"}) {
        const Ran ran = folder.run(command);
        EXPECT_EQ(ran.exit_code, 1) << command << ran.out;
        EXPECT_EQ(folder.left_behind(), "") << command;
    }
}

} // namespace
} // namespace quartercut::test
