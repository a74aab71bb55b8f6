// SPDX-License-Identifier: MIT
// Grain of a record and its yield at the basis: the arithmetic of yield monitors in trade units, done by hand.
#include "raw_by_hand.hpp"

#include "quartercut/units.hpp"

#include <cmath>

namespace quartercut {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Masses, AreFlowTimesDuration) {
    Raw raw = by_hand::raw({{10, 10}});
    by_hand::add_numbers(raw, Meaning::flow, "lb/s", {10.0});
    by_hand::add_numbers(raw, Meaning::duration, "s", {3.0});
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_NEAR(records.mass_kg[0], 30.0 * 0.45359237, 1e-12); // lb: Weights and Measures Act, Schedule II
    EXPECT_EQ(records.at_basis[0], 0);
}

TEST(Masses, GiveTheYieldOfTheTradeFormulaForCorn) {
    // Formula published with the records gartner.corn of the R package agridat: dry bushels an acre are
    // flow * seconds * (100 - moisture) / (100 - 15.5) / 56 / (distance * swath / 6272640), lb/s and inches.
    const double flow = 33.0, seconds = 3.0, moisture = 12.6, distance = 250.0, swath = 240.0;
    const double expected_bu_ac =
        flow * seconds * (100.0 - moisture) / (100.0 - 15.5) / 56.0 / (distance * swath / 6272640.0);
    Season season = by_hand::season();
    season.basis_pct = 15.5;
    season.bushel_lb = 56.0;
    Raw raw = by_hand::raw({{10, 10}, {12, 10}, {14, 10}});
    by_hand::add_numbers(raw, Meaning::flow, "lb/s", {flow, flow, flow});
    by_hand::add_numbers(raw, Meaning::duration, "s", {seconds, seconds, seconds});
    by_hand::add_numbers(raw, Meaning::moisture, "%", {moisture, moisture, moisture});
    by_hand::add_numbers(raw, Meaning::distance, "in", {distance, distance, distance});
    by_hand::add_numbers(raw, Meaning::width, "in", {swath, 360.0, 360.0});
    const Records records = standardise(season, raw).fields[0].records;
    EXPECT_NEAR(from_t_ha(records.logged_yield_t_ha[0], YieldUnit::bu_ac, 56.0), expected_bu_ac, 1e-9);
}

TEST(Masses, ComeFromTheYieldColumnOverTheLoggedWidth) {
    // 2 t/ha on 9 m logged times 2 m is 3.6 kg, though the pass stands for 10 m of land.
    Raw raw = by_hand::raw({{10, 10}});
    raw.records[0].numbers.erase(Meaning::flow);
    by_hand::add_numbers(raw, Meaning::yield, "t/ha", {2.0});
    by_hand::add_numbers(raw, Meaning::width, "m", {9.0});
    by_hand::add_numbers(raw, Meaning::moisture, "%", {19.0});
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_NEAR(records.mass_kg[0], 3.6, 1e-12);
    EXPECT_NEAR(records.logged_yield_t_ha[0], 1.8, 1e-12); // 2 * (100 - 19) / (100 - 10)
}

TEST(Masses, OfADryYieldColumnAreAtTheBasis) {
    Raw raw = by_hand::raw({{10, 10}});
    raw.records[0].numbers.erase(Meaning::flow);
    raw.records[0].numbers.erase(Meaning::moisture);
    by_hand::add_numbers(raw, Meaning::yield, "bu/ac", {40.0});
    raw.records[0].numbers[Meaning::yield].moisture = "dry";
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_EQ(records.at_basis[0], 1);
    // 40 bu of 50 lb an acre: 2000 lb on 4046.8564224 m2 is 2.241702 t/ha.
    EXPECT_NEAR(records.logged_yield_t_ha[0], 2000.0 * 0.45359237 / 4046.8564224 * 10.0, 1e-12);
    EXPECT_NEAR(records.mass_kg[0], 2000.0 * 0.45359237 / 4046.8564224 * 20.0, 1e-12);
}

TEST(Masses, UseTheCutWhereNoWidthIsLogged) {
    Raw raw = by_hand::raw({{90, 10}});
    raw.records[0].numbers.erase(Meaning::flow);
    raw.records[0].numbers.erase(Meaning::width);
    by_hand::add_numbers(raw, Meaning::yield, "kg/ha", {5000.0});
    EXPECT_NEAR(standardise(by_hand::season(), raw).fields[0].records.mass_kg[0], 12.0, 1e-12); // 0.5 * 12 * 2
}

TEST(Masses, WithoutAReadingStayUnknown) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}});
    by_hand::add_numbers(raw, Meaning::flow, "kg/s", {by_hand::nan, 1.0});
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_TRUE(std::isnan(records.mass_kg[0]));
    EXPECT_TRUE(std::isnan(records.logged_yield_t_ha[0]));
}

TEST(Masses, WithoutTravelHaveNoYield) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}});
    by_hand::add_numbers(raw, Meaning::distance, "m", {0.0, 2.0});
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_DOUBLE_EQ(records.mass_kg[0], 1.0);
    EXPECT_TRUE(std::isnan(records.logged_yield_t_ha[0]));
}

TEST(Moisture, OfZeroInOneRecordIsLeftForCleaning) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}});
    by_hand::add_numbers(raw, Meaning::moisture, "%", {0.0, 9.0});
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.moisture_pct, ElementsAre(0.0, 9.0));
}

TEST(Moisture, OfZeroOrAHundredEverywhereIsRefused) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}});
    for (const double value : {0.0, 100.0, 1200.0}) {
        by_hand::add_numbers(raw, Meaning::moisture, "%", {value, value});
        EXPECT_THAT(by_hand::error_of<DataError>(by_hand::season(), raw), HasSubstr("moisture of every record"));
    }
}

TEST(Moisture, MissingWithWetGrainIsAskedFor) {
    Raw raw = by_hand::raw({{10, 10}});
    raw.records[0].numbers.erase(Meaning::moisture);
    const std::string message = by_hand::error_of<DataError>(by_hand::season(), raw);
    EXPECT_THAT(message, HasSubstr("yield.csv: the file holds wet grain but no moisture"));
    EXPECT_THAT(message, HasSubstr("moisture = \"dry\""));
}

TEST(Units, UnknownAreNamedWithColumnFileAndKnownOnes) {
    Raw raw = by_hand::raw({{10, 10}});
    by_hand::add_numbers(raw, Meaning::distance, "cubits", {2.0});
    const std::string message = by_hand::error_of<InputError>(by_hand::season(), raw);
    EXPECT_THAT(message, HasSubstr("\"cubits\""));
    EXPECT_THAT(message, HasSubstr("yield.csv"));
    EXPECT_THAT(message, HasSubstr("ft"));
}

TEST(Records, WithNeitherFlowNorYieldAreRefused) {
    Raw raw = by_hand::raw({{10, 10}});
    raw.records[0].numbers.erase(Meaning::flow);
    EXPECT_THAT(by_hand::error_of<DataError>(by_hand::season(), raw), HasSubstr("neither flow nor yield"));
}

TEST(Records, WithFlowButNoDurationsUseTheYieldColumnOrAreRefused) {
    Raw raw = by_hand::raw({{10, 10}});
    raw.records[0].numbers.erase(Meaning::duration);
    raw.records[0].time_s.clear();
    EXPECT_THAT(by_hand::error_of<DataError>(by_hand::season(), raw), HasSubstr("neither duration nor time"));
    by_hand::add_numbers(raw, Meaning::yield, "t/ha", {2.0});
    EXPECT_NEAR(standardise(by_hand::season(), raw).fields[0].records.mass_kg[0], 4.0, 1e-12); // 0.2 kg/m2 on 20 m2
}

/// Wet grain without moisture, a unit nobody knows, and a width nobody states have nothing to do with each other.
TEST(Faults, ThatHaveNothingToDoWithEachOtherAreToldTogether) {
    Raw raw = by_hand::raw({{10, 10}});
    raw.records[0].numbers.erase(Meaning::moisture);
    by_hand::add_numbers(raw, Meaning::distance, "cubits", {2.0});
    by_hand::add_numbers(raw, Meaning::speed, "knots per hour", {2.0});
    raw.fields.push_back(by_hand::area("flat", {{{0, 0}, {100, 0}, {50, 0}}, {}}, 2));
    const std::string message = by_hand::error_of<DataError>(by_hand::season(), raw);
    EXPECT_THAT(message, HasSubstr("holds wet grain but no moisture"));
    EXPECT_THAT(message, HasSubstr("\"cubits\""));
    EXPECT_THAT(message, HasSubstr("\"knots per hour\""));
    EXPECT_THAT(message, HasSubstr("field \"flat\" encloses no area"));
    EXPECT_EQ(std::count(message.begin(), message.end(), '\n'), 3) << "a fault a line: " << message;
}

TEST(RawMeans, ArePlainMeansOverRecordsWithAReading) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}, {14, 10}, {90, 10}});
    by_hand::add_numbers(raw, Meaning::flow, "kg/s", {2.0, 4.0, by_hand::nan, 9.0});
    by_hand::add_numbers(raw, Meaning::moisture, "%", {10.0, 10.0, 16.0, 10.0});
    const std::vector<RawMean> means = standardise(by_hand::season(), raw).fields[0].raw_means;
    ASSERT_EQ(means.size(), 2u);
    EXPECT_EQ(means[0].method, 0);
    EXPECT_EQ(means[0].records, 3u);
    EXPECT_NEAR(means[0].mean_yield_t_ha, 1.5, 1e-12); // 2 kg and 4 kg on 20 m2: 1 and 2 t/ha
    EXPECT_NEAR(means[0].mean_moisture_pct, 12.0, 1e-12);
    EXPECT_NEAR(means[1].mean_yield_t_ha, 4.5, 1e-12); // 9 kg on the 10 m logged, not the 12 m cut
}

TEST(RawMeans, CountLandWhereNothingFlowed) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}, {14, 10}, {16, 10}});
    by_hand::add_numbers(raw, Meaning::flow, "kg/s", {0.0, 0.0, 0.0, 4.0});
    by_hand::add_numbers(raw, Meaning::moisture, "%", std::vector<double>(4, 10.0));
    EXPECT_NEAR(standardise(by_hand::season(), raw).fields[0].raw_means[0].mean_yield_t_ha, 0.5, 1e-12);
}

TEST(RawMeans, AreNotTheWorkOfOneSlip) {
    std::vector<Point> places;
    std::vector<double> flows;
    for (int i = 0; i < 11; ++i) {
        places.push_back({10.0 + 2.0 * i, 10.0});
        flows.push_back(i == 5 ? 4000.0 : 2.0);
    }
    Raw raw = by_hand::raw(places);
    by_hand::add_numbers(raw, Meaning::flow, "kg/s", flows);
    by_hand::add_numbers(raw, Meaning::moisture, "%", std::vector<double>(11, 10.0));
    const std::vector<RawMean> means = standardise(by_hand::season(), raw).fields[0].raw_means;
    EXPECT_NEAR(means[0].mean_yield_t_ha, 1.0, 1e-12);
    EXPECT_EQ(means[0].records, 11U);
}

} // namespace
} // namespace quartercut
