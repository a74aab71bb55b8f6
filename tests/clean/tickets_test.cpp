// SPDX-License-Identifier: MIT
// From weighed loads to the mass of land: matching, factors, strips that were weighed, and refusal in plain words.
#include "harvest.hpp"

#include "quartercut/error.hpp"

#include <gtest/gtest.h>

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
        ticket.net_kg = method == 0 ? 20000.0 : 30000.0;
        input.tickets.push_back(ticket);
    }
    const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
    // 20 t and 30 t on 8 ha each.
    EXPECT_NEAR(yield_of(input.fields[0], cleaned.fields[0], 0), 2.5, 0.005);
    EXPECT_NEAR(yield_of(input.fields[0], cleaned.fields[0], 1), 3.75, 0.0075);
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

/// The message of the error a ticket causes.
std::string refusal(const Ticket& ticket) {
    StandardField field = plain_field(100.0, 500.0);
    add_pass(field.records, 5.0, 0.0, 200, 0.0);
    Standardised input = season_of(std::move(field));
    input.tickets = {ticket};
    try {
        static_cast<void>(clean(plain_season(), input, CleanOptions{}));
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
    EXPECT_NE(refusal(ticket).find("no record with grain"), std::string::npos);
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
