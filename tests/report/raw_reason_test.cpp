// SPDX-License-Identifier: MIT
// Why the raw map says something else: by hand, from one field with one machine for each method.
#include "report/raw_reason.hpp"
#include "report/sentences.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>

namespace quartercut {
namespace {

using report::Telling;
using ::testing::HasSubstr;

// Two strips of 1 ha with 2.5 t each after calibration; `factor` and moisture are those of the standing one.
struct Case {
    Results results;
    Contrast contrast;
    Case(double factor, double moisture_pct) {
        results.season = sample::season();
        results.standardised.machines = {"A", "B"};
        results.standardised.fields.resize(1);
        results.standardised.fields[0].records.at_basis = {0};
        results.cleaned.fields.resize(1);
        results.cleaned.fields[0].calibration = {{"A", "swathed", 1.0, 0.01, 5, 4, "tickets"},
                                                 {"B", "standing", factor, 0.01, 5, 4, "tickets"}};
        results.zoned.resize(1);
        for (const int method : {sample::swathed, sample::standing}) {
            Zone zone;
            zone.method = method;
            results.zoned[0].zones.push_back(zone);
            Segment segment;
            segment.zone = segment.machine = method;
            segment.mass_basis_kg = 2500.0;
            segment.moisture_pct = method == sample::standing ? moisture_pct : 10.0;
            results.zoned[0].segments.push_back(segment);
        }
        contrast.method = "standing";
        contrast.baseline = "swathed";
        contrast.gain_t_ha = 0.1;
        contrast.ci95_total_t_ha = Interval{0.02, 0.18};
        contrast.baseline_yield_t_ha = 2.5;
    }
    [[nodiscard]] std::string reason() const { return report::raw_reason(Telling(results), contrast, 0); }
};

// A factor of 1.08 means that the monitor read 1 / 1.08 of the grain: 7.4 % of 2.5 t/ha too little, 0.185 t/ha. The raw
// difference would be 0.1 - 0.185 = -0.085 t/ha.
TEST(RawReason, NamesACalibrationThatPullsTheMap) {
    Case c(1.08, 10.0);
    c.contrast.raw_gain_t_ha = -0.085;
    EXPECT_EQ(c.reason(), "Part of the reason: before calibration, the grain of the two methods was read 8.0 % apart.");
    EXPECT_THAT(report::raw_sentence(Telling(c.results), c.contrast, 0),
                HasSubstr("The raw yield map would have said 1.5 bu/ac less. Part of the reason: "));
}

// Wet grain at 14 % weighs 90 / 86 of the same grain at 10 %: 4.7 % of 2.5 t/ha, 0.116 t/ha too much.
TEST(RawReason, NamesAMoistureThatPullsTheMap) {
    Case c(1.0, 14.0);
    c.contrast.raw_gain_t_ha = 0.216;
    EXPECT_EQ(c.reason(), "Part of the reason: the two were cut at moistures 4.0 points apart.");
}

TEST(RawReason, GrainLoggedAtTheBasisHoldsNoWater) {
    Case c(1.0, 14.0);
    c.contrast.raw_gain_t_ha = 0.216;
    c.results.standardised.fields[0].records.at_basis = {1};
    EXPECT_EQ(c.reason(), "");
}

TEST(RawReason, SaysNothingWhereTheMapAgrees) {
    Case c(1.08, 14.0);
    c.contrast.raw_gain_t_ha = 0.12; // inside the range, the same sign
    EXPECT_EQ(c.reason(), "");
}

// The map errs to the other side than calibration would pull it: calibration is no reason.
TEST(RawReason, SaysNothingWhereTheCausePullsTheOtherWay) {
    Case c(1.08, 10.0);
    c.contrast.raw_gain_t_ha = 0.4;
    EXPECT_EQ(c.reason(), "");
}

TEST(RawReason, SaysNothingWithoutSegments) {
    Case c(1.08, 10.0);
    c.contrast.raw_gain_t_ha = -0.085;
    c.results.zoned[0].segments.clear();
    EXPECT_EQ(c.reason(), "");
}

} // namespace
} // namespace quartercut
