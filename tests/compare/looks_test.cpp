// SPDX-License-Identifier: MIT
// Several comparisons at once: the total interval holds for all of them together, and it alone decides the finding.
// Bonferroni: each of k intervals at 1 - 0.05 / k (Miller 1981, Simultaneous Statistical Inference, section 1.3).
#include "compare/findings.hpp"
#include "field_builder.hpp"
#include "result_checks.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quartercut::testing {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

const std::vector<int> three_ways{0, 1, 2, 2, 0, 1, 1, 2, 0, 0, 2, 1, 1, 0, 2};

Season three_method_season(bool all_pairs = false) {
    Season season = two_method_season();
    season.methods.push_back({"desiccated", "Desiccated", {}});
    season.comparison.all_pairs = all_pairs;
    return season;
}

FieldPlan three_strips(double gain, int salt) {
    FieldPlan plan;
    plan.name = "field " + std::to_string(salt);
    plan.strips = three_ways;
    const auto base = plain_yield(gain, salt);
    plan.yield_t_ha = [base, gain](int pass, int segment, int method) {
        return base(pass, segment, method) + (method == 2 ? -0.5 * gain : 0.0);
    };
    return plan;
}

bool leaves_zero_out(const Interval& interval) { return interval[0] > 0.0 || interval[1] < 0.0; }

/// A word that says something, and an interval that leaves 0 out, go together, where the layout allows a word.
template <class Row>
void expect_agreement(const Row& row) {
    if (!row.ci95_total_t_ha) return;
    const bool said = row.finding != Finding::not_shown && row.finding != Finding::not_comparable;
    EXPECT_EQ(said, leaves_zero_out(*row.ci95_total_t_ha)) << row.method << " " << finding_word(row.finding);
    if (said) {
        EXPECT_EQ(row.finding == Finding::gain || row.finding == Finding::leans_gain, (*row.ci95_total_t_ha)[0] > 0.0);
    }
}

TEST(Looks, FindingAndTotalIntervalAlwaysAgree) {
    const Season season = three_method_season();
    int shown = 0;
    int not_shown = 0;
    for (int salt = 0; salt < 24; ++salt) {
        const double gain = 0.01 * salt;
        std::vector<Built> farm{build(three_strips(gain, salt), season), build(three_strips(gain, salt + 50), season)};
        CompareOptions options;
        options.sensitivity = false;
        const Comparison result = compare_farm(season, farm, options);
        for (const FieldComparison& field : result.fields)
            for (const Contrast& c : field.contrasts) {
                EXPECT_EQ(c.looks, 2);
                expect_agreement(c);
                (c.finding == Finding::not_shown ? not_shown : shown)++;
            }
        for (const FarmContrast& row : result.farm)
            expect_agreement(row);
    }
    EXPECT_GT(shown, 5) << "the check must have met both";
    EXPECT_GT(not_shown, 5);
}

TEST(Looks, WidenTheTotalIntervalAsBonferroniSays) {
    Built two = build(three_strips(0.3, 1), three_method_season());
    Season season = three_method_season();
    const Contrast c = compare_farm(season, {two}).fields[0].contrasts.at(0);
    ASSERT_EQ(c.looks, 2);
    // t(0.9875, 4) = 3.4954 (tables of Student's t), against 2.7764 for one look
    EXPECT_DOUBLE_EQ(*c.df, 4.0);
    const double half = 0.5 * ((*c.ci95_total_t_ha)[1] - (*c.ci95_total_t_ha)[0]);
    EXPECT_GE(half, 3.4954 * *c.se_t_ha);
    EXPECT_NEAR(0.5 * ((*c.ci95_t_ha)[1] - (*c.ci95_t_ha)[0]), 2.7764 * *c.se_t_ha, 1e-4 * *c.se_t_ha);
    EXPECT_THAT(c.leaves_out, Contains(HasSubstr("One of 2 comparisons in this field")));
    season.comparison.all_pairs = true;
    const FieldComparison all = compare_farm(season, {two}).fields[0];
    ASSERT_EQ(all.contrasts.size(), 3U);
    for (const Contrast& each : all.contrasts) {
        EXPECT_EQ(each.looks, 3);
        EXPECT_GE(*each.p_adjusted, *each.p);
        EXPECT_LE(*each.p_adjusted, std::min(1.0, 3.0 * *each.p) + 1e-12) << "Holm never asks more than Bonferroni";
    }
    EXPECT_EQ(all.contrasts[2].method, "desiccated");
    EXPECT_EQ(all.contrasts[2].baseline, "standing");
}

TEST(Looks, AllPairsAddUp) {
    // Balanced strips of three methods: (c - a) - (b - a) = c - b would hold for block means; for neighbour pairs the
    // strips differ, so only the plain yields must add up.
    const FieldComparison all =
        compare_farm(three_method_season(true), {build(three_strips(0.3, 2), three_method_season(true))}).fields[0];
    const auto plain = [](const Contrast& c) { return *c.yield_t_ha - *c.baseline_yield_t_ha; };
    EXPECT_NEAR(plain(all.contrasts[1]) - plain(all.contrasts[0]), plain(all.contrasts[2]), 1e-12);
}

TEST(Looks, OneFieldsRowIsTheFieldsOwnWithThreeMethodsToo) {
    const Season season = three_method_season();
    const Comparison result = compare_farm(season, {build(three_strips(0.1, 3), season)});
    ASSERT_EQ(result.farm.size(), 2U);
    for (std::size_t i = 0; i < 2; ++i) {
        const Contrast& c = result.fields[0].contrasts[i];
        const FarmContrast& row = result.farm[i];
        EXPECT_EQ(row.method, c.method);
        EXPECT_EQ(row.gain_t_ha, c.gain_t_ha);
        EXPECT_EQ(row.ci95_t_ha, c.ci95_t_ha);
        EXPECT_EQ(row.ci95_total_t_ha, c.ci95_total_t_ha);
        EXPECT_EQ(row.p_adjusted, c.p_adjusted);
        EXPECT_EQ(row.looks, c.looks);
        EXPECT_EQ(row.finding, c.finding);
        EXPECT_FALSE(row.these_fields_gain_t_ha.has_value());
    }
}

TEST(NextField, IsNeverPredictedMoreNarrowlyThanTheMean) {
    const Season season = two_method_season();
    CompareOptions options;
    options.sensitivity = false;
    for (int salt = 0; salt < 12; ++salt) {
        std::vector<Built> farm;
        for (int f = 0; f < 3 + salt % 3; ++f) {
            FieldPlan plan;
            plan.name = "field " + std::to_string(f);
            plan.strips = {0, 1, 1, 0, 0, 1};
            plan.yield_t_ha = plain_yield(salt % 2 == 0 ? 0.2 : 0.05 * f, 100 * salt + f);
            farm.push_back(build(plan, season));
            if (salt % 4 == 3) farm.back().cleaned.calibration.clear(); // instruments decide
        }
        const FarmContrast row = compare_farm(season, farm, options).farm.at(0);
        ASSERT_TRUE(row.prediction95_t_ha.has_value());
        EXPECT_LE((*row.prediction95_t_ha)[0], (*row.ci95_total_t_ha)[0]);
        EXPECT_GE((*row.prediction95_t_ha)[1], (*row.ci95_total_t_ha)[1]);
    }
}

TEST(TheseFields, AreWeighedByTheirLandByHand) {
    // One field twice as long as the other, exact pair differences: 0.1 0.2 0.3 and 0.5 0.6 0.7.
    const Season season = two_method_season();
    std::vector<Built> farm;
    for (int f = 0; f < 2; ++f) {
        FieldPlan plan;
        plan.name = f == 0 ? "long" : "short";
        plan.strips = {0, 1, 0, 1, 0, 1};
        plan.segments = f == 0 ? 16 : 8;
        plan.yield_t_ha = [f](int pass, int, int method) {
            return 2.0 + (method == 1 ? 0.1 * (pass / 4 + 1) + 0.4 * f : 0.0);
        };
        farm.push_back(build(plan, season));
        farm.back().cleaned.calibration = good_calibration(season, "north");
    }
    const FarmContrast row = compare_farm(season, farm).farm.at(0);
    ASSERT_TRUE(row.these_fields_gain_t_ha.has_value());
    EXPECT_NEAR(*row.these_fields_gain_t_ha, (2.0 * 0.2 + 1.0 * 0.6) / 3.0, 1e-12);
    // Sampling alone: each field se = 0.1 / sqrt(3), 2 df; weights 2/3 and 1/3.
    // u = 0.05774 sqrt(4/9 + 1/9) = 0.04303; df = u^4 / (sum (w se)^4 / 2) = 25/17*2 = 2.941; t(0.975, 2.941) = 3.217
    const Interval ci = *row.these_fields_ci95_total_t_ha;
    EXPECT_GE(0.5 * (ci[1] - ci[0]), 3.21 * 0.043033);
    EXPECT_LT(0.5 * (ci[1] - ci[0]), 3.6 * 0.043033) << "calibration adds little here";
    EXPECT_NEAR(0.5 * (ci[0] + ci[1]), *row.these_fields_gain_t_ha, 1e-12);
}

Contrast shown_by(int pairs, double p, Evidence evidence = Evidence::replicated_randomised) {
    Contrast c;
    c.finding = Finding::gain;
    c.evidence = evidence;
    c.unit_n = pairs;
    c.p_randomisation = p;
    return c;
}

TEST(Coin, SaysHowSeldomAnOrderOfFewPairsIs) {
    // All pairs the same way round: 2 of 2^pairs orders.
    EXPECT_THAT(contrast::coin_words(shown_by(3, 2.0 / 8.0)), HasSubstr("With 3 pairs the coin alone"));
    EXPECT_THAT(contrast::coin_words(shown_by(3, 2.0 / 8.0)), HasSubstr("one time in four"));
    EXPECT_THAT(contrast::coin_words(shown_by(4, 2.0 / 16.0)), HasSubstr("one time in eight"));
    EXPECT_THAT(contrast::coin_words(shown_by(5, 2.0 / 32.0)), HasSubstr("one time in sixteen"));
    EXPECT_THAT(contrast::coin_words(shown_by(5, 4.0 / 32.0)), HasSubstr("12 % of all orders"));
    EXPECT_EQ(contrast::coin_words(shown_by(6, 2.0 / 64.0)), "") << "six pairs can reach 5 %";
    EXPECT_THAT(contrast::coin_words(shown_by(4, 2.0 / 16.0, Evidence::replicated)), HasSubstr("a coin alone"));
    Contrast silent = shown_by(3, 0.25);
    silent.finding = Finding::not_shown;
    EXPECT_EQ(contrast::coin_words(silent), "");
}

TEST(Coin, SpeaksInTheFieldAndLeavesWithTheFinding) {
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0, 1, 1, 0, 0, 1, 1, 0};
    plan.yield_t_ha = plain_yield(0.5);
    Contrast c = compare_farm(season, {build(plan, season)}).fields[0].contrasts.at(0);
    ASSERT_EQ(c.finding, Finding::gain);
    EXPECT_THAT(c.leaves_out, Contains(HasSubstr("one time in eight")));
    add_budget_line(c, {"lag and ramps", 1.0, 50.0, false});
    ASSERT_EQ(c.finding, Finding::not_shown);
    EXPECT_THAT(c.leaves_out, Not(Contains(HasSubstr("one time in eight"))));
}

} // namespace
} // namespace quartercut::testing
