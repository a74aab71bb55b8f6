// SPDX-License-Identifier: MIT
// Loss counts against published tables of seeds per square foot, survey figures and the exact Poisson interval.
#include "plan/losses.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace quartercut {
namespace {

using planning::poisson_interval;
using planning::tray_loss_kg_ha;

constexpr double square_foot_m2 = m_per_foot * m_per_foot;

LossCount tray(double seeds, double weight_g, double area_m2 = square_foot_m2) {
    LossCount count;
    count.method = "swathed";
    count.seeds = seeds;
    count.seed_weight_g = weight_g;
    count.area_m2 = area_m2;
    return count;
}

double bu_ac(double kg_ha, double bushel_lb = 50.0) {
    return from_t_ha(kg_ha / kg_per_tonne, YieldUnit::bu_ac, bushel_lb);
}

// Seeds per square foot that are one bushel an acre of canola (Canola Council of Canada, Canola Watch, 2012-08-15).
TEST(Trays, MatchThePublishedSeedsPerBushel) {
    const double table[][2] = {{2.5, 208}, {3, 174}, {3.5, 149}, {4, 130}, {4.5, 116}, {5, 104}};
    for (const auto& [weight, seeds] : table) {
        const double per_seed = bu_ac(tray_loss_kg_ha(tray(1.0, weight)));
        EXPECT_NEAR(1.0 / per_seed, seeds, 0.6) << weight << " g";
    }
}

// 150,000 canola seeds a pound: 172 seeds/ft2; 88,000 flax seeds and 56 lb: 113 (Berglund, NDSU 2002-07-18).
TEST(Trays, MatchSeedsPerPound) {
    const double canola_g = 1000.0 * kg_per_pound * 1000.0 / 150000.0,
                 flax_g = 1000.0 * kg_per_pound * 1000.0 / 88000.0;
    EXPECT_NEAR(1.0 / bu_ac(tray_loss_kg_ha(tray(1.0, canola_g))), 172.0, 0.5);
    EXPECT_NEAR(1.0 / bu_ac(tray_loss_kg_ha(tray(1.0, flax_g)), 56.0), 113.0, 0.5);
}

// 30 ft cut over a 5 ft discharge is 6; a pan with 3 g a square foot is 0.9603 bu/ac (inputs: Canola Watch quiz
// 2017-08-23), and holds 1000 seeds of 3 g.
TEST(Pans, AreSharedOutOverTheCut) {
    LossCount pan = tray(1000.0, 3.0);
    pan.stage = LossStage::behind_machine;
    pan.cut_width_m = 30.0 * m_per_foot;
    pan.discharge_width_m = 5.0 * m_per_foot;
    EXPECT_NEAR(bu_ac(tray_loss_kg_ha(pan)), 0.960334, 1e-5);
    pan.seeds.reset();
    pan.grams = 3.0;
    EXPECT_NEAR(bu_ac(tray_loss_kg_ha(pan)), 0.960334, 1e-5);
}

Season season() {
    Season out;
    out.baseline = "swathed";
    out.methods = {{"swathed", "Swathed", 10.668}, {"standing", "Standing", 12.192}};
    return out;
}

std::vector<ZonedField> yielding(double swathed_t_ha) {
    Zone zone;
    zone.method = 0;
    zone.harvested_m2 = m2_per_hectare;
    zone.mass_basis_kg = swathed_t_ha * kg_per_tonne;
    ZonedField field;
    field.zones = {zone};
    return {field};
}

// Losses of 135.5 and 107 kg/ha said to be 5.8 and 5.9 % imply yields of 2,336 and 1,814 kg/ha (surveys of 2010 and
// 2003 on the Canadian prairies); the shares are of the yield, and smaller of what the crop had.
TEST(Losses, AddToTheYieldAndSayOfWhatTheyAreAShare) {
    for (const auto& [loss_kg_ha, yield_kg_ha, share, crop_share] :
         {std::array{135.5, 2336.0, 5.8, 5.482}, std::array{107.0, 1814.0, 5.9, 5.570}}) {
        LossCount count = tray(0.0, 3.0, 1.0);
        count.seeds.reset();
        count.grams = loss_kg_ha / 10.0;
        const LossResult out = count_losses(season(), {count}, yielding(yield_kg_ha / kg_per_tonne));
        ASSERT_EQ(out.methods.size(), 1U);
        EXPECT_NEAR(*out.methods[0].loss_of_yield_pct, share, 0.01);
        EXPECT_NEAR(*out.methods[0].loss_of_crop_pct, crop_share, 0.01);
        EXPECT_NEAR(*out.methods[0].crop_had_t_ha, (yield_kg_ha + loss_kg_ha) / kg_per_tonne, 1e-9);
        EXPECT_EQ(out.methods[0].not_counted.size(), 2U);
    }
}

// Exact limits of a Poisson mean, 10 counted: 4.795 to 18.39 (Garwood 1936; any table).
TEST(Losses, OneAloneHasItsCountingErrorOnly) {
    EXPECT_NEAR(poisson_interval(10.0)[0], 4.795, 5e-4);
    EXPECT_NEAR(poisson_interval(10.0)[1], 18.390, 5e-4);
    EXPECT_EQ(poisson_interval(0.0)[0], 0.0);
    const LossResult out = count_losses(season(), {tray(10.0, 4.0)}, {});
    const StageLoss& loss = out.methods[0].stages[0];
    EXPECT_NEAR((*loss.ci95_kg_ha)[0] / loss.loss_kg_ha, 0.4795, 1e-4);
    EXPECT_EQ(loss.interval_from, "counting error of one place only");
    EXPECT_FALSE(out.methods[0].ci95_kg_ha);
}

// Places, not trays, are counted: the paired differences 1.2, 0.4, 2.1, -0.3 have mean 0.85 and 0.517204 for its error,
// so places 2 above them have the same error; a second tray in each place adds nothing.
TEST(Losses, TakeThePlaceAsTheUnit) {
    std::vector<LossCount> counts;
    for (const double grams : {3.2, 2.4, 4.1, 1.7})
        for (int twice = 0; twice < 2; ++twice) {
            LossCount count = tray(0.0, 3.0, 1.0);
            count.seeds.reset();
            count.grams = grams;
            count.place = std::to_string(grams);
            counts.push_back(count);
        }
    const StageLoss loss = count_losses(season(), counts, {}).methods[0].stages[0];
    EXPECT_EQ(loss.places, 4);
    EXPECT_EQ(loss.trays, 8);
    EXPECT_NEAR(loss.loss_kg_ha, 28.5, 1e-9);
    EXPECT_NEAR(*loss.u_kg_ha, 5.17204, 1e-4);
    EXPECT_NEAR((*loss.ci95_kg_ha)[1], 28.5 + 3.182446 * 5.17204, 1e-3);
}

TEST(Losses, WarnWhenThePickUpIsTakenForTheCut) {
    LossCount pan = tray(100.0, 3.0);
    pan.stage = LossStage::behind_machine;
    pan.cut_width_m = 5.0; // a pick-up; the swather cuts 10.668 m
    pan.discharge_width_m = 1.5;
    const LossResult out = count_losses(season(), {pan}, {});
    ASSERT_EQ(out.issues.size(), 1U);
    EXPECT_EQ(out.issues[0].code, "loss-cut-width");
}

// Shoes data of Box, Hunter and Hunter: B - A is 0.41, t = 3.3489 on 9 df, 95 % interval 0.133 to 0.687.
TEST(Samples, AreComparedInPairs) {
    const double a[] = {13.2, 8.2, 10.9, 14.3, 10.7, 6.6, 9.5, 10.8, 8.8, 13.3};
    const double b[] = {14.0, 8.8, 11.2, 14.2, 11.8, 6.4, 9.8, 11.3, 9.3, 13.6};
    std::vector<SeedSample> samples;
    for (int i = 0; i < 10; ++i) {
        samples.push_back({"Home", "swathed", std::to_string(i), {{"seed_weight_g", a[i]}}, 0});
        samples.push_back({"Home", "standing", std::to_string(i), {{"seed_weight_g", b[i]}}, 0});
    }
    const auto out = compare_samples(season(), samples);
    ASSERT_EQ(out.size(), 1U);
    EXPECT_EQ(out[0].how, "pairs");
    EXPECT_NEAR(out[0].difference, 0.41, 1e-9);
    EXPECT_NEAR((*out[0].ci95)[0], 0.1330461, 1e-6);
    EXPECT_NEAR((*out[0].ci95)[1], 0.6869539, 1e-6);
}

TEST(Samples, OneOfEachHaveNoInterval) {
    const auto out = compare_samples(
        season(), {{"A", "swathed", "", {{"green_pct", 1.0}}, 0}, {"B", "standing", "", {{"green_pct", 0.4}}, 0}});
    ASSERT_EQ(out.size(), 1U);
    EXPECT_FALSE(out[0].ci95);
    EXPECT_NEAR(out[0].difference, -0.6, 1e-12);
}

TEST(Weather, IsListedForTheDaysTheCropWasOut) {
    Season s = season();
    s.points.time_zone = "-06:00";
    s.weather = WeatherInput{"station.csv", {"swathed"}, "swathed_on", "ripe_on", 0};
    Standardised standardised;
    standardised.fields.resize(1);
    standardised.fields[0].name = "Home";
    standardised.fields[0].attributes = {{"swathed_on", "2025-08-20"}};
    std::vector<ZonedField> zoned = yielding(2.0);
    zoned[0].zones[0].records = 5;
    const long first = *day_number("2025-08-20");
    zoned[0].zones[0].last_s = (static_cast<double>(first) + 3.0) * 86400.0 + 3600.0; // 19:00 the day before, in -06:00
    const WeatherResult out = list_weather(s, standardised, zoned,
                                           {{first - 1, 50.0, 90.0},
                                            {first, 2.0, 40.0},
                                            {first + 1, 0.0, 75.0},
                                            {first + 2, 3.5, std::nullopt},
                                            {first + 3, 9.0, 99.0}});
    ASSERT_EQ(out.windows.size(), 1U);
    EXPECT_EQ(out.windows[0].last_day, first + 2);
    EXPECT_NEAR(out.windows[0].rain_mm, 5.5, 1e-12);
    EXPECT_EQ(out.windows[0].rain_days, 2);
    EXPECT_NEAR(*out.windows[0].gust_km_h, 75.0, 1e-12);
    EXPECT_EQ(day_text(out.windows[0].gust_day), "2025-08-21");
    EXPECT_TRUE(out.gaps.empty());
}

} // namespace
} // namespace quartercut
