// SPDX-License-Identifier: MIT
// Records as people really have them: units in headers, odd separators, wet or dry found out, times in many forms.
#include "season_folder.hpp"

#include <cmath>
#include <gmock/gmock.h>

namespace quartercut::read_test {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

constexpr double first_second = 1757000000.0; // 2025-09-04T15:33:20Z, by `date -u -d @1757000000`

std::string issue_text(const Raw& raw, const std::string& code) {
    std::string text;
    for (const Issue& issue : raw.issues)
        if (issue.code == code) text += issue.where + ": " + issue.message + "\n";
    return text.empty() ? "(no issue " + code + ")" : text;
}

Raw read_sheet(const std::string& csv, const std::string& columns = "") {
    SeasonFolder folder;
    folder.write("yield.csv", csv);
    folder.columns = columns;
    return folder.read();
}

Sheet place_and_moisture() {
    return Sheet().column("lon", Holds::lon).column("lat", Holds::lat).column("moisture_pct", Holds::moisture);
}

const NumberColumn& numbers(const Raw& raw, Meaning meaning) { return raw.records.at(0).numbers.at(meaning); }

TEST(Records, TakeUnitsFromTheirHeaders) {
    const Raw raw = read_sheet(Sheet()
                                   .column("Longitude", Holds::lon)
                                   .column("Latitude", Holds::lat)
                                   .column("Flow (lb/s)", Holds::flow, 1.0 / 0.45359237)
                                   .column("moist_pct", Holds::moisture)
                                   .column("Speed mph", Holds::speed, 2.236936)
                                   .column("dist_in", Holds::distance, 1.0 / 0.0254)
                                   .column("Cycle (s)", Holds::duration)
                                   .column("Swath Width [ft]", Holds::width, 1.0 / 0.3048)
                                   .column("Track (deg)", Holds::heading)
                                   .csv());
    EXPECT_EQ(numbers(raw, Meaning::flow).unit, "lb/s");
    EXPECT_EQ(numbers(raw, Meaning::flow).name, "Flow (lb/s)");
    EXPECT_EQ(numbers(raw, Meaning::moisture).unit, "pct");
    EXPECT_EQ(numbers(raw, Meaning::speed).unit, "mph");
    EXPECT_EQ(numbers(raw, Meaning::distance).unit, "in");
    EXPECT_EQ(numbers(raw, Meaning::duration).unit, "s");
    EXPECT_EQ(numbers(raw, Meaning::width).unit, "ft");
    EXPECT_EQ(numbers(raw, Meaning::heading).unit, "deg");
    EXPECT_NEAR(numbers(raw, Meaning::distance).values[0], 2.0 / 0.0254, 1e-6);
    EXPECT_FALSE(raw.records[0].numbers.contains(Meaning::yield));
}

TEST(Records, FollowTheSeasonFileBeforeTheHeader) {
    const Raw raw = read_sheet(plain_sheet().column("Other flow", Holds::flow).csv(),
                               "flow = { column = \"Other flow\", unit = \"kg/s\" }\n");
    EXPECT_EQ(numbers(raw, Meaning::flow).name, "Other flow");
}

TEST(Records, ReadDecimalCommasBetweenSemicolons) {
    const Raw raw = read_sheet(plain_sheet().separator(";").decimal_comma().csv());
    EXPECT_NEAR(raw.records[0].lon_deg[1], -111.9988, 1e-9);
    EXPECT_NEAR(numbers(raw, Meaning::flow).values[0], 5.0, 1e-9);
    EXPECT_THAT(codes(raw.issues), Contains("decimal-comma"));
}

TEST(Records, ReadTabs) {
    SeasonFolder folder;
    folder.write("yield.txt", plain_sheet().separator("\t").csv());
    folder.points = "files = [\"yield.txt\"]\n";
    EXPECT_EQ(folder.read().records[0].size(), 40U);
}

TEST(Records, ReadWindowsLineEndsQuotesAndByteOrderMark) {
    const Raw raw = read_sheet("\xEF\xBB\xBF\"Longitude\",\"Latitude\",\"Flow, wet (kg/s)\",\"Moisture (%)\"\r\n"
                               "\"-111.999\",\"52.005\",\"5.1\",\"12\"\r\n-111.998,52.005,5.2,12\r\n\r\n");
    ASSERT_EQ(raw.records[0].size(), 2U);
    EXPECT_EQ(raw.records[0].lon_deg[0], -111.999);
    EXPECT_EQ(numbers(raw, Meaning::flow).values[1], 5.2);
}

TEST(Records, ReadWindows1252Text) {
    const Raw raw = read_sheet("lon,lat,flow_kg_s,moisture_pct,machine\n-111.999,52.005,5,12,Ren\xE9\n");
    EXPECT_EQ(raw.records[0].texts.at(Meaning::machine).words[0], "Ren\xC3\xA9");
    EXPECT_THAT(codes(raw.issues), Contains("encoding"));
}

TEST(Records, TakeAUnitsRow) {
    const Raw raw = read_sheet(Sheet()
                                   .column("lon", Holds::lon)
                                   .column("lat", Holds::lat)
                                   .column("Flow", Holds::flow, 1.0 / 0.45359237)
                                   .column("Moisture", Holds::moisture)
                                   .units_row("deg,deg,lb/s,%")
                                   .csv());
    EXPECT_EQ(numbers(raw, Meaning::flow).unit, "lb/s");
    EXPECT_EQ(raw.records[0].size(), 40U);
    EXPECT_THAT(codes(raw.issues), Contains("units-row"));
}

TEST(Records, TakeWordsForNothingAsNotRecorded) {
    const Raw raw = read_sheet("lon,lat,flow_kg_s,moisture_pct\n-111.999,52.005,NA,12\n-111.998,52.005,,NaN\n"
                               "-111.997,52.005,5,null\n-111.996,52.005,-9999,12\n");
    const std::vector<double>& flow = numbers(raw, Meaning::flow).values;
    EXPECT_TRUE(std::isnan(flow[0]) && std::isnan(flow[1]) && std::isnan(flow[3]));
    EXPECT_EQ(flow[2], 5.0);
    EXPECT_THAT(issue_text(raw, "missing-mark"), HasSubstr("1 cell of column 'flow_kg_s'"));
    EXPECT_THAT(codes(raw.issues), Not(Contains("cells-unreadable")));
}

TEST(Records, CountCellsNobodyCanRead) {
    const Raw raw = read_sheet(
        "lon,lat,flow_kg_s,moisture_pct\n-111.999,52.005,5,12\n-111.998,52.005,oops,12\n-111.997,52.005,5,12\n"
        "-111.996,52.005,5,12\n-111.995,52.005,5,12\n-111.994,52.005,5,12\n");
    EXPECT_THAT(issue_text(raw, "cells-unreadable"), HasSubstr("row 2: 'oops'"));
}

TEST(Records, ThatNoMachineCanHaveMeasuredAreNotRecorded) {
    // A distance of 1e308 m once went all the way into an area.
    std::string csv = "lon,lat,flow_kg_s,moisture_pct,distance_m,duration_s,width_m\n";
    for (int i = 0; i < 8; ++i)
        csv += std::string("-111.99") + std::to_string(i) + ",52.005,5,12,2,1,10\n";
    csv += "-111.998,52.005,inf,12,1e308,1,10\n-111.99,52.004,-1e308,140,2,1e9,1e9\n-111.99,52.003,5,-3,2,1,10\n";
    const Raw raw = read_sheet(csv);
    const std::string text = issue_text(raw, "value-impossible");
    EXPECT_THAT(text, HasSubstr("1 value of column 'distance_m' (distance) cannot be (row 9: 1e+308 m first)"));
    EXPECT_THAT(text, HasSubstr("2 values of column 'moisture_pct' (moisture) cannot be (row 10: 140 % first)"));
    EXPECT_THAT(text, HasSubstr("1 value of column 'width_m'"));
    EXPECT_THAT(text, HasSubstr("1 value of column 'duration_s'"));
    EXPECT_THAT(text, HasSubstr("1 value of column 'flow_kg_s' (flow) cannot be (row 10: -1e+308"));
    EXPECT_THAT(issue_text(raw, "cells-unreadable"), HasSubstr("row 9: 'inf' first"));
    EXPECT_TRUE(std::isnan(numbers(raw, Meaning::distance).values[8]));
    EXPECT_EQ(raw.records[0].size(), 11U);
}

TEST(Records, WithPlacesBeyondTheEarthAreLeftOutAndCounted) {
    std::string csv = "lon,lat,flow_kg_s,moisture_pct\n";
    for (int i = 0; i < 200; ++i)
        csv += "-111.99,52.00" + std::to_string(i % 10) + ",5,12\n";
    const Raw raw = read_sheet(csv + "1e308,52.005,5,12\n");
    EXPECT_EQ(raw.records[0].size(), 200U);
    EXPECT_THAT(issue_text(raw, "no-place"), HasSubstr("row 201 first"));
}

TEST(Records, ShowZeroBytesAsSuch) {
    std::string csv = plain_sheet().csv();
    csv.insert(csv.rfind(",10\n") + 1, std::string("\0\0", 2));
    std::string far_down(5000, ' '); // beyond what is looked at to tell UTF-16
    csv.insert(csv.find('\n') + 1, far_down + "\n");
    const std::string text = issue_text(read_sheet(csv), "cells-unreadable");
    EXPECT_THAT(text, HasSubstr("1 cell of column 'width_m'"));
    EXPECT_THAT(text, HasSubstr("'?\?10'"));
}

TEST(Times, ThatCannotBeReadAreCountedWithTheirRow) {
    std::string csv = "lon,lat,flow_kg_s,moisture_pct,timestamp\n";
    for (int i = 10; i < 40; ++i)
        csv += "-111.99,52.0" + std::to_string(i) + ",5,12,2025-09-04T15:33:" + std::to_string(i) + "Z\n";
    const Raw raw = read_sheet(csv + "-111.99,52.005,5,12,at dusk\n-111.99,52.005,5,12,1970-01-01T00:00:00Z\n");
    EXPECT_THAT(issue_text(raw, "cells-unreadable"),
                HasSubstr("1 cell of column 'timestamp' cannot be read (row 31: 'at"));
    EXPECT_THAT(issue_text(raw, "time-impossible"), HasSubstr("1 time before 1980 or after 2200, row 32 first"));
    EXPECT_TRUE(std::isnan(raw.records[0].time_s[30]) && std::isnan(raw.records[0].time_s[31]));
}

TEST(Records, WithoutAPlaceAreLeftOutAndRowsKeepTheirNumbers) {
    const Raw raw = read_sheet("lon,lat,flow_kg_s,moisture_pct\n-111.999,52.005,5,12\n,,5,12\n-111.997,52.005,6,12\n");
    ASSERT_EQ(raw.records[0].size(), 2U);
    EXPECT_EQ(raw.records[0].row, (std::vector<std::uint32_t>{1, 3}));
    EXPECT_EQ(numbers(raw, Meaning::flow).values[1], 6.0);
    EXPECT_THAT(issue_text(raw, "no-place"), HasSubstr("row 2 first"));
    EXPECT_EQ(raw.inputs[3].rows, 3U);
}

TEST(Records, CutOffInTheLastRowAreReadWithAWarning) {
    const std::string csv = plain_sheet().csv();
    const Raw raw = read_sheet(csv.substr(0, csv.size() - 8));
    EXPECT_EQ(raw.records[0].size(), 40U);
    EXPECT_THAT(issue_text(raw, "rows-too-short"), HasSubstr("row 40 first"));
}

TEST(Records, RenameRepeatedColumns) {
    const Raw raw = read_sheet(plain_sheet().column("note", Holds::heading).column("note", Holds::heading).csv());
    EXPECT_THAT(issue_text(raw, "repeated-column"), HasSubstr("'note_2'"));
}

TEST(Records, TheSameColumnTwiceDoesNoHarm) {
    const Raw raw = read_sheet(plain_sheet().column("flow_kg_s", Holds::flow).csv());
    EXPECT_EQ(numbers(raw, Meaning::flow).name, "flow_kg_s");
}

TEST(Records, FanSpeedIsNoGroundSpeed) {
    const Raw raw =
        read_sheet(plain_sheet().column("Fan speed (m/s)", Holds::width).column("speed (m/s)", Holds::speed).csv());
    EXPECT_EQ(numbers(raw, Meaning::speed).name, "speed (m/s)");
}

TEST(WetOrDry, IsReadFromTheHeader) {
    EXPECT_EQ(
        numbers(read_sheet(place_and_moisture().column("Yield dry (t/ha)", Holds::yield_dry).csv()), Meaning::yield)
            .moisture,
        "dry");
    EXPECT_EQ(numbers(read_sheet(place_and_moisture().column("wet_yield_t_ha", Holds::yield_wet).csv()), Meaning::yield)
                  .moisture,
              "wet");
}

TEST(WetOrDry, IsReadFromTheSeasonFile) {
    const Raw raw = read_sheet(place_and_moisture().column("Yield (t/ha)", Holds::yield_wet).csv(),
                               "yield = { column = \"Yield (t/ha)\", moisture = \"wet\", unit = \"t/ha\" }\n");
    EXPECT_EQ(numbers(raw, Meaning::yield).moisture, "wet");
}

TEST(WetOrDry, IsFoundOutFromTheFlow) {
    const Raw wet = read_sheet(plain_sheet().column("Yield (t/ha)", Holds::yield_wet).csv());
    EXPECT_EQ(numbers(wet, Meaning::yield).moisture, "wet");
    EXPECT_THAT(issue_text(wet, "wet-or-dry-found"), HasSubstr("'Yield (t/ha)'"));
    const Raw dry = read_sheet(plain_sheet().column("Yield (t/ha)", Holds::yield_dry).csv());
    EXPECT_EQ(numbers(dry, Meaning::yield).moisture, "dry");
}

TEST(WetOrDry, DoesNotMatterWhereFlowGivesTheMass) {
    // Moisture at the basis: wet and dry are the same, nothing can tell them apart, and nothing needs to.
    const Raw raw = read_sheet(Sheet()
                                   .column("lon", Holds::lon)
                                   .column("lat", Holds::lat)
                                   .column("flow_kg_s", Holds::flow)
                                   .column("moisture_pct", Holds::moisture, 10.0 / 12.0)
                                   .column("distance_m", Holds::distance)
                                   .column("duration_s", Holds::duration)
                                   .column("width_m", Holds::width)
                                   .column("Yield (t/ha)", Holds::yield_wet)
                                   .csv());
    EXPECT_FALSE(raw.records[0].numbers.contains(Meaning::yield));
    EXPECT_THAT(codes(raw.issues), Contains("yield-unused"));
}

TEST(WetOrDry, TwoYieldColumnsDoNoHarmWhereFlowGivesTheMass) {
    const Raw raw = read_sheet(
        plain_sheet().column("Yield wet (t/ha)", Holds::yield_wet).column("Yield dry (t/ha)", Holds::yield_dry).csv());
    EXPECT_THAT(codes(raw.issues), Contains("yield-unused"));
}

TEST(Physics, WarnsOfAYieldSomewhatOff) {
    // 2.5 t/ha written 12 % too high: pounds an acre called kilograms a hectare differ by as much.
    const Raw raw = read_sheet(plain_sheet().column("wet yield (t/ha)", Holds::yield_wet, 1.12).csv());
    EXPECT_THAT(issue_text(raw, "yield-against-flow"), HasSubstr("1.120 times"));
}

struct TimeCase {
    std::string csv_header;
    std::vector<std::string> cells; ///< of the first two rows
    double first_s;
    std::string points; ///< more lines for [points]
};

Raw read_times(const TimeCase& c) {
    SeasonFolder folder;
    folder.write("yield.csv", "lon,lat,flow_kg_s,moisture_pct," + c.csv_header + "\n-111.999,52.005,5,12," +
                                  c.cells[0] + "\n-111.998,52.005,5,12," + c.cells[1] + "\n");
    folder.points += c.points;
    return folder.read();
}

TEST(Times, AreReadInEveryForm) {
    // Seconds since 1970 by `date -u -d ... +%s`; GPS week by the definition (weeks from 1980-01-06, 18 s ahead of UTC
    // since 2017): 1757000000 - 315964800 + 18 = 1441035218 = 2382 weeks and 401618 s.
    const std::vector<TimeCase> cases{
        {"time", {"2025-09-04T15:33:20Z", "2025-09-04T15:33:21Z"}, first_second, ""},
        {"timestamp", {"2025-09-04T09:33:20-06:00", "2025-09-04T09:33:21-06:00"}, first_second, ""},
        {"Date Time", {"2025-09-04 15:33:20", "2025-09-04 15:33:21"}, first_second, ""},
        {"time", {"2025-09-04T09:33:20", "2025-09-04T09:33:21"}, first_second, "time_zone = \"-06:00\"\n"},
        {"time", {"20250904153320", "20250904153321"}, first_second, ""},
        {"time", {"2025/09/04 15:33:20.0", "2025/09/04 15:33:21.0"}, first_second, ""},
        {"time", {"9/24/2025 3:33:20 PM", "9/24/2025 3:33:21 PM"}, first_second + 20.0 * 86400.0, ""},
        {"time", {"24.09.2025 15:33:20", "24.09.2025 15:33:21"}, first_second + 20.0 * 86400.0, ""},
        {"time", {"1757000000", "1757000001"}, first_second, ""},
        {"time", {"1757000000000", "1757000001000"}, first_second, ""},
        {"gps time", {"1441035218", "1441035219"}, first_second, ""},
        {"gps week,time of week", {"2382,401618", "2382,401619"}, first_second, ""},
        {"date,time", {"2025-09-04,15:33:20", "2025-09-04,15:33:21"}, first_second, ""},
        {"date,clock", {"20250904,153320", "20250904,153321"}, first_second, ""},
        {"Date,Time", {"9/24/2025,3:33:20 PM", "9/24/2025,3:33:21 PM"}, first_second + 20.0 * 86400.0, ""},
        {"time", {"04.09.2025 15:33:20", "04.09.2025 15:33:21"}, first_second, "dates = \"day/month\"\n"},
        {"Date,Time", {"9/4/2025,15:33:20", "9/4/2025,15:33:21"}, first_second, "dates = \"month/day\"\n"},
        // A 24th month there is not: the dates tell themselves, whatever the season file says.
        {"time",
         {"9/24/2025 15:33:20", "9/24/2025 15:33:21"},
         first_second + 20.0 * 86400.0,
         "dates = \"day/month\"\n"},
    };
    for (const TimeCase& c : cases) {
        const Raw raw = read_times(c);
        ASSERT_EQ(raw.records[0].time_s.size(), 2U) << c.csv_header << " " << c.cells[0];
        EXPECT_DOUBLE_EQ(raw.records[0].time_s[0], c.first_s) << c.csv_header << " " << c.cells[0];
        EXPECT_DOUBLE_EQ(raw.records[0].time_s[1], c.first_s + 1.0) << c.csv_header << " " << c.cells[0];
    }
}

TEST(Times, WithoutZoneAreTold) {
    EXPECT_THAT(codes(read_times({"time", {"2025-09-04T15:33:20", "2025-09-04T15:33:21"}, 0.0, ""}).issues),
                Contains("no-time-zone"));
    EXPECT_THAT(codes(read_times({"time", {"2025-09-04T15:33:20Z", "2025-09-04T15:33:21Z"}, 0.0, ""}).issues),
                Not(Contains("no-time-zone")));
}

TEST(Times, ThatAreMissingAreAbsent) { EXPECT_TRUE(SeasonFolder().read().records[0].time_s.empty()); }

TEST(Times, OfAWeekKeepTheOrderOverItsEnd) {
    const Raw raw = read_times({"time", {"604799", "0"}, 0.0, ""});
    EXPECT_DOUBLE_EQ(raw.records[0].time_s[1] - raw.records[0].time_s[0], 1.0);
    EXPECT_THAT(codes(raw.issues), Contains("week-seconds"));
}

TEST(Words, OfMachinesAndLoadsAreKept) {
    const Raw raw = read_sheet(plain_sheet().column("combine", Holds::machine).column("load_id", Holds::load).csv());
    const TextColumn& machine = raw.records[0].texts.at(Meaning::machine);
    EXPECT_EQ(machine.words, (std::vector<std::string>{"red one", "old one"}));
    EXPECT_EQ(machine.codes[0], 0);
    EXPECT_EQ(machine.codes[3], 1);
    EXPECT_EQ(raw.records[0].texts.at(Meaning::load).words, (std::vector<std::string>{"1", "2"}));
}

TEST(Header, IsUpByTheValueTheSeasonFileNames) {
    const Raw raw =
        read_sheet(plain_sheet().column("hdr", Holds::header_up).csv(), "header = { column = \"hdr\", up = \"1\" }\n");
    EXPECT_EQ(raw.records[0].header_up[4], 1);
    EXPECT_EQ(raw.records[0].header_up[5], 0);
}

TEST(Header, IsUpByItsOwnName) {
    EXPECT_EQ(read_sheet(plain_sheet().column("header_up", Holds::header_up).csv()).records[0].header_up[0], 1);
    EXPECT_EQ(read_sheet(plain_sheet().column("header down", Holds::header_up).csv()).records[0].header_up[0], 0);
}

TEST(Header, IsNotGuessed) {
    const Raw raw = read_sheet(plain_sheet().column("header", Holds::header_up).csv());
    EXPECT_TRUE(raw.records[0].header_up.empty());
    EXPECT_THAT(issue_text(raw, "header-unclear"), HasSubstr("up = \"...\""));
}

TEST(Methods, MayComeFromTheRecords) {
    SeasonFolder folder;
    folder.write("yield.csv", plain_sheet().column("head", Holds::machine).csv());
    folder.methods =
        "from_points = { column = \"head\", values = { \"red one\" = \"standing\", \"old one\" = \"swathed\" } }\n";
    const Raw raw = folder.read();
    EXPECT_EQ(raw.records[0].texts.at(Meaning::method).words, (std::vector<std::string>{"red one", "old one"}));
    EXPECT_TRUE(raw.method_areas.empty());
}

TEST(Files, OfSeveralMachinesMayHaveTheirOwnColumns) {
    SeasonFolder folder;
    folder.write("yield/a.csv", Sheet(plain_sheet()).column("odd flow", Holds::flow).csv());
    folder.write("yield/b.csv", plain_sheet().csv());
    folder.points = "files = [\"yield/*.csv\"]\n";
    folder.columns = "flow = { column = \"odd flow\", unit = \"kg/s\" }\n";
    const Raw raw = folder.read();
    ASSERT_EQ(raw.records.size(), 2U);
    EXPECT_EQ(raw.records[0].numbers.at(Meaning::flow).name, "odd flow");
    EXPECT_EQ(raw.records[1].numbers.at(Meaning::flow).name, "flow_kg_s");
    EXPECT_EQ(raw.inputs[raw.records[1].input].path, "yield/b.csv");
}

TEST(Tickets, AreReadInEveryUnit) {
    struct UnitCase {
        std::string header, cells;
        double net_kg;
    };
    const std::vector<UnitCase> cases{
        {"net_kg", "8000", 8000.0},
        {"net_lb", "10000", 4535.9237}, // Weights and Measures Act: 0.45359237 kg
        {"net_t", "8", 8000.0},
        {"net_short_ton", "10", 9071.8474},           // 2000 lb
        {"net_bu", "400", 400.0 * 50.0 * 0.45359237}, // canola: 50 lb a bushel
        {"Net weight (lbs)", "10000", 4535.9237},
        {"gross_kg,tare_kg", "20000,12000", 8000.0},
    };
    for (const UnitCase& c : cases) {
        SeasonFolder folder;
        folder.write("yield.csv", plain_sheet().column("timestamp", Holds::iso_z).csv());
        folder.write("tickets.csv", "ticket,field,machine,method,start,end," + c.header +
                                        ",moisture_pct,dockage_pct\n"
                                        "17,Home,red one,swathed,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z," +
                                        c.cells + ",9.5,1.5\n");
        folder.more = "[tickets]\nfile = \"tickets.csv\"\n";
        const Raw raw = folder.read();
        ASSERT_EQ(raw.tickets.size(), 1U);
        const Ticket& ticket = raw.tickets[0];
        EXPECT_NEAR(ticket.net_kg, c.net_kg, 1e-6) << c.header;
        EXPECT_EQ(ticket.id + ticket.field + ticket.machine + ticket.method, "17Homered oneswathed");
        EXPECT_DOUBLE_EQ(*ticket.end_s - *ticket.start_s, 3600.0);
        EXPECT_EQ(ticket.moisture_pct, 9.5);
        EXPECT_EQ(ticket.dockage_pct, 1.5);
        EXPECT_EQ(ticket.row, 1U);
    }
}

TEST(Tickets, SayThatDockageIsOffInTheSeasonFileOrInTheColumnsName) {
    for (const bool by_name : {true, false}) {
        SeasonFolder folder;
        folder.write("tickets.csv", std::string("field;") + (by_name ? "net_clean_kg" : "net_kg") +
                                        ";moisture_pct\nHome;8000,5;9,5\n");
        folder.more = std::string("[tickets]\nfile = \"tickets.csv\"\n") + (by_name ? "" : "dockage = \"off\"\n");
        const Raw raw = folder.read();
        EXPECT_EQ(raw.tickets[0].net_kg, 8000.5);
        EXPECT_EQ(raw.tickets[0].dockage_pct, 0.0);
    }
}

TEST(Tickets, OfOneWindowAndMachineAreTruckloadsOfTheSameGrain) {
    SeasonFolder folder;
    folder.write("yield.csv", plain_sheet().column("timestamp", Holds::iso_z).csv());
    folder.write("tickets.csv", "ticket,machine,start,end,net_kg,moisture_pct,dockage_pct\n"
                                "1,A,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n"
                                "2,A,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,7000,9,1\n"
                                "3,A,2025-09-04T16:00:00Z,2025-09-04T17:00:00Z,7000,9,1\n");
    folder.more = "[tickets]\nfile = \"tickets.csv\"\n";
    EXPECT_EQ(folder.read().tickets.size(), 3U);
}

/// Of two files only one names its machine: tickets of the other may say "machine", the word for it from there on.
TEST(Tickets, MayNameTheMachineOfRecordsThatNameNone) {
    SeasonFolder folder;
    folder.write("yield.csv", plain_sheet().column("machine", Holds::machine).csv());
    folder.write("other.csv", plain_sheet().csv());
    folder.write("tickets.csv", "machine,net_kg,moisture_pct,dockage_pct\nred one,8000,9,1\nmachine,8000,9,1\n");
    folder.points = "files = [\"yield.csv\", \"other.csv\"]\n";
    folder.more = "[tickets]\nfile = \"tickets.csv\"\n";
    EXPECT_EQ(folder.read().tickets.size(), 2U);
}

/// As a spreadsheet has them: a day, and the times of the day.
TEST(Tickets, MayTellTheDayAndTheTimesInColumnsOfTheirOwn) {
    SeasonFolder folder;
    folder.write("yield.csv", plain_sheet().column("timestamp", Holds::iso_plain).csv());
    folder.write("tickets.csv", "Ticket #,Date,Start,End,Net (short ton),Moisture %,Dockage %\n"
                                "1,9/4/2025,15:00,4:00 PM,8,9,1\n2,9/4/2025,22:30:00,01:15:00,8,9,1\n");
    folder.points += "dates = \"month/day\"\n";
    folder.more = "[tickets]\nfile = \"tickets.csv\"\n";
    const std::vector<Ticket> tickets = folder.read().tickets;
    ASSERT_EQ(tickets.size(), 2U);
    EXPECT_NEAR(tickets[0].unit_kg, 907.18474, 1e-9); // 2000 lb: Weights and Measures Act, sched. II
    const double midnight = first_second - (15.0 * 3600.0 + 33.0 * 60.0 + 20.0);
    EXPECT_EQ(*tickets[0].start_s, midnight + 15.0 * 3600.0);
    EXPECT_EQ(*tickets[0].end_s, midnight + 16.0 * 3600.0);
    EXPECT_EQ(*tickets[1].start_s, midnight + 22.5 * 3600.0);
    EXPECT_EQ(*tickets[1].end_s, midnight + 25.25 * 3600.0) << "past midnight";
}

/// A file without times stops only loads that its grain may be in.
TEST(Tickets, ByTimeOfOneMachineLeaveAnothersFileWithoutTimesAlone) {
    SeasonFolder folder;
    folder.write("yield.csv", plain_sheet().column("timestamp", Holds::iso_z).column("machine", Holds::machine).csv());
    folder.write("older.csv", "lon,lat,flow_kg_s,moisture_pct,machine\n-111.999,52.005,5,12,green one\n");
    folder.write("tickets.csv", "machine,start,end,net_kg,moisture_pct,dockage_pct\n"
                                "red one,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n");
    folder.points = "files = [\"yield.csv\", \"older.csv\"]\n";
    folder.more = "[tickets]\nfile = \"tickets.csv\"\n";
    EXPECT_EQ(folder.read().tickets.size(), 1U);
}

TEST(Tickets, ByTimeTellHowManyRecordsHaveNone) {
    SeasonFolder folder;
    std::string csv = "lon,lat,flow_kg_s,moisture_pct,timestamp\n";
    for (int i = 10; i < 50; ++i)
        csv += "-111.999,52.005,5,12," + (i % 4 == 0 ? std::string() : "2025-09-04T15:33:" + std::to_string(i) + "Z") +
               "\n";
    folder.write("yield.csv", csv);
    folder.write("tickets.csv", "field,start,end,net_kg,moisture_pct,dockage_pct\n"
                                "Home,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n");
    folder.more = "[tickets]\nfile = \"tickets.csv\"\n";
    EXPECT_THAT(issue_text(folder.read(), "records-without-time"), HasSubstr("10 of 40 records have no time"));
    folder.more = "";
    EXPECT_THAT(codes(folder.read().issues), Not(Contains("records-without-time")));
}

} // namespace
} // namespace quartercut::read_test
