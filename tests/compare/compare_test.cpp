// SPDX-License-Identifier: MIT
// The facade on fields made by hand: what evidence a layout is, what may be said of it, and what must never change.
#include "field_builder.hpp"
#include "result_checks.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

namespace quartercut::testing {
namespace {

using ::testing::HasSubstr;

const std::vector<int> abba{0, 1, 1, 0, 1, 0, 0, 1, 0, 1, 1, 0};

FieldPlan strips(double gain, int salt = 0) {
    FieldPlan plan;
    plan.strips = abba;
    plan.yield_t_ha = plain_yield(gain, salt);
    return plan;
}

FieldPlan split(double gain, int salt = 0) {
    FieldPlan plan;
    plan.strips = {0, 1};
    plan.passes_per_strip = 12;
    plan.yield_t_ha = plain_yield(gain, salt);
    return plan;
}

FieldPlan whole(const std::string& name, int method, double yield) {
    FieldPlan plan;
    plan.name = name;
    plan.strips = {method};
    plan.passes_per_strip = 8;
    plan.yield_t_ha = [yield](int pass, int segment, int) { return yield + 0.1 * rough(pass, segment); };
    return plan;
}

const Contrast& only_contrast(const Comparison& comparison) {
    EXPECT_EQ(comparison.fields.at(0).contrasts.size(), 1U);
    return comparison.fields.at(0).contrasts.at(0);
}

Comparison compare_plans(const std::vector<FieldPlan>& plans, const Season& season = two_method_season()) {
    std::vector<Built> fields;
    for (const FieldPlan& plan : plans)
        fields.push_back(build(plan, season));
    Comparison comparison = compare_farm(season, fields);
    expect_no_nan(comparison);
    return comparison;
}

// ---- evidence ------------------------------------------------------------------------------------------------------

TEST(Compare, RandomisedStripsArePairedWithTheirNeighbours) {
    const Comparison result = compare_plans({strips(0.3)});
    EXPECT_EQ(result.fields[0].evidence, Evidence::replicated_randomised);
    const Contrast& c = only_contrast(result);
    EXPECT_EQ(c.unit_what, "pairs");
    EXPECT_EQ(c.unit_n, 6);
    EXPECT_DOUBLE_EQ(*c.df, 5.0);
    EXPECT_EQ(c.finding, Finding::gain);
    EXPECT_NEAR(*c.gain_t_ha, 0.3, 0.06);
    ASSERT_TRUE(c.p_randomisation.has_value());
    EXPECT_DOUBLE_EQ(*c.p_randomisation, 2.0 / 64.0);
    EXPECT_GE(c.also.size(), 2U);
}

TEST(Compare, TheGainIsTheMeanOfPairDifferencesByHand) {
    FieldPlan plan;
    plan.strips = {0, 1, 1, 0, 0, 1};
    const std::vector<double> yields{2.0, 2.5, 2.4, 2.1, 2.2, 2.3}; // differences 0.5, 0.3, 0.1
    plan.yield_t_ha = [&](int pass, int, int) { return yields[static_cast<std::size_t>(pass / 2)]; };
    const Contrast c = only_contrast(compare_plans({plan}));
    EXPECT_NEAR(*c.gain_t_ha, 0.3, 1e-12);
    EXPECT_NEAR(*c.se_t_ha, 0.2 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(*c.p_randomisation, 2.0 / 8.0, 1e-12);
    ASSERT_EQ(c.pairs.size(), 3U);
    EXPECT_NEAR(c.pairs[1].difference_t_ha, 0.3, 1e-12);
}

TEST(Compare, StripsNotPlacedAtRandomAreOnlyReplicated) {
    Season season = two_method_season();
    season.trial.randomised = false;
    const Comparison result = compare_plans({strips(0.3)}, season);
    EXPECT_EQ(result.fields[0].evidence, Evidence::replicated);
    EXPECT_THAT(only_contrast(result).leaves_out.front(), HasSubstr("not placed at random"));
}

TEST(Compare, ASplitFieldNeverDoesMoreThanLean) {
    for (const double gain : {1.0, -1.0}) {
        const Comparison result = compare_plans({split(gain)});
        EXPECT_EQ(result.fields[0].evidence, Evidence::split);
        const Contrast& c = only_contrast(result);
        EXPECT_EQ(c.finding, gain > 0.0 ? Finding::leans_gain : Finding::leans_loss);
        EXPECT_EQ(c.unit_n, 1);
        ASSERT_TRUE(c.ci95_t_ha.has_value());
        for (const Estimate& other : c.also)
            if (other.ci95_t_ha) {
                EXPECT_LE((*other.ci95_t_ha)[1] - (*other.ci95_t_ha)[0], (*c.ci95_t_ha)[1] - (*c.ci95_t_ha)[0] + 1e-12);
            }
    }
}

TEST(Compare, OnePairIsASplit) {
    FieldPlan plan;
    plan.strips = {0, 1};
    plan.passes_per_strip = 3;
    plan.yield_t_ha = plain_yield(0.5);
    EXPECT_EQ(compare_plans({plan}).fields[0].evidence, Evidence::split);
}

TEST(Compare, TwoPairsShowNothingWhateverTheirSize) {
    FieldPlan plan;
    plan.strips = {0, 1, 1, 0};
    plan.yield_t_ha = plain_yield(1.5);
    const Contrast c = only_contrast(compare_plans({plan}));
    EXPECT_EQ(c.unit_n, 2);
    EXPECT_DOUBLE_EQ(*c.df, 1.0);
    EXPECT_EQ(c.finding, Finding::not_shown);
    EXPECT_THAT(c.leaves_out.front(), HasSubstr("Two pairs only"));
}

TEST(Compare, PatchesAreNotPairs) {
    // Twelve round patches side by side, and every pass runs through both methods: like soil units, not like strips.
    Season season = two_method_season();
    FieldPlan plan = strips(0.8);
    Built field = build(plan, season);
    for (std::size_t z = 0; z < field.zoned.zones.size(); ++z) {
        Ring circle;
        for (int corner = 0; corner < 40; ++corner) {
            const double angle = 2.0 * std::numbers::pi * corner / 40.0;
            const double radius = 60.0 + 8.0 * rough(corner, static_cast<int>(z));
            circle.push_back({12.0 + 24.0 * static_cast<double>(z) + radius * std::cos(angle),
                              400.0 + 3.0 * radius * std::sin(angle)});
        }
        field.zoned.zones[z].shape_m = {{circle, {}}};
    }
    for (Segment& s : field.zoned.segments)
        if (s.y_m > 400.0) s.zone = (s.zone + 1) % 12;
    const Comparison result = compare_farm(season, {field});
    EXPECT_EQ(result.fields[0].evidence, Evidence::split);
    EXPECT_TRUE(has_issue(result.fields[0].issues, "patches"));
    EXPECT_NE(only_contrast(result).finding, Finding::gain);
}

TEST(Compare, CheckStripsInAFieldOtherwiseCutOneWay) {
    // Three standing strips; the rest is one swathed area with headlands, a comb in shape.
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0, 1, 0, 1, 0, 1, 0};
    plan.yield_t_ha = plain_yield(0.5);
    Built field = build(plan, season);
    Zone& comb = field.zoned.zones[0];
    comb.shape_m = {{{{0, -30},
                      {168, -30},
                      {168, 800},
                      {144, 800},
                      {144, 0},
                      {120, 0},
                      {120, 800},
                      {96, 800},
                      {96, 0},
                      {72, 0},
                      {72, 800},
                      {48, 800},
                      {48, 0},
                      {24, 0},
                      {24, 800},
                      {0, 800}},
                     {}}};
    for (const std::size_t z : {2U, 4U, 6U})
        field.zoned.zones[z].shape_m.clear();
    for (const std::size_t z : {2U, 4U, 6U})
        field.zoned.zones[z].area_index = 0;
    const Comparison result = compare_farm(season, {field});
    EXPECT_TRUE(has_issue(result.fields[0].issues, "strips-from-passes"));
    EXPECT_EQ(result.fields[0].evidence, Evidence::replicated_randomised);
    EXPECT_EQ(only_contrast(result).unit_n, 3);
}

TEST(Compare, SoilBandsAcrossThePassesAreNotStrips) {
    // Each pass runs through both: whatever the areas are, nobody cut them as strips.
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0};
    plan.passes_per_strip = 20;
    plan.yield_t_ha = plain_yield(0.5);
    Built field = build(plan, season);
    Zone other = field.zoned.zones[0];
    other.id = "other";
    other.method = 1;
    other.area_index = 1;
    field.zoned.zones.push_back(other);
    for (Segment& s : field.zoned.segments)
        if (static_cast<int>(s.y_m / 200.0) % 2 == 1) s.zone = 1;
    const Comparison result = compare_farm(season, {field});
    EXPECT_EQ(result.fields[0].evidence, Evidence::split);
    expect_no_nan(result);
}

TEST(Compare, ABlockColumnIsTrusted) {
    Season season = two_method_season();
    season.trial.pairs = "block";
    FieldPlan plan;
    plan.strips = {0, 0, 1, 1, 0, 1};
    plan.blocks = {"a", "b", "a", "b", "c", "c"};
    plan.yield_t_ha = plain_yield(0.4);
    const Comparison result = compare_plans({plan}, season);
    EXPECT_EQ(result.fields[0].evidence, Evidence::replicated_randomised);
    const Contrast& c = only_contrast(result);
    EXPECT_EQ(c.unit_n, 3);
    EXPECT_EQ(c.pairs[0].block, "a");
}

TEST(Compare, UnequalBlocksGoThroughAMixedModel) {
    Season season = two_method_season();
    season.trial.pairs = "block";
    FieldPlan plan;
    plan.strips = {0, 1, 0, 1, 0, 0, 1, 1, 0};
    plan.blocks = {"a", "a", "a", "b", "b", "b", "c", "c", "c"};
    plan.yield_t_ha = plain_yield(0.4);
    const Contrast c = only_contrast(compare_plans({plan}, season));
    EXPECT_EQ(c.unit_what, "blocks");
    EXPECT_THAT(c.estimator, HasSubstr("Kenward-Roger"));
    EXPECT_EQ(c.also.front().estimator, "block differences, t");
}

// ---- whole fields --------------------------------------------------------------------------------------------------

TEST(Compare, OneFieldAgainstOneIsNotComparable) {
    const Comparison result = compare_plans({whole("a", 0, 2.0), whole("b", 1, 2.6)});
    EXPECT_EQ(result.fields[0].evidence, Evidence::whole_field);
    EXPECT_TRUE(result.fields[0].contrasts.empty());
    ASSERT_EQ(result.farm.size(), 1U);
    EXPECT_EQ(result.farm[0].finding, Finding::not_comparable);
    EXPECT_FALSE(result.farm[0].ci95_t_ha.has_value());
    EXPECT_FALSE(result.farm[0].ci95_total_t_ha.has_value());
    EXPECT_NEAR(*result.farm[0].gain_t_ha, 0.6, 0.05);
}

TEST(Compare, WholeFieldsAreTheUnitsNotTheirRecords) {
    const Comparison result = compare_plans({whole("a", 0, 2.0), whole("b", 0, 2.1), whole("c", 0, 1.9),
                                             whole("d", 1, 3.0), whole("e", 1, 3.1), whole("f", 1, 3.2)});
    ASSERT_EQ(result.farm.size(), 1U);
    const FarmContrast& row = result.farm[0];
    EXPECT_EQ(row.evidence, "whole-field");
    EXPECT_EQ(row.fields, 6);
    EXPECT_LE(*row.df, 4.0);
    EXPECT_EQ(row.finding, Finding::leans_gain);
    EXPECT_FALSE(row.prediction95_t_ha.has_value());
}

TEST(Compare, TwoWholeFieldsASideAreTooRoughForAWord) {
    const Comparison result =
        compare_plans({whole("a", 0, 2.0), whole("b", 0, 2.01), whole("d", 1, 3.0), whole("e", 1, 3.01)});
    EXPECT_EQ(result.farm.at(0).finding, Finding::not_shown);
    EXPECT_TRUE(result.farm[0].ci95_t_ha.has_value());
}

// ---- farm ----------------------------------------------------------------------------------------------------------

TEST(Compare, OneFieldsRowIsTheFieldsOwn) {
    const Comparison result = compare_plans({strips(0.3)});
    ASSERT_EQ(result.farm.size(), 1U);
    const Contrast& c = result.fields[0].contrasts[0];
    EXPECT_EQ(result.farm[0].gain_t_ha, c.gain_t_ha);
    EXPECT_EQ(result.farm[0].ci95_total_t_ha, c.ci95_total_t_ha);
    EXPECT_EQ(result.farm[0].finding, c.finding);
    EXPECT_FALSE(result.farm[0].prediction95_t_ha.has_value());
    EXPECT_FALSE(result.farm[0].tau_t_ha.has_value());
}

TEST(Compare, ANextFieldIsPredictedFromThreeOnly) {
    std::vector<FieldPlan> plans{strips(0.3, 1), strips(0.3, 2)};
    plans[1].name = "second";
    EXPECT_FALSE(compare_plans(plans).farm.at(0).prediction95_t_ha.has_value());
    plans.push_back(strips(0.3, 3));
    plans[2].name = "third";
    const Comparison result = compare_plans(plans);
    ASSERT_TRUE(result.farm.at(0).prediction95_t_ha.has_value());
    EXPECT_EQ(result.farm[0].fields, 3);
    EXPECT_EQ(result.farm[0].finding, Finding::gain);
}

TEST(Compare, KindsOfEvidenceAreNeverMixed) {
    std::vector<FieldPlan> plans{strips(0.3, 1), split(0.9, 2), whole("w", 0, 2.0), whole("v", 1, 2.0)};
    plans[1].name = "second";
    const Comparison result = compare_plans(plans);
    ASSERT_EQ(result.farm.size(), 3U);
    EXPECT_EQ(result.farm[0].evidence, "replicated-randomised");
    EXPECT_EQ(result.farm[0].fields, 1);
    EXPECT_EQ(result.farm[1].evidence, "split");
    EXPECT_EQ(result.farm[2].evidence, "whole-field");
}

// ---- totals --------------------------------------------------------------------------------------------------------

TEST(Compare, TheTotalIntervalHoldsTheSamplingOne) {
    for (int salt = 0; salt < 6; ++salt) {
        const Contrast c = only_contrast(compare_plans({strips(0.1, salt)}));
        EXPECT_LE((*c.ci95_total_t_ha)[0], (*c.ci95_t_ha)[0]);
        EXPECT_GE((*c.ci95_total_t_ha)[1], (*c.ci95_t_ha)[1]);
        EXPECT_GE(*c.u_total_t_ha, *c.se_t_ha);
    }
}

TEST(Compare, WithoutTicketsAClearDifferenceIsNotShown) {
    const Season season = two_method_season();
    Built field = build(strips(0.2), season);
    field.cleaned.calibration.clear();
    const Contrast c = only_contrast(compare_farm(season, {field}));
    EXPECT_GT((*c.ci95_t_ha)[0], 0.0);
    EXPECT_LT((*c.ci95_total_t_ha)[0], 0.0);
    EXPECT_EQ(c.finding, Finding::not_shown);
    EXPECT_EQ(c.fragile, "fragile");
}

TEST(Compare, ABudgetLineWidensTheTotalAndCanTakeTheFindingAway) {
    Comparison result = compare_plans({strips(0.3)});
    Contrast& c = result.fields[0].contrasts[0];
    ASSERT_EQ(c.finding, Finding::gain);
    const double before = *c.u_total_t_ha;
    add_budget_line(c, {"lag and ramps", 0.3, 50.0, false});
    EXPECT_GT(*c.u_total_t_ha, before);
    EXPECT_EQ(c.finding, Finding::not_shown);
    const std::size_t lines = c.budget.size();
    add_budget_line(c, {"lag and ramps", 0.0, 50.0, false});
    EXPECT_EQ(c.budget.size(), lines) << "a line of the same source is replaced";
    EXPECT_EQ(c.finding, Finding::gain);
}

TEST(Compare, ReRunsTakeThePlaceOfTheStatedTimingError) {
    Comparison result = compare_plans({strips(0.3)});
    Contrast& c = result.fields[0].contrasts[0];
    const std::size_t lines = c.budget.size();
    add_budget_line(c, {error_source::timing, 0.002, 50.0, false});
    EXPECT_EQ(c.budget.size(), lines);
    EXPECT_EQ(c.budget.back().source, error_source::timing);
    EXPECT_EQ(c.budget.back().u_t_ha, 0.002);
}

TEST(Compare, ARerunThatBeginsAtTheModelFoundMovesLittle) {
    // Judgement of the plan: a coarser set of cells may move the gain by a tenth of its error.
    const Season season = two_method_season();
    FieldPlan plan = split(0.2);
    plan.passes_per_strip = 20;
    plan.segments = 24;
    const Built field = build(plan, season);
    const Comparison first = compare_farm(season, {field});
    ASSERT_TRUE(first.fields[0].spatial.has_value());
    CompareOptions options;
    options.sensitivity = false;
    options.begin_at = &first.fields;
    const Contrast a = only_contrast(first);
    const Contrast b = only_contrast(compare_farm(season, {field}, options));
    EXPECT_NEAR(*a.gain_t_ha, *b.gain_t_ha, 0.1 * *a.se_t_ha);
    EXPECT_NEAR(*a.se_t_ha, *b.se_t_ha, 0.1 * *a.se_t_ha);
}

TEST(Compare, PlaceboLayoutsOfUntreatedLandFindLittle) {
    const Season season = two_method_season();
    CompareOptions options;
    options.placebo_layouts = 100;
    for (const FieldPlan& plan : {strips(0.4), split(0.4)}) {
        const Comparison result = compare_farm(season, {build(plan, season)}, options);
        const Contrast& c = only_contrast(result);
        ASSERT_TRUE(c.placebo.has_value());
        EXPECT_GT(c.placebo->layouts, 50);
        EXPECT_LE(c.placebo->share_found, 0.25);
        EXPECT_LE(c.placebo->share_as_large, 0.05) << "0.4 t/ha is far more than this land does by itself";
    }
}

// ---- what must not matter ------------------------------------------------------------------------------------------

TEST(Compare, SwappingTheMethodsTurnsTheSignAndNothingElse) {
    Season other = two_method_season();
    other.baseline = "standing";
    for (const FieldPlan& plan : {strips(0.2), split(0.2)}) {
        const Contrast a = only_contrast(compare_plans({plan}));
        const Contrast b = only_contrast(compare_plans({plan}, other));
        EXPECT_NEAR(*a.gain_t_ha, -*b.gain_t_ha, 1e-9);
        EXPECT_NEAR(*a.se_t_ha, *b.se_t_ha, 1e-9);
        EXPECT_NEAR(*a.p, *b.p, 1e-9);
        EXPECT_NEAR(*a.u_total_t_ha, *b.u_total_t_ha, 1e-9);
        EXPECT_NEAR((*a.ci95_total_t_ha)[0], -(*b.ci95_total_t_ha)[1], 1e-9);
    }
}

TEST(Compare, TwiceTheYieldIsTwiceTheGain) {
    for (const FieldPlan& plan : {strips(0.2), split(0.2)}) {
        FieldPlan doubled = plan;
        doubled.yield_t_ha = [&](int p, int s, int m) { return 2.0 * plan.yield_t_ha(p, s, m); };
        const Contrast a = only_contrast(compare_plans({plan}));
        const Contrast b = only_contrast(compare_plans({doubled}));
        EXPECT_NEAR(2.0 * *a.gain_t_ha, *b.gain_t_ha, 1e-5);
        EXPECT_NEAR(2.0 * *a.se_t_ha, *b.se_t_ha, 1e-5);
        EXPECT_EQ(a.finding, b.finding);
    }
}

// Means are mass over area, so land cut into finer pieces is the same land.
TEST(Compare, SegmentsCutInTwoChangeNothing) {
    const Season season = two_method_season();
    const Built whole = build(strips(0.2), season);
    Built halved = whole;
    for (Segment segment : whole.zoned.segments) {
        segment.area_m2 *= 0.5;
        segment.mass_basis_kg *= 0.5;
        halved.zoned.segments.push_back(segment);
    }
    for (std::size_t i = 0; i < whole.zoned.segments.size(); ++i)
        halved.zoned.segments[i] = halved.zoned.segments[whole.zoned.segments.size() + i];
    const Contrast a = only_contrast(compare_farm(season, {whole}));
    const Contrast b = only_contrast(compare_farm(season, {halved}));
    EXPECT_NEAR(*a.gain_t_ha, *b.gain_t_ha, 1e-12);
    EXPECT_NEAR(*a.se_t_ha, *b.se_t_ha, 1e-12);
    EXPECT_NEAR(*a.p, *b.p, 1e-12);
    EXPECT_EQ(a.unit_n, b.unit_n);
    EXPECT_EQ(a.finding, b.finding);
}

TEST(Compare, NamesOfMethodsDoNotMatter) {
    Season renamed = two_method_season();
    renamed.methods[0].name = renamed.baseline = "zz";
    renamed.methods[1].name = "aa";
    const Contrast a = only_contrast(compare_plans({strips(0.2)}));
    const Contrast b = only_contrast(compare_plans({strips(0.2)}, renamed));
    EXPECT_EQ(a.gain_t_ha, b.gain_t_ha);
    EXPECT_EQ(a.ci95_total_t_ha, b.ci95_total_t_ha);
}

TEST(Compare, ThreadsDoNotMatter) {
    const Season season = two_method_season();
    std::vector<Built> fields;
    for (int i = 0; i < 4; ++i)
        fields.push_back(build(i % 2 == 0 ? strips(0.2, i) : split(0.2, i), season));
    CompareOptions one;
    one.jobs = 1;
    CompareOptions two;
    two.jobs = 2;
    const Comparison a = compare_farm(season, fields, one);
    const Comparison b = compare_farm(season, fields, two);
    for (std::size_t f = 0; f < 4; ++f) {
        EXPECT_EQ(a.fields[f].contrasts[0].gain_t_ha, b.fields[f].contrasts[0].gain_t_ha);
        EXPECT_EQ(a.fields[f].contrasts[0].se_t_ha, b.fields[f].contrasts[0].se_t_ha);
    }
}

TEST(Compare, FieldsTurnedOnTheMapGiveTheSameAnswer) {
    const Season season = two_method_season();
    const Built straight = build(strips(0.2), season);
    Built turned = straight;
    const auto turn = [](Point p) { return Point{0.8 * p.x - 0.6 * p.y + 5000.0, 0.6 * p.x + 0.8 * p.y - 300.0}; };
    for (Zone& zone : turned.zoned.zones)
        for (Point& p : zone.shape_m[0].shell)
            p = turn(p);
    for (Segment& s : turned.zoned.segments) {
        const Point p = turn({s.x_m, s.y_m});
        s.x_m = p.x;
        s.y_m = p.y;
    }
    for (Pass& pass : turned.cleaned.passes)
        pass.heading_deg -= 36.86989764584402;
    const Contrast a = only_contrast(compare_farm(season, {straight}));
    const Contrast b = only_contrast(compare_farm(season, {turned}));
    EXPECT_NEAR(*a.gain_t_ha, *b.gain_t_ha, 1e-12);
    EXPECT_EQ(a.unit_n, b.unit_n);
    EXPECT_NEAR(*a.also[0].se_t_ha, *b.also[0].se_t_ha, 1e-4);
}

} // namespace
} // namespace quartercut::testing
