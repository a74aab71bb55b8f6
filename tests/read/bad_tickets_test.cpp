// SPDX-License-Identifier: MIT
// Catalogue of bad input, part three: tickets.
#include "case_table.hpp"

namespace quartercut::read_test {
namespace {

class BadTickets : public testing::TestWithParam<BadCase> {};

TEST_P(BadTickets, AreRefusedWithOneClearMessage) { expect_refused(GetParam()); }

/// A season with this tickets.csv.
std::function<void(SeasonFolder&)> tickets(const std::string& csv) {
    return [csv](SeasonFolder& folder) {
        folder.write("tickets.csv", csv);
        folder.more = "[tickets]\nfile = \"tickets.csv\"\n";
    };
}

const std::vector<BadCase> cases{
    {"FileMissing",
     [](SeasonFolder& f) { f.more = "[tickets]\nfile = \"tickets.csv\"\n"; },
     {"tickets.csv", "no such file", "[tickets]"}},
    {"Empty", tickets(""), {"tickets.csv", "empty"}},
    {"HeaderOnly", tickets("field,net_kg,moisture_pct,dockage_pct\n"), {"tickets.csv", "no ticket below"}},
    {"NoMass",
     tickets("field,moisture_pct\nHome,9\n"),
     {"tickets.csv", "net mass", "'field', 'moisture_pct'", "net_kg"}},
    {"GrossWithoutTare", tickets("field,gross_kg,moisture_pct\nHome,20000,9\n"), {"net mass", "gross and tare"}},
    {"MassWithoutUnit", tickets("field,net,moisture_pct\nHome,8000,9\n"), {"unit of column 'net'", "net_kg", "net_lb"}},
    {"TonOfWhichKind", tickets("field,net_ton,moisture_pct\nHome,8,9\n"), {"'net_ton'", "1000 kg or 2000 lb"}},
    {"NoMoisture", tickets("field,net_kg\nHome,8000\n"), {"tickets.csv", "moisture", "moisture_pct"}},
    {"MoistureZero",
     tickets("field,net_kg,moisture_pct\nHome,8000,9\nHome,8000,0\n"),
     {"row 2", "'moisture_pct'", "0 %"}},
    {"MoistureHundred", tickets("field,net_kg,moisture_pct\nHome,8000,100\n"), {"row 1", "moisture of 100 %"}},
    {"MoistureNegative", tickets("field,net_kg,moisture_pct\nHome,8000,-3\n"), {"row 1", "-3 %"}},
    {"MoistureBlank", tickets("field,net_kg,moisture_pct\nHome,8000,\n"), {"row 1", "'moisture_pct'", "empty"}},
    {"MassIsAWord",
     tickets("field,net_kg,moisture_pct\nHome,heavy,9\n"),
     {"row 1", "'net_kg'", "'heavy' is no number"}},
    {"MassNegative", tickets("field,net_kg,moisture_pct\nHome,-8000,9\n"), {"row 1", "'net_kg'", "above 0"}},
    {"TareAboveGross",
     tickets("field,gross_kg,tare_kg,moisture_pct\nHome,8000,12000,9\n"),
     {"row 1", "'gross_kg'", "above 0"}},
    {"MassImpossible", tickets("field,net_t,moisture_pct\nHome,8000,9\n"), {"row 1", "'net_t'", "8000000 kg", "unit"}},
    {"DockageHundred",
     tickets("field,net_kg,moisture_pct,dockage_pct\nHome,8000,9,100\n"),
     {"row 1", "'dockage_pct'", "dockage of 100 %"}},
    {"DockageNegative",
     tickets("field,net_kg,moisture_pct,dockage_pct\nHome,8000,9,-1\n"),
     {"row 1", "dockage of -1 %"}},
    {"TimeIsNone",
     tickets("field,start,end,net_kg,moisture_pct\nHome,noon,later,8000,9\n"),
     {"row 1", "'start'", "'noon' is no time"}},
    {"TimesOfTheDayWithoutTheDay",
     tickets("field,start,end,net_kg,moisture_pct\nHome,09:00,10:00,8000,9\n"),
     {"tickets.csv", "'start'", "times of the day ('09:00')", "no column tells the day", "column date"}},
    {"DayIsNone",
     tickets("field,date,start,end,net_kg,moisture_pct\nHome,2025-09-04,09:00,10:00,8000,9\n"
             "Home,monday,09:00,10:00,8000,9\n"),
     {"row 2", "'date'", "'monday' is no day"}},
    {"DaysUnclear",
     tickets("field,date,start,end,net_kg,moisture_pct\nHome,4/9/2025,09:00,10:00,8000,9\n"),
     {"'date'", "day/month or month/day", "dates = \"day/month\""}},
    {"EndsBeforeItStartsOnItsDay",
     tickets("field,date,start,end,net_kg,moisture_pct\nHome,2025-09-04,12:00,11:00,8000,9\n"),
     {"row 1", "'end'", "ends before it starts"}},
    {"EndsBeforeItStarts",
     tickets("field,start,end,net_kg,moisture_pct\nHome,2025-09-04T12:00:00Z,2025-09-04T11:00:00Z,8000,9\n"),
     {"row 1", "'end'", "ends before it starts"}},
    {"SameTicketTwice",
     tickets("ticket,net_kg,moisture_pct\n17,8000,9\n17,8000,9\n"),
     {"rows 1 and 2", "ticket '17'", "twice"}},
    {"SameRowTwice",
     tickets("field,net_kg,moisture_pct,dockage_pct\nHome,8000,9,1\nHome,8100,9,1\nHome,8000,9,1\n"),
     {"tickets.csv", "rows 1 and 3", "alike", "Delete one"}},
    {"WindowsOfOneMachineOverlap",
     tickets("machine,start,end,net_kg,moisture_pct,dockage_pct\n"
             "A,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n"
             "B,2025-09-04T15:30:00Z,2025-09-04T16:30:00Z,8000,9,1\n"
             "A,2025-09-04T15:50:00Z,2025-09-04T17:00:00Z,8000,9,1\n"),
     {"rows 1 and 3", "of machine 'A'", "overlap"}},
    // Both would get all the grain of the day.
    {"OneWindowForTwoMethods",
     tickets("field,machine,method,start,end,net_kg,moisture_pct,dockage_pct\n"
             "Home,A,swathed,2025-09-04T08:00:00Z,2025-09-04T20:00:00Z,8000,9,1\n"
             "Home,A,standing,2025-09-04T08:00:00Z,2025-09-04T20:00:00Z,8000,9,1\n"),
     {"rows 1 and 2", "overlap"}},
    {"UnknownField",
     tickets("field,net_kg,moisture_pct,dockage_pct\nHome,8000,9,1\nHoem,8000,9,1\n"),
     {"row 2", "field 'Hoem'", "Did you mean 'Home'?"}},
    {"UnknownMethod",
     tickets("field,method,net_kg,moisture_pct,dockage_pct\nHome,straight,8000,9,1\n"),
     {"row 1", "method 'straight'", "'standing', 'swathed'"}},
    {"UnknownMachine",
     [](SeasonFolder& f) {
         f.write("yield.csv", plain_sheet().column("machine", Holds::machine).csv());
         tickets("field,machine,net_kg,moisture_pct,dockage_pct\nHome,green one,8000,9,1\n")(f);
     },
     {"row 1", "machine 'green one'", "'red one'"}},
    {"MoistureAsAFraction",
     tickets("field,net_kg,moisture_pct,dockage_pct\nHome,8000,0.09,1\n"),
     {"row 1", "'moisture_pct'", "0.09 %", "moisture_fraction"}},
    {"DockageNotSaid",
     tickets("field,net_kg,moisture_pct\nHome,8000,9\n"),
     {"tickets.csv", "dockage", "'net_kg'", "dockage_pct", "dockage = \"off\""}},
    {"DockageSaidTwice",
     [](SeasonFolder& f) {
         tickets("field,net_kg,moisture_pct,dockage_pct\nHome,8000,9,1\n")(f);
         f.more += "dockage = \"off\"\n";
     },
     {"tickets.csv", "dockage = \"off\"", "'dockage_pct'"}},
    {"QuoteNeverClosed",
     tickets("field,note,net_kg,moisture_pct,dockage_pct\nHome,wet,8000,9,1\nHome,\"wet,8000,9,1\nHome,,8000,9,1\n"),
     {"tickets.csv", "row 2", "never closed"}},
    {"IsAFolder",
     [](SeasonFolder& f) {
         std::filesystem::create_directory(f.path("loads"));
         f.more = "[tickets]\nfile = \"loads\"\n";
     },
     {"loads", "this is a folder", "[tickets]"}},
    {"TwoNetColumns",
     tickets("field,net_kg,net_lb,moisture_pct\nHome,8000,17637,9\n"),
     {"several columns could be the net", "'net_kg', 'net_lb'"}},
    {"TooManyCells", tickets("field,net_kg,moisture_pct\nHome,8000,9\nHome,8000,9,1,5\n"), {"row 2", "5 cells"}},
    {"ZoneStatedHereButNotInTheRecords",
     [](SeasonFolder& f) {
         f.write("yield.csv", plain_sheet().column("timestamp", Holds::iso_plain).csv());
         tickets("field,start,end,net_kg,moisture_pct,dockage_pct\n"
                 "Home,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n")(f);
     },
     {"tickets.csv", "yield.csv", "time_zone", "[points]"}},
    {"ByTimeButTheRecordsHaveNone",
     [](SeasonFolder& f) {
         f.write("yield.csv", plain_sheet().csv());
         tickets("field,start,end,net_kg,moisture_pct,dockage_pct\n"
                 "Home,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n")(f);
     },
     {"yield.csv", "no column was recognised as the time", "tickets.csv", "time = { column", "[points.columns]"}},
    // Its grain would be missing from every load.
    {"ByTimeButOneFileHasNone",
     [](SeasonFolder& f) {
         f.write("yield.csv", plain_sheet().column("timestamp", Holds::iso_z).csv());
         f.write("older.csv", plain_sheet().csv());
         f.points = "files = [\"yield.csv\", \"older.csv\"]\n";
         tickets("field,start,end,net_kg,moisture_pct,dockage_pct\n"
                 "Home,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n")(f);
     },
     {"older.csv", "no column was recognised as the time", "tickets.csv", "would be missing", "time = { column"}},
    {"ByTimeOfAMachineWhoseFileHasNone",
     [](SeasonFolder& f) {
         f.write("yield.csv", plain_sheet().column("machine", Holds::machine).csv());
         tickets("machine,start,end,net_kg,moisture_pct,dockage_pct\n"
                 "red one,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n")(f);
     },
     {"yield.csv", "no column was recognised as the time"}},
    {"ByTimeButTheColumnOfTimesIsBlank",
     [](SeasonFolder& f) {
         std::string csv = "lon,lat,flow_kg_s,moisture_pct,timestamp\n";
         for (int i = 0; i < 40; ++i)
             csv += "-111.999,52.005,5,12,\n";
         f.write("yield.csv", csv);
         tickets("field,start,end,net_kg,moisture_pct,dockage_pct\n"
                 "Home,2025-09-04T15:00:00Z,2025-09-04T16:00:00Z,8000,9,1\n")(f);
     },
     {"yield.csv", "time", "tickets.csv"}},
};

INSTANTIATE_TEST_SUITE_P(Catalogue, BadTickets, testing::ValuesIn(cases), name_of);

} // namespace
} // namespace quartercut::read_test
