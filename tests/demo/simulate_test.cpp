// SPDX-License-Identifier: MIT
// The simulator keeps its books: grain cut = grain logged / the monitor's error = grain weighed; and it tells the truth.
#include "quartercut/demo.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace quartercut {
namespace {

DemoFieldPlan small_field() {
    DemoFieldPlan plan;
    plan.name = "Small";
    plan.across_m = 150.0;
    plan.along_m = 400.0;
    plan.mean_yield_t_ha = 2.4;
    plan.areas = {{demo_swathed, 0, "", 1.0}, {demo_standing, 0, "", 0.0}};
    plan.sloughs = {{60.0, 200.0, 14.0}};
    return plan;
}

DemoOptions exact() {
    DemoOptions options;
    options.noise = 0.0;
    return options;
}

double logged_kg(const DemoRecord& r) { return r.flow_kg_s * r.duration_s; }

TEST(Harvest, CutsEverySquareMetreOfCropAndNoneTwice) {
    const DemoSeason season = simulate_harvest({small_field()}, exact());
    double cut = 0.0;
    for (const DemoArea& area : season.fields[0].areas) {
        // Steering wanders by 2 cm and neighbours share 5 cm.
        EXPECT_NEAR(area.cut_m2 / area.land_m2, 1.0, 0.002);
        cut += area.cut_m2;
    }
    EXPECT_LE(cut, season.fields[0].area_m2 * 1.0005);
    EXPECT_GE(cut, season.fields[0].area_m2 * 0.998);
}

TEST(Harvest, LogsEveryKilogramItCuts) {
    const DemoSeason season = simulate_harvest({small_field()}, exact());
    double by_pass = 0.0, by_record = 0.0, by_area = 0.0;
    for (const DemoPass& pass : season.fields[0].passes)
        by_pass += pass.cut_basis_kg;
    for (const DemoRecord& r : season.fields[0].records)
        by_record += r.cut_basis_kg;
    for (const DemoArea& area : season.fields[0].areas)
        by_area += area.cut_basis_kg;
    EXPECT_NEAR(by_record / by_pass, 1.0, 1e-12);
    EXPECT_NEAR(by_area / by_pass, 1.0, 1e-12);
}

// W* = net (1 - dockage) (100 - M) / (100 - basis): dry-matter balance. Without sampling error it is the truth.
TEST(Harvest, WeighsWhatWasCut) {
    const DemoSeason season = simulate_harvest({small_field()}, exact());
    ASSERT_FALSE(season.tickets.empty());
    for (const DemoTicket& t : season.tickets) {
        const double clean_dry = t.net_kg * (1.0 - t.dockage_pct / 100.0) * (100.0 - t.moisture_pct) / 90.0;
        EXPECT_NEAR(clean_dry / t.true_basis_kg, 1.0, 1e-9);
        double monitor = 0.0, cut = 0.0;
        for (const DemoRecord& r : season.fields[0].records) {
            if (r.machine != t.machine || r.time_s <= t.start_s || r.time_s > t.end_s + 1e-6) continue;
            monitor += logged_kg(r);
            cut += r.cut_basis_kg;
        }
        const double reading = season.monitors[static_cast<std::size_t>(t.machine * 2 + t.method)].reading;
        EXPECT_NEAR(monitor / reading / t.net_kg, 1.0, 0.002); // the last grains of a turn are not logged
        EXPECT_NEAR(cut / t.true_basis_kg, 1.0, 1e-3);         // the machine is empty at both ends of a load
    }
}

TEST(Harvest, StatesTheFactorThatSetsTheLoggedMassRight) {
    const DemoSeason season = simulate_harvest({small_field()}, exact());
    for (const DemoMonitor& m : season.monitors) {
        if (m.cut_basis_kg == 0.0) continue;
        double logged = 0.0;
        for (const DemoRecord& r : season.fields[0].records)
            if (r.machine == m.machine) logged += logged_kg(r) * (100.0 - r.moisture_pct) / 90.0;
        EXPECT_NEAR(m.true_factor * logged / m.cut_basis_kg, 1.0, 1e-9);
        EXPECT_NEAR(m.true_factor * m.reading, 0.98, 0.02); // what is left is dockage and the moisture sensor
    }
}

TEST(Harvest, GivesEachMethodTheYieldOfTheLandPlusTheGainOnEvenLand) {
    DemoOptions options = exact();
    options.structure = 0.0;
    options.pass_sd = 0.0;
    options.true_gain_t_ha = 0.15;
    const DemoSeason season = simulate_harvest({small_field()}, options);
    EXPECT_NEAR(season.fields[0].areas[0].yield_t_ha(), 2.40, 1e-5);
    EXPECT_NEAR(season.fields[0].areas[1].yield_t_ha(), 2.55, 1e-5);
}

// By hand: smearing and transport move the centre of mass of the flow by their mean and nothing else does.
TEST(Harvest, DelaysTheFlowByTheStatedLag) {
    const DemoSeason season = simulate_harvest({small_field()}, exact());
    for (int machine = 0; machine < 2; ++machine) {
        const int method = machine; // A picks up, B cuts standing
        double cut = 0.0, cut_time = 0.0, flow = 0.0, flow_time = 0.0;
        const double start = season.fields[0].records.front().time_s;
        for (const DemoRecord& r : season.fields[0].records) {
            if (r.machine != machine) continue;
            cut += r.cut_basis_kg;
            cut_time += r.cut_basis_kg * (r.time_s - start);
            flow += r.flow_kg_s;
            flow_time += r.flow_kg_s * (r.time_s - start);
        }
        const double lag = season.monitors[static_cast<std::size_t>(machine * 2 + method)].lag_s();
        EXPECT_NEAR(flow_time / flow - cut_time / cut, lag, 0.4); // moisture changes over the day move it a little
    }
}

TEST(Harvest, IsTheSameForTheSameSeedAndAnotherForAnother) {
    const DemoSeason one = simulate_harvest({small_field()}, {}), again = simulate_harvest({small_field()}, {});
    DemoOptions other;
    other.seed = 2;
    const DemoSeason two = simulate_harvest({small_field()}, other);
    ASSERT_EQ(one.fields[0].records.size(), again.fields[0].records.size());
    for (std::size_t i = 0; i < one.fields[0].records.size(); ++i) {
        EXPECT_EQ(one.fields[0].records[i].flow_kg_s, again.fields[0].records[i].flow_kg_s);
        EXPECT_EQ(one.fields[0].records[i].lon_deg, again.fields[0].records[i].lon_deg);
    }
    EXPECT_NE(one.fields[0].areas[0].yield_t_ha(), two.fields[0].areas[0].yield_t_ha());
}

TEST(Harvest, LogsAtTheIntervalAskedFor) {
    DemoOptions options;
    options.record_interval_s = 1.5;
    const DemoSeason season = simulate_harvest({small_field()}, options);
    const std::vector<DemoRecord>& records = season.fields[0].records;
    for (const DemoRecord& r : records)
        EXPECT_EQ(r.duration_s, 1.5);
    EXPECT_NEAR(records[1].time_s - records[0].time_s, 1.5, 1e-6);
}

TEST(Harvest, LiftsTheHeaderOverTheSloughAndAtTheEnds) {
    const DemoSeason season = simulate_harvest({small_field()}, exact());
    int over_slough = 0;
    for (const DemoRecord& r : season.fields[0].records) {
        const bool outside = r.along_m < -2.0 || r.along_m > 402.0;
        EXPECT_TRUE(!r.header_up || r.cut_m2 == 0.0);
        if (r.header_up && !outside && std::hypot(r.across_m - 60.0, r.along_m - 200.0) < 10.0) ++over_slough;
    }
    EXPECT_GT(over_slough, 0);
}

TEST(DemoSeason, ShowsARawGainFarFromTheTruth) {
    const DemoOptions options;
    const DemoSeason season = simulate_harvest(demo_farm(options), options);
    EXPECT_LT(season.raw_gain_t_ha, 0.0); // the raw map even has the sign wrong
    EXPECT_GT(options.true_gain_t_ha, 0.0);
}

TEST(DemoSeason, WeighsAtLeastThreeLoadsOfEveryMachineAndMethod) {
    const DemoSeason season = simulate_harvest(demo_farm({}), {});
    std::array<int, 4> loads{};
    for (const DemoTicket& t : season.tickets)
        ++loads[static_cast<std::size_t>(t.machine * 2 + t.method)];
    for (const int count : loads)
        EXPECT_GE(count, 3);
}

TEST(DemoSeason, KeepsEachMachineInOnePlaceAtATime) {
    const DemoSeason season = simulate_harvest(demo_farm({}), {});
    std::vector<std::vector<double>> times(2);
    for (const DemoField& field : season.fields)
        for (const DemoRecord& r : field.records)
            times[static_cast<std::size_t>(r.machine)].push_back(r.time_s);
    for (std::vector<double>& of_machine : times) {
        std::sort(of_machine.begin(), of_machine.end());
        for (std::size_t i = 1; i < of_machine.size(); ++i)
            ASSERT_GE(of_machine[i] - of_machine[i - 1], 3.99);
    }
}

} // namespace
} // namespace quartercut
