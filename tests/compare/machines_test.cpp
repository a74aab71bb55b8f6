// SPDX-License-Identifier: MIT
// Two factors that always go together cannot be told apart by any number of repeats (aliases: Box, Hunter and Hunter,
// Statistics for Experimenters, 2nd ed., chapter 6). Here: each method cut by its own machine, and nothing weighed.
// Every test also holds the other side: the same records with one thing known more, and the word comes back.
#include "field_builder.hpp"
#include "result_checks.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quartercut::testing {
namespace {

using ::testing::HasSubstr;

/// 2.4 t/ha and a "gain" of 20 %: two monitors, one 8 % low and one 12 % high, no difference of the methods at all.
constexpr double machines_t_ha = 0.48;

FieldPlan strips_of(const std::string& name, int salt) {
    FieldPlan plan;
    plan.name = name;
    plan.strips = {0, 1, 1, 0, 0, 1, 1, 0};
    plan.yield_t_ha = plain_yield(machines_t_ha, salt);
    return plan;
}

FieldPlan whole_of(const std::string& name, int method, int salt) {
    FieldPlan plan;
    plan.name = name;
    plan.strips = {method};
    plan.passes_per_strip = 8;
    plan.yield_t_ha = plain_yield(machines_t_ha, salt);
    return plan;
}

/// Each method's segments by its own machine; `sources` says for swathed and standing what its calibration rests on.
Built machine_by_method(const FieldPlan& plan, const Season& season, const std::vector<std::string>& sources) {
    Built field = build(plan, season);
    for (Segment& s : field.zoned.segments)
        s.machine = field.zoned.zones[static_cast<std::size_t>(s.zone)].method;
    field.cleaned.calibration.clear();
    const std::vector<std::string> machines{"north", "south"};
    for (std::size_t m = 0; m < sources.size(); ++m) {
        const bool weighed = sources[m] == "tickets";
        field.cleaned.calibration.push_back(
            {machines[m], season.methods[m].name, 1.0, weighed ? 0.002 : 0.05, 50.0, weighed ? 12 : 0, sources[m]});
    }
    return field;
}

const std::vector<std::string> nothing_known{"none", "none"};

Comparison compare_fields(const std::vector<Built>& fields) {
    CompareOptions options;
    options.sensitivity = false;
    Comparison result = compare_farm(two_method_season(), fields, options);
    expect_no_nan(result);
    return result;
}

Comparison one_field(const std::vector<std::string>& sources) {
    return compare_fields({machine_by_method(strips_of("a", 1), two_method_season(), sources)});
}

TEST(OwnMachines, NotWeighedShowNothingHoweverLargeTheDifference) {
    const Comparison result = one_field(nothing_known);
    const Contrast& c = result.fields[0].contrasts.at(0);
    EXPECT_GT((*c.ci95_total_t_ha)[0], 0.0) << "or the range alone would do";
    EXPECT_EQ(c.finding, Finding::not_shown);
    EXPECT_THAT(c.leaves_out.front(), HasSubstr("Each way was cut by its own machine"));
    EXPECT_TRUE(has_issue(result.fields[0].issues, "machine-is-method"));
    ASSERT_EQ(result.farm.size(), 1U);
    EXPECT_EQ(result.farm[0].finding, Finding::not_shown);
    EXPECT_TRUE(result.farm[0].machine_is_method);
    EXPECT_THAT(result.farm[0].leaves_out.front(), ::testing::HasSubstr("own machine"));
}

TEST(OwnMachines, CheckedBothByLoadsOrNeighboursSpeakAgain) {
    const std::vector<std::string> levelled(2, "neighbouring passes");
    for (const auto& sources : {std::vector<std::string>{"tickets", "tickets"}, levelled}) {
        const Comparison result = one_field(sources);
        EXPECT_EQ(result.fields[0].contrasts.at(0).finding, Finding::gain) << sources[0];
        EXPECT_FALSE(has_issue(result.fields[0].issues, "machine-is-method")) << sources[0];
        EXPECT_EQ(result.farm.at(0).finding, Finding::gain) << sources[0];
    }
}

// The scale says nothing of the machine it did not weigh.
TEST(OwnMachines, OneWeighedAndOneNotShowNothing) {
    EXPECT_EQ(one_field({"tickets", "none"}).fields[0].contrasts.at(0).finding, Finding::not_shown);
    EXPECT_EQ(one_field({"none", "tickets"}).fields[0].contrasts.at(0).finding, Finding::not_shown);
}

TEST(OwnMachines, AMachineThatCutBothWaysTellsThemApart) {
    const Season season = two_method_season();
    Built field = machine_by_method(strips_of("a", 1), season, nothing_known);
    for (Segment& s : field.zoned.segments)
        s.machine = s.pass % 2;
    const Comparison result = compare_fields({field});
    EXPECT_FALSE(has_issue(result.fields[0].issues, "machine-is-method"));
    EXPECT_EQ(result.fields[0].contrasts.at(0).finding, Finding::gain);
}

// Half of one pass of eight is a sixteenth of the method: too little to tell the machines apart by.
TEST(OwnMachines, AStrayPassTellsNothing) {
    const Season season = two_method_season();
    Built field = machine_by_method(strips_of("a", 1), season, nothing_known);
    const Segment first = field.zoned.segments.front();
    int stray = 0, of_machine = 0;
    for (Segment& s : field.zoned.segments) {
        if (s.machine != first.machine) continue;
        ++of_machine;
        if (s.pass != first.pass || s.y_m > first.y_m + 100.0) continue;
        ++stray;
        s.machine = 1 - s.machine;
    }
    ASSERT_GT(stray, 0);
    ASSERT_LT(stray, of_machine / 12);
    const Comparison result = compare_fields({field});
    EXPECT_EQ(result.fields[0].contrasts.at(0).finding, Finding::not_shown);
    EXPECT_TRUE(result.fields[0].contrasts.at(0).machine_is_method);
}

TEST(OwnMachines, StayHeldWhenTheBudgetIsSettledAgain) {
    Comparison result = one_field(nothing_known);
    Contrast& c = result.fields[0].contrasts.at(0);
    add_budget_line(c, {"lag and ramps", 0.001, 50.0, false});
    EXPECT_EQ(c.finding, Finding::not_shown);
    c.machine_is_method = false;
    add_budget_line(c, {"lag and ramps", 0.001, 50.0, false});
    EXPECT_EQ(c.finding, Finding::gain) << "the flag alone held it";
}

TEST(OwnMachines, HoldStrataToo) {
    const Season season = two_method_season();
    FieldPlan plan = strips_of("a", 1);
    plan.strata = {"low", "high"};
    const auto contrasts = compare_fields({machine_by_method(plan, season, nothing_known)}).fields[0].contrasts;
    ASSERT_EQ(contrasts.size(), 3U);
    for (const Contrast& c : contrasts)
        EXPECT_EQ(c.finding, Finding::not_shown) << c.stratum.value_or("whole field");
}

TEST(OwnMachines, OneFieldOfManyHoldsTheFarm) {
    const Season season = two_method_season();
    const std::vector<std::string> weighed(2, "tickets");
    std::vector<Built> fields;
    for (int i = 0; i < 4; ++i)
        fields.push_back(machine_by_method(strips_of("f" + std::to_string(i), i), season, weighed));
    EXPECT_EQ(compare_fields(fields).farm.at(0).finding, Finding::gain);
    fields[2] = machine_by_method(strips_of("f2", 2), season, nothing_known);
    const Comparison held = compare_fields(fields);
    EXPECT_GT((*held.farm.at(0).ci95_total_t_ha)[0], 0.0);
    EXPECT_EQ(held.farm[0].finding, Finding::not_shown);
    EXPECT_THAT(held.farm[0].leaves_out.front(), HasSubstr("f2: Each way was cut by its own machine"));
    EXPECT_EQ(held.fields[0].contrasts.at(0).finding, Finding::gain) << "its own machines were weighed";
}

TEST(OwnMachines, HoldWholeFields) {
    const Season season = two_method_season();
    std::vector<Built> none;
    std::vector<Built> weighed;
    for (int i = 0; i < 8; ++i) {
        const FieldPlan plan = whole_of("w" + std::to_string(i), i % 2, i);
        none.push_back(machine_by_method(plan, season, nothing_known));
        weighed.push_back(machine_by_method(plan, season, {"tickets", "tickets"}));
    }
    EXPECT_EQ(compare_fields(weighed).farm.at(0).finding, Finding::leans_gain);
    const Comparison held = compare_fields(none);
    EXPECT_GT((*held.farm.at(0).ci95_total_t_ha)[0], 0.0);
    EXPECT_EQ(held.farm[0].finding, Finding::not_shown);
    EXPECT_TRUE(held.farm[0].machine_is_method);
    EXPECT_THAT(held.farm[0].leaves_out.front(), ::testing::HasSubstr("own machine"));
    EXPECT_TRUE(has_issue(held.issues, "machine-is-method"));
}

/// Three fields of 2024, each with a clear gain.
History a_year_before() {
    History history;
    history.seasons = {{"results-2024/comparison.json", 2024, "canola", 10.0, {}}};
    for (const char* name : {"x", "y", "z"})
        history.seasons[0].gains.push_back({name, "standing", "swathed", "replicated", 0.48, 0.02, 6.0, 0.002});
    return history;
}

TEST(OwnMachines, HoldTheRowOfSeveralSeasons) {
    Season season = two_method_season();
    season.year = 2025;
    History history = a_year_before();
    CompareOptions options;
    options.history = &history;
    options.sensitivity = false;
    const Built field = machine_by_method(strips_of("a", 1), season, nothing_known);
    const Comparison result = compare_farm(season, {field}, options);
    ASSERT_EQ(result.seasons.size(), 1U);
    EXPECT_EQ(result.seasons[0].finding, Finding::not_shown);
    EXPECT_THAT(result.seasons[0].leaves_out.front(), HasSubstr("a 2025: Each way was cut by its own machine"));
}

TEST(OwnMachines, OfAnEarlierYearHoldTheRowToo) {
    Season season = two_method_season();
    season.year = 2025;
    History history = a_year_before();
    CompareOptions options;
    options.history = &history;
    options.sensitivity = false;
    const Built field = build(strips_of("a", 1), season);
    const Comparison free = compare_farm(season, {field}, options);
    ASSERT_EQ(free.seasons.size(), 1U);
    ASSERT_NE(free.seasons[0].finding, Finding::not_shown);
    const Comparison held = compare_fields({machine_by_method(strips_of("a", 1), season, nothing_known)});
    history.seasons[0].gains[1].machine_is_method = held.fields[0].contrasts.at(0).machine_is_method;
    const Comparison result = compare_farm(season, {field}, options);
    EXPECT_EQ(result.seasons.at(0).finding, Finding::not_shown);
    EXPECT_THAT(result.seasons[0].leaves_out.front(), HasSubstr("y 2024: Each way was cut by its own machine"));
}

} // namespace
} // namespace quartercut::testing
