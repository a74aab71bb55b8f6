// SPDX-License-Identifier: MIT
// The land a record stands for, behind a swather and behind a header. Answers by hand.
#include "raw_by_hand.hpp"

#include <cmath>

namespace quartercut {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Widths, OfPartPassesKeepTheirShareOfTheCut) {
    // The monitor was set to 9 m for windrows of a 10 m swather; 4.5 m is half a pass, so 5 m of land.
    Raw raw = by_hand::raw({{10, 10}, {12, 10}, {14, 10}});
    by_hand::add_numbers(raw, Meaning::width, "m", {9.0, 9.0, 4.5});
    const Standardised result = standardise(by_hand::season(), raw);
    EXPECT_THAT(result.fields[0].records.width_m, ElementsAre(10.0, 10.0, 5.0));
    ASSERT_TRUE(by_hand::has_issue(result.issues, "width-differs"));
    EXPECT_THAT(result.issues[0].message, HasSubstr("9.00 m"));
    EXPECT_THAT(result.issues[0].message, HasSubstr("10.00 m"));
}

TEST(Widths, WithinTwoPercentOfTheCutAreNotRemarked) {
    Raw raw = by_hand::raw({{10, 10}});
    by_hand::add_numbers(raw, Meaning::width, "m", {9.9});
    EXPECT_FALSE(by_hand::has_issue(standardise(by_hand::season(), raw).issues, "width-differs"));
}

TEST(Widths, AreTheCutWhereNoneIsLogged) {
    Raw raw = by_hand::raw({{10, 10}, {90, 10}});
    raw.records[0].numbers.erase(Meaning::width);
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.width_m, ElementsAre(10.0, 12.0));
}

TEST(Widths, AreTheLoggedOnesWhereNoCutIsStated) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}, {14, 10}});
    by_hand::add_numbers(raw, Meaning::width, "ft", {30.0, 30.0, 10.0});
    Season season = by_hand::season();
    season.methods[0].cut_width_m.reset();
    EXPECT_THAT(standardise(season, raw).fields[0].records.width_m,
                ElementsAre(DoubleNear(9.144, 1e-12), DoubleNear(9.144, 1e-12), DoubleNear(3.048, 1e-12)));
}

TEST(Widths, AreJudgedPerMachine) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}, {14, 10}, {16, 10}});
    by_hand::add_numbers(raw, Meaning::width, "m", {8.0, 4.0, 9.0, 9.0});
    by_hand::add_words(raw, Meaning::machine, {"a", "a", "b", "b"});
    // Of machine a both widths were logged once: the wider is the full one.
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.width_m, ElementsAre(10.0, 5.0, 10.0, 10.0));
}

TEST(Widths, MissingInSomeRecordsAreTakenAsFull) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}});
    by_hand::add_numbers(raw, Meaning::width, "m", {9.0, by_hand::nan});
    const Standardised result = standardise(by_hand::season(), raw);
    EXPECT_THAT(result.fields[0].records.width_m, ElementsAre(10.0, 10.0));
    EXPECT_TRUE(by_hand::has_issue(result.fields[0].issues, "width-missing"));
}

TEST(Widths, OfZeroThroughoutAreNotedAndTheCutIsTaken) {
    Raw raw = by_hand::raw({{10, 10}, {12, 10}});
    by_hand::add_numbers(raw, Meaning::width, "m", {0.0, 0.0});
    const Standardised result = standardise(by_hand::season(), raw);
    EXPECT_THAT(result.fields[0].records.width_m, ElementsAre(10.0, 10.0));
    ASSERT_TRUE(by_hand::has_issue(result.issues, "width-not-logged"));
    EXPECT_THAT(result.issues[0].message, HasSubstr("10.00 m"));
    // 1 kg over 2 m x 10 m is 0.05 kg/m2, 0.5 t/ha.
    EXPECT_DOUBLE_EQ(result.fields[0].records.logged_yield_t_ha[0], 0.5);
}

TEST(Widths, NeitherLoggedNorStatedAreAskedFor) {
    Raw raw = by_hand::raw({{10, 10}});
    raw.records[0].numbers.erase(Meaning::width);
    Season season = by_hand::season();
    season.methods[0].cut_width_m.reset();
    const std::string message = by_hand::error_of<DataError>(season, raw);
    EXPECT_THAT(message, HasSubstr("[[method]] \"swathed\""));
    EXPECT_THAT(message, HasSubstr("cut_width = \"35 ft\""));
}

TEST(Widths, NeitherLoggedNorStatedAreAskedForOfEveryMethod) {
    Raw raw = by_hand::raw({{10, 10}, {90, 10}});
    raw.records[0].numbers.erase(Meaning::width);
    raw.records[0].numbers.erase(Meaning::moisture);
    Season season = by_hand::season();
    season.methods[0].cut_width_m.reset();
    season.methods[1].cut_width_m.reset();
    const std::string message = by_hand::error_of<DataError>(season, raw);
    EXPECT_THAT(message, HasSubstr("How wide \"swathed\" was cut"));
    EXPECT_THAT(message, HasSubstr("How wide \"standing\" was cut"));
    EXPECT_THAT(message, HasSubstr("no moisture"));
}

} // namespace
} // namespace quartercut
