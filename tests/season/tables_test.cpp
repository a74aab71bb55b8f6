// SPDX-License-Identifier: MIT
// Wrong entries in the tables below the top of a season file, and the whole message each must give.
#include "season_text.hpp"

#include <gmock/gmock.h>

namespace quartercut {
namespace {

using namespace season_test;
using testing::AllOf;
using testing::HasSubstr;
using testing::StartsWith;

std::string columns(const std::string& lines) { return refusal(with_more("[points.columns]\n" + lines + "\n")); }

TEST(ColumnMessages, RefuseAUnitOfTheWrongKind) {
    EXPECT_EQ(
        columns("flow = { column = \"f\", unit = \"t/ha\" }"),
        "season.toml:25:31: \"points.columns.flow.unit\" is \"t/ha\", which is not known for flow; known: kg/s, lb/s, "
        "t/h, bu/h.");
    EXPECT_THAT(columns("yield = { column = \"y\", unit = \"bushel\" }"),
                HasSubstr("not known for yield; known: t/ha"));
    EXPECT_THAT(columns("machine = { column = \"m\", unit = \"m\" }"), HasSubstr("has no unit; remove it"));
    EXPECT_EQ(columns("yield = { column = \"y\", unit = \"bu/ac\" }"), "accepted");
}

TEST(ColumnMessages, NeedAColumn) {
    EXPECT_EQ(columns("flow = { unit = \"kg/s\" }"),
              "season.toml:25:8: \"points.columns.flow.column\" is missing: it names the column of the records.");
    EXPECT_EQ(columns("flow = 3"), "season.toml:25:8: \"points.columns.flow\" must be a table, not a whole number.");
    EXPECT_THAT(columns("flow = \"\""), HasSubstr("is empty"));
}

TEST(ColumnMessages, KeepMoistureToTheYieldAndUpToTheHeader) {
    EXPECT_EQ(
        columns("yield = { column = \"y\", moisture = \"damp\" }"),
        "season.toml:25:36: \"points.columns.yield.moisture\" is \"damp\"; write \"wet\" (as it came in) or \"dry\" "
        "(already brought to the basis).");
    EXPECT_THAT(columns("flow = { column = \"f\", moisture = \"wet\" }"), HasSubstr("of the yield column only"));
    EXPECT_THAT(columns("speed = { column = \"f\", up = \"1\" }"), HasSubstr("of the header column only"));
    EXPECT_EQ(columns("header = { column = \"h\", up = true }"), "accepted");
    EXPECT_EQ(parse_season(with_more("[points.columns]\nheader = { column = \"h\", up = true }\n"), "s.toml")
                  .points.columns.at(Meaning::header)
                  .up,
              "true");
}

TEST(ColumnMessages, SendTheMethodWhereItBelongs) {
    EXPECT_EQ(columns("method = { column = \"m\" }"),
              "season.toml:25:1: the method is not mapped here; write from_points = { "
              "column = \"...\" } under [methods].");
}

TEST(TimeZones, AreOffsetsFromUtc) {
    const auto zone = [](const std::string& text) {
        return refusal(with("files = [\"yield/*.csv\"]", "files = [\"yield/*.csv\"]\ntime_zone = \"" + text + "\""));
    };
    for (const char* right_one : {"-06:00", "+00:00", "UTC", "Z", "+05:30", "+14:00"})
        EXPECT_EQ(zone(right_one), "accepted");
    EXPECT_EQ(zone("America/Regina"),
              "season.toml:12:13: \"points.time_zone\" is \"America/Regina\"; write the offset from "
              "UTC, such as \"-06:00\".");
    for (const char* wrong : {"-6", "-6:00", "06:00", "-06:60", "+15:00", "-0600", "+14:01", "CST"})
        EXPECT_THAT(zone(wrong), StartsWith("season.toml:12:13: \"points.time_zone\"")) << wrong;
}

TEST(Dates, AreSaidByOneOfTwoOrders) {
    const auto dates = [](const std::string& text) {
        return refusal(with("files = [\"yield/*.csv\"]", "files = [\"yield/*.csv\"]\ndates = \"" + text + "\""));
    };
    EXPECT_EQ(dates("day/month"), "accepted");
    EXPECT_EQ(dates("month/day"), "accepted");
    EXPECT_EQ(dates("dd.mm.yyyy"),
              "season.toml:12:9: \"points.dates\" is \"dd.mm.yyyy\"; write \"day/month\" or \"month/day\".");
}

const std::string polygons = "file   = \"fields.gpkg\"\ncolumn = \"method\"";

TEST(MethodSources, AreOneOnly) {
    EXPECT_EQ(refusal(with(polygons, polygons + "\nfrom_points = { column = \"head\" }")),
              "season.toml:14:1: \"methods.file\" and \"methods.from_points\" are both set; methods come from one "
              "place only, "
              "remove the other.");
    EXPECT_THAT(refusal(with(polygons, "column = \"x\"\nfrom_fields = { column = \"cut\" }")),
                StartsWith("season.toml:14:1: \"methods.column\" and \"methods.from_fields\" are both set"));
    EXPECT_EQ(refusal(with(polygons, "from_points = { column = \"head\" }\nfrom_fields = { column = \"cut\" }")),
              "season.toml:15:1: \"methods.from_points\" and \"methods.from_fields\" are both set; methods come from "
              "one place "
              "only, remove one.");
    EXPECT_THAT(refusal(with(polygons, "layer = \"x\"")), StartsWith("season.toml:13:1: \"methods.file\" is missing"));
}

TEST(MethodSources, MapValuesToMethodsThatExist) {
    EXPECT_EQ(refusal(with(polygons, "from_points = { column = \"head\", values = { \"d\" = \"standin\" } }")),
              "season.toml:14:51: \"methods.from_points.values.d\" names the method \"standin\", which has no "
              "[[method]] table; "
              "did you mean \"standing\"?");
    EXPECT_THAT(refusal(with(polygons, "from_points = { column = \"head\", values = {} }")), HasSubstr("is empty"));
    EXPECT_THAT(refusal(with(polygons, "from_points = { column = \"head\", values = { d = 1 } }")),
                HasSubstr("must be text"));
    EXPECT_THAT(refusal(with(polygons, "from_points = { values = { d = \"standing\" } }")),
                StartsWith("season.toml:14:15: \"methods.from_points.column\" is missing"));
    EXPECT_THAT(refusal(with(polygons, "from_fields = \"cut\"")), HasSubstr("must be a table, not text"));
}

TEST(StrataMessages, KnowWhichKeysGoWithWhichKind) {
    const auto strata = [](const std::string& lines) { return refusal(with_more("[strata]\n" + lines + "\n")); };
    EXPECT_EQ(strata("kind = \"gird\""), "season.toml:25:8: \"strata.kind\" is \"gird\"; did you mean \"grid\"?");
    EXPECT_THAT(strata("kind = \"zzzzzzzz\""),
                HasSubstr("write polygons, raster, grid, hexagons, legal-subdivision, edge-and-interior, "
                          "pass-direction or fuzzy-classes"));
    EXPECT_THAT(strata("column = \"unit\""), StartsWith("season.toml:24:1: \"strata.file\" is missing"));
    EXPECT_THAT(strata("file = \"soil.gpkg\""), StartsWith("season.toml:24:1: \"strata.column\" is missing"));
    EXPECT_EQ(strata("kind = \"grid\"\nfile = \"a\""),
              "season.toml:26:1: \"strata.file\" has no use here: only strata of kind "
              "\"polygons\" or \"raster\" come from a file; remove it.");
    EXPECT_THAT(strata("file = \"a\"\ncolumn = \"b\"\ncell = \"50 m\""),
                HasSubstr("only strata of kind \"grid\" or \"hexagons\" have cells"));
    EXPECT_THAT(strata("kind = \"grid\"\ncell = 100"), HasSubstr("bare number 100"));
    EXPECT_THAT(strata("kind = \"grid\"\ncell = \"1 m\""), HasSubstr("10 m to 2000 m"));
    EXPECT_THAT(strata("kind = \"grid\"\nwidths = 2"), HasSubstr("only strata of kind \"edge-and-interior\""));
    EXPECT_THAT(strata("kind = \"grid\"\nclasses = 4"), HasSubstr("are put into classes"));
    EXPECT_THAT(strata("kind = \"raster\""), HasSubstr("\"strata.file\" is missing"));
    EXPECT_THAT(strata("kind = \"fuzzy-classes\""), HasSubstr("\"strata.layers\" is missing"));
}

TEST(StrataMessages, RefuseTheYieldThatIsBeingCompared) {
    const auto strata = [](const std::string& lines) { return refusal(with_more("[strata]\n" + lines + "\n")); };
    const std::string fuzzy = "kind = \"fuzzy-classes\"\nlayers = [{ file = \"";
    EXPECT_THAT(strata(fuzzy + "a.tif\", yield_year = 2025 }]"), HasSubstr("only yields of years before 2025"));
    EXPECT_THAT(strata(fuzzy + "yield.tif\" }]"), HasSubstr("is called a yield; say of which harvest"));
    EXPECT_THAT(strata(fuzzy + "a.csv\", column = \"dry_yield\" }]"), HasSubstr("is called a yield"));
    EXPECT_THAT(strata("kind = \"raster\"\nfile = \"yield.tif\""), HasSubstr("is called a yield"));
}

TEST(TrialMessages, WantTrueOrFalseAndAPairsColumnThatCanBe) {
    EXPECT_EQ(refusal(with_more("[trial]\nrandomised = \"yes\"\n")),
              "season.toml:25:14: \"trial.randomised\" must be true or false, without quotes, not text.");
    const std::string from_fields = with(polygons, "from_fields = { column = \"cut\" }");
    EXPECT_EQ(
        refusal(from_fields + "[trial]\npairs = \"block\"\n"),
        "season.toml:23:9: \"trial.pairs\" names the column \"block\" of the method polygons, but [methods] has none; "
        "write \"auto\" or \"none\".");
    EXPECT_EQ(refusal(from_fields + "[trial]\npairs = \"none\"\n"), "accepted");
}

TEST(CleaningMessages, WantTrueOrFalse) {
    EXPECT_EQ(refusal(with_more("[cleaning]\nlag = 12\n")),
              "season.toml:25:7: \"cleaning.lag\" must be true or false, without quotes, not a whole number.");
    EXPECT_EQ(refusal(with_more("[cleaning]\nneighbors = false\n")),
              "season.toml:25:1: unknown key \"neighbors\" in [cleaning]; did you mean \"neighbours\"?");
}

TEST(ComparisonMessages, KeepTheirNumbersInRange) {
    EXPECT_EQ(refusal(with_more("[comparison]\nsegment = \"5 m\"\n")),
              "season.toml:25:11: \"comparison.segment\" is \"5 m\", which is out of range: 15 m to 100 m is allowed.");
    EXPECT_THAT(refusal(with_more("[comparison]\nsegment = 30\n")), HasSubstr("bare number 30"));
    EXPECT_EQ(
        refusal(with_more("[comparison]\nplacebo_layouts = -1\n")),
        "season.toml:25:19: \"comparison.placebo_layouts\" is -1, which is out of range: 0 to 100000 is allowed.");
    EXPECT_THAT(refusal(with_more("[comparison]\nall_pairs = 1\n")), HasSubstr("must be true or false"));
}

TEST(HistoryMessages, NeedSomethingToRead) {
    EXPECT_THAT(refusal(with_more("[history]\n")), StartsWith("season.toml:24:1: [history] names nothing"));
    EXPECT_THAT(refusal(with_more("[history]\nresults = []\n")), HasSubstr("is an empty list"));
    EXPECT_THAT(refusal(with_more("[history]\nmaps = [\"a.csv\"]\n[history.columns]\nyeild = \"y\"\n")),
                AllOf(StartsWith("season.toml:27:1"), HasSubstr("did you mean \"yield\"?")));
}

TEST(TicketMessages, NeedAFile) {
    EXPECT_EQ(refusal(with_more("[tickets]\n")),
              "season.toml:24:1: \"tickets.file\" is missing: it names the file of weighed loads.");
}

} // namespace
} // namespace quartercut
