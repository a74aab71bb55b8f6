// SPDX-License-Identifier: MIT
// Bad input, one fault at a time: exit code 1, one message that says what, where and what to do, nothing left behind.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <vector>

namespace quartercut::test {
namespace {

struct BadInput {
    std::string name;
    std::function<void(TextFiles&)> spoil;
    std::vector<std::string> message_says;
};

void PrintTo(const BadInput& input, std::ostream* out) { *out << input.name; }

class BadInputIsRefused : public testing::TestWithParam<BadInput> {};

TEST_P(BadInputIsRefused, WithOneClearMessageAndNothingLeftBehind) {
    TextFiles files = text_season();
    GetParam().spoil(files);
    if (HasFatalFailure()) return;
    const SeasonFolder folder(files);
    for (const std::string command : {"compare season.toml", "check season.toml"}) {
        const Ran ran = folder.run(command);
        EXPECT_EQ(ran.exit_code, 1) << command << "\n" << ran.out << ran.err;
        EXPECT_EQ(ran.out, "") << command;
        for (const auto& words : GetParam().message_says)
            EXPECT_THAT(ran.err, testing::HasSubstr(words)) << command;
        EXPECT_THAT(ran.err, testing::Not(testing::HasSubstr(folder.path().string()))) << "the path of the machine";
        EXPECT_EQ(folder.left_behind(), "") << command;
    }
}

std::function<void(TextFiles&)> in_file(const std::string& file, const std::string& from, const std::string& to) {
    return [=](TextFiles& files) { replace_once(files[file], from, to); };
}

/// Replaces every value of one column of the records.
std::function<void(TextFiles&)> column_becomes(std::size_t column, const std::string& value) {
    return [=](TextFiles& files) {
        std::string out;
        std::size_t line_start = 0;
        std::string& text = files["points.csv"];
        for (bool header = true; line_start < text.size(); header = false) {
            const std::size_t line_end = text.find('\n', line_start);
            std::string line = text.substr(line_start, line_end - line_start);
            if (!header) {
                std::size_t from = 0;
                for (std::size_t i = 0; i < column; ++i)
                    from = line.find(',', from) + 1;
                line.replace(from, line.find(',', from) - from, value);
            }
            out += line + "\n";
            line_start = line_end + 1;
        }
        text = out;
    };
}

const std::string bow_tie = R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Home"},
"geometry":{"type":"Polygon","coordinates":[[[-106.5,52.1],[-106.497,52.104],[-106.497,52.1],[-106.5,52.104],
[-106.5,52.1]]]}}]})";

INSTANTIATE_TEST_SUITE_P(
    Files, BadInputIsRefused,
    testing::Values(
        BadInput{"MissingBoundaryFile", [](TextFiles& f) { f.erase("fields.geojson"); }, {"fields.geojson"}},
        BadInput{"MissingRecordsFile", [](TextFiles& f) { f.erase("points.csv"); }, {"points.csv"}},
        BadInput{"MissingMethodsFile", [](TextFiles& f) { f.erase("methods.geojson"); }, {"methods.geojson"}},
        BadInput{"MissingLayer",
                 in_file("season.toml", "file = \"fields.geojson\"", "file = \"fields.geojson\"\nlayer = \"quarters\""),
                 {"fields.geojson", "quarters", "fields"}},
        BadInput{"UnknownNameColumn",
                 in_file("season.toml", "name = \"name\"", "name = \"nmae\""),
                 {"fields.geojson", "nmae", "name"}},
        BadInput{"UnknownRecordColumn",
                 in_file("season.toml", "\"flow_kg_s\"", "\"flow_kgs\""),
                 {"points.csv", "flow_kgs", "flow_kg_s"}},
        BadInput{"UnknownMethodColumn",
                 in_file("season.toml", "column = \"method\"", "column = \"way\""),
                 {"methods.geojson", "way"}},
        BadInput{"UnknownUnit",
                 in_file("season.toml", "unit = \"kg/s\"", "unit = \"kg/fortnight\""),
                 {"season.toml:15:", "kg/fortnight"}},
        BadInput{"EmptyLayer",
                 [](TextFiles& f) { f["fields.geojson"] = R"({"type":"FeatureCollection","features":[]})"; },
                 {"fields.geojson"}},
        BadInput{"NotAGisFile", [](TextFiles& f) { f["fields.geojson"] = "{\"hello\": 1}\n"; }, {"fields.geojson"}},
        BadInput{"HeaderOnly",
                 [](TextFiles& f) { f["points.csv"].resize(f["points.csv"].find('\n') + 1); },
                 {"points.csv"}}),
    [](const auto& given) { return given.param.name; });

INSTANTIATE_TEST_SUITE_P(
    Meaning, BadInputIsRefused,
    testing::Values(BadInput{"NoOverlapOfRecordsAndFields",
                             [](TextFiles& f) {
                                 std::string& text = f["points.csv"];
                                 for (auto at = text.find(",-106."); at != std::string::npos; at = text.find(",-106."))
                                     text.replace(at, 6, ",-101.");
                             },
                             {"-101."}},
                    BadInput{"SelfCrossingBoundary",
                             [](TextFiles& f) { f["fields.geojson"] = bow_tie; },
                             {"fields.geojson", "Home", "-106.4985", "52.102"}},
                    BadInput{"MethodAreaOfNoMethod",
                             [](TextFiles& f) {
                                 std::string& text = f["methods.geojson"];
                                 text.replace(text.find("standing"), 8, "straight");
                             },
                             {"methods.geojson", "straight", "standing"}},
                    BadInput{"MoistureZeroEverywhere", column_becomes(4, "0"), {"moisture"}},
                    BadInput{"MoistureHundredEverywhere", column_becomes(4, "100"), {"moisture"}},
                    BadInput{"CrsMissing",
                             [](TextFiles& f) {
                                 replace_once(f["season.toml"], "crs = \"EPSG:4326\"\n", "");
                                 replace_once(f["points.csv"], "lon,lat", "x,y");
                             },
                             {"points.csv", "crs", "EPSG:4326"}},
                    BadInput{"BaselineIsNoMethod",
                             in_file("season.toml", "baseline = \"swathed\"", "baseline = \"swath\""),
                             {"season.toml:4:", "swath", "swathed"}},
                    BadInput{"UnknownKey",
                             in_file("season.toml", "units = \"t/ha\"", "unit = \"t/ha\""),
                             {"season.toml:5:1", "unit", "units"}},
                    BadInput{"UnknownCrop",
                             in_file("season.toml", "crop = \"canola\"", "crop = \"canloa\""),
                             {"season.toml:3:", "canloa", "canola"}},
                    BadInput{"BrokenToml", in_file("season.toml", "year = 2025", "year = = 2025"), {"season.toml:2:"}}),
    [](const auto& given) { return given.param.name; });

TEST(BadInput, ATicketOfAnUnknownFieldIsRefusedWithItsRow) {
    TextFiles files = text_season();
    files["season.toml"] += "\n[tickets]\nfile = \"tickets.csv\"\n";
    files["tickets.csv"] = "field,machine,method,net_kg,moisture_pct,dockage_pct\n"
                           "Home,A,swathed,6500,8.1,1.5\nHome farm,A,standing,7200,9.2,1.5\n";
    const SeasonFolder folder(files);
    const Ran ran = folder.run("compare season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, testing::AllOf(testing::HasSubstr("tickets.csv"), testing::HasSubstr("row 2"),
                                        testing::HasSubstr("Home farm"), testing::HasSubstr("Mostly row 1 is line 2")));
    EXPECT_EQ(folder.left_behind(), "");
}

TEST(BadInput, AMissingSeasonFileIsNamed) {
    const SeasonFolder folder(TextFiles{});
    const Ran ran = folder.run("compare nowhere.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, testing::HasSubstr("nowhere.toml"));
    EXPECT_EQ(folder.left_behind(), "");
}

} // namespace
} // namespace quartercut::test
