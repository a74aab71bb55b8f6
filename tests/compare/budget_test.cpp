// SPDX-License-Identifier: MIT
// Uncertainty budget against JCGM 100:2008 and a worked example computed with R 4.2.2.
#include "compare/budget.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace quartercut::contrast {
namespace {

TEST(Budget, CombinesAsTheGuidesEndGaugeExample) {
    // JCGM 100:2008 H.1: 25 nm (18 df), 9.7 (25.6), 2.9 (50), 16.6 (2) -> 32 nm with 16 degrees of freedom
    const std::vector<BudgetLine> lines{
        {"a", 25.0, 18.0, false}, {"b", 9.7, 25.6, false}, {"c", 2.9, 50.0, false}, {"d", 16.6, 2.0, false}};
    const Combined combined = combine(lines);
    EXPECT_NEAR(combined.u, 31.671, 5e-4);
    EXPECT_NEAR(combined.df, 16.76, 5e-3);
    EXPECT_NEAR(t_critical(16.0, 0.99), 2.9208, 5e-5);
}

TEST(Budget, CombinesAWholeHarvestComparison) {
    // kg/ha. A 2655.889, B 2516; sampling 45 (5 df), calibration 0.8 % each (8 df), own moisture 0.2 points each (50),
    // common moisture 0.3 points (50), width 0.5 % each (12 df). Computed with R 4.2.2.
    const double a = 2650.0 * (100.0 - 9.8) / 90.0;
    const double b = 2550.0 * (100.0 - 11.2) / 90.0;
    const double per_point_a = 2650.0 / 90.0;
    const double per_point_b = 2550.0 / 90.0;
    std::vector<BudgetLine> lines{{"sampling", 45.0, 5.0, false},
                                  {"calibration A", 0.008 * a, 8.0, true},
                                  {"calibration B", 0.008 * b, 8.0, true},
                                  {"moisture A", 0.2 * per_point_a, 50.0, true},
                                  {"moisture B", 0.2 * per_point_b, 50.0, true},
                                  {"moisture of both", 0.3 * (per_point_a - per_point_b), 50.0, true},
                                  {"width A", 0.005 * a, 12.0, true},
                                  {"width B", 0.005 * b, 12.0, true}};
    const Combined combined = combine(lines);
    EXPECT_NEAR(combined.u, 57.298145, 57.298145e-6);
    EXPECT_NEAR(t_critical(12.377244), 2.1714703, 1e-6);
    EXPECT_NEAR(combined.df, 12.377244, 1e-5);
    EXPECT_NEAR(break_even_calibration_pct(a, b), 5.5599717, 1e-6);
    EXPECT_NEAR(break_even_moisture_pct(a, b, 9.8), 4.7509434, 1e-6);
}

Side side(const std::string& method, double yield, const std::string& machine) {
    Side s;
    s.method = method;
    s.yield_t_ha = yield;
    s.moisture_pct = 10.0;
    s.machines = {{machine, 1.0}};
    s.width_u_rel = 0.005;
    return s;
}

Calibration calibrated(const std::string& machine, const std::string& method, double factor, int loads) {
    Calibration c;
    c.machine = machine;
    c.method = method;
    c.factor = factor;
    c.u_rel = 0.01;
    c.df = 8.0;
    c.loads = loads;
    c.source = loads > 0 ? "tickets" : "none";
    return c;
}

double calibration_u(const std::vector<BudgetLine>& lines) {
    double sum = 0.0;
    for (const BudgetLine& line : lines)
        if (line.source.rfind("calibration", 0) == 0) sum += line.u_t_ha * line.u_t_ha;
    return std::sqrt(sum);
}

TEST(Budget, ACommonFactorCancelsButForTheGain) {
    const std::vector<Calibration> common{calibrated("north", "swathed", 1.02, 6),
                                          calibrated("north", "standing", 1.02, 6)};
    const auto lines = instrument_lines(side("standing", 2.1, "north"), side("swathed", 2.0, "north"), common);
    EXPECT_NEAR(calibration_u(lines), 0.01 * 0.1, 1e-12);
}

TEST(Budget, SeparateFactorsDoNotCancel) {
    const std::vector<Calibration> own{calibrated("north", "swathed", 1.02, 6),
                                       calibrated("north", "standing", 0.99, 5)};
    const auto lines = instrument_lines(side("standing", 2.1, "north"), side("swathed", 2.0, "north"), own);
    EXPECT_NEAR(calibration_u(lines), 0.01 * std::hypot(2.1, 2.0), 1e-12);
}

TEST(Budget, WithoutTicketsEqualFactorsOfOneAreNotCommon) {
    // Both 1.0 because nobody weighed anything: a windrow may read differently from standing crop.
    const std::vector<Calibration> none{calibrated("north", "swathed", 1.0, 0),
                                        calibrated("north", "standing", 1.0, 0)};
    const auto lines = instrument_lines(side("standing", 2.1, "north"), side("swathed", 2.0, "north"), none);
    EXPECT_NEAR(calibration_u(lines), 0.01 * std::hypot(2.1, 2.0), 1e-12);
}

TEST(Budget, AMachineNobodyCalibratedIsFivePercentUnsure) {
    const auto lines = instrument_lines(side("standing", 2.0, "north"), side("swathed", 2.0, "north"), {});
    EXPECT_NEAR(calibration_u(lines), 0.05 * 2.0 * std::sqrt(2.0), 1e-12);
}

TEST(Budget, FragilityHasThreeWords) {
    EXPECT_STREQ(fragility_word(1.9), "fragile");
    EXPECT_STREQ(fragility_word(2.5), "moderate");
    EXPECT_STREQ(fragility_word(3.1), "sturdy");
}

} // namespace
} // namespace quartercut::contrast
