// SPDX-License-Identifier: MIT
// From weighed loads to the mass of land: matching, factors, strips that were weighed, and refusal in plain words.
#include "harvest.hpp"

#include "quartercut/error.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>

namespace quartercut {
namespace {

using namespace test;

/// Two halves, west swathed and east standing; the monitor reads 8 % high west and 4 % low east.
Harvest halves(std::uint64_t seed) {
    Harvest harvest;
    harvest.seed = seed;
    harvest.yield_t_ha = rough_surface(seed);
    harvest.method = [](double x, double) { return x < 200.0 ? 0 : 1; };
    harvest.factor = [](double x, double) { return x < 200.0 ? 1.08 : 0.96; };
    return harvest;
}

Standardised season_of_halves(const Harvest& harvest) {
    StandardField field = simulate(harvest);
    field.method_areas = {{rectangle(0, 0, 200, 400), 0, "", 1}, {rectangle(200, 0, 400, 400), 1, "", 2}};
    return season_of(std::move(field));
}

double true_mass(const Harvest& harvest, double x0, double x1) {
    double mass = 0.0;
    for (const Second& second : drive(harvest))
        if (second.x_m > x0 && second.x_m < x1) mass += second.grain_kg;
    return mass;
}

/// One ticket per five passes, by time, exact to the kilogram at the basis, brought to 12 % moisture and 2 % dockage.
std::vector<Ticket> tickets_by_time(const Harvest& harvest) {
    std::vector<Ticket> tickets;
    const double pass_s = harvest.height_m / harvest.speed_m_s + harvest.turn_s;
    for (int load = 0; load < 8; ++load) {
        Ticket ticket;
        ticket.machine = "red";
        ticket.row = static_cast<std::size_t>(load + 1);
        ticket.start_s = 1.0e9 + pass_s * 5 * load;
        ticket.end_s = 1.0e9 + pass_s * 5 * (load + 1);
        ticket.moisture_pct = 12.0;
        ticket.dockage_pct = 2.0;
        ticket.net_kg = true_mass(harvest, 50.0 * load, 50.0 * (load + 1)) * 90.0 / 88.0 / 0.98;
        tickets.push_back(ticket);
    }
    return tickets;
}

TEST(Tickets, BringEachMethodToTheTruthWithinOnePercent) {
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        const Harvest harvest = halves(seed);
        Standardised input = season_of_halves(harvest);
        input.tickets = tickets_by_time(harvest);
        const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
        const double west = 10.0 * true_mass(harvest, 0, 200) / (200.0 * 400.0);
        const double east = 10.0 * true_mass(harvest, 200, 400) / (200.0 * 400.0);
        EXPECT_NEAR(yield_of(input.fields[0], cleaned.fields[0], 0) / west, 1.0, 0.01) << "seed " << seed;
        EXPECT_NEAR(yield_of(input.fields[0], cleaned.fields[0], 1) / east, 1.0, 0.01) << "seed " << seed;
    }
}

/// The west half is method 0 in truth. Half of the labels wrong may be slips; all of them are labels exchanged.
TEST(Tickets, WithTheMethodsExchangedStopTheWork) {
    const Harvest harvest = halves(1);
    Standardised input = season_of_halves(harvest);
    input.tickets = tickets_by_time(harvest);
    for (std::size_t t = 0; t < input.tickets.size(); ++t)
        input.tickets[t].method = t < 4 ? "swathed" : "standing";
    EXPECT_NO_THROW((void)clean(plain_season(), input, CleanOptions{}));
    for (const std::size_t slip : {0U, 1U, 4U, 5U})
        input.tickets[slip].method = slip < 4 ? "standing" : "swathed";
    EXPECT_NO_THROW((void)clean(plain_season(), input, CleanOptions{}));
    input.tickets[2].method = "standing";
    try {
        (void)clean(plain_season(), input, CleanOptions{});
        ADD_FAILURE() << "labels of five loads in eight were believed";
    } catch (const DataError& error) {
        EXPECT_NE(std::string(error.what()).find("5 of 8 loads"), std::string::npos) << error.what();
    }
}

TEST(Tickets, GiveAFactorPerMachineAndMethod) {
    const Harvest harvest = halves(1);
    Standardised input = season_of_halves(harvest);
    input.tickets = tickets_by_time(harvest);
    // One load of the west is left out, so that no half is weighed whole.
    input.tickets.erase(input.tickets.begin());
    input.tickets.pop_back();
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    ASSERT_EQ(cleaned.calibration.size(), 2U);
    EXPECT_NEAR(cleaned.calibration[0].factor, 1.0 / 1.08, 0.01);
    EXPECT_NEAR(cleaned.calibration[1].factor, 1.0 / 0.96, 0.01);
    EXPECT_EQ(cleaned.calibration[0].source, "tickets");
    EXPECT_EQ(cleaned.calibration[0].loads, 3);
    EXPECT_EQ(cleaned.calibration[0].df, 4.0);
    EXPECT_LT(cleaned.calibration[0].u_rel, 0.01);
    EXPECT_EQ(cleaned.loads.size(), 6U);
}

TEST(Tickets, OfAWholeStripReplaceTheMonitor) {
    const Harvest harvest = halves(3);
    Standardised input = season_of_halves(harvest);
    for (const int method : {0, 1}) {
        Ticket ticket;
        ticket.field = "Home quarter";
        ticket.method = method == 0 ? "swathed" : "standing";
        ticket.row = static_cast<std::size_t>(method + 1);
        ticket.moisture_pct = 10.0;
        ticket.net_kg = method == 0 ? 20000.0 : 26000.0;
        input.tickets.push_back(ticket);
    }
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    // 20 t and 26 t on 8 ha each.
    EXPECT_NEAR(yield_of(input.fields[0], cleaned.fields[0], 0), 2.5, 0.005);
    EXPECT_NEAR(yield_of(input.fields[0], cleaned.fields[0], 1), 3.25, 0.0065);
    EXPECT_EQ(cleaned.fields[0].calibration[0].source, "tickets per strip");
}

TEST(Tickets, WithoutAnyLeaveFactorOneAndAStatedDoubt) {
    const Standardised input = season_of_halves(halves(1));
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    for (const Calibration& c : cleaned.calibration) {
        EXPECT_EQ(c.factor, 1.0);
        EXPECT_EQ(c.u_rel, 0.05);
        EXPECT_EQ(c.df, 50.0);
        EXPECT_EQ(c.source, "none");
    }
    Season wheat = plain_season();
    wheat.crop = "wheat";
    EXPECT_EQ(clean(wheat, input, CleanOptions{}).calibration[0].u_rel, 0.03);
}

TEST(Tickets, OfOneMethodLendTheMachinesLevelToTheOtherInDoubt) {
    const Harvest harvest = halves(1);
    Standardised input = season_of_halves(harvest);
    input.tickets = tickets_by_time(harvest);
    input.tickets.resize(3);
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    EXPECT_NEAR(cleaned.calibration[1].factor, cleaned.calibration[0].factor, 1e-12);
    EXPECT_EQ(cleaned.calibration[1].u_rel, 0.05);
    EXPECT_EQ(cleaned.calibration[1].source, "tickets of the machine's other methods");
}

TEST(Tickets, OfMixedLoadsAreNamedAndKeptOutOfTheMethodsFactors) {
    const Harvest harvest = halves(1);
    Standardised input = season_of_halves(harvest);
    input.tickets = tickets_by_time(harvest);
    input.tickets[3].end_s = *input.tickets[4].end_s; // one load across the boundary
    input.tickets[3].net_kg += input.tickets[4].net_kg;
    input.tickets.erase(input.tickets.begin() + 4);
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    EXPECT_EQ(cleaned.calibration[0].loads, 3);
    bool told = false;
    for (const Issue& issue : cleaned.issues)
        told = told || (issue.code == "mixed-load" && issue.where == "tickets, row 4");
    EXPECT_TRUE(told);
}

TEST(Tickets, MatchByLoadNumber) {
    const Harvest harvest = halves(2);
    Standardised input = season_of_halves(harvest);
    input.loads = {"A7", "B8"};
    for (std::size_t i = 0; i < input.fields[0].records.size(); ++i)
        input.fields[0].records.load[i] = input.fields[0].records.x_m[i] < 100.0 ? 0 : 1;
    Ticket ticket;
    ticket.load = "A7";
    ticket.row = 1;
    ticket.moisture_pct = 10.0;
    ticket.net_kg = true_mass(harvest, 0, 100);
    input.tickets = {ticket};
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    EXPECT_NEAR(cleaned.calibration[0].factor, 1.0 / 1.08, 0.01);
}

TEST(Tickets, WarnOfLargeCorrections) {
    const Harvest harvest = halves(1);
    Standardised input = season_of_halves(harvest);
    input.tickets = tickets_by_time(harvest);
    for (Ticket& ticket : input.tickets)
        ticket.net_kg *= 1.25;
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    bool told = false;
    for (const Issue& issue : cleaned.issues)
        told = told || issue.code == "large-correction";
    EXPECT_TRUE(told);
}

TEST(Tickets, WarnWhereOneMachineReadsTheMethodsFarApart) {
    const Harvest harvest = halves(1);
    const auto told = [&](double apart) {
        Standardised input = season_of_halves(harvest);
        input.tickets = tickets_by_time(harvest);
        for (std::size_t t = 0; t < 4; ++t)
            input.tickets[t].net_kg *= apart;
        const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
        return std::any_of(cleaned.issues.begin(), cleaned.issues.end(),
                           [](const Issue& issue) { return issue.code == "factors-differ"; });
    };
    const Cleaned plain = [&] {
        Standardised input = season_of_halves(harvest);
        input.tickets = tickets_by_time(harvest);
        return clean(plain_season(), input, CleanOptions{});
    }();
    // Brought together first, whatever the simulated sensor does, then a little and far apart.
    const double level = plain.calibration.at(1).factor / plain.calibration.at(0).factor;
    EXPECT_FALSE(told(1.05 * level));
    EXPECT_TRUE(told(1.20 * level));
    EXPECT_TRUE(told(level / 1.20));
}

/// Ten passes of 200 s, an even crop of 2.5 t/ha; each pass is one load of 1000 kg by time.
Standardised ten_loads() {
    StandardField field = plain_field(100.0, 500.0);
    Standardised input;
    for (int p = 0; p < 10; ++p) {
        add_pass(field.records, 5.0 + 10.0 * p, p % 2 == 0 ? 0.0 : 400.0, 200, 1.0e9 + 300.0 * p,
                 p % 2 == 0 ? 2.0 : -2.0);
        Ticket ticket;
        ticket.machine = "red";
        ticket.row = static_cast<std::size_t>(p + 1);
        ticket.start_s = 1.0e9 + 300.0 * p;
        ticket.end_s = *ticket.start_s + 250.0;
        ticket.moisture_pct = 10.0;
        ticket.net_kg = 1000.0;
        input.tickets.push_back(ticket);
    }
    input.tickets.pop_back(); // not every load was weighed: the factor decides, not the strip's own mass
    input.machines = {"red"};
    input.fields.push_back(std::move(field));
    return input;
}

Season season_with_ticket_file() {
    Season season = plain_season();
    season.tickets.emplace();
    season.tickets->file = "weights.csv";
    return season;
}

TEST(Tickets, TakeAFewMissingReadingsAtTheRateOfTheirPass) {
    for (const double reading : {no_number, -3.0}) { // two seconds of 200 in every load: 1 %
        Standardised input = ten_loads();
        for (std::size_t p = 0; p < 10; ++p)
            input.fields[0].records.mass_kg[200 * p + 100] = input.fields[0].records.mass_kg[200 * p + 140] = reading;
        const Cleaned cleaned = clean(season_with_ticket_file(), input, CleanOptions{});
        EXPECT_NEAR(cleaned.calibration[0].factor, 1.0, 1e-9);
        EXPECT_EQ(cleaned.calibration[0].loads, 9);
        EXPECT_EQ(cleaned.fields[0].removal[100], Removal::no_flow);
    }
}

TEST(Tickets, OfLoadsMostlyUnreadAreLeftOutAndNamed) {
    for (const double reading : {no_number, -3.0}) {
        Standardised input = ten_loads();
        for (std::size_t i = 450; i < 600; ++i) // 75 % of the third load
            input.fields[0].records.mass_kg[i] = reading;
        const Cleaned cleaned = clean(season_with_ticket_file(), input, CleanOptions{});
        EXPECT_NEAR(cleaned.calibration[0].factor, 1.0, 1e-9);
        EXPECT_EQ(cleaned.calibration[0].loads, 8);
        EXPECT_NEAR(yield_of(input.fields[0], cleaned.fields[0], 0), 2.5, 1e-9);
        std::string told;
        for (const Issue& issue : cleaned.issues)
            if (issue.code == "load-without-readings") told += issue.where + ": " + issue.message;
        EXPECT_EQ(told.rfind("weights.csv, row 3", 0), 0U) << told;
        EXPECT_NE(told.find("75.0 %"), std::string::npos) << told;
    }
}

TEST(Tickets, OfALoadWithoutAnyReadingAreLeftOut) {
    Standardised input = ten_loads();
    for (std::size_t i = 400; i < 600; ++i)
        input.fields[0].records.mass_kg[i] = no_number;
    const Cleaned cleaned = clean(season_with_ticket_file(), input, CleanOptions{});
    EXPECT_NEAR(cleaned.calibration[0].factor, 1.0, 1e-9);
    EXPECT_EQ(cleaned.loads.size(), 8U);
}

/// The message of the error that weights `times` too large cause in all loads.
std::string refusal_of_weights(double times) {
    Standardised input = ten_loads();
    for (Ticket& ticket : input.tickets)
        ticket.net_kg *= times;
    try {
        static_cast<void>(clean(season_with_ticket_file(), input, CleanOptions{}));
    } catch (const DataError& error) {
        return error.what();
    }
    return "accepted";
}

TEST(Tickets, ThatNoMonitorCanBeOffByAreRefusedWithTheUnitsTheyPointTo) {
    // 1 lb = 0.45359237 kg exactly, 1 short ton = 2000 lb (Weights and Measures Act, R.S.C. 1985 c. W-6, sched. II).
    EXPECT_NE(refusal_of_weights(1.0 / 0.45359237).find("weights.csv, row 1: the scale's mass is 2.2 times"),
              std::string::npos)
        << refusal_of_weights(1.0 / 0.45359237);
    EXPECT_NE(refusal_of_weights(1.0 / 0.45359237).find("pounds in a column for kilograms"), std::string::npos);
    EXPECT_NE(refusal_of_weights(0.45359237).find("kilograms in a column for pounds"), std::string::npos);
    EXPECT_NE(refusal_of_weights(1000.0).find("kilograms in a column for tonnes"), std::string::npos);
    EXPECT_NE(refusal_of_weights(1.6).find("1.6 times"), std::string::npos);
    EXPECT_NE(refusal_of_weights(0.6).find("0.6 times"), std::string::npos);
    EXPECT_EQ(refusal_of_weights(1.45), "accepted");
    EXPECT_EQ(refusal_of_weights(0.7), "accepted");
}

TEST(Tickets, AskOnlyAboutUnitsTheirColumnCouldBeMistakenFor) {
    const double lb_kg = 0.45359237; // Weights and Measures Act, sched. II
    const auto question = [&](double times, double unit_kg) {
        Standardised input = ten_loads();
        for (Ticket& ticket : input.tickets) {
            ticket.net_kg *= times;
            ticket.unit_kg = unit_kg;
        }
        const Cleaned cleaned = clean(season_with_ticket_file(), input, CleanOptions{});
        const auto found = std::find_if(cleaned.issues.begin(), cleaned.issues.end(),
                                        [](const Issue& issue) { return issue.code == "large-correction"; });
        return found == cleaned.issues.end() ? std::string() : found->message;
    };
    const double short_for_long = 1000.0 / (2000.0 * lb_kg);
    EXPECT_NE(question(short_for_long, 1000.0).find("short tons in a column for tonnes"), std::string::npos);
    EXPECT_NE(question(short_for_long, lb_kg).find("hold all of the load"), std::string::npos);
    EXPECT_NE(question(1.0 / short_for_long * 0.98, 1.0).find("hold all of the load"), std::string::npos);
}

TEST(Tickets, OneFarFromItsFellowsIsNamed) {
    Standardised input = ten_loads();
    input.tickets[3].net_kg *= 1.4;
    const Cleaned cleaned = clean(season_with_ticket_file(), input, CleanOptions{});
    std::vector<Issue> odd;
    std::copy_if(cleaned.issues.begin(), cleaned.issues.end(), std::back_inserter(odd),
                 [](const Issue& issue) { return issue.code == "load-far-from-others"; });
    ASSERT_EQ(odd.size(), 1U);
    EXPECT_EQ(odd[0].where, "weights.csv, row " + std::to_string(input.tickets[3].row));
    EXPECT_NE(odd[0].message.find("40 % more"), std::string::npos) << odd[0].message;
    input.tickets[3].net_kg *= 1.15 / 1.4; // loads of one machine do lie so far apart
    for (const Issue& issue : clean(season_with_ticket_file(), input, CleanOptions{}).issues)
        EXPECT_NE(issue.code, "load-far-from-others") << issue.message;
}

/// The message of the error a ticket causes.
std::string refusal(const Ticket& ticket) {
    StandardField field = plain_field(100.0, 500.0);
    add_pass(field.records, 5.0, 0.0, 200, 1.0e9);
    Standardised input = season_of(std::move(field));
    input.tickets = {ticket};
    try {
        static_cast<void>(clean(season_with_ticket_file(), input, CleanOptions{}));
    } catch (const DataError& error) {
        return error.what();
    }
    return "accepted";
}

TEST(Tickets, ThatCannotBeMatchedStopTheWorkWithTheirRow) {
    Ticket ticket;
    ticket.row = 7;
    ticket.net_kg = 1000.0;
    ticket.moisture_pct = 10.0;
    ticket.field = "Nowhere";
    EXPECT_NE(refusal(ticket).find("row 7"), std::string::npos);
    EXPECT_NE(refusal(ticket).find("Nowhere"), std::string::npos);
    ticket.field = "";
    ticket.machine = "green";
    EXPECT_NE(refusal(ticket).find("green"), std::string::npos);
    ticket.machine = "red";
    ticket.method = "mowed";
    EXPECT_NE(refusal(ticket).find("mowed"), std::string::npos);
    ticket.method = "";
    ticket.start_s = 9.0e8;
    ticket.end_s = 9.1e8;
    EXPECT_NE(refusal(ticket).find("weights.csv, row 7: no record with grain"), std::string::npos) << refusal(ticket);
    // 1e9 s after 1970 is 2001-09-09 01:46:40 UTC.
    EXPECT_NE(refusal(ticket).find("200 records of machine red, from 2001-09-09 01:46 to 2001-09-09 01:50 UTC"),
              std::string::npos)
        << refusal(ticket);
    Ticket empty;
    empty.row = 9;
    EXPECT_NE(refusal(empty).find("which records"), std::string::npos);
}

TEST(MachineOffsets, BringMachinesOfOneMethodLevelFromNeighbouringPasses) {
    // Blue reads 10 % higher than red on alternating passes of an even field: both go to the common mean.
    StandardField field = plain_field(200.0, 400.0);
    Random random(8);
    for (int machine = 0; machine < 2; ++machine)
        for (int p = machine; p < 20; p += 2) {
            const std::size_t first = field.records.size();
            add_pass(field.records, 5.0 + 10.0 * p, p % 2 == 0 ? 0.0 : 300.0, 150, 400.0 * p, p % 2 == 0 ? 2.0 : -2.0);
            for (std::size_t i = first; i < field.records.size(); ++i) {
                field.records.machine[i] = machine;
                field.records.mass_kg[i] = 5.0 * (machine == 1 ? 1.1 : 1.0) * (1.0 + 0.05 * random.normal());
            }
        }
    Standardised input = season_of(std::move(field));
    input.machines = {"red", "blue"};
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    ASSERT_EQ(cleaned.calibration.size(), 2U);
    EXPECT_EQ(cleaned.calibration[0].source, "neighbouring passes");
    EXPECT_NEAR(cleaned.calibration[0].factor / cleaned.calibration[1].factor, 1.1, 0.005);
    EXPECT_NEAR(std::log(cleaned.calibration[0].factor) + std::log(cleaned.calibration[1].factor), 0.0, 0.01);
    CleanOptions off;
    off.steps.machine_offsets = false;
    EXPECT_EQ(clean(plain_season(), input, off).calibration[0].source, "none");
}

} // namespace
} // namespace quartercut
