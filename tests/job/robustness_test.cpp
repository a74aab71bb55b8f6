// SPDX-License-Identifier: MIT
// Re-runs with one thing changed: where no delay was found, a typical one is tried and its effect is in the budget.
#include "../cli/text_season.hpp"
#include "quartercut/job.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace quartercut {
namespace {

const Estimate* row_of(const Contrast& contrast, const std::string& words) {
    for (const Estimate& row : contrast.robustness)
        if (row.estimator == words) return &row;
    return nullptr;
}

double budget_u(const Contrast& contrast, const std::string& source) {
    for (const BudgetLine& line : contrast.budget)
        if (line.source == source) return line.u_t_ha;
    return std::nan("");
}

Results computed(int jobs) {
    const test::SeasonFolder folder(test::text_season());
    JobOptions options;
    options.jobs = jobs;
    return compute_season(folder.path() / "season.toml", options);
}

TEST(Robustness, CountsADelayThatWasNotFoundAsUnknown) {
    const Results results = computed(1);
    ASSERT_TRUE(results.cleaned.lag.at(0).not_found) << results.cleaned.lag[0].why;
    const Contrast& contrast = results.comparison.fields.at(0).contrasts.at(0);
    const Estimate* late = row_of(contrast, "readings taken as 12 s late where no delay was found");
    ASSERT_NE(late, nullptr);
    ASSERT_TRUE(late->gain_t_ha && contrast.gain_t_ha);
    // As likely shifted already as not: root mean square of an error of nothing or of d.
    const double least_u = std::abs(*late->gain_t_ha - *contrast.gain_t_ha) / std::sqrt(2.0);
    EXPECT_GT(least_u, 0.0);
    EXPECT_GE(budget_u(contrast, "lag and ramps"), least_u);
}

TEST(Robustness, GivesTheSameForAnyNumberOfThreads) {
    const Results one = computed(1), many = computed(4);
    const Contrast& a = one.comparison.fields.at(0).contrasts.at(0);
    const Contrast& b = many.comparison.fields.at(0).contrasts.at(0);
    ASSERT_EQ(a.robustness.size(), b.robustness.size());
    ASSERT_GT(a.robustness.size(), 10U);
    for (std::size_t k = 0; k < a.robustness.size(); ++k) {
        EXPECT_EQ(a.robustness[k].estimator, b.robustness[k].estimator);
        EXPECT_EQ(a.robustness[k].gain_t_ha, b.robustness[k].gain_t_ha);
        EXPECT_EQ(a.robustness[k].se_t_ha, b.robustness[k].se_t_ha);
    }
    EXPECT_EQ(a.u_total_t_ha, b.u_total_t_ha);
}

} // namespace
} // namespace quartercut
