// SPDX-License-Identifier: MIT
// Records as they come off cards and out of programs: two machines in one file, out of order, twice over, without a
// coordinate system. What can be set right gives the comparison of the tidy file; the rest is asked for.
#include "alike.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <sstream>
#include <vector>

namespace quartercut::test {
namespace {

using Json = nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

using Rows = std::vector<std::string>;

struct Table {
    std::string names;
    Rows rows;
};

Table records_of(const TextFiles& files) {
    Table table;
    std::istringstream in(files.at("points.csv"));
    std::getline(in, table.names);
    for (std::string row; std::getline(in, row);)
        table.rows.push_back(row);
    return table;
}

std::string text_of(const std::string& names, const Rows& rows) {
    std::string text = names + "\n";
    for (const std::string& row : rows)
        text += row + "\n";
    return text;
}

Json compared_with(TextFiles files, const std::string& points) {
    files["points.csv"] = points;
    return compared(SeasonFolder(files));
}

const Json& tidy() {
    static const Json json = compared(SeasonFolder(text_season()));
    return json;
}

/// The second half of the records is machine B's, at work in the same hours as A.
std::pair<Rows, Rows> of_two_machines(const Rows& rows) {
    const auto half = static_cast<std::ptrdiff_t>(rows.size() / 2);
    Rows a(rows.begin(), rows.begin() + half), b(rows.begin() + half, rows.end());
    for (std::size_t i = 0; i < b.size(); ++i) {
        b[i].replace(0, b[i].find(','), a[i].substr(0, a[i].find(',')));
        b[i].back() = 'B';
    }
    return {a, b};
}

TEST(MessyRecords, OfTwoMachinesRowByRowAreThoseOfOneAfterTheOther) {
    const TextFiles files = text_season();
    const Table table = records_of(files);
    const auto [a, b] = of_two_machines(table.rows);
    Rows one_after_the_other = a, row_by_row;
    one_after_the_other.insert(one_after_the_other.end(), b.begin(), b.end());
    for (std::size_t i = 0; i < a.size(); ++i) {
        row_by_row.push_back(b[i]);
        row_by_row.push_back(a[i]);
    }
    const Json wanted = compared_with(files, text_of(table.names, one_after_the_other));
    ASSERT_EQ(wanted.at("fields").at(0).at("lag_s").size(), 4U) << "two machines, two methods";
    expect_alike(compared_with(files, text_of(table.names, row_by_row)), wanted);
}

/// Neither file names its machine; that both are at work at once, apart, tells them apart.
TEST(MessyRecords, OfTwoMachinesWithoutNamesInTwoFilesAreTakenForTwo) {
    TextFiles files = text_season();
    const Table table = records_of(files);
    const auto [a, b] = of_two_machines(table.rows);
    const auto without_machine = [&](const Rows& rows) {
        std::string text = text_of(table.names, rows), out;
        std::istringstream in(text);
        for (std::string row; std::getline(in, row);)
            out += row.substr(0, row.rfind(',')) + "\n";
        return out;
    };
    files.erase("points.csv");
    files["A.csv"] = without_machine(a);
    files["B.csv"] = without_machine(b);
    replace_once(files["season.toml"], "[\"points.csv\"]", "[\"A.csv\", \"B.csv\"]");
    TextFiles with_names = text_season();
    Rows both = a;
    both.insert(both.end(), b.begin(), b.end());
    const SeasonFolder folder(files);
    expect_alike(compared(folder), compared_with(with_names, text_of(table.names, both)));
    EXPECT_THAT(folder.run("check season.toml").out, HasSubstr("The records of 'A', 'B' name no machine"));
}

TEST(MessyRecords, OutOfOrderAreBroughtIntoIt) {
    const TextFiles files = text_season();
    Table table = records_of(files);
    std::mt19937_64 draw(11);
    std::shuffle(table.rows.begin(), table.rows.end(), draw);
    expect_alike(compared_with(files, text_of(table.names, table.rows)), tidy());
}

/// Without what the raw map would have said: that is the mean of all records, however often one stands there.
Json without_raw(const Json& json) {
    if (!json.is_structured()) return json;
    Json out = json.is_array() ? Json::array() : Json::object();
    for (const auto& [key, value] : json.items()) {
        if (json.is_array())
            out.push_back(without_raw(value));
        else if (!key.starts_with("raw_"))
            out[key] = without_raw(value);
    }
    return out;
}

/// What a record twice over must not change: everything but how many there were.
void expect_once(const Json& got, std::size_t twice) {
    const Json &field = got.at("fields").at(0), &wanted = tidy().at("fields").at(0);
    EXPECT_EQ(field.at("records").at("used"), wanted.at("records").at("used"));
    EXPECT_EQ(field.at("records").at("read").get<std::size_t>(),
              wanted.at("records").at("read").get<std::size_t>() + twice);
    EXPECT_EQ(field.at("records").at("removed").value("merged", std::size_t{0}), twice);
    for (const char* same : {"contrasts", "widths", "area_ha"})
        expect_alike(without_raw(field.at(same)), without_raw(wanted.at(same)), same);
    expect_alike(without_raw(got.at("farm")), without_raw(tidy().at("farm")), "farm");
}

TEST(MessyRecords, TwiceInTheFileCountOnce) {
    const TextFiles files = text_season();
    const Table table = records_of(files);
    Rows twice;
    for (const std::string& row : table.rows)
        twice.insert(twice.end(), {row, row});
    expect_once(compared_with(files, text_of(table.names, twice)), table.rows.size());
}

TEST(MessyRecords, ExportedTwiceUnderTwoNamesCountOnce) {
    TextFiles files = text_season();
    const Table table = records_of(files);
    files["points (1).csv"] =
        text_of(table.names, Rows(table.rows.begin(), table.rows.begin() + 1000)); // an earlier, shorter export
    replace_once(files["season.toml"], "[\"points.csv\"]", "[\"points*.csv\"]");
    expect_once(compared(SeasonFolder(files)), 1000);
    EXPECT_THAT(SeasonFolder(files).run("check season.toml").out,
                HasSubstr("1000 of its records stand in points (1).csv too; each counts once"));
}

/// The same export in pounds and with fewer digits would look like two readings of every spot.
TEST(MessyRecords, ExportedTwiceInOtherUnitsAreRefused) {
    TextFiles files = text_season();
    std::string rows = "time,lon,lat,flow (lb/s),moisture_pct,dist_m,dur_s,width_m,combine\n";
    for (const std::string& row : records_of(files).rows) {
        std::vector<std::string> cells;
        std::string cell;
        for (std::istringstream in(row); std::getline(in, cell, ',');)
            cells.push_back(cell);
        char places[120];
        std::snprintf(places, sizeof places, "%.7f,%.7f,%.2f", std::stod(cells[1]), std::stod(cells[2]),
                      std::stod(cells[3]) / 0.45359237);
        rows += cells[0] + "," + places + "," + cells[4] + "," + cells[6] + "," + cells[7] + "," + cells[8] + "," +
                cells[9] + "\n";
    }
    files["pounds.csv"] = rows;
    replace_once(files["season.toml"], "[\"points.csv\"]", "[\"points.csv\", \"pounds.csv\"]");
    const Ran ran = SeasonFolder(files).run("compare season.toml");
    EXPECT_EQ(ran.exit_code, 1);
    EXPECT_THAT(ran.err, HasSubstr("pounds.csv: 3200 of its records stand at the moment and the place of a record of "
                                   "points.csv"));
}

/// All layers as shapefiles in that projection, with nothing beside them to say so.
class WithoutPrj : public SeasonFolder {
public:
    WithoutPrj(const TextFiles& files, const std::string& projection) : SeasonFolder(files) {
        const auto convert = [&](const std::string& options, const std::string& from, const std::string& to) {
            const std::string command = "cd '" + path().string() + "' && ogr2ogr " + options +
                                        " -fieldTypeToString DateTime -t_srs '" + projection + "' " + to + ".shp " +
                                        from + " 2>/dev/null && rm " + to + ".prj";
            ASSERT_EQ(std::system(command.c_str()), 0) << command;
        };
        convert("", "fields.geojson", "land");
        convert("", "methods.geojson", "cut");
        convert("-s_srs EPSG:4326 -oo X_POSSIBLE_NAMES=lon -oo Y_POSSIBLE_NAMES=lat -oo KEEP_GEOM_COLUMNS=NO "
                "-oo AUTODETECT_TYPE=YES",
                "points.csv", "yield");
    }
};

/// The season file for those; each of the three tables gets its line.
TextFiles without_prj(const std::string& land, const std::string& cut, const std::string& yield) {
    TextFiles files = text_season();
    std::string& text = files["season.toml"];
    replace_once(text, "\ncrs = \"EPSG:4326\"", "");
    replace_once(text, "\"fields.geojson\"", "\"land.shp\"" + land);
    replace_once(text, "\"methods.geojson\"", "\"cut.shp\"" + cut);
    replace_once(text, "[\"points.csv\"]", "[\"yield.shp\"]" + yield);
    return files;
}

/// Half of the records in degrees, half in metres of UTM zone 13 (gdal's ogr2ogr), and neither file says which.
class TwoPlaces : public SeasonFolder {
public:
    explicit TwoPlaces(const TextFiles& files) : SeasonFolder(files) {
        const std::string command = "cd '" + path().string() +
                                    "' && ogr2ogr -f CSV -lco GEOMETRY=AS_XY -s_srs EPSG:4326 -t_srs EPSG:32613 -oo "
                                    "X_POSSIBLE_NAMES=lon -oo Y_POSSIBLE_NAMES=lat -oo KEEP_GEOM_COLUMNS=NO "
                                    "utm.csv half.csv 2>/dev/null && rm half.csv";
        EXPECT_EQ(std::system(command.c_str()), 0) << command;
    }
};

TextFiles in_two_places(const std::string& crs) {
    TextFiles files = text_season();
    std::istringstream rows(files["points.csv"]);
    std::string row, first, second;
    for (std::size_t n = 0; std::getline(rows, row); ++n) {
        if (n < 1600) first += row + "\n";
        if (n == 0 || n >= 1600) second += row + "\n";
    }
    files["points.csv"] = first;
    files["half.csv"] = second;
    replace_once(files["season.toml"], "[\"points.csv\"]\ncrs = \"EPSG:4326\"",
                 "[\"points.csv\", \"utm.csv\"]\n" + crs);
    return files;
}

TEST(TwoCoordinateSystems, HaveOneEach) {
    const TwoPlaces folder(in_two_places("crs = { \"points.csv\" = \"EPSG:4326\", \"utm.csv\" = \"EPSG:32613\" }"));
    const Ran ran = folder.run("check season.toml");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("Its coordinate system is EPSG:32613"), HasSubstr("read, in a field"),
                               HasSubstr(" 3200\n"), Not(HasSubstr("outside every field"))));
    ASSERT_EQ(folder.run("compare season.toml").exit_code, 0);
    const Json inputs = Json::parse(folder.text("results/inputs.json"));
    EXPECT_EQ(inputs["settings"]["sources"]["points"]["crs_of"]["utm.csv"], "EPSG:32613");
}

TEST(TwoCoordinateSystems, NameOnlyFilesThatAreRead) {
    const TwoPlaces folder(in_two_places("crs = { \"points.csv\" = \"EPSG:4326\", \"umt.csv\" = \"EPSG:32613\" }"));
    for (const char* command : {"check season.toml", "compare season.toml"}) {
        const Ran ran = folder.run(command);
        EXPECT_EQ(ran.exit_code, 1);
        EXPECT_THAT(ran.err, AllOf(HasSubstr("names 'umt.csv', which is none of its files"), HasSubstr("utm.csv")));
    }
}

TEST(ShapefilesWithoutPrj, AreListedOnceALayer) {
    const std::string degrees = "\ncrs = \"EPSG:4326\"";
    TextFiles files = without_prj(degrees, degrees, "");
    replace_once(files["season.toml"], "[\"yield.shp\"]", "[\"yield.shp\"]" + degrees);
    const WithoutPrj folder(files, "EPSG:4326");
    const Ran ran = folder.run("check season.toml");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("  land.shp, layer land"), Not(HasSubstr(".dbf")), Not(HasSubstr(" 0 rows"))));
    EXPECT_THAT(folder.run("check season.toml --json").out, AllOf(HasSubstr("land.shp"), Not(HasSubstr(".shx"))));
}

TEST(ShapefilesWithoutPrj, OfDegreesAreOfferedAsSuchAndNotTakenForThem) {
    const std::string degrees = "\ncrs = \"EPSG:4326\"";
    const WithoutPrj open(without_prj(degrees, degrees, ""), "EPSG:4326");
    const Ran refused = open.run("compare season.toml");
    EXPECT_EQ(refused.exit_code, 1);
    EXPECT_THAT(refused.err, HasSubstr("yield.shp, layer 'yield': the file does not say its coordinate system"));
    EXPECT_THAT(refused.err, HasSubstr("add crs = \"EPSG:4326\" under [points]"));
    EXPECT_FALSE(open.has("results"));
    expect_alike(compared(WithoutPrj(without_prj(degrees, degrees, degrees), "EPSG:4326")), tidy());
}

/// The projection the program itself would choose, so that the numbers must be the same.
constexpr const char* own_frame = "+proj=tmerc +lat_0=52.1018 +lon_0=-106.49883 +k=1 +ellps=WGS84 +units=m";

TEST(ShapefilesWithoutPrj, InLocalMetresAreTakenWhereAllAgree) {
    const std::string metres = "\ncrs = \"local metres\"";
    expect_alike(compared(WithoutPrj(without_prj(metres, metres, metres), own_frame)), tidy());
    const Ran refused = WithoutPrj(without_prj(metres, metres, ""), own_frame).run("compare season.toml");
    EXPECT_EQ(refused.exit_code, 1);
    EXPECT_THAT(refused.err, HasSubstr("yield.shp, layer 'yield': the coordinates are on the Earth, but land.shp"));
}

} // namespace
} // namespace quartercut::test
