// SPDX-License-Identifier: MIT
// `check` tells everything at once, file by file, and stops when `compare` would.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <sstream>

namespace quartercut::test {
namespace {

using testing::HasSubstr;

/// Three files with a fault each, one of them with two.
TextFiles much_spoilt() {
    TextFiles files = text_season();
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n";
    files["tickets.csv"] = "field,net_kg,moisture_pct,dockage_pct\nHome,6500,8.1,1.5\nHoem,0,8,1\nHome,7000,0,1\n"
                           "Nowhere,7000,8,1\n";
    std::string& methods = files["methods.geojson"];
    methods.replace(methods.find("standing"), 8, "straight");
    replace_once(files["points.csv"], "moisture_pct", "wetness");
    replace_once(files["points.csv"], "dist_m", "way_m");
    return files;
}

TEST(Check, TellsAllFaultsAtOnceGroupedByFile) {
    const SeasonFolder folder(much_spoilt());
    const Ran ran = folder.run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_EQ(ran.out, "");
    for (const char* words :
         {"\npoints.csv\n", "there is no column 'moisture_pct'", "there is no column 'dist_m'", "methods.geojson\n",
          "'straight' is no method", "\ntickets.csv\n", "row 2, column 'net_kg'", "row 3, column 'moisture_pct'",
          "row 4: the ticket names the field 'Nowhere'", "6 errors"})
        EXPECT_THAT(ran.err, HasSubstr(words));
    EXPECT_EQ(folder.left_behind(), "");
}

// A note beside an error is worth as much as beside none: 'crs-taken' says where the numbers were put.
TEST(Check, TellsNotesBesideErrors) {
    TextFiles files = text_season();
    replace_once(files["season.toml"], "\ncrs = \"EPSG:4326\"", "");
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n";
    files["tickets.csv"] = "ticket,field,net_kg,moisture_pct,dockage_pct\n1,Home,heavy,8.1,1.5\n";
    const SeasonFolder folder(files);
    const Ran ran = folder.run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, testing::AllOf(HasSubstr("row 1, column 'net_kg'"), HasSubstr("note:"),
                                        HasSubstr("they were taken as WGS 84")));
    const auto json = nlohmann::json::parse(folder.run("check season.toml --json").out);
    EXPECT_GE(json.at("counts").at("notes").get<int>(), 1);
}

TEST(Check, TellsTheFirstFewOfManyRowsWithOneFault) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n";
    std::string& tickets = files["tickets.csv"] = "ticket,field,net_kg,moisture_pct,dockage_pct\n";
    for (int row = 1; row <= 9; ++row)
        tickets += std::to_string(row) + ",Home,heavy,8.1,1.5\n";
    const Ran ran = SeasonFolder(files).run("check season.toml");
    for (const char* words : {"row 4, column 'net_kg'", "... and 5 more rows in column 'net_kg'", "9 errors"})
        EXPECT_THAT(ran.err, HasSubstr(words));
    EXPECT_THAT(ran.err, testing::Not(HasSubstr("row 5,")));
}

TEST(Check, TellsAllFaultsOfTheSeasonFile) {
    TextFiles files = text_season();
    std::string& text = files["season.toml"];
    replace_once(text, "crop = \"canola\"", "crop = \"canloa\"");
    replace_once(text, "units = \"t/ha\"", "unit = \"t/ha\"");
    replace_once(text, "unit = \"kg/s\"", "unit = \"kg/fortnight\"");
    replace_once(text, "width = { column", "widht = { column");
    const Ran ran = SeasonFolder(files).run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    for (const char* words : {"season.toml:3:", "canloa", "season.toml:5:1", "season.toml:15:", "kg/fortnight",
                              "season.toml:19:1", "widht", "4 errors"})
        EXPECT_THAT(ran.err, HasSubstr(words));
}

TEST(Check, SpeaksJsonToScripts) {
    const Ran bad = SeasonFolder(much_spoilt()).run("check season.toml --json");
    EXPECT_EQ(bad.exit_code, 1);
    const auto json = nlohmann::json::parse(bad.out);
    EXPECT_EQ(json.at("schema"), "quartercut.check/1");
    EXPECT_EQ(json.at("stops"), true);
    EXPECT_EQ(json.at("counts").at("errors"), 6);
    std::size_t in_tickets = 0;
    for (const auto& issue : json.at("issues"))
        in_tickets += issue.at("group") == "tickets.csv" && issue.at("severity") == "error" ? 1U : 0U;
    EXPECT_EQ(in_tickets, 3U);
    const Ran good = SeasonFolder(text_season()).run("check season.toml --json");
    EXPECT_EQ(good.exit_code, 0) << good.err;
    EXPECT_EQ(nlohmann::json::parse(good.out).at("stops"), false);
}

TEST(Check, SaysWhyColumnsWereTakenForWhatTheyAre) {
    TextFiles files = text_season();
    std::string& text = files["season.toml"];
    text.erase(text.find("[points.columns]"), text.find("[methods]") - text.find("[points.columns]"));
    const Ran ran = SeasonFolder(files).run("check season.toml");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(ran.out, HasSubstr("flow: 'flow_kg_s' in kg/s (its name holds 'flow' (10 points) and the unit kg/s)"));
}

/// What later rooms refuse, reading does not meet: a ticket whose window holds no records.
TEST(Check, StopsWhereCompareStopsAlsoBehindReading) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n";
    files["tickets.csv"] = "field,start,end,net_kg,moisture_pct,dockage_pct\n"
                           "Home,2019-09-04T15:00:00Z,2019-09-04T16:00:00Z,8000,9,1\n";
    const SeasonFolder folder(files);
    const Ran check = folder.run("check season.toml"), compare = folder.run("compare season.toml");
    EXPECT_EQ(check.exit_code, 1);
    EXPECT_EQ(compare.exit_code, 1);
    EXPECT_THAT(check.err, testing::AllOf(HasSubstr("tickets.csv\n"), HasSubstr("row 1"), HasSubstr("no record")));
}

/// A method without width in the records, a name on a ticket and a table that is not there: three rooms, one answer.
TEST(Check, TellsFaultsOfTicketsTablesAndRecordsAtOnce) {
    TextFiles files = text_season();
    std::string& text = files["season.toml"];
    replace_once(text, "name = \"standing\"\ncut_width = \"10 m\"", "name = \"standing\"");
    replace_once(text, "width = { column = \"width_m\", unit = \"m\" }\n", "");
    replace_once(files["points.csv"], "width_m", "note");
    text += "\n[tickets]\nfile = \"tickets.csv\"\n\n[weather]\nfile = \"station.csv\"\n";
    files["tickets.csv"] = "field,net_kg,moisture_pct,dockage_pct\nFar,6500,8,1\n";
    const Ran ran = SeasonFolder(files).run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    for (const char* words : {"How wide \"standing\" was cut", "the field 'Far'", "station.csv", "3 errors"})
        EXPECT_THAT(ran.err, HasSubstr(words));
}

const char* const tickets_of_two = "field,net_kg,moisture_pct,dockage_pct\nHome,6500,8.1,1.5\nFar,6500,8,1\n"
                                   "Far,6600,8,1\n";

TEST(Check, TellsANameThatIsNotThereOnceForAllTickets) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n";
    files["tickets.csv"] = tickets_of_two;
    const Ran ran = SeasonFolder(files).run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err,
                testing::AllOf(HasSubstr("rows 2, 3: the tickets name the field 'Far'"), HasSubstr("1 error")));
}

/// A bow tie beside the field: its boundary is refused, and its tickets miss it for that reason alone.
// The load came off a field whose records are not among the files: said with the two ways out.
TEST(Check, SaysTheWaysOutOfATicketWithoutRecords) {
    TextFiles files = text_season();
    std::string& land = files["fields.geojson"];
    land.insert(land.rfind("]}"), R"(,{"type":"Feature","properties":{"name":"North"},"geometry":{"type":"Polygon",
        "coordinates":[[[-106.5,52.11],[-106.497,52.11],[-106.497,52.113],[-106.5,52.113],[-106.5,52.11]]]}})");
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n";
    files["tickets.csv"] = "ticket,field,net_kg,moisture_pct,dockage_pct\n1,Home,13000,8.1,1.5\n2,North,6500,8.1,1.5\n";
    const SeasonFolder folder(files);
    for (const char* command : {"check season.toml", "compare season.toml"}) {
        const Ran ran = folder.run(command);
        EXPECT_EQ(ran.exit_code, 1);
        EXPECT_THAT(ran.err, HasSubstr("Two ways out: add the records in field North to the files of [points], or take "
                                       "row 2 out of the tickets."));
    }
}

/// The season with the second half of its records in a file without the machine's column.
TEST(Check, SaysAsWhatMachineRecordsWithoutOneAreTaken) {
    TextFiles files = text_season();
    std::istringstream rows(files["points.csv"]);
    std::string row, named, unnamed;
    for (std::size_t n = 0; std::getline(rows, row); ++n) {
        const std::string bare = row.substr(0, row.rfind(','));
        if (n < 1600) named += row + "\n";
        if (n == 0 || n >= 1600) unnamed += bare + "\n";
    }
    files["points.csv"] = named;
    files["other.csv"] = unnamed;
    replace_once(files["season.toml"], "[\"points.csv\"]", "[\"points.csv\", \"other.csv\"]");
    const SeasonFolder folder(files);
    const char* words = "its records are taken as machine 'machine'";
    EXPECT_THAT(folder.run("check season.toml").out, HasSubstr(words));
    EXPECT_THAT(folder.run("compare season.toml").out, HasSubstr(words));
}

TEST(Check, DoesNotBlameTicketsForABoundaryAtFault) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n";
    files["tickets.csv"] = tickets_of_two;
    std::string& fields = files["fields.geojson"];
    fields.insert(fields.rfind(']'), R"(,{"type":"Feature","properties":{"name":"Far"},"geometry":{"type":"Polygon",
        "coordinates":[[[-100,50],[-99.99,50.01],[-99.99,50],[-100,50.01],[-100,50]]]}})");
    const Ran ran = SeasonFolder(files).run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, testing::AllOf(HasSubstr("crosses itself"), HasSubstr("1 error"),
                                        testing::Not(HasSubstr("names the field"))));
    EXPECT_THAT(ran.err, testing::Not(HasSubstr("name the field")));
}

struct SpoiltTable {
    const char* name;
    const char* tables;
    const char* file;
    const char* text; ///< nullptr: the file is not there
    const char* told;
};

class CheckTables : public testing::TestWithParam<SpoiltTable> {};

// `compare` reads these when all else is done; `check` must meet what it will meet.
TEST_P(CheckTables, StopWhereCompareStops) {
    const SpoiltTable& table = GetParam();
    TextFiles files = text_season();
    files["season.toml"] += table.tables;
    if (table.text != nullptr) files[table.file] = table.text;
    const SeasonFolder folder(files);
    const Ran check = folder.run("check season.toml"), compare = folder.run("compare season.toml");
    EXPECT_EQ(check.exit_code, 1);
    EXPECT_EQ(compare.exit_code, 1);
    EXPECT_THAT(check.err, testing::AllOf(HasSubstr(table.told), HasSubstr(table.file), HasSubstr("1 error")));
    EXPECT_THAT(compare.err, HasSubstr(table.told));
}

const char* const losses = "\n[loss_counts]\nfile = \"losses.csv\"\n";
const char* const samples = "\n[loss_counts]\nsamples = \"samples.csv\"\n";
const char* const weather = "\n[weather]\nfile = \"station.csv\"\n";

INSTANTIATE_TEST_SUITE_P(
    Spoilt, CheckTables,
    testing::Values(SpoiltTable{"LossesMissing", losses, "losses.csv", nullptr, "no such file"},
                    SpoiltTable{"LossColumns", losses, "losses.csv", "a,b\n1,2\n", "no column was recognised as"},
                    SpoiltTable{"LossRowBlank", losses, "losses.csv",
                                "method,when,grams,tray_area_ft2\nswathed,before,,1\n", "neither seeds nor grams"},
                    SpoiltTable{"SamplesMissing", samples, "samples.csv", nullptr, "no such file"},
                    SpoiltTable{"WeatherMissing", weather, "station.csv", nullptr, "no such file"},
                    SpoiltTable{"WeatherColumns", weather, "station.csv", "date,sun\n2025-09-01,3\n", "rain"},
                    SpoiltTable{"WeatherWord", weather, "station.csv", "date,rain_mm\n2025-09-01,abc\n",
                                "'abc' is no number"}),
    [](const auto& one) { return std::string(one.param.name); });

TEST(Check, TellsEveryTableAtFaultAtOnce) {
    TextFiles files = text_season();
    files["season.toml"] += std::string(losses) + "samples = \"samples.csv\"\n" + weather;
    const Ran ran = SeasonFolder(files).run("check season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    for (const char* words : {"losses.csv", "samples.csv", "station.csv", "3 errors"})
        EXPECT_THAT(ran.err, HasSubstr(words));
}

TEST(Check, DoubtsNextYearsFieldsThatStopNoComparison) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[next_year]\nfile = \"next.gpkg\"\n";
    const SeasonFolder folder(files);
    const Ran check = folder.run("check season.toml"), compare = folder.run("compare season.toml");
    EXPECT_EQ(check.exit_code, 0) << check.err;
    EXPECT_EQ(compare.exit_code, 0) << compare.err;
    EXPECT_THAT(check.out, testing::AllOf(HasSubstr("next.gpkg"), HasSubstr("'choose' would stop"),
                                          testing::Not(HasSubstr("0 warnings"))));
}

} // namespace
} // namespace quartercut::test
