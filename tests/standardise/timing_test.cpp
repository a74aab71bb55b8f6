// SPDX-License-Identifier: MIT
// Order of records and the durations, distances and speeds derived where the monitor logged none. Answers by hand.
#include "raw_by_hand.hpp"

#include <cmath>

namespace quartercut {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::NanSensitiveDoubleEq;

/// Records east along y = 10, without the columns named.
Raw bare(const std::vector<double>& x, const std::vector<double>& times, const std::vector<Meaning>& without) {
    std::vector<Point> places;
    for (const double each : x)
        places.push_back({each, 10.0});
    Raw raw = by_hand::raw(places);
    raw.records[0].time_s = times;
    for (const Meaning meaning : without)
        raw.records[0].numbers.erase(meaning);
    return raw;
}

TEST(Order, IsByMachineThenTime) {
    Raw raw = by_hand::raw({{10, 10}, {20, 10}, {30, 10}, {40, 10}});
    raw.records[0].time_s = {40, 30, 20, 10};
    by_hand::add_words(raw, Meaning::machine, {"b", "a", "b", "a"});
    const Standardised result = standardise(by_hand::season(), raw);
    EXPECT_THAT(result.machines, ElementsAre("a", "b"));
    EXPECT_THAT(result.fields[0].records.row, ElementsAre(4u, 2u, 3u, 1u));
}

TEST(Order, KeepsTheFilesOrderWhereTimesLack) {
    Raw raw = by_hand::raw({{10, 10}, {20, 10}, {30, 10}, {40, 10}});
    raw.records[0].time_s = {20, by_hand::nan, 10, by_hand::nan};
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.row, ElementsAre(3u, 4u, 1u, 2u));
    raw.records[0].time_s.clear();
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.row, ElementsAre(1u, 2u, 3u, 4u));
}

TEST(Order, DoesNotDependOnTheOrderOfTheFiles) {
    Raw raw = by_hand::raw({{10, 10}, {20, 10}});
    by_hand::add_words(raw, Meaning::machine, {"second", "second"});
    raw.inputs.push_back({"more.csv", "points", "", 0, "", 2});
    RawRecords more = raw.records[0];
    more.input = 1;
    more.texts[Meaning::machine].words = {"first"};
    raw.records.push_back(more);
    const Standardised one = standardise(by_hand::season(), raw);
    std::swap(raw.records[0], raw.records[1]);
    const Standardised other = standardise(by_hand::season(), raw);
    EXPECT_EQ(one.machines, other.machines);
    EXPECT_EQ(one.fields[0].records.input, other.fields[0].records.input);
    EXPECT_THAT(one.fields[0].records.input, ElementsAre(1u, 1u, 0u, 0u));
}

TEST(Order, NamesTheMachineWhereTheRecordsDoNot) {
    EXPECT_THAT(standardise(by_hand::season(), by_hand::raw({{10, 10}})).machines, ElementsAre("machine"));
    Raw raw = by_hand::raw({{10, 10}, {20, 10}});
    by_hand::add_words(raw, Meaning::machine, {"", "x7"});
    EXPECT_THAT(standardise(by_hand::season(), raw).machines, ElementsAre("machine", "x7"));
}

/// Twenty records, and a second file that holds them once more, moved a little and with their flow in other units.
Raw exported_twice(double moved_m, const std::string& flow_unit) {
    std::vector<Point> places;
    for (int i = 0; i < 20; ++i)
        places.push_back({10.0, 10.0 + 2.0 * i});
    Raw raw = by_hand::raw(places);
    raw.inputs.push_back({"again.csv", "points", "", 0, "", places.size()});
    RawRecords again = raw.records[0];
    again.input = 1;
    for (double& x : again.lon_deg)
        x += moved_m;
    NumberColumn& flow = again.numbers.at(Meaning::flow);
    flow.unit = flow_unit;
    if (flow_unit == "lb/s")
        for (double& value : flow.values)
            value = std::round(value / 0.45359237 * 1000.0) / 1000.0;
    raw.records.push_back(std::move(again));
    return raw;
}

TEST(Twins, ToTheLastDigitAreRemarkedAndLeftToCleaning) {
    const Standardised result = standardise(by_hand::season(), exported_twice(0.0, "kg/s"));
    EXPECT_EQ(result.fields[0].records.size(), 40U);
    const auto twice = std::find_if(result.issues.begin(), result.issues.end(),
                                    [](const Issue& issue) { return issue.code == "records-twice"; });
    ASSERT_NE(twice, result.issues.end());
    EXPECT_EQ(twice->where, "again.csv");
    EXPECT_THAT(twice->message, testing::HasSubstr("20 of its records stand in yield.csv too"));
}

TEST(Twins, WithOtherDigitsOrUnitsAreRefused) {
    for (const Raw& raw : {exported_twice(0.01, "kg/s"), exported_twice(0.0, "lb/s")})
        EXPECT_THAT(by_hand::error_of<DataError>(by_hand::season(), raw),
                    testing::HasSubstr("again.csv: 20 of its records stand at the moment and the place of a record of "
                                       "yield.csv"));
}

TEST(Twins, AreNotMachinesThatWorkSideBySideAtOneTime) {
    const Raw raw = exported_twice(10.0, "kg/s");
    EXPECT_FALSE(by_hand::has_issue(standardise(by_hand::season(), raw).issues, "records-twice"));
}

TEST(Durations, ComeFromTimesAndSkipGaps) {
    // Steps 2, 2, 100 (a stop), 2: the usual step is 2 s and the record after the stop covers no more than that.
    const Raw raw = bare({10, 12, 14, 16, 18}, {0, 2, 4, 104, 106}, {Meaning::duration});
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.duration_s, ElementsAre(2, 2, 2, 2, 2));
}

TEST(Durations, AreSharedByRecordsOfOneTimeStamp) {
    const Raw raw = bare({10, 11, 12, 13, 14, 15}, {0, 0, 1, 1, 2, 2}, {Meaning::duration});
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.duration_s,
                ElementsAre(0.5, 0.5, 0.5, 0.5, 0.5, 0.5));
}

TEST(Durations, AreUnknownWithoutTimes) {
    Raw raw = bare({10, 12}, {}, {Meaning::duration, Meaning::flow});
    by_hand::add_numbers(raw, Meaning::yield, "t/ha", {2.0, 2.0});
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_TRUE(std::isnan(records.duration_s[0]));
    EXPECT_TRUE(std::isnan(records.speed_m_s[0]));
}

TEST(Durations, LoggedAreKept) {
    Raw raw = bare({10, 12}, {0, 2}, {});
    by_hand::add_numbers(raw, Meaning::duration, "s", {1.5, 0.0});
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.duration_s, ElementsAre(1.5, 2.0));
}

TEST(Distances, ComeFromSpeedWhereThereIsOne) {
    Raw raw = bare({10, 12, 14}, {0, 2, 4}, {Meaning::distance, Meaning::duration});
    by_hand::add_numbers(raw, Meaning::speed, "km/h", {3.6, 7.2, 3.6});
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_THAT(records.distance_m, ElementsAre(DoubleNear(2, 1e-12), DoubleNear(4, 1e-12), DoubleNear(2, 1e-12)));
}

TEST(Distances, ComeFromPositionsOtherwiseAndSkipGaps) {
    // Steps 2, 3, 50 (a jump), 2 m: the first record and the one after the jump take the step that follows.
    const Raw raw = bare({10, 12, 15, 65, 67}, {0, 1, 2, 3, 4}, {Meaning::distance});
    const Records records = standardise(by_hand::season(), raw).fields[0].records;
    EXPECT_THAT(records.distance_m, ElementsAre(2, 2, 3, 2, 2));
    EXPECT_THAT(records.speed_m_s, ElementsAre(2, 2, 3, 2, 2));
}

TEST(Speeds, ComeFromDistanceAndDuration) {
    Raw raw = bare({10, 12}, {0, 1}, {});
    by_hand::add_numbers(raw, Meaning::distance, "m", {3.0, by_hand::nan});
    by_hand::add_numbers(raw, Meaning::duration, "s", {2.0, 2.0});
    EXPECT_THAT(standardise(by_hand::season(), raw).fields[0].records.speed_m_s, ElementsAre(1.5, 1.0));
}

} // namespace
} // namespace quartercut
