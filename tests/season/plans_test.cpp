// SPDX-License-Identifier: MIT
// [money], [loss_counts], [weather] and [next_year]: what is read, and what impossible requests are told.
#include "season_text.hpp"

#include <gmock/gmock.h>

namespace quartercut {
namespace {

using namespace season_test;
using testing::HasSubstr;

const std::string head = "[money]\nas_of = \"2025-11-01\"\nsource = \"elevator bid\"\n";

Season money(const std::string& lines) { return parse_season(with_more(head + lines), "season.toml"); }
std::string money_refusal(const std::string& lines) { return refusal(with_more(head + lines)); }

TEST(Money, IsCentsOfOneCurrencyPerUnitOfTheProgram) {
    const Season season = money("price = \"14.20 $/bu\"\nprice_uncertainty = \"80 cents/bu\"\n"
                                "[[money.cost]]\nkind = \"swathing\"\nmethod = \"swathed\"\namount = \"13.00 $/ac\"\n"
                                "[[money.cost]]\nkind = \"combining\"\namount = \"400 $/h\"\nrate = \"20 ac/h\"\n"
                                "[[money.cost]]\nkind = \"ownership\"\nmethod = \"standing\"\ncapital = \"60000 $\"\n"
                                "interest = \"8 %\"\nover = \"2000 ac\"\n");
    const MoneyInput& m = *season.money;
    const double bushel_kg = 50.0 * kg_per_pound;
    EXPECT_NEAR(*m.price_cents_kg, 1420.0 / bushel_kg, 1e-9);
    EXPECT_NEAR(m.price_u_cents_kg, 80.0 / bushel_kg, 1e-9);
    ASSERT_EQ(m.costs.size(), 3U);
    EXPECT_NEAR(m.costs[0].amount, 1300.0 / m2_per_acre, 1e-12);
    EXPECT_EQ(m.costs[0].as_of, "2025-11-01");
    EXPECT_NEAR(m.costs[1].amount / m.costs[1].work_m2_s, 2000.0 / m2_per_acre, 1e-12);
    EXPECT_NEAR(m.costs[2].amount, 480000.0, 1e-6);
    EXPECT_NEAR(m.costs[2].over_m2, 2000.0 * m2_per_acre, 1e-6);
}

TEST(Money, HasNothingBuiltIn) {
    const Season season = money("");
    EXPECT_FALSE(season.money->price_cents_kg);
    EXPECT_TRUE(season.money->costs.empty());
    EXPECT_FALSE(parse_season(right, "season.toml").money);
}

TEST(Money, RefusesWhatCannotBe) {
    EXPECT_THAT(money_refusal("price = \"-14 $/bu\"\n"), HasSubstr("a price is above 0"));
    EXPECT_THAT(money_refusal("price = \"14\"\n"), HasSubstr("write a number and its unit"));
    EXPECT_THAT(money_refusal("price = \"14 $/ac\"\n"), HasSubstr("is not by mass"));
    EXPECT_THAT(money_refusal("currency = \"CAD\"\nprice = \"14 USD/bu\"\n"), HasSubstr("currencies are not mixed"));
    EXPECT_THAT(money_refusal("price = \"14 EUR/t\"\n[[money.cost]]\nkind = \"swathing\"\namount = \"13 $/ac\"\n"),
                HasSubstr("currencies are not mixed"));
    EXPECT_THAT(money_refusal("[[money.cost]]\nkind = \"swathing\"\namount = \"-3 $/ac\"\n"), HasSubstr("is negative"));
    EXPECT_THAT(money_refusal("[[money.cost]]\nkind = \"swating\"\namount = \"3 $/ac\"\n"),
                HasSubstr("did you mean \"swathing\"?"));
    EXPECT_THAT(money_refusal("[[money.cost]]\nkind = \"combining\"\namount = \"300 $/h\"\n"),
                HasSubstr("land worked in an hour"));
    EXPECT_THAT(money_refusal("[[money.cost]]\nkind = \"swathing\"\nmethod = \"swath\"\namount = \"3 $/ac\"\n"),
                HasSubstr("did you mean \"swathed\"?"));
    for (const char* day : {"2025-13-41", "2025-02-29", "2025-00-10"}) // the Gregorian calendar, ISO 8601
        EXPECT_THAT(refusal(with_more(std::string("[money]\nas_of = \"") + day + "\"\nsource = \"x\"\n")),
                    HasSubstr("no day of the calendar"));
    EXPECT_THAT(refusal(with_more("[money]\nsource = \"x\"\nprice = \"14 $/bu\"\n")), HasSubstr("prices move"));
    EXPECT_THAT(refusal(with_more("[money]\nas_of = \"2025-11-01\"\n")), HasSubstr("where the prices come from"));
}

TEST(Money, AsksWhetherTramplingIsInTheYieldAlready) {
    const std::string tracks = "[[money.cost]]\nkind = \"trampling\"\nmethod = \"standing\"\ncrushed_width = \"2 ft\"\n"
                               "boom_width = \"130 ft\"\n";
    EXPECT_THAT(money_refusal(tracks), HasSubstr("in_yield"));
    EXPECT_NEAR(money(tracks + "in_yield = false\n").money->costs[0].crushed_share, 2.0 / 130.0, 1e-12);
}

TEST(NextYear, ReadsSharesAndRates) {
    const Season season = parse_season(
        with_more("[next_year]\nfile = \"next.gpkg\"\nname = \"name\"\ntrial_cost = \"300 $\"\n"
                  "[[next_year.method]]\nname = \"standing\"\nshare_low = \"33 %\"\nshare_high = \"50 %\"\n"
                  "combine_per_day = \"150 ac/d\"\nready = \"ripe\"\n"
                  "[next_year.layout]\ndifference = \"1.5 bu/ac\"\nextra_time_per_strip = \"10 min\"\nseed = 7\n"),
        "season.toml");
    const NextYearInput& next = *season.next_year;
    EXPECT_EQ(next.year, 2026);
    EXPECT_NEAR(next.methods[0].share_low, 0.33, 1e-12);
    EXPECT_NEAR(*next.methods[0].combine_m2_day, 150.0 * m2_per_acre, 1e-6);
    EXPECT_NEAR(*next.trial_cost_cents, 30000.0, 1e-9);
    EXPECT_NEAR(*next.layout.difference_t_ha, 1.5 * 0.05604256, 1e-7); // kg/ha per bu/ac of canola, W-6 Act
    EXPECT_NEAR(*next.layout.minutes_per_strip, 10.0, 1e-12);
    EXPECT_EQ(next.layout.seed, 7U);
}

TEST(NextYear, RefusesSharesThatCannotBe) {
    const auto shares = [](const std::string& first, const std::string& second) {
        return refusal(with_more("[next_year]\n[[next_year.method]]\nname = \"standing\"\n" + first +
                                 "\n[[next_year.method]]\nname = \"swathed\"\n" + second + "\n"));
    };
    EXPECT_THAT(shares("share_low = \"60 %\"", "share_low = \"50 %\""), HasSubstr("there are only 100 %"));
    EXPECT_THAT(shares("share_high = \"30 %\"", "share_high = \"50 %\""), HasSubstr("all land has to be cut"));
    EXPECT_THAT(shares("share_low = \"120 %\"", ""), HasSubstr("0 % to 100 %"));
    EXPECT_THAT(shares("share_low = \"50 %\"\nshare_high = \"40 %\"", ""), HasSubstr("no share can be both"));
}

TEST(LossCounts, NameSomething) {
    EXPECT_THAT(refusal(with_more("[loss_counts]\n")), HasSubstr("names nothing"));
    EXPECT_EQ(parse_season(with_more("[loss_counts]\nfile = \"l.csv\"\n"), "s.toml").loss_counts->file, "l.csv");
}

} // namespace
} // namespace quartercut
