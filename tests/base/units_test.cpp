// SPDX-License-Identifier: MIT
// Units against the law and published worked examples.
//
// "Act" below: Weights and Measures Act, R.S.C. 1985, c. W-6, Schedules I and II (Canada). "exact" means 1e-9 relative.
#include "quartercut/units.hpp"

#include "quartercut/crop.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

double crop_bushel_lb(const char* name) { return find_crop(name)->bushel_lb; }

TEST(LegalUnits, AreThoseOfTheAct) {
    EXPECT_DOUBLE_EQ(kg_per_pound, 45359237.0 / 100000000.0);
    EXPECT_DOUBLE_EQ(m_per_yard, 9144.0 / 10000.0);
    EXPECT_DOUBLE_EQ(m_per_foot, 0.3048);
    EXPECT_DOUBLE_EQ(m_per_inch, 0.0254);
    EXPECT_DOUBLE_EQ(m_per_mile, 1609.344);
    EXPECT_DOUBLE_EQ(kg_per_short_ton, 907.18474);
}

// Act, Schedule II: acre of 4 840 square yards; the half mile of a quarter section.
TEST(LegalUnits, GiveTheAcreTheQuarterSectionAndItsSide) {
    EXPECT_NEAR(m2_per_acre, 4046.8564224, 4046.8564224e-9);
    EXPECT_NEAR(to_hectares(to_square_metres(Acres{160.0})).value(), 64.7497027584, 64.7497027584e-9);
    EXPECT_NEAR(parse_quantity(Dimension::length, "2640 ft").value, 804.672, 804.672e-9);
    EXPECT_NEAR(to_acres(to_square_metres(Hectares{1.0})).value(), 2.47105381467, 1e-9);
}

// A well-known web page prints 1 ac = 0.40694 ha; the Act gives 0.40469.
TEST(LegalUnits, AreNotTheWidelyCopiedMisprintOfTheAcre) {
    const double acre_ha = to_hectares(to_square_metres(Acres{1.0})).value();
    EXPECT_NEAR(acre_ha, 0.404685642240, 1e-9);
    EXPECT_GT(0.40694 - acre_ha, 0.002);
}

struct BushelsPerTonne {
    const char* crop;
    double published, exact;
};

// Published: Government of Alberta, Bushel/Tonne page, quoting the Canada Grains Council's Statistical Handbook 1999,
// rounded at the fourth figure. Exact: from the pound weight and the Act.
TEST(BushelWeights, AgreeWithThePublishedFactors) {
    const BushelsPerTonne rows[] = {{"canola", 44.0920, 44.092452},         {"rapeseed", 44.0920, 44.092452},
                                    {"mustard", 44.0920, 44.092452},        {"canary-seed", 44.0920, 44.092452},
                                    {"wheat", 36.7440, 36.743710},          {"peas", 36.7440, 36.743710},
                                    {"soybeans", 36.7440, 36.743710},       {"feed-barley", 45.9300, 45.929638},
                                    {"malting-barley", 45.9300, 45.929638}, {"buckwheat", 45.9300, 45.929638},
                                    {"oats", 64.8420, 64.841842},           {"us-oats", 68.8944, 68.894457},
                                    {"flax", 39.3680, 39.368261},           {"rye", 39.3680, 39.368261},
                                    {"corn", 39.3680, 39.368261},           {"triticale", 42.3960, 42.396588},
                                    {"sunflower", 73.4870, 73.487421}};
    for (const BushelsPerTonne& row : rows) {
        const double bushels = kg_per_tonne / (crop_bushel_lb(row.crop) * kg_per_pound);
        EXPECT_NEAR(bushels / row.published, 1.0, 1e-4) << row.crop;
        EXPECT_NEAR(bushels, row.exact, 1e-6) << row.crop;
    }
}

// Act definitions at 50 lb: 40 bu/ac is 2 241.702 kg/ha; the same for four more yields.
TEST(Yields, OfCanolaInBushelsPerAcreBecomeKilogramsPerHectare) {
    const double bushel_lb = crop_bushel_lb("canola");
    const double pairs[][2] = {{30, 1681.277}, {40, 2241.702}, {45, 2521.915}, {50, 2802.128}, {60, 3362.553}};
    for (const auto& [bu_ac, kg_ha] : pairs)
        EXPECT_NEAR(1000.0 * to_t_ha(bu_ac, YieldUnit::bu_ac, bushel_lb), kg_ha, 1e-3);
    EXPECT_NEAR(to_t_ha(40.0, YieldUnit::bu_ac, bushel_lb), 2.241702, 1e-6);
    EXPECT_NEAR(from_t_ha(1.0, YieldUnit::bu_ac, bushel_lb), 17.84358, 1e-5);
    EXPECT_NEAR(1000.0 * to_t_ha(1.0, YieldUnit::lb_ac, bushel_lb), 1.120851156, 1e-9);
    EXPECT_DOUBLE_EQ(from_t_ha(2.5, YieldUnit::kg_ha, bushel_lb), 2500.0);
    EXPECT_DOUBLE_EQ(from_t_ha(2.5, YieldUnit::t_ha, bushel_lb), 2.5);
}

TEST(Yields, GoToEveryUnitAndBackUnchanged) {
    for (const YieldUnit unit : {YieldUnit::bu_ac, YieldUnit::t_ha, YieldUnit::kg_ha, YieldUnit::lb_ac})
        EXPECT_NEAR(to_t_ha(from_t_ha(2.345, unit, 60.0), unit, 60.0), 2.345, 1e-14) << yield_unit_word(unit);
}

// Virginia Cooperative Extension 442-502: 5 mph for 15 s is 110 ft, at a 15 ft header 0.04 ac; a reading every 2 s
// gives about 200 points per acre (exactly 110.0 ft, 0.03788 ac, 198.0).
TEST(WorkedExamples, TravelAndAreaOfTheExtensionBulletin) {
    const double speed_m_s = parse_quantity(Dimension::speed, "5 mph").value;
    const double travelled_m = speed_m_s * parse_quantity(Dimension::duration, "15 s").value;
    const double header_m = parse_quantity(Dimension::length, "15 ft").value;
    EXPECT_NEAR(travelled_m / m_per_foot, 110.0, 0.01);
    EXPECT_NEAR(travelled_m * header_m / m2_per_acre, 0.03788, 1e-5);
    EXPECT_NEAR(m2_per_acre / (speed_m_s * 2.0 * header_m), 198.0, 0.1);
}

// Purdue University's cut widths: 17.5 ft logged where 20 ft were cut makes 50 bu/ac of a true 43.75.
TEST(WorkedExamples, AWidthSetTooNarrowInflatesTheYield) {
    const double logged_m = parse_quantity(Dimension::length, "17.5 ft").value;
    const double true_m = parse_quantity(Dimension::length, "20 ft").value;
    EXPECT_NEAR(true_m / logged_m, 1.142857, 1e-6);
    const double mass_kg = to_t_ha(50.0, YieldUnit::bu_ac, 60.0) * 1000.0 * (logged_m * 100.0) / m2_per_hectare;
    const TonnesPerHectare honest = yield(Kilograms{mass_kg}, SquareMetres{true_m * 100.0});
    EXPECT_NEAR(from_t_ha(honest.value(), YieldUnit::bu_ac, 60.0), 43.75, 1e-6);
}

TEST(Quantities, OfOneKindAddUpAndCompare) {
    EXPECT_DOUBLE_EQ((Metres{2.0} + Metres{3.5}).value(), 5.5);
    EXPECT_DOUBLE_EQ((Metres{2.0} - Metres{3.5}).value(), -1.5);
    EXPECT_DOUBLE_EQ((2.0 * Tonnes{3.0}).value(), 6.0);
    EXPECT_DOUBLE_EQ(Hectares{6.0} / Hectares{4.0}, 1.5);
    EXPECT_LT(Seconds{1.0}, Seconds{2.0});
    EXPECT_DOUBLE_EQ(yield(Kilograms{2500.0}, to_square_metres(Hectares{1.0})).value(), 2.5);
}

} // namespace
} // namespace quartercut
