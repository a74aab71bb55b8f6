// SPDX-License-Identifier: MIT
// Every way we know to get a season file wrong at its top, and the whole message it must give: where, what, what to do.
#include "season_text.hpp"

#include <gmock/gmock.h>

namespace quartercut {
namespace {

using namespace season_test;
using testing::HasSubstr;
using testing::StartsWith;

TEST(SeasonMessages, StartWithARightFile) { EXPECT_EQ(refusal(right), "accepted"); }

TEST(SeasonMessages, NameTheNearestKnownKey) {
    EXPECT_EQ(refusal(with("baseline", "baselin")),
              "season.toml:4:1: unknown key \"baselin\" at the top of the file; did you mean \"baseline\"?");
    EXPECT_EQ(refusal(with("cut_width", "cutwidth ")),
              "season.toml:19:1: unknown key \"cutwidth\" in [[method]]; did you mean \"cut_width\"?");
    EXPECT_EQ(refusal(with("files", "file")),
              "season.toml:11:1: unknown key \"file\" in [points]; did you mean \"files\"?");
    EXPECT_EQ(refusal(with_more("[trial]\nrandomized = true\n")),
              "season.toml:25:1: unknown key \"randomized\" in [trial]; did you mean \"randomised\"?");
    EXPECT_EQ(refusal(with("[fields]", "[feilds]")),
              "season.toml:6:2: unknown key \"feilds\" at the top of the file; did you mean \"fields\"?");
    EXPECT_EQ(refusal(with_more("[points.columns]\nyeild = { column = \"y\" }\n")),
              "season.toml:25:1: unknown key \"yeild\" in [points.columns]; did you mean \"yield\"?");
    EXPECT_EQ(refusal(with_more("[points.columns]\nyield = { colunm = \"y\" }\n")),
              "season.toml:25:11: unknown key \"colunm\" in [points.columns.yield]; did you mean \"column\"?");
}

TEST(SeasonMessages, SayWhereAMisplacedKeyBelongs) {
    EXPECT_EQ(
        refusal(with("name = \"name\"", "name = \"name\"\ntitle = \"x\"", with("title    = \"Invented farm\"\n", ""))),
        "season.toml:8:1: unknown key \"title\" in [fields]; it belongs at the top of the file, above the first table "
        "in brackets.");
    EXPECT_EQ(refusal(with("year     = 2025", "year = 2025\ncut_width = \"35 ft\"")),
              "season.toml:3:1: unknown key \"cut_width\" at the top of the file; it belongs in [[method]].");
    EXPECT_EQ(refusal(with("files = [\"yield/*.csv\"]", "files = [\"a.csv\"]\nmoisture = { column = \"m\" }")),
              "season.toml:12:1: unknown key \"moisture\" in [points]; it belongs in [points.columns].");
}

TEST(SeasonMessages, ListWhatIsKnownWhereNothingIsNear) {
    EXPECT_EQ(refusal(with_more("[tickets]\nwhatever = 1\n")),
              "season.toml:25:1: unknown key \"whatever\" in [tickets]; known here: file, dockage.");
}

TEST(SeasonMessages, ReportTheFirstUnknownKeyOfATable) {
    EXPECT_THAT(refusal("zzz = 1\naaa = 2\n"), StartsWith("season.toml:1:1: unknown key \"zzz\""));
}

TEST(SeasonMessages, NameWhatIsMissing) {
    EXPECT_EQ(refusal(with("year     = 2025\n", "")),
              "season.toml:1:1: \"year\" is missing: it is the year of the harvest, such as year = 2025.");
    EXPECT_THAT(refusal(with("crop     = \"canola\"\n", "")), StartsWith("season.toml:1:1: \"crop\" is missing: "));
    EXPECT_THAT(refusal(with("baseline = \"swathed\"\n", "")),
                StartsWith("season.toml:1:1: \"baseline\" is missing: "));
    EXPECT_THAT(refusal(with("[fields]\nfile = \"fields.gpkg\"\nname = \"name\"\n", "")),
                StartsWith("season.toml:1:1: the table [fields] is missing: "));
    EXPECT_THAT(refusal(with("[points]\nfiles = [\"yield/*.csv\"]\n", "")),
                StartsWith("season.toml:1:1: the table [points] is missing: "));
    EXPECT_THAT(refusal(with("[methods]\nfile   = \"fields.gpkg\"\ncolumn = \"method\"\n", "")),
                StartsWith("season.toml:1:1: the table [methods] is missing: "));
    EXPECT_THAT(refusal(""), StartsWith("season.toml:1:1: \"year\" is missing"));
}

TEST(SeasonMessages, PlaceAMissingKeyAtItsTable) {
    EXPECT_EQ(refusal(with("file = \"fields.gpkg\"\n", "")),
              "season.toml:6:1: \"fields.file\" is missing: it names the file of the field boundaries.");
    EXPECT_EQ(refusal(with("name = \"name\"\n", "")), "accepted"); // the column is recognised when read
    EXPECT_THAT(refusal(with("files = [\"yield/*.csv\"]\n", "")),
                StartsWith("season.toml:10:1: \"points.files\" is missing"));
    EXPECT_THAT(refusal(with("column = \"method\"\n", "")),
                StartsWith("season.toml:13:1: \"methods.column\" is missing"));
    EXPECT_THAT(refusal(with("name = \"standing\"\n", "label = \"x\"\n")),
                StartsWith("season.toml:21:1: \"method.name\" is missing"));
}

TEST(SeasonMessages, AskForTheUnitOfABareNumber) {
    EXPECT_EQ(refusal(with("\"35 ft\"", "35")),
              "season.toml:19:13: \"method.cut_width\" is the bare number 35; write it with "
              "its unit in quotes, such as \"35 ft\".");
    EXPECT_EQ(
        refusal(with("\"canola\"", "\"canola\"\nbasis = 10.5")),
        "season.toml:4:9: \"basis\" is the bare number 10.5; write it with its unit in quotes, such as \"10.0 %\".");
    EXPECT_THAT(refusal(with("\"35 ft\"", "\"35\"")),
                StartsWith("season.toml:19:13: \"method.cut_width\": \"35\" has no unit, and units are never guessed"));
}

TEST(SeasonMessages, RefuseAWrongUnitOrNumber) {
    EXPECT_THAT(
        refusal(with("\"35 ft\"", "\"35 kg\"")),
        StartsWith("season.toml:19:13: \"method.cut_width\": \"35 kg\" has the unit \"kg\", which is not known as a "
                   "length; write a length as a number and a unit (m, cm, km, ft, in, yd, mi)."));
    EXPECT_THAT(refusal(with("\"35 ft\"", "\"10,7 m\"")), HasSubstr("the decimal sign is a point"));
    EXPECT_THAT(refusal(with("\"35 ft\"", "\"wide\"")), HasSubstr("does not start with a number"));
    EXPECT_EQ(refusal(with("\"35 ft\"", "\"0 ft\"")),
              "season.toml:19:13: \"method.cut_width\" is \"0 ft\", which is out of "
              "range: 0.5 m to 60 m is allowed.");
    EXPECT_THAT(refusal(with("\"35 ft\"", "\"-35 ft\"")), HasSubstr("out of range"));
    EXPECT_THAT(refusal(with("\"35 ft\"", "\"350 m\"")), HasSubstr("out of range"));
}

TEST(SeasonMessages, KeepTheBasisAndTheBushelInRange) {
    for (const std::string basis : {"0 %", "40 %", "-1 %", "99 %"})
        EXPECT_THAT(
            refusal(with("\"canola\"", "\"canola\"\nbasis = \"" + basis + "\"")),
            testing::AllOf(StartsWith("season.toml:4:9: \"basis\""), HasSubstr("more than 0 % and less than 40 %")));
    EXPECT_EQ(refusal(with("\"canola\"", "\"canola\"\nbasis = \"39.9 %\"")), "accepted");
    EXPECT_THAT(refusal(with("\"canola\"", "\"canola\"\nbushel = \"500 lb\"")),
                StartsWith("season.toml:4:10: \"bushel\" is \"500 lb\", which is out of range"));
    EXPECT_THAT(refusal(with("\"canola\"", "\"canola\"\nbushel = \"35 L\"")), HasSubstr("not known as a mass"));
}

TEST(SeasonMessages, KeepTheYearInRange) {
    EXPECT_EQ(refusal(with("2025", "205")),
              "season.toml:2:12: \"year\" is 205, which is out of range: 1980 to 2100 is allowed.");
    EXPECT_EQ(refusal(with("2025", "\"2025\"")),
              "season.toml:2:12: \"year\" must be a whole number, without quotes, not text.");
    EXPECT_EQ(refusal(with("2025", "2025.5")),
              "season.toml:2:12: \"year\" must be a whole number, without quotes, not a number.");
    EXPECT_THAT(refusal(with("2025", "2025-09-01")), HasSubstr("not a date or time"));
}

TEST(SeasonMessages, NameTheNearestCropAndWhatAnUnknownOneNeeds) {
    EXPECT_EQ(refusal(with("\"canola\"", "\"canla\"")), "season.toml:3:12: \"crop\" is \"canla\", which is not in the "
                                                        "crop table; did you mean \"canola\"? A crop not in "
                                                        "it needs both basis (\"10.0 %\") and bushel (\"50 lb\").");
    EXPECT_THAT(refusal(with("\"canola\"", "\"quinoa\"\nbasis = \"13 %\"")), HasSubstr("needs both"));
    EXPECT_THAT(refusal(with("\"canola\"", "\"quinoa\"\nbushel = \"50 lb\"")), HasSubstr("needs both"));
}

TEST(SeasonMessages, AskForWhatNoSourceGives) {
    EXPECT_THAT(refusal(with("\"canola\"", "\"beans\"")),
                testing::AllOf(StartsWith("season.toml:3:12"), HasSubstr("add basis")));
    EXPECT_THAT(refusal(with("\"canola\"", "\"safflower\"")), HasSubstr("add bushel"));
}

TEST(SeasonMessages, RefuseUnitsTheReportDoesNotSpeak) {
    EXPECT_EQ(refusal(with("\"canola\"", "\"canola\"\nunits = \"bushels\"")),
              "season.toml:4:9: \"units\" is \"bushels\"; write bu/ac, t/ha, kg/ha or lb/ac.");
}

TEST(SeasonMessages, RefuseABaselineThatIsNoMethod) {
    EXPECT_EQ(
        refusal(with("baseline = \"swathed\"", "baseline = \"swatched\"")),
        "season.toml:4:12: \"baseline\" is \"swatched\", which has no [[method]] table; did you mean \"swathed\"?");
    EXPECT_EQ(refusal(with("baseline = \"swathed\"", "baseline = \"x\"")),
              "season.toml:4:12: \"baseline\" is \"x\", which has no [[method]] table; known: swathed, standing.");
}

TEST(SeasonMessages, NeedTwoMethodsOfDifferentNames) {
    EXPECT_EQ(refusal(with("\n[[method]]\nname = \"standing\"\n", "")),
              "season.toml:17:1: a comparison needs at least two [[method]] tables, only \"swathed\" is there.");
    EXPECT_THAT(refusal("method = []\n" + right.substr(0, right.find("\n[[method]]"))), HasSubstr("none is there"));
    EXPECT_EQ(refusal(with("\"standing\"", "\"swathed\"", with("baseline = \"swathed\"", "baseline = 'swathed'"))),
              "season.toml:22:8: \"method.name\" \"swathed\" is there twice.");
    EXPECT_THAT(refusal(with("\"standing\"", "\"Swathed\"")), HasSubstr("by capitals only"));
}

TEST(SeasonMessages, TellSingleFromDoubleBrackets) {
    const std::string one = right.substr(0, right.find("[[method]]")) + "[method]\nname = \"swathed\"\n";
    EXPECT_EQ(refusal(one), "season.toml:17:1: \"method\" stands in single brackets; write [[method]], once for each.");
    EXPECT_EQ(refusal(with("[fields]", "[[fields]]")),
              "season.toml:6:1: \"fields\" may stand once only: write it in single brackets.");
    EXPECT_EQ(refusal(with_more("[tickets]\nfile = \"a\"\n[tickets]\n")).substr(0, 17), "season.toml:26:1:");
}

TEST(SeasonMessages, SayWhichKindOfValueIsWanted) {
    EXPECT_EQ(refusal(with("\"canola\"", "7")),
              "season.toml:3:12: \"crop\" must be text in quotes, not a whole number.");
    EXPECT_EQ(refusal(with("\"Invented farm\"", "true")),
              "season.toml:1:12: \"title\" must be text in quotes, not true or false.");
    EXPECT_EQ(refusal("fields = \"a.gpkg\"\n" + with("[fields]\nfile = \"fields.gpkg\"\nname = \"name\"\n", "")),
              "season.toml:1:10: \"fields\" must be a table, not text.");
    EXPECT_EQ(refusal(with("\"canola\"", "\"  \"")),
              "season.toml:3:12: \"crop\" is empty; say something or remove the line.");
    EXPECT_EQ(refusal(with("[\"yield/*.csv\"]", "[]")),
              "season.toml:11:9: \"points.files\" is an empty list; name at least one.");
    EXPECT_EQ(refusal(with("[\"yield/*.csv\"]", "[\"a.csv\", 3]")),
              "season.toml:11:19: \"points.files\" must be text in quotes, not a whole number.");
    EXPECT_THAT(refusal(with("\"yield/*.csv\"", "\"yield\\\\t\", \"yield\\tfile.csv\"")),
                HasSubstr("control character"));
}

TEST(SeasonMessages, PassOnWhereTheTomlItselfIsBroken) {
    EXPECT_THAT(refusal(with("\"canola\"", "canola")), StartsWith("season.toml:3:12: this is not TOML: "));
    EXPECT_THAT(refusal(with("year     = 2025", "year = 2025\nyear = 2026")), StartsWith("season.toml:3:"));
    EXPECT_THAT(refusal(with("\"fields.gpkg\"\nname", "\"C:\\data\\fields.gpkg\"\nname")),
                testing::AllOf(StartsWith("season.toml:7:"), HasSubstr("Write paths with / or between single quotes")));
    EXPECT_THAT(refusal("title = \"caf\xE9\"\n"), StartsWith("season.toml:1:"));
    EXPECT_THAT(refusal(std::string("\xFF\xFEt\0i\0", 6)), StartsWith("season.toml:1:1: this is not TOML"));
    EXPECT_THAT(refusal(std::string(100000, '[')), StartsWith("season.toml:1:"));
}

} // namespace
} // namespace quartercut
