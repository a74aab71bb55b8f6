// SPDX-License-Identifier: MIT
// Layouts and data nothing can be learnt from: a clear remark, no overstated finding, no number that is not one.
#include "field_builder.hpp"
#include "result_checks.hpp"

#include <gtest/gtest.h>

namespace quartercut::testing {
namespace {

Comparison compare_one(const Season& season, const Built& field) {
    Comparison comparison = compare_farm(season, {field});
    expect_no_nan(comparison);
    return comparison;
}

FieldPlan six_strips(double gain = 0.3) {
    FieldPlan plan;
    plan.strips = {0, 1, 1, 0, 0, 1};
    plan.yield_t_ha = plain_yield(gain);
    return plan;
}

void remove_strip(Built& field, int zone) {
    std::erase_if(field.zoned.segments, [&](const Segment& s) { return s.zone == zone; });
}

TEST(BadCase, OnePassPerMethod) {
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0, 1};
    plan.passes_per_strip = 1;
    plan.yield_t_ha = plain_yield(1.0);
    const Comparison result = compare_one(season, build(plan, season));
    const Contrast& c = result.fields[0].contrasts.at(0);
    EXPECT_TRUE(c.gain_t_ha.has_value());
    EXPECT_FALSE(c.ci95_t_ha.has_value());
    EXPECT_EQ(c.finding, Finding::not_shown);
    EXPECT_TRUE(has_issue(result.fields[0].issues, "no-spatial-model"));
    EXPECT_TRUE(result.farm.empty());
}

TEST(BadCase, AMethodWithoutAnyYield) {
    const Season season = two_method_season();
    Built field = build(six_strips(), season);
    for (const int zone : {1, 2, 5})
        remove_strip(field, zone);
    const Comparison result = compare_one(season, field);
    ASSERT_EQ(result.fields[0].contrasts.size(), 1U);
    EXPECT_EQ(result.fields[0].contrasts[0].finding, Finding::not_comparable);
    EXPECT_FALSE(result.fields[0].contrasts[0].gain_t_ha.has_value());
    EXPECT_TRUE(has_issue(result.fields[0].issues, "method-without-yield"));
    ASSERT_EQ(result.fields[0].contrasts[0].leaves_out.size(), 1U) << "the reason and nothing of a layout";
    EXPECT_NE(result.fields[0].contrasts[0].leaves_out[0].find("no usable yield record"), std::string::npos);
    EXPECT_TRUE(result.farm.empty());
}

TEST(BadCase, EveryStripTheSame) {
    const Season season = two_method_season();
    FieldPlan plan = six_strips();
    plan.yield_t_ha = [](int, int, int method) { return method == 1 ? 2.5 : 2.0; };
    const Comparison result = compare_one(season, build(plan, season));
    const Contrast& c = result.fields[0].contrasts.at(0);
    EXPECT_NEAR(*c.gain_t_ha, 0.5, 1e-12);
    EXPECT_FALSE(c.ci95_t_ha.has_value());
    EXPECT_EQ(c.finding, Finding::not_shown);
    EXPECT_TRUE(has_issue(result.fields[0].issues, "no-variation"));
}

TEST(BadCase, ASplitFieldThatDoesNotVary) {
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0, 1};
    plan.passes_per_strip = 8;
    plan.yield_t_ha = [](int, int, int method) { return method == 1 ? 2.5 : 2.0; };
    const FieldComparison result = compare_one(season, build(plan, season)).fields[0];
    EXPECT_EQ(result.contrasts.at(0).finding, Finding::not_shown);
    EXPECT_TRUE(has_issue(result.issues, "no-spatial-model"));
}

TEST(BadCase, NoRecordLeft) {
    const Season season = two_method_season();
    Built field = build(six_strips(), season);
    field.zoned.segments.clear();
    const Comparison result = compare_one(season, field);
    EXPECT_TRUE(has_issue(result.fields[0].issues, "no-usable-records"));
    EXPECT_TRUE(result.farm.empty());
    for (const Contrast& c : result.fields[0].contrasts)
        EXPECT_EQ(c.finding, Finding::not_comparable);
}

TEST(BadCase, ThreePairsOneOfThemIncomplete) {
    const Season season = two_method_season();
    Built field = build(six_strips(2.0), season);
    remove_strip(field, 3);
    const Comparison result = compare_one(season, field);
    const Contrast& c = result.fields[0].contrasts.at(0);
    EXPECT_EQ(c.unit_n, 2);
    EXPECT_EQ(c.finding, Finding::not_shown);
    EXPECT_TRUE(has_issue(result.fields[0].issues, "pair-incomplete"));
}

TEST(BadCase, MethodsNeverSideBySide) {
    // Swathed in the west, standing in the east, 400 m of land of no method between them.
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0, 0, 0, 1, 1, 1};
    plan.yield_t_ha = plain_yield(0.8);
    Built field = build(plan, season);
    for (std::size_t z = 3; z < 6; ++z)
        for (Point& p : field.zoned.zones[z].shape_m[0].shell)
            p.x += 400.0;
    for (Segment& s : field.zoned.segments)
        if (s.zone >= 3) s.x_m += 400.0;
    const Comparison result = compare_one(season, field);
    EXPECT_EQ(result.fields[0].evidence, Evidence::split);
    const Contrast& c = result.fields[0].contrasts.at(0);
    EXPECT_TRUE(c.finding == Finding::not_shown || c.finding == Finding::leans_gain);
    EXPECT_TRUE(has_issue(result.fields[0].issues, "methods-apart"));
}

TEST(BadCase, MethodsSideBySideAreNotSaidToLieApart) {
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0, 1};
    plan.passes_per_strip = 4;
    plan.yield_t_ha = plain_yield(0.2);
    EXPECT_FALSE(has_issue(compare_one(season, build(plan, season)).fields[0].issues, "methods-apart"));
}

TEST(BadCase, ADesignThatCannotBeSolved) {
    // Every pass of a method lies on one line: the trend across is the method to the last digit.
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0, 1};
    plan.passes_per_strip = 4;
    plan.yield_t_ha = plain_yield(0.2);
    Built field = build(plan, season);
    for (Segment& s : field.zoned.segments)
        s.x_m = s.zone == 0 ? 24.0 : 72.0;
    const FieldComparison result = compare_one(season, field).fields[0];
    EXPECT_TRUE(has_issue(result.issues, "trend-not-separable"));
    const Finding finding = result.contrasts.at(0).finding;
    EXPECT_TRUE(finding == Finding::not_shown || finding == Finding::leans_gain);
}

TEST(BadCase, ARangeThatCannotBeFound) {
    // Yields walk at random along the passes and across them: they part ever farther, at no distance do they level off.
    const Season season = two_method_season();
    std::vector<double> along(200, 0.0);
    std::vector<double> across(200, 0.0);
    for (int i = 1; i < 200; ++i) {
        const auto at = static_cast<std::size_t>(i);
        along[at] = along[at - 1] + 0.05 * rough(i, 2, 3);
        across[at] = across[at - 1] + 0.02 * rough(i, 2, 9);
    }
    FieldPlan plan;
    plan.strips = {0, 1};
    plan.passes_per_strip = 6;
    plan.segments = 10;
    plan.yield_t_ha = [&](int pass, int segment, int) {
        return 2.4 + along[static_cast<std::size_t>(4 * segment + 40)] + across[static_cast<std::size_t>(pass)] +
               0.002 * rough(pass, segment);
    };
    const FieldComparison result = compare_one(season, build(plan, season)).fields[0];
    EXPECT_TRUE(has_issue(result.issues, "range-not-found"));
    const Finding finding = result.contrasts.at(0).finding;
    EXPECT_TRUE(finding != Finding::gain && finding != Finding::loss);
}

TEST(BadCase, ATrendNobodyCanTellFromTheMethod) {
    // Two passes a method: the trend across is as good as the method.
    const Season season = two_method_season();
    FieldPlan plan;
    plan.strips = {0, 1};
    plan.passes_per_strip = 2;
    plan.yield_t_ha = [](int pass, int segment, int) { return 2.0 + 0.2 * pass + 0.05 * rough(pass, segment); };
    const Contrast c = compare_one(season, build(plan, season)).fields[0].contrasts.at(0);
    EXPECT_TRUE(c.finding == Finding::not_shown || c.finding == Finding::leans_gain);
}

TEST(BadCase, TheBaselineIsMissingFromTheField) {
    Season season = two_method_season();
    season.methods.push_back({"desiccated", "Desiccated", {}});
    FieldPlan plan;
    plan.strips = {1, 2, 2, 1, 1, 2};
    plan.yield_t_ha = plain_yield(0.2);
    const Built field = build(plan, season);
    const Comparison result = compare_one(season, field);
    EXPECT_TRUE(result.fields[0].contrasts.empty());
    EXPECT_TRUE(has_issue(result.fields[0].issues, "baseline-missing"));
    season.comparison.all_pairs = true;
    EXPECT_EQ(compare_one(season, field).fields[0].contrasts.size(), 1U);
}

TEST(BadCase, OnlyOneMethodInTheSeason) {
    Season season = two_method_season();
    season.methods.pop_back();
    FieldPlan plan;
    plan.strips = {0};
    plan.passes_per_strip = 6;
    plan.yield_t_ha = plain_yield(0.0);
    const Comparison result = compare_one(season, build(plan, season));
    EXPECT_TRUE(result.fields[0].contrasts.empty());
    EXPECT_TRUE(result.farm.empty());
}

TEST(ThreeMethods, AreHeldToHolmsCorrection) {
    Season season = two_method_season();
    season.methods.push_back({"desiccated", "Desiccated", {}});
    FieldPlan plan;
    plan.strips = {0, 1, 2, 2, 0, 1, 1, 2, 0, 0, 2, 1};
    plan.yield_t_ha = plain_yield(0.5);
    const Comparison result = compare_one(season, build(plan, season));
    ASSERT_EQ(result.fields[0].contrasts.size(), 2U);
    for (const Contrast& c : result.fields[0].contrasts) {
        EXPECT_EQ(c.evidence, Evidence::replicated_randomised);
        ASSERT_TRUE(c.p_adjusted.has_value());
        EXPECT_GE(*c.p_adjusted, *c.p);
    }
    EXPECT_GE(result.fields[0].contrasts[0].unit_n, 3);
}

TEST(Strata, GetTheirOwnContrastsFromPartsOfThePairs) {
    const Season season = two_method_season();
    FieldPlan plan = six_strips();
    plan.strips = {0, 1, 1, 0, 0, 1, 1, 0};
    plan.strata = {"low", "high"};
    plan.yield_t_ha = [](int pass, int segment, int method) {
        const double gain = segment < 8 ? 0.0 : 0.6;
        return 2.4 + 0.04 * rough(pass, 3) + 0.1 * rough(pass, segment) + (method == 1 ? gain : 0.0);
    };
    const Comparison result = compare_one(season, build(plan, season));
    const auto& contrasts = result.fields[0].contrasts;
    ASSERT_EQ(contrasts.size(), 3U);
    EXPECT_EQ(contrasts[0].unit_n, 4) << "strata cut strips up but leave their pairs whole";
    EXPECT_EQ(contrasts[1].stratum, "high");
    EXPECT_NEAR(*contrasts[1].gain_t_ha, 0.6, 0.1);
    EXPECT_EQ(contrasts[2].stratum, "low");
    EXPECT_NEAR(*contrasts[2].gain_t_ha, 0.0, 0.1);
    EXPECT_TRUE(contrasts[2].p_adjusted.has_value());
    EXPECT_TRUE(has_issue(result.fields[0].issues, "strata-differ"));
}

TEST(Strata, MadeFromThisYearsYieldAreRefused) {
    Season season = two_method_season();
    season.year = 2025;
    FieldPlan plan = six_strips();
    plan.strips = {0, 1, 1, 0, 0, 1, 1, 0};
    plan.strata = {"low", "high"};
    const Built field = build(plan, season);
    struct Case {
        const char* file;
        const char* column;
        bool refused;
    };
    for (const Case& each : {Case{"yield_2025.gpkg", "class", true}, Case{"zones.gpkg", "Yield_Class", true},
                             Case{"yield_2021.gpkg", "class", false}, Case{"soil.gpkg", "unit", false}}) {
        season.strata = StrataInput{};
        season.strata->file = each.file;
        season.strata->column = each.column;
        const FieldComparison result = compare_one(season, field).fields[0];
        EXPECT_EQ(has_issue(result.issues, "strata-of-this-yield"), each.refused) << each.file;
        EXPECT_EQ(result.contrasts.size(), each.refused ? 1U : 3U) << each.file;
    }
}

TEST(Confounding, IsSaidInWords) {
    const Season season = two_method_season();
    Built field = build(six_strips(), season);
    for (Segment& s : field.zoned.segments)
        s.machine = field.zoned.zones[static_cast<std::size_t>(s.zone)].method;
    const Comparison result = compare_one(season, field);
    EXPECT_TRUE(has_issue(result.fields[0].issues, "confounded"));
    const auto& words = result.fields[0].contrasts.at(0).leaves_out;
    EXPECT_TRUE(std::any_of(words.begin(), words.end(),
                            [](const std::string& w) { return w.find("No machine cut both") != std::string::npos; }));
    ASSERT_FALSE(result.fields[0].crossings.empty());
    EXPECT_EQ(result.fields[0].crossings[0].what, "machine");
    EXPECT_NEAR(result.fields[0].crossings[0].area_ha[0][0], 3 * 24.0 * 800.0 / 10000.0, 1e-9);
}

TEST(Confounding, KnowsDatesAndVarieties) {
    const Season season = two_method_season();
    std::vector<Built> farm;
    for (int method = 0; method < 2; ++method) {
        FieldPlan plan;
        plan.name = method == 0 ? "west" : "east";
        plan.strips = {method};
        plan.passes_per_strip = 8;
        plan.yield_t_ha = plain_yield(0.2);
        farm.push_back(build(plan, season));
        farm.back().standard.attributes["variety"] = method == 0 ? "early" : "late";
    }
    const Comparison varieties = compare_farm(season, farm);
    ASSERT_EQ(varieties.crossings.size(), 1U);
    EXPECT_EQ(varieties.crossings[0].what, "variety");
    EXPECT_TRUE(has_issue(varieties.issues, "confounded"));
    Built strips = build(six_strips(), season);
    for (Segment& s : strips.zoned.segments)
        s.time_s += strips.zoned.zones[static_cast<std::size_t>(s.zone)].method == 1 ? 14 * 86400.0 : 0.0;
    const FieldComparison dates = compare_one(season, strips).fields[0];
    EXPECT_TRUE(has_issue(dates.issues, "confounded"));
    const auto& words = dates.contrasts.at(0).leaves_out;
    EXPECT_TRUE(std::any_of(words.begin(), words.end(), [](const std::string& w) {
        return w.find("never cut on the same day") != std::string::npos;
    }));
}

TEST(Mixtures, GiveEachContrastItsOwnEvidence) {
    // Two methods in pairs of strips, the third in one block at the side.
    Season season = two_method_season();
    season.methods.push_back({"desiccated", "Desiccated", {}});
    FieldPlan plan = six_strips();
    plan.strips = {0, 1, 1, 0, 0, 1, 2, 2, 2};
    const FieldComparison field = compare_one(season, build(plan, season)).fields[0];
    ASSERT_EQ(field.contrasts.size(), 2U);
    EXPECT_EQ(field.evidence, Evidence::replicated_randomised);
    EXPECT_EQ(field.contrasts[0].method, "standing");
    EXPECT_EQ(field.contrasts[0].evidence, Evidence::replicated_randomised);
    EXPECT_EQ(field.contrasts[1].method, "desiccated");
    EXPECT_EQ(field.contrasts[1].evidence, Evidence::split);
    EXPECT_NE(field.contrasts[1].finding, Finding::gain);
}

TEST(Edges, SegmentsAcrossTwoMethodsAreLeftOut) {
    const Season season = two_method_season();
    Built field = build(six_strips(), season);
    Built spoilt = field;
    for (Segment& s : spoilt.zoned.segments)
        if (s.pass % 2 == 1) {
            s.edge = true;
            s.mass_basis_kg *= 10.0;
        }
    Built without = field;
    std::erase_if(without.zoned.segments, [](const Segment& s) { return s.pass % 2 == 1; });
    EXPECT_EQ(compare_one(season, spoilt).fields[0].contrasts[0].gain_t_ha,
              compare_one(season, without).fields[0].contrasts[0].gain_t_ha);
}

} // namespace
} // namespace quartercut::testing
