// SPDX-License-Identifier: MIT
// Checks every result must pass: no number that is not a number, intervals in order, words that fit the evidence.
#pragma once

#include "quartercut/compare.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace quartercut::testing {

inline bool has_issue(const Issues& issues, const std::string& code) {
    return std::any_of(issues.begin(), issues.end(), [&](const Issue& issue) { return issue.code == code; });
}

inline void expect_finite(const std::optional<double>& value, const char* what) {
    if (value) {
        EXPECT_TRUE(std::isfinite(*value)) << what;
    }
}

inline void expect_finite(const std::optional<Interval>& interval, const char* what) {
    if (!interval) return;
    EXPECT_TRUE(std::isfinite((*interval)[0]) && std::isfinite((*interval)[1])) << what;
    EXPECT_LE((*interval)[0], (*interval)[1]) << what;
}

inline void expect_no_nan(const Contrast& c) {
    for (const auto& [value, what] : std::initializer_list<std::pair<std::optional<double>, const char*>>{
             {c.gain_t_ha, "gain"},
             {c.se_t_ha, "se"},
             {c.df, "df"},
             {c.p, "p"},
             {c.p_randomisation, "p_randomisation"},
             {c.u_calibration_t_ha, "u_calibration"},
             {c.u_total_t_ha, "u_total"},
             {c.df_total, "df_total"},
             {c.break_even_calibration_pct, "break_even_calibration"},
             {c.break_even_moisture_pct, "break_even_moisture"},
             {c.detectable_t_ha, "detectable"},
             {c.yield_t_ha, "yield"},
             {c.baseline_yield_t_ha, "baseline_yield"},
             {c.raw_gain_t_ha, "raw_gain"}})
        expect_finite(value, what);
    expect_finite(c.ci95_t_ha, "ci95");
    expect_finite(c.ci95_total_t_ha, "ci95_total");
    std::vector<Estimate> others = c.also;
    others.insert(others.end(), c.earlier.begin(), c.earlier.end());
    for (const Estimate& e : others) {
        expect_finite(e.gain_t_ha, e.estimator.c_str());
        expect_finite(e.se_t_ha, e.estimator.c_str());
        expect_finite(e.df, e.estimator.c_str());
        expect_finite(e.ci95_t_ha, e.estimator.c_str());
    }
    for (const BudgetLine& line : c.budget)
        EXPECT_TRUE(std::isfinite(line.u_t_ha) && line.df > 0.0) << line.source;
    EXPECT_FALSE(c.leaves_out.empty());
    const bool shown = c.finding == Finding::gain || c.finding == Finding::loss;
    const bool replicated = c.evidence == Evidence::replicated || c.evidence == Evidence::replicated_randomised;
    EXPECT_TRUE(!shown || (replicated && c.unit_n >= 3)) << finding_word(c.finding);
    EXPECT_TRUE(c.ci95_total_t_ha.has_value() || !shown);
}

inline void expect_no_nan(const Comparison& comparison) {
    for (const FieldComparison& field : comparison.fields)
        for (const Contrast& contrast : field.contrasts)
            expect_no_nan(contrast);
    std::vector<FarmContrast> rows = comparison.farm;
    rows.insert(rows.end(), comparison.seasons.begin(), comparison.seasons.end());
    for (const FarmContrast& row : rows) {
        for (const auto& value :
             {row.gain_t_ha, row.se_t_ha, row.df, row.p, row.tau_t_ha, row.i2_pct, row.u_shared_t_ha, row.u_total_t_ha,
              row.df_total, row.p_adjusted, row.between_years_t_ha, row.these_fields_gain_t_ha})
            expect_finite(value, "farm");
        expect_finite(row.these_fields_ci95_total_t_ha, "these fields");
        expect_finite(row.ci95_t_ha, "farm ci95");
        expect_finite(row.ci95_total_t_ha, "farm ci95_total");
        expect_finite(row.prediction95_t_ha, "farm prediction95");
    }
}

} // namespace quartercut::testing
