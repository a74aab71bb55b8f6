// SPDX-License-Identifier: MIT
// The same season in every format and in both systems of units gives the same comparison, to 1e-6. GDAL's own ogr2ogr
// writes the files, so nothing of ours stands on both sides.
#include "alike.hpp"

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

const Json& wanted() {
    static const Json json = compared(SeasonFolder(text_season()));
    return json;
}

struct FormatCase {
    std::string name, ending, driver, options;
};
void PrintTo(const FormatCase& format, std::ostream* out) { *out << format.name; }

class SameComparison : public testing::TestWithParam<FormatCase> {};

/// GDAL's own ogr2ogr makes STEM-copy.ENDING of one file of the season.
std::string conversion(const FormatCase& format, const std::string& file) {
    const std::string stem = file.substr(0, file.find('.'));
    const bool points = file == "points.csv";
    // An index sorts rows by place: records come back into order by their times, but zones follow the rows of areas.
    return "ogr2ogr -f '" + format.driver + "' " + format.options +
           (format.driver == "FlatGeobuf" && !points ? " -lco SPATIAL_INDEX=NO" : "") + " -nln " + stem +
           (points ? " -a_srs EPSG:4326 -oo X_POSSIBLE_NAMES=lon -oo Y_POSSIBLE_NAMES=lat -oo KEEP_GEOM_COLUMNS=NO "
                     "-oo AUTODETECT_TYPE=YES "
                   : " ") +
           stem + "-copy" + format.ending + " " + file;
}

/// The same with a shapefile in a folder of a plain .zip, as a web page hands it out; nothing else is left beside it.
std::string zipping(const FormatCase& format, const std::string& file) {
    const std::string stem = file.substr(0, file.find('.')), folder = stem + "-parts";
    FormatCase plain = format;
    plain.ending = ".shp";
    return "mkdir " + folder + " && " + conversion(plain, file) + " && mv " + stem + "-copy.* " + folder +
           " && python3 -m zipfile -c " + stem + "-copy.zip " + folder + " && rm -r " + folder;
}

TEST_P(SameComparison, InEveryFormat) {
    const FormatCase& format = GetParam();
    TextFiles files = text_season();
    const std::vector<std::string> converted{"fields.geojson", "methods.geojson", "points.csv"};
    for (const std::string& file : converted) {
        const std::string stem = file.substr(0, file.find('.'));
        replace_once(files["season.toml"], "\"" + file + "\"", "\"" + stem + "-copy" + format.ending + "\"");
    }
    const SeasonFolder folder(files);
    for (const std::string& file : converted) {
        const std::string command = "cd '" + folder.path().string() + "' && { " +
                                    (format.ending == ".zip" ? zipping(format, file) : conversion(format, file)) +
                                    "; } 2>/dev/null";
        ASSERT_EQ(std::system(command.c_str()), 0) << command;
        std::filesystem::remove(folder.path() / file);
    }
    expect_alike(compared(folder), wanted());
}

INSTANTIATE_TEST_SUITE_P(
    Formats, SameComparison,
    testing::Values(FormatCase{"GeoPackage", ".gpkg", "GPKG", ""}, FormatCase{"FlatGeobuf", ".fgb", "FlatGeobuf", ""},
                    FormatCase{"Shapefile", ".shp", "ESRI Shapefile", "-fieldTypeToString DateTime"},
                    FormatCase{"ZippedShapefile", ".shz", "ESRI Shapefile", "-fieldTypeToString DateTime"},
                    FormatCase{"ShapefileInAZip", ".zip", "ESRI Shapefile", "-fieldTypeToString DateTime"},
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
        expect_alike(compared(SeasonFolder(files)), wanted());
    }
}

std::vector<std::string> split_at_commas(const std::string& line) {
    std::vector<std::string> cells;
    std::string cell;
    for (std::istringstream in(line); std::getline(in, cell, ',');)
        cells.push_back(cell);
    return cells;
}

/// What task data can hold of the season: no distance and no duration, and places in whole 1e-7 degrees.
struct TaskSeason {
    std::string csv;     ///< the same numbers as text
    std::string records; ///< the binary log
};

/// Numbers as ISO 11783-10:2015 annex D lays them down (from memory), little-endian, in the order of `task_header`.
TaskSeason task_season(const std::string& points) {
    TaskSeason out{"time,lon,lat,flow_kg_s,moisture_pct,width_m,combine\n", ""};
    const auto put = [&](long long value, int bytes) {
        for (int i = 0; i < bytes; ++i)
            out.records += static_cast<char>((static_cast<unsigned long long>(value) >> (8 * i)) & 0xFFU);
    };
    constexpr long long day = 16689; // 2025-09-10 after 1980-01-01: 45 years of 365 days, 12 leap days, 252 days
    std::istringstream rows(points);
    std::string line;
    std::getline(rows, line);
    while (std::getline(rows, line)) {
        const std::vector<std::string> c = split_at_commas(line); // time,lon,lat,flow,moisture,speed,dist,dur,width,..
        const long long east = std::llround(std::stod(c[1]) * 1e7), north = std::llround(std::stod(c[2]) * 1e7);
        const long long clock_ms = 1000LL * (3600 * std::stoi(c[0].substr(11, 2)) + 60 * std::stoi(c[0].substr(14, 2)) +
                                             std::stoi(c[0].substr(17, 2)));
        char place[64];
        std::snprintf(place, sizeof place, "%.7f,%.7f", static_cast<double>(east) / 1e7,
                      static_cast<double>(north) / 1e7);
        out.csv += c[0] + "," + place + "," + c[3] + "," + c[4] + "," + c[8] + "," + c[9] + "\n";
        put(clock_ms, 4), put(day, 2), put(north, 4), put(east, 4), put(4, 1), put(clock_ms, 4), put(day, 2);
        put(3, 1);
        put(0, 1), put(std::llround(std::stod(c[3]) * 1e6), 4); // mg/s
        put(1, 1), put(std::llround(std::stod(c[4]) * 1e4), 4); // ppm
        put(2, 1), put(std::llround(std::stod(c[8]) * 1e3), 4); // mm
    }
    return out;
}

TEST(SameComparisonInTaskData, OfPlacesInWholeSteps) {
    TextFiles files = text_season();
    const TaskSeason season = task_season(files["points.csv"]);
    std::string& text = files["season.toml"];
    text.erase(text.find("[points.columns]"), text.find("[methods]") - text.find("[points.columns]"));
    files["points.csv"] = season.csv;
    const Json in_text = compared(SeasonFolder(files));
    files.erase("points.csv");
    replace_once(text, "points.csv", "TASKDATA.XML");
    files["TASKDATA.XML"] = R"(<?xml version="1.0" encoding="UTF-8"?>
<ISO11783_TaskData VersionMajor="3" VersionMinor="3" DataTransferOrigin="1">
  <DVC A="DVC-1" B="A"><DET A="DET-1" B="1" C="1" D="combine" E="0" F="0"/></DVC>
  <TSK A="TSK1" B="harvest" G="4"><TLG A="TLG00001" B="0"/></TSK>
</ISO11783_TaskData>
)";
    files["TLG00001.XML"] = R"(<TIM A="" D="4"><PTN A="" B="" D="" H="" I=""/>
<DLV A="0057" B="" C="DET-1"/><DLV A="0063" B="" C="DET-1"/><DLV A="0043" B="" C="DET-1"/></TIM>)";
    files["TLG00001.BIN"] = season.records;
    expect_alike(compared(SeasonFolder(files)), in_text);
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
    expect_alike(compared(SeasonFolder(files)), wanted());
}

} // namespace
} // namespace quartercut::test
