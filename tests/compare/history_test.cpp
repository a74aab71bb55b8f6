// SPDX-License-Identifier: MIT
// Earlier maps of the same land as a control, and earlier results beside this season's. Difference in differences by
// hand (Card & Krueger 1994, American Economic Review 84:772, for the idea; arithmetic below each number).
#include "compare/history.hpp"
#include "field_builder.hpp"
#include "result_checks.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quartercut::testing {
namespace {

using ::testing::HasSubstr;

/// A split field: the second half yields `land` more by itself and `gain` more by its method.
FieldPlan split_plan(double land, double gain, int salt, const std::string& name = "field") {
    FieldPlan plan;
    plan.name = name;
    plan.strips = {0, 1};
    plan.passes_per_strip = 10;
    plan.yield_t_ha = [=](int pass, int segment, int method) {
        return 2.4 + 0.03 * rough(pass, 7, salt) + 0.1 * rough(pass, segment + 100, salt) +
               (method == 1 ? land + gain : 0.0);
    };
    return plan;
}

EarlierMap map_of(const std::string& name, const std::vector<Built>& fields) {
    Farm farm = farm_of(fields);
    return {name, std::move(farm.standardised), std::move(farm.cleaned), std::move(farm.zoned)};
}

/// Maps of years in which the second half yielded `lands` more.
History maps_of(const std::vector<double>& lands, const std::string& field = "field") {
    History history;
    int year = 2020;
    for (const double land : lands) {
        history.maps.push_back(
            map_of("map " + std::to_string(year), {build(split_plan(land, 0.0, year, field), two_method_season())}));
        ++year;
    }
    return history;
}

Season with_maps() {
    Season season = two_method_season();
    season.history = HistoryInput{};
    season.history->maps = {"earlier/*.csv"};
    return season;
}

Comparison compare_with(const History& history, const std::vector<Built>& fields) {
    CompareOptions options;
    options.history = &history;
    Comparison result = compare_farm(with_maps(), fields, options);
    expect_no_nan(result);
    return result;
}

const Estimate* control_in(const Contrast& c) {
    for (const Estimate& e : c.also)
        if (e.estimator.find("earlier year") != std::string::npos) return &e;
    return nullptr;
}

TEST(DifferenceInDifferences, ByHand) {
    const std::vector<double> earlier{0.10, 0.12, 0.08}; // mean 0.10, variance 0.0004, 2 df
    const contrast::MeanTest test = contrast::difference_in_differences(0.15, earlier, {0.0004, 2.0});
    EXPECT_NEAR(test.estimate, 0.05, 1e-15);
    EXPECT_NEAR(test.se, std::sqrt(0.0004 * (1.0 + 1.0 / 3.0)), 1e-15);
    EXPECT_DOUBLE_EQ(test.df, 2.0);
}

TEST(DifferenceInDifferences, AFieldsOwnYearsTellTheirSpreadFromThreeOn) {
    History history = maps_of({0.0, 0.2, 0.4});
    const auto own = contrast::earlier_log_ratios(history, "field", {1, 0});
    ASSERT_EQ(own.size(), 3U);
    const double mean = (own[0] + own[1] + own[2]) / 3.0;
    double squares = 0.0;
    for (const double r : own)
        squares += (r - mean) * (r - mean);
    const auto spread = contrast::year_spread(history, "field", {1, 0});
    EXPECT_NEAR(spread.variance, squares / 2.0, 1e-12);
    EXPECT_DOUBLE_EQ(spread.df, 2.0);
    EXPECT_TRUE(contrast::earlier_log_ratios(history, "another", {1, 0}).empty());
}

TEST(DifferenceInDifferences, FewYearsBorrowTheSpreadOfAllFields) {
    const Season season = two_method_season();
    History history;
    for (int year = 0; year < 2; ++year)
        history.maps.push_back(map_of("map", {build(split_plan(0.1 * year, 0.0, year, "a"), season),
                                              build(split_plan(0.3 * year, 0.0, year + 10, "b"), season)}));
    const auto spread = contrast::year_spread(history, "a", {1, 0});
    EXPECT_DOUBLE_EQ(spread.df, 2.0) << "one from each field";
    const auto a = contrast::earlier_log_ratios(history, "a", {1, 0});
    const auto b = contrast::earlier_log_ratios(history, "b", {1, 0});
    EXPECT_NEAR(spread.variance, ((a[0] - a[1]) * (a[0] - a[1]) + (b[0] - b[1]) * (b[0] - b[1])) / 4.0, 1e-12);
    EXPECT_DOUBLE_EQ(contrast::year_spread(maps_of({0.1}), "field", {1, 0}).df, 0.0) << "one map knows no spread";
}

TEST(History, TakesTheLandsOwnDifferenceAway) {
    // The land differs by 0.4 t/ha every year and the method by nothing.
    const History history = maps_of({0.38, 0.41, 0.42});
    const Built field = build(split_plan(0.4, 0.0, 1), two_method_season());
    const Contrast blind = compare_farm(two_method_season(), {field}).fields[0].contrasts.at(0);
    ASSERT_EQ(blind.finding, Finding::leans_gain) << "without the maps the land is taken for the method";
    const Comparison seen = compare_with(history, {field});
    const Contrast& c = seen.fields[0].contrasts.at(0);
    EXPECT_EQ(c.finding, Finding::not_shown);
    const Estimate* control = control_in(c);
    const double gain = control != nullptr ? *control->gain_t_ha : *c.gain_t_ha;
    EXPECT_NEAR(gain, 0.0, 0.06);
    const Interval ci = *c.ci95_t_ha;
    EXPECT_TRUE(ci[0] <= 0.0 && ci[1] >= 0.0);
    EXPECT_TRUE(has_issue(seen.issues, "earlier-map-differs"));
}

TEST(History, LeavesAMethodsDifferenceStanding) {
    const History history = maps_of({0.02, -0.01, 0.01, 0.0, -0.02});
    const Contrast c =
        compare_with(history, {build(split_plan(0.0, 0.5, 1), two_method_season())}).fields[0].contrasts.at(0);
    EXPECT_EQ(c.finding, Finding::leans_gain);
    ASSERT_EQ(c.earlier.size(), 5U);
    EXPECT_EQ(c.earlier[0].estimator, "map 2020");
    for (const Estimate& then : c.earlier)
        EXPECT_NEAR(*then.gain_t_ha, 0.0, 0.15) << "nothing was done then";
}

TEST(History, OneMapGivesAnEstimateWithoutAnIntervalAndIsHeldAllTheSame) {
    const History history = maps_of({0.45});
    const Contrast c =
        compare_with(history, {build(split_plan(0.4, 0.0, 1), two_method_season())}).fields[0].contrasts.at(0);
    const Estimate* control = control_in(c);
    ASSERT_NE(control, nullptr);
    EXPECT_FALSE(control->ci95_t_ha.has_value());
    EXPECT_THAT(control->note, HasSubstr("cannot be told from so few maps"));
    EXPECT_LE((*c.ci95_t_ha)[0], *control->gain_t_ha);
    EXPECT_EQ(c.finding, Finding::not_shown);
}

TEST(History, MapsOfHalfTheLandDoNotCount) {
    History history = maps_of({0.1});
    std::erase_if(history.maps[0].zoned[0].segments, [](const Segment& s) { return s.zone == 1 && s.y_m > 300.0; });
    EXPECT_TRUE(contrast::earlier_log_ratios(history, "field", {1, 0}).empty());
}

TEST(History, ThatWasNotReadIsSaid) {
    const Comparison result = compare_farm(with_maps(), {build(split_plan(0.0, 0.2, 1), two_method_season())});
    EXPECT_TRUE(has_issue(result.issues, "history-not-used"));
}

TEST(History, StripsAreAnsweredOnEarlierMapsToo) {
    const Season season = with_maps();
    FieldPlan plan;
    plan.strips = {0, 1, 1, 0, 0, 1, 1, 0};
    plan.yield_t_ha = plain_yield(0.4);
    FieldPlan untreated = plan;
    untreated.yield_t_ha = plain_yield(0.0, 9);
    History history;
    history.maps.push_back(map_of("2022.csv", {build(untreated, season)}));
    const Contrast c = compare_with(history, {build(plan, season)}).fields[0].contrasts.at(0);
    ASSERT_EQ(c.earlier.size(), 1U);
    EXPECT_NEAR(*c.earlier[0].gain_t_ha, 0.0, 0.1);
    EXPECT_TRUE(c.earlier[0].ci95_t_ha.has_value());
    EXPECT_EQ(c.finding, Finding::gain);
}

// ---- several seasons -----------------------------------------------------------------------------------------------

EarlierSeason earlier_season(int year, const std::vector<double>& gains) {
    EarlierSeason out{"results-" + std::to_string(year) + "/comparison.json", year, "canola", 10.0, {}};
    int field = 0;
    for (const double gain : gains)
        out.gains.push_back(
            {"f" + std::to_string(field++), "standing", "swathed", "replicated-randomised", gain, 0.05, 5.0, 0.02});
    return out;
}

Comparison with_seasons(std::vector<EarlierSeason> seasons) {
    Season season = two_method_season();
    season.year = 2025;
    season.history = HistoryInput{};
    season.history->results = {"results-*/comparison.json"};
    FieldPlan plan;
    plan.strips = {0, 1, 1, 0, 0, 1, 1, 0};
    plan.yield_t_ha = plain_yield(0.3);
    History history;
    history.seasons = std::move(seasons);
    CompareOptions options;
    options.history = &history;
    options.sensitivity = false;
    Comparison result = compare_farm(season, {build(plan, season)}, options);
    expect_no_nan(result);
    return result;
}

TEST(Seasons, ArePooledAsFieldsWithinYears) {
    const Comparison result =
        with_seasons({earlier_season(2023, {0.25, 0.35, 0.3}), earlier_season(2024, {0.2, 0.28})});
    ASSERT_EQ(result.seasons.size(), 1U);
    const FarmContrast& row = result.seasons[0];
    EXPECT_EQ(row.years, 3);
    EXPECT_EQ(row.fields, 6);
    EXPECT_DOUBLE_EQ(*row.df, 2.0) << "years are the units";
    EXPECT_NEAR(*row.gain_t_ha, 0.28, 0.05);
    EXPECT_LE((*row.ci95_total_t_ha)[0], (*row.ci95_t_ha)[0]);
    ASSERT_TRUE(row.prediction95_t_ha.has_value());
    EXPECT_LE((*row.prediction95_t_ha)[0], (*row.ci95_total_t_ha)[0]);
    EXPECT_GT(*row.u_shared_t_ha, 0.01);
    EXPECT_EQ(result.farm.size(), 1U) << "this season's own row stays as it is";
    EXPECT_EQ(result.farm[0].years, 1);
}

TEST(Seasons, YearsThatDisagreeShowNothing) {
    const Comparison result =
        with_seasons({earlier_season(2023, {-0.3, -0.32, -0.28}), earlier_season(2024, {0.0, 0.02})});
    ASSERT_EQ(result.seasons.size(), 1U);
    EXPECT_GT(*result.seasons[0].between_years_t_ha, 0.1);
    EXPECT_EQ(result.seasons[0].finding, Finding::not_shown);
    EXPECT_EQ(result.farm.at(0).finding, Finding::gain) << "this season by itself";
}

TEST(Seasons, AnotherCropIsAnotherQuestion) {
    EarlierSeason wheat = earlier_season(2023, {0.3, 0.3, 0.3});
    wheat.crop = "wheat";
    const Comparison result = with_seasons({wheat});
    EXPECT_TRUE(result.seasons.empty());
    EXPECT_TRUE(has_issue(result.issues, "earlier-season-left-out"));
    EXPECT_TRUE(has_issue(result.issues, "too-few-years"));
}

TEST(Seasons, SplitFieldsAreNotPutIntoTheStripsRow) {
    EarlierSeason other = earlier_season(2023, {0.3, 0.3, 0.3});
    for (EarlierGain& gain : other.gains)
        gain.evidence = "split";
    EXPECT_TRUE(with_seasons({other}).seasons.empty());
}

TEST(Seasons, PoolFarmKeepsThem) {
    Comparison result = with_seasons({earlier_season(2023, {0.25, 0.35, 0.3})});
    ASSERT_EQ(result.seasons.size(), 1U);
    Season season = two_method_season();
    season.year = 2025;
    FieldPlan plan;
    plan.strips = {0, 1, 1, 0, 0, 1, 1, 0};
    plan.yield_t_ha = plain_yield(0.3);
    const Farm farm = farm_of({build(plan, season)});
    pool_farm(result, season, farm.standardised, farm.cleaned, farm.zoned);
    EXPECT_EQ(result.seasons.size(), 1U);
}

} // namespace
} // namespace quartercut::testing
