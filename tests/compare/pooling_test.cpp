// SPDX-License-Identifier: MIT
// Random-effects pooling against metafor 3.8-1 (R 4.2.2) on data of metadat 1.2-0.
#include "compare/pooling.hpp"

#include "compare/components.hpp"
#include "csv.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace quartercut::contrast {
namespace {

using testing::codes;
using testing::numbers;
using testing::read_csv;

void expect_close(double value, double expected, double tolerance = 1e-6) {
    EXPECT_LT(std::abs(value - expected), tolerance * std::abs(expected)) << value << " against " << expected;
}

struct Trials {
    std::vector<double> y, v;
};

Trials bcg() {
    const auto csv = read_csv("bcg.csv");
    return {numbers(csv, "yi"), numbers(csv, "vi")};
}

TEST(Pooling, ByDerSimonianAndLaird) {
    const Trials t = bcg();
    const Pooled pooled = pool(t.y, t.v, TauMethod::der_simonian_laird);
    expect_close(pooled.mean, -0.7141172221);
    expect_close(pooled.se, 0.1787420895);
    expect_close(pooled.tau2, 0.3087602629);
    expect_close(pooled.q0, 152.2330081);
}

TEST(Pooling, ByPauleAndMandel) {
    const Trials t = bcg();
    const Pooled pooled = pool(t.y, t.v, TauMethod::paule_mandel);
    // metafor stops at 1e-5 of its own step; what defines the estimate, Q = k - 1, we meet to the last digits.
    expect_close(pooled.mean, -0.7149704056, 1e-4);
    expect_close(pooled.se, 0.1808979841, 1e-4);
    expect_close(pooled.tau2, 0.3180937119, 1e-4);
    double q = 0.0;
    for (std::size_t i = 0; i < t.y.size(); ++i)
        q += (t.y[i] - pooled.mean) * (t.y[i] - pooled.mean) / (t.v[i] + pooled.tau2);
    expect_close(q, 12.0, 1e-9);
}

TEST(Pooling, ByRestrictedLikelihood) {
    const Trials t = bcg();
    const Pooled pooled = pool(t.y, t.v, TauMethod::reml);
    expect_close(pooled.mean, -0.7145323422);
    expect_close(pooled.se, 0.1797815161);
    expect_close(pooled.tau2, 0.3132432581);
    expect_close(pooled.i2_pct, 92.2214);
    expect_close(pooled.h2, 12.8558, 1e-5);
    expect_close(pooled.se_hk, 0.1807917441);
    expect_close(pooled.mean / pooled.se_hk, -3.9522399);
    expect_close(pooled.mhk().ci95()[0], -1.108443714);
    expect_close(pooled.mhk().ci95()[1], -0.3206209706);
    const Interval next = prediction_interval(pooled);
    expect_close(next[0], -1.996016834);
    expect_close(next[1], 0.5669521499);
}

TEST(Pooling, ProfilesQForTheBetweenFieldVariance) {
    const Trials t = bcg();
    const Interval tau2 = tau2_interval(t.y, t.v);
    // metafor finds the ends by uniroot with its default tolerance of 1.2e-4
    EXPECT_NEAR(tau2[0], 0.1196953128, 1.2e-4);
    EXPECT_NEAR(tau2[1], 1.111486262, 1.2e-4);
}

TEST(Pooling, NeverNarrowsWhenFieldsAgreeTooWell) {
    Trials t = bcg();
    t.y.resize(4);
    t.v.resize(4);
    const Pooled pooled = pool(t.y, t.v, TauMethod::reml);
    EXPECT_EQ(pooled.tau2, 0.0);
    expect_close(pooled.se_hk, 0.0756746927);
    expect_close(pooled.se_mhk, 0.1284660858);
    expect_close(pooled.mhk().ci95()[0], -1.830880753);
    expect_close(pooled.mhk().ci95()[1], -1.013207913);
}

TEST(Pooling, ShrinksSingleTrials) {
    const Trials t = bcg();
    const Pooled pooled = pool(t.y, t.v, TauMethod::reml);
    const std::vector<std::pair<std::size_t, std::pair<double, double>>> expected{
        {0, {-0.800234, 0.409930}}, {3, {-1.397898, 0.137568}}, {7, {0.002879, 0.062587}}};
    for (const auto& [i, blup] : expected) {
        const Shrunk s = shrink(pooled, t.y[i], t.v[i]);
        EXPECT_NEAR(s.effect, blup.first, 2e-6);
        EXPECT_NEAR(s.se, blup.second, 2e-6);
    }
}

TEST(Pooling, OfUnequallyPreciseDifferences) {
    const auto csv = read_csv("normand1999.csv");
    const auto y = numbers(csv, "yi");
    const auto v = numbers(csv, "vi");
    const Pooled reml = pool(y, v, TauMethod::reml);
    expect_close(reml.mean, -15.10602747);
    expect_close(reml.se, 8.946552846);
    expect_close(reml.tau2, 684.6461529);
    expect_close(reml.se_hk, 9.198908747);
    expect_close(pool(y, v, TauMethod::paule_mandel).tau2, 728.2511286);
    expect_close(pool(y, v, TauMethod::der_simonian_laird).tau2, 205.4093755);
    expect_close(reml.q0, 238.9158109);
}

TEST(Pooling, OfFieldsWithinYears) {
    // rma.mv(yi, vi, random = ~ 1 | district/school), metafor 3.8-1
    const auto csv = read_csv("konstantopoulos2011.csv");
    const auto fit = pool_two_level(numbers(csv, "yi"), numbers(csv, "vi"), codes(csv.at("district")));
    ASSERT_TRUE(fit.has_value());
    expect_close(fit->between_years2, 0.06506194, 1e-4);
    expect_close(fit->between_fields2, 0.03273652, 1e-4);
    expect_close(fit->mean.estimate, 0.18471316, 1e-5);
    expect_close(fit->mean.se, 0.08455592, 1e-4);
    // metafor adds ln|X'X| / 2 to the restricted likelihood
    expect_close(fit->loglik + 0.5 * std::log(56.0), -7.958724, 1e-5);
}

TEST(Pooling, OfOneMoreModerator) {
    // rma(yi, vi, mods = ~ ablat), REML: intercept 0.2515 (0.2491), slope -0.0291017 (0.0072), tau2 0.0764
    const auto csv = read_csv("bcg.csv");
    const auto y = numbers(csv, "yi");
    const auto v = numbers(csv, "vi");
    const auto latitude = numbers(csv, "ablat");
    ComponentModel model;
    model.x = Eigen::MatrixXd::Ones(13, 2);
    model.x.col(1) = Eigen::Map<const Eigen::VectorXd>(latitude.data(), 13);
    model.y = Eigen::Map<const Eigen::VectorXd>(y.data(), 13);
    model.known = Eigen::Map<const Eigen::VectorXd>(v.data(), 13).asDiagonal();
    model.parts = {identity_part(13)};
    const auto fit = fit_components(model);
    ASSERT_TRUE(fit.has_value());
    EXPECT_NEAR(fit->beta(0), 0.2515, 5e-5);
    EXPECT_NEAR(std::sqrt(fit->phi(0, 0)), 0.2491, 5e-5);
    EXPECT_NEAR(fit->beta(1), -0.0291017, 5e-7);
    EXPECT_NEAR(std::sqrt(fit->phi(1, 1)), 0.0072, 5e-5);
    EXPECT_NEAR(fit->theta(0), 0.0764, 1e-4);
}

} // namespace
} // namespace quartercut::contrast
