// SPDX-License-Identifier: MIT
// The same season in every format and in both systems of units gives the same comparison, to 1e-6. GDAL's own ogr2ogr
// writes the files, so nothing of ours stands on both sides.
#include "text_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdlib>
#include <map>
#include <sstream>
#include <vector>

namespace quartercut::test {
namespace {

using Json = nlohmann::json;

/// Remarks name files, and so do inputs; everything else must be alike.
void expect_alike(const Json& got, const Json& wanted, const std::string& where) {
    constexpr double tolerance = 1e-6;
    ASSERT_EQ(got.is_number(), wanted.is_number()) << where;
    if (wanted.is_number()) {
        const double a = got.get<double>(), b = wanted.get<double>();
        EXPECT_LE(std::abs(a - b), tolerance * std::max(1.0, std::abs(b))) << where << ": " << a << " against " << b;
        return;
    }
    ASSERT_EQ(got.type(), wanted.type()) << where;
    if (!wanted.is_structured()) {
        EXPECT_EQ(got, wanted) << where;
        return;
    }
    ASSERT_EQ(got.size(), wanted.size()) << where;
    for (const auto& [key, value] : wanted.items()) {
        if (key == "issues" || key == "inputs" || key == "attributes") continue; // formats add columns of their own
        expect_alike(wanted.is_array() ? got.at(std::stoul(key)) : got.at(key), value, where + "/" + key);
    }
}

Json compared(const SeasonFolder& folder) {
    const Ran ran = folder.run("compare season.toml --json");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    return ran.exit_code == 0 ? Json::parse(ran.out) : Json();
}

const Json& wanted() {
    static const Json json = compared(SeasonFolder(text_season()));
    return json;
}

struct FormatCase {
    std::string name, ending, driver, options;
};
void PrintTo(const FormatCase& format, std::ostream* out) { *out << format.name; }

class SameComparison : public testing::TestWithParam<FormatCase> {};

TEST_P(SameComparison, InEveryFormat) {
    const FormatCase& format = GetParam();
    TextFiles files = text_season();
    // GDAL takes ten seconds over these records in KML; tests/read/formats_test.cpp reads fewer of them.
    std::vector<std::string> converted{"fields.geojson", "methods.geojson"};
    if (format.driver != "LIBKML") converted.push_back("points.csv");
    for (const std::string& file : converted) {
        const std::string stem = file.substr(0, file.find('.'));
        replace_once(files["season.toml"], "\"" + file + "\"", "\"" + stem + "-copy" + format.ending + "\"");
    }
    const SeasonFolder folder(files);
    for (const std::string& file : converted) {
        const std::string stem = file.substr(0, file.find('.'));
        const bool points = file == "points.csv";
        // An index sorts rows by place: records come back into order by their times, but zones follow the rows of
        // areas.
        const std::string command =
            "cd '" + folder.path().string() + "' && ogr2ogr -f '" + format.driver + "' " + format.options +
            (format.driver == "FlatGeobuf" && !points ? " -lco SPATIAL_INDEX=NO" : "") + " -nln " + stem +
            (points ? " -a_srs EPSG:4326 -oo X_POSSIBLE_NAMES=lon -oo Y_POSSIBLE_NAMES=lat -oo KEEP_GEOM_COLUMNS=NO "
                      "-oo AUTODETECT_TYPE=YES "
                    : " ") +
            stem + "-copy" + format.ending + " " + file + " 2>/dev/null";
        ASSERT_EQ(std::system(command.c_str()), 0) << command;
    }
    expect_alike(compared(folder), wanted(), "");
}

INSTANTIATE_TEST_SUITE_P(
    Formats, SameComparison,
    testing::Values(FormatCase{"GeoPackage", ".gpkg", "GPKG", ""}, FormatCase{"FlatGeobuf", ".fgb", "FlatGeobuf", ""},
                    FormatCase{"Shapefile", ".shp", "ESRI Shapefile", "-fieldTypeToString DateTime"},
                    FormatCase{"ZippedShapefile", ".shz", "ESRI Shapefile", "-fieldTypeToString DateTime"},
                    FormatCase{"GeoJson", ".geojson", "GeoJSON", ""},
                    FormatCase{"GeoJsonLines", ".geojsonl", "GeoJSONSeq", "-lco COORDINATE_PRECISION=15"},
                    FormatCase{"Kml", ".kml", "LIBKML", "-fieldTypeToString DateTime"},
                    FormatCase{"KmlZipped", ".kmz", "LIBKML", "-fieldTypeToString DateTime"},
                    FormatCase{"Gml", ".gml", "GML", ""}),
    [](const auto& tested) { return tested.param.name; });

/// The records as a table of another country: what stands between cells, what between whole and part, marks around names.
TEST(SameComparisonInText, OfAnotherDialect) {
    struct Dialect {
        std::string file, separator, decimal, head, quote, line_end;
    };
    for (const Dialect& dialect :
         {Dialect{"semicolons.csv", ";", ",", "\xEF\xBB\xBF", "", "\r\n"}, Dialect{"tabs.tsv", "\t", ".", "", "", "\n"},
          Dialect{"quoted.csv", ",", ".", "", "\"", "\r\n"}, Dialect{"tabs.txt", "\t", ",", "", "\"", "\n"}}) {
        TextFiles files = text_season();
        std::istringstream rows(files["points.csv"]);
        std::string out = dialect.head;
        bool names = true;
        for (std::string line; std::getline(rows, line); names = false) {
            std::istringstream cells(line);
            std::string cell, quote = names ? dialect.quote : "";
            for (bool first = true; std::getline(cells, cell, ','); first = false) {
                if (const auto point = cell.find('.'); point != std::string::npos && !names)
                    cell.replace(point, 1, dialect.decimal);
                out += (first ? "" : dialect.separator) + quote + cell + quote;
            }
            out += dialect.line_end;
        }
        files.erase("points.csv");
        files[dialect.file] = out;
        replace_once(files["season.toml"], "points.csv", dialect.file);
        SCOPED_TRACE(dialect.file);
        expect_alike(compared(SeasonFolder(files)), wanted(), "");
    }
}

/// Records in pounds, feet and inches.
TEST(SameComparisonInBothSystems, OfUnits) {
    TextFiles files = text_season();
    std::istringstream rows(files["points.csv"]);
    std::string line, out;
    std::getline(rows, line);
    std::vector<std::string> names;
    for (std::istringstream cells(line); std::getline(cells, line, ',');)
        names.push_back(line);
    const std::map<std::string, std::pair<std::string, double>> imperial{
        {"flow_kg_s", {"Flow (lb/s)", 1.0 / 0.45359237}},
        {"dist_m", {"Distance (ft)", 1.0 / 0.3048}},
        {"width_m", {"Swath width (in)", 1.0 / 0.0254}}};
    for (std::size_t i = 0; i < names.size(); ++i)
        out += (i == 0 ? "" : ",") + (imperial.contains(names[i]) ? imperial.at(names[i]).first : names[i]);
    out += "\n";
    while (std::getline(rows, line)) {
        std::istringstream cells(line);
        std::string cell;
        for (std::size_t i = 0; std::getline(cells, cell, ','); ++i) {
            char number[40];
            const auto found = imperial.find(names[i]);
            if (found != imperial.end())
                std::snprintf(number, sizeof number, "%.17g", std::stod(cell) * found->second.second);
            out += (i == 0 ? "" : ",") + (found != imperial.end() ? std::string(number) : cell);
        }
        out += "\n";
    }
    files["points.csv"] = out;
    std::string& text = files["season.toml"];
    text.erase(text.find("[points.columns]"), text.find("[methods]") - text.find("[points.columns]"));
    replace_once(text, "name = \"swathed\"\ncut_width = \"10 m\"",
                 "name = \"swathed\"\ncut_width = \"32.808398950131235 ft\"");
    expect_alike(compared(SeasonFolder(files)), wanted(), "");
}

} // namespace
} // namespace quartercut::test
