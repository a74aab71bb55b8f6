// SPDX-License-Identifier: MIT
// The choice of fields and ways on a farm made by hand: limits kept, reasons given, impossible wishes refused.
#include "quartercut/plan_choose.hpp"

#include "plan/chances.hpp"
#include "quartercut/error.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace quartercut {
namespace {

using testing::AnyOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

double t_ha(double bu_ac) { return to_t_ha(bu_ac, YieldUnit::bu_ac, 50.0); }

Season season() {
    Season out;
    out.file = "season.toml";
    out.crop = "canola";
    out.bushel_lb = 50.0;
    out.baseline = "swathed";
    out.methods = {{"swathed", "Swathed", 10.668}, {"standing", "Standing", 12.192}};
    out.next_year.emplace();
    out.next_year->year = 2026;
    return out;
}

/// A field of about 40 ha around an invented place; the sizes differ a little.
RawArea field(const std::string& name, double east_deg, std::map<std::string, std::string> attributes = {}) {
    RawArea area;
    area.name = name;
    const double x = -106.0 + east_deg, y = 60.0, w = 0.0116, h = 0.0058;
    area.shape_deg = {{{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, {}}};
    area.attributes = std::move(attributes);
    return area;
}

Candidates four_fields() {
    return {{field("A", 0.0), field("B", 0.02), field("C", 0.04), field("D", 0.06)}, {}, false, {}};
}

/// Three fields pooled: standing yields 1 bu/ac more, a next field lies within 3 bu/ac of that.
Comparison comparison() {
    Comparison out;
    FarmContrast farm;
    farm.method = "standing";
    farm.baseline = "swathed";
    farm.evidence = "replicated-randomised";
    farm.gain_t_ha = t_ha(1.0);
    farm.se_t_ha = farm.u_total_t_ha = t_ha(0.5);
    farm.df = farm.df_total = 2.0;
    farm.tau_t_ha = t_ha(0.4);
    farm.u_shared_t_ha = t_ha(0.1);
    farm.prediction95_t_ha = Interval{t_ha(-2.0), t_ha(4.0)};
    farm.fields = 3;
    out.farm = {farm};
    return out;
}

/// Standing nets `net` dollars an acre at the farm's gain, at 12 dollars a bushel.
MoneyResult money(double net_dollars_ac) {
    MoneyResult out;
    out.currency = "CAD";
    NetDifference row;
    row.method = "standing";
    row.baseline = "swathed";
    row.evidence = "replicated-randomised";
    row.gain_t_ha = t_ha(1.0);
    const double ha_per_acre = m2_per_acre / m2_per_hectare;
    row.worth_cents_t = 1200.0 / ha_per_acre / t_ha(1.0);
    row.net_cents_ha = net_dollars_ac * 100.0 / ha_per_acre;
    row.u_cents_ha = *row.worth_cents_t * t_ha(0.5);
    row.break_even_t_ha = t_ha(1.0 - net_dollars_ac / 12.0);
    out.farm = {row};
    return out;
}

Choice choose(const Season& s, const Candidates& candidates, const std::optional<MoneyResult>& m) {
    return choose_fields(s, {}, {}, {}, comparison(), m, candidates);
}

TEST(Choose, ForetellsFromThePredictionInterval) {
    const Choice out = choose(season(), four_fields(), money(5.0));
    ASSERT_EQ(out.fields.size(), 4U);
    const Outlook& outlook = out.fields[0].outlooks.at(0);
    EXPECT_NEAR((*outlook.prediction95_t_ha)[0], t_ha(-2.0), 1e-9);
    EXPECT_NEAR((*outlook.prediction95_t_ha)[1], t_ha(4.0), 1e-9);
    // $5 expected; 12 dollars times 3 bushels / 4.3027 of spread, 2 degrees of freedom.
    EXPECT_NEAR(*outlook.p_pays, planning::chance_above_zero(5.0, 12.0 * 3.0 / 4.302653, 2.0), 1e-5);
    EXPECT_NEAR(out.fields[0].area_ha, 41.8, 0.8); // 0.0116 x 0.0058 degrees at 60 north
}

TEST(Choose, KeepsTheShares) {
    Season s = season();
    s.next_year->methods = {{"standing", 0.33, 0.50, {}, {}, "", 0}};
    for (const double net : {30.0, -30.0}) {
        const Choice out = choose(s, four_fields(), money(net));
        EXPECT_NEAR(out.shares[1].share, 0.5, 0.01); // two of four, whichever way the money points
        EXPECT_NEAR(out.shares[0].share + out.shares[1].share, 1.0, 1e-12);
    }
}

// Land of 3, 2 and 2 parts with half of it at most: 3 is cut standing; turning a 2 turns the 3 as well.
TEST(Choose, SaysWhenTheLimitOnSharesMakesAFieldDear) {
    Season s = season();
    Candidates candidates{{field("A", 0.0), field("B", 0.04), field("C", 0.06)}, {}, false, {}};
    candidates.areas[0].shape_deg[0].shell[1].x += 0.0058;
    candidates.areas[0].shape_deg[0].shell[2].x += 0.0058;
    EXPECT_THAT(choose(s, candidates, money(30.0)).fields[1].would_change,
                Not(Contains(HasSubstr("limits on shares"))));
    s.next_year->methods = {{"standing", 0.0, 0.50, {}, {}, "", 0}};
    const Choice out = choose(s, candidates, money(30.0));
    ASSERT_EQ(out.fields[1].method, "swathed");
    EXPECT_THAT(out.fields[1].would_change, Contains(HasSubstr("it is the limits on shares of land that make it so")));
    EXPECT_THAT(out.fields[0].would_change, Not(Contains(HasSubstr("limits on shares"))));
}

// Four alike fields: two of them may not be cut standing, at 30 dollars an acre each.
TEST(Choose, SaysWhatEachLimitCosts) {
    Season s = season();
    s.next_year->methods = {{"standing", 0.0, 0.50, {}, {}, "", 0}};
    const Choice out = choose(s, four_fields(), money(30.0));
    const double field_cents = 30.0 * 100.0 / (m2_per_acre / m2_per_hectare) * out.fields[0].area_ha;
    ASSERT_EQ(out.limits.size(), 1U);
    EXPECT_EQ(out.limits[0].limit, "at most 50 % standing");
    EXPECT_NEAR(out.limits[0].cost_cents, 2.0 * field_cents, 1.0);
    EXPECT_FALSE(out.all_limits_cents);
    // The same limit said of both ways: each alone is idle as long as the other stands.
    s.next_year->methods.push_back({"swathed", 0.50, 1.0, {}, {}, "", 0});
    const Choice twice = choose(s, four_fields(), money(30.0));
    ASSERT_EQ(twice.limits.size(), 2U);
    EXPECT_NEAR(twice.limits[1].cost_cents, 0.0, 1.0);
    EXPECT_NEAR(twice.all_limits_cents.value_or(0.0), 2.0 * field_cents, 1.0);
}

TEST(Choose, SaysWhatDaysAndFixedFieldsCost) {
    Season s = season();
    // 41.8 ha a field, 20 ha of standing a day: 5 days hold two fields of four (and 0.4 of a third).
    s.next_year->harvest_days = 5;
    s.next_year->methods = {{"standing", 0.0, 1.0, {}, 200000.0, "", 0}};
    s.next_year->fixed_column = "must";
    Candidates candidates = four_fields();
    candidates.areas[0].attributes["must"] = "swathed";
    const Choice out = choose(s, candidates, money(30.0));
    const double field_cents = 30.0 * 100.0 / (m2_per_acre / m2_per_hectare) * out.fields[0].area_ha;
    ASSERT_EQ(out.limits.size(), 2U);
    EXPECT_EQ(out.limits[0].limit, "5 days for combining");
    EXPECT_NEAR(out.limits[0].cost_cents, field_cents, 1.0);
    EXPECT_EQ(out.limits[1].limit, "fixed fields (column 'must')");
    EXPECT_NEAR(out.limits[1].cost_cents, 0.0, 1.0);
    EXPECT_NEAR(out.all_limits_cents.value_or(0.0), 2.0 * field_cents, 1.0);
}

// Fields that differ make up for each other: of four alike ones a quarter of their variance is left (mean of four).
TEST(Choose, SaysWhatAllOfOneWayWouldBring) {
    Season s = season();
    s.next_year->methods = {{"standing", 0.0, 0.50, {}, {}, "", 0}};
    const Choice out = choose(s, four_fields(), money(5.0));
    ASSERT_EQ(out.one_way.size(), 2U);
    EXPECT_EQ(out.one_way[0].method, "swathed");
    EXPECT_NEAR(*out.one_way[0].expected_cents, 0.0, 1e-9);
    EXPECT_FALSE(out.one_way[0].p_ahead);
    EXPECT_TRUE(out.one_way[0].within_limits);
    EXPECT_FALSE(out.one_way[1].within_limits);
    const double all_ha = out.shares[0].area_ha + out.shares[1].area_ha;
    EXPECT_NEAR(*out.one_way[1].expected_cents, 500.0 / (m2_per_acre / m2_per_hectare) * all_ha, 1.0);
    EXPECT_NEAR(*out.plan_money_cents, 0.5 * *out.one_way[1].expected_cents, 1.0);
    const double next = 3.0 / 4.302653, sd = std::sqrt(next * next - 0.4 * 0.4 * 3.0 / 4.0);
    EXPECT_NEAR(*out.one_way[1].p_ahead, planning::chance_above_zero(5.0, 12.0 * sd, 2.0), 1e-5);
    EXPECT_GT(*out.one_way[1].p_ahead, *out.fields[0].outlooks[0].p_pays);
    EXPECT_TRUE(choose(s, four_fields(), std::nullopt).one_way.empty());
}

TEST(Choose, CapsTheWordsForAChance) {
    const Choice out = choose(season(), four_fields(), money(300.0));
    ASSERT_GT(*out.fields[0].outlooks[0].p_pays, 0.95);
    EXPECT_THAT(out.fields[0].reasons, Contains(HasSubstr("it pays in more than 95 of 100")));
}

TEST(Choose, ShowsTheVarietyOfTheBoundaries) {
    Candidates candidates{{field("A", 0.0, {{"Variety", "early"}})}, {}, false, {}};
    EXPECT_EQ(choose(season(), candidates, money(5.0)).fields[0].variety, "early");
    Season s = season();
    s.fields.columns["variety"] = "seed";
    candidates.areas[0].attributes = {{"seed", "late"}};
    EXPECT_EQ(choose(s, candidates, money(5.0)).fields[0].variety, "late");
}

// 1.0 bu/ac is expected and -0.9 breaks even: 1.9 lie between what must be told apart (Grundy, Healy & Rees 1956).
TEST(Choose, ATrialIsToTellWhatIsExpectedFromTheBreakEven) {
    Season s = season();
    for (Method& method : s.methods)
        method.cut_width_m = 10.0;
    const TrialWish wish = trial_wish(s, comparison(), money(1.9 * 12.0));
    EXPECT_NEAR(wish.difference_t_ha, t_ha(1.9), 1e-9);
    EXPECT_THAT(wish.why_difference, testing::AllOf(HasSubstr("at -0.9 bu/ac"), HasSubstr("is +1.0 bu/ac")));
    MoneyResult unsure = money(1.9 * 12.0);
    unsure.farm[0].evidence = "observational"; // no guide to what is true: 0 against the break-even
    EXPECT_NEAR(trial_wish(s, comparison(), unsure).difference_t_ha, t_ha(0.9), 1e-9);
    s.next_year->layout.difference_t_ha = t_ha(1.5);
    EXPECT_NEAR(trial_wish(s, comparison(), unsure).difference_t_ha, t_ha(1.5), 1e-12);
}

TEST(Choose, GoesWhereTheMoneyIsWithoutLimits) {
    EXPECT_NEAR(choose(season(), four_fields(), money(8.0)).shares[1].share, 1.0, 1e-12);
    EXPECT_NEAR(choose(season(), four_fields(), money(-8.0)).shares[1].share, 0.0, 1e-12);
}

TEST(Choose, DislikeOfLossCanTurnIt) {
    Season s = season();
    s.next_year->risk = 5.0;
    EXPECT_NEAR(choose(s, four_fields(), money(1.0)).shares[1].share, 0.0, 1e-12);
    s.next_year->risk = 0.0;
    EXPECT_NEAR(choose(s, four_fields(), money(1.0)).shares[1].share, 1.0, 1e-12);
}

TEST(Choose, PutsNotedFieldsWhereTheNotesPoint) {
    Season s = season();
    s.next_year->methods = {{"standing", 0.0, 0.75, {}, {}, "", 0}};
    s.next_year->notes = {{"uneven", "swathed", "uneven ripening", {}}};
    s.next_year->note_cents_m2 = 200.0 / m2_per_acre;
    Candidates candidates = four_fields();
    candidates.areas[2].attributes["uneven"] = "yes";
    const Choice out = choose(s, candidates, money(10.0));
    EXPECT_EQ(out.fields[2].method, "swathed");
    EXPECT_THAT(out.fields[2].notes, Contains(HasSubstr("uneven ripening speaks for swathed")));
    EXPECT_EQ(out.fields[0].method, "standing");
}

TEST(Choose, FixedFieldsStayAndOtherCropsAreLeftOut) {
    Season s = season();
    s.next_year->fixed_column = "must";
    s.next_year->crop_column = "crop";
    Candidates candidates = four_fields();
    for (RawArea& area : candidates.areas)
        area.attributes["crop"] = "Canola";
    candidates.areas[0].attributes["must"] = "swathed";
    candidates.areas[3].attributes["crop"] = "wheat";
    const Choice out = choose(s, candidates, money(10.0));
    ASSERT_EQ(out.fields.size(), 3U);
    EXPECT_EQ(out.fields[0].method, "swathed");
    EXPECT_EQ(out.fields[1].method, "standing");
    EXPECT_THAT(out.skipped, Contains("D: wheat"));
}

TEST(Choose, KeepsTheDaysOfTheMachines) {
    Season s = season();
    // 41.8 ha each; the combine does 20 ha of standing a day and 60 ha of swaths: four fields standing take 8.4 days.
    s.next_year->harvest_days = 6;
    s.next_year->methods = {{"standing", 0.0, 1.0, {}, 200000.0, "", 0}, {"swathed", 0.0, 1.0, {}, 600000.0, "", 0}};
    const Choice out = choose(s, four_fields(), money(20.0));
    const double days = out.shares[1].area_ha / 20.0 + out.shares[0].area_ha / 60.0;
    EXPECT_LE(days, 6.0 + 1e-6);
    EXPECT_GT(out.shares[1].share, 0.2);
    s.next_year->harvest_days = 1;
    EXPECT_THROW(static_cast<void>(choose(s, four_fields(), money(20.0))), InputError);
}

TEST(Choose, SaysDaysInTheOrderFieldsRipen) {
    Season s = season();
    s.next_year->harvest_days = 30;
    s.next_year->methods = {{"standing", 0.0, 1.0, {}, 200000.0, "ripe", 0}};
    Candidates candidates = four_fields();
    const char* days[] = {"2026-09-10", "2026-09-01", "2026-09-05", "2026-09-02"};
    for (std::size_t i = 0; i < 4; ++i)
        candidates.areas[i].attributes["ripe"] = days[i];
    const Choice out = choose(s, candidates, money(20.0));
    EXPECT_EQ(out.fields[1].combine_from, "2026-09-01");
    EXPECT_EQ(out.fields[3].combine_from, "2026-09-03"); // B takes 2.1 days
    EXPECT_EQ(out.fields[0].combine_from, "2026-09-10");
}

TEST(Choose, RefusesWhatCannotBe) {
    Season s = season();
    Candidates none = four_fields();
    s.next_year->crop_column = "crop";
    for (RawArea& area : none.areas)
        area.attributes["crop"] = "wheat";
    EXPECT_THROW(static_cast<void>(choose(s, none, money(5.0))), InputError);
    Season narrow = season();
    narrow.next_year->methods = {{"standing", 0.30, 0.45, {}, {}, "", 0}}; // four alike fields: 25 or 50 %
    EXPECT_THROW(static_cast<void>(choose(narrow, four_fields(), money(5.0))), InputError);
    Season fixed = season();
    fixed.next_year->fixed_column = "must";
    Candidates wrong = four_fields();
    wrong.areas[0].attributes["must"] = "windrowed";
    EXPECT_THROW(static_cast<void>(choose(fixed, wrong, money(5.0))), InputError);
}

// Two trial fields give a mean and no range for a next field: $5 more is then no promise, and no limit "costs nothing".
TEST(Choose, PromisesNoMoneyWhereTheNextFieldIsNotForetold) {
    Comparison two = comparison();
    two.farm[0].prediction95_t_ha.reset();
    two.farm[0].tau_t_ha = 0.0;
    two.farm[0].fields = 2;
    Season limited = season();
    limited.next_year->trial_cost_cents = 25000.0;
    limited.next_year->methods = {{"standing", 0.25, 0.5, {}, {}, "", 0}};
    const Choice out = choose_fields(limited, {}, {}, {}, two, money(5.0), four_fields());
    EXPECT_FALSE(out.plan_value_cents);
    EXPECT_FALSE(out.plan_money_cents);
    EXPECT_FALSE(out.trials_value_cents);
    EXPECT_TRUE(out.one_way.empty());
    EXPECT_TRUE(out.limits.empty());
    EXPECT_THAT(out.gaps, Contains(HasSubstr("would bring in money is not known")));
    limited.next_year->spread_t_ha = t_ha(1.0);
    EXPECT_TRUE(choose_fields(limited, {}, {}, {}, two, money(5.0), four_fields()).plan_money_cents);
}

TEST(Choose, WithoutPricesOrTrialsSaysSoAndForetellsNothing) {
    const Choice out = choose(season(), four_fields(), std::nullopt);
    EXPECT_THAT(out.gaps, Contains(HasSubstr("[money] is missing")));
    EXPECT_FALSE(out.fields[0].outlooks[0].p_pays);
    EXPECT_THAT(out.fields[0].would_change, Contains(HasSubstr("neither way's money can be foretold")));
    EXPECT_THAT(out.fields[0].would_change, Not(Contains(HasSubstr("next to nothing"))));
    const Choice blind = choose_fields(season(), {}, {}, {}, Comparison{}, money(5.0), four_fields());
    EXPECT_FALSE(blind.fields[0].outlooks[0].prediction95_t_ha);
    EXPECT_THAT(blind.fields[0].reasons, Contains(HasSubstr("no replicated trial")));
    EXPECT_FALSE(blind.plan_value_cents);
}

/// Nine fields in four years beside this season's three: 0.4 bu/ac, years differ by 0.6, a field in a new year within
/// 2.4 bu/ac of it (3 degrees of freedom).
Comparison comparison_of_years() {
    Comparison out = comparison();
    FarmContrast years = out.farm[0];
    years.gain_t_ha = t_ha(0.4);
    years.se_t_ha = t_ha(0.35);
    years.u_total_t_ha.reset(); // as `compare` leaves it
    years.df = 3.0;
    years.fields = 9;
    years.years = 4;
    years.between_years_t_ha = t_ha(0.6);
    years.prediction95_t_ha = Interval{t_ha(-2.0), t_ha(2.8)};
    out.seasons = {years};
    out.earlier.resize(3);
    return out;
}

TEST(Choose, ForetellsFromAllYearsWhereTheyAreGiven) {
    const Choice out = choose_fields(season(), {}, {}, {}, comparison_of_years(), money(5.0), four_fields());
    const Outlook& outlook = out.fields[0].outlooks.at(0);
    EXPECT_EQ(outlook.years, 4);
    EXPECT_NEAR(*outlook.gain_t_ha, t_ha(0.4), 1e-12);
    EXPECT_NEAR((*outlook.prediction95_t_ha)[0], t_ha(-2.0), 1e-9);
    EXPECT_NEAR((*outlook.prediction95_t_ha)[1], t_ha(2.8), 1e-9);
    // $5 an acre at 1 bu/ac; 0.6 bu/ac less at 12 dollars is $7.20 less. Student, 3 degrees of freedom.
    EXPECT_NEAR(*outlook.net_cents_ha, -220.0 / (m2_per_acre / m2_per_hectare), 1e-6);
    EXPECT_NEAR(*outlook.p_pays, planning::chance_above_zero(-2.2, 12.0 * 2.4 / 3.182446, 3.0), 1e-4);
    EXPECT_EQ(out.fields[0].method, "swathed"); // this season alone would have said standing
    EXPECT_THAT(out.notes, Contains(HasSubstr("9 fields in 4 years")));
    EXPECT_THAT(out.notes, Not(Contains(HasSubstr("One year on one farm"))));
}

TEST(Choose, SaysOneYearOnlyWithoutEarlierResults) {
    const Choice out = choose(season(), four_fields(), money(5.0));
    EXPECT_EQ(out.fields[0].outlooks[0].years, 1);
    EXPECT_THAT(out.notes, Contains(HasSubstr("3 fields of one year only")));
    EXPECT_THAT(out.fields[0].reasons, Not(Contains(HasSubstr(".."))));
    EXPECT_THAT(out.notes, Contains(HasSubstr("One year on one farm")));
}

// Two years have no prediction interval; a spread from the grower gives a wide one, with the years' own spread and one
// degree of freedom in it.
TEST(Choose, TwoYearsForetellNothingUnlessASpreadIsGiven) {
    Comparison two = comparison_of_years();
    two.seasons[0].years = 2;
    two.seasons[0].df = 1.0;
    two.seasons[0].prediction95_t_ha.reset();
    Season s = season();
    const Choice none = choose_fields(s, {}, {}, {}, two, money(5.0), four_fields());
    EXPECT_FALSE(none.fields[0].outlooks[0].prediction95_t_ha);
    EXPECT_THAT(none.fields[0].reasons, Contains(HasSubstr("two years are too few")));
    s.next_year->spread_t_ha = t_ha(0.5);
    const Choice wide = choose_fields(s, {}, {}, {}, two, money(5.0), four_fields());
    const double sd = std::sqrt(0.35 * 0.35 + 0.1 * 0.1 + 0.5 * 0.5 + 0.6 * 0.6);
    EXPECT_NEAR((*wide.fields[0].outlooks[0].prediction95_t_ha)[1], t_ha(0.4 + 12.7062 * sd), 1e-3);
}

} // namespace
} // namespace quartercut
