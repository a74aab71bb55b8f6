// SPDX-License-Identifier: MIT
// Mixed models with random blocks and Kenward-Roger errors against lme4 1.1-31, pbkrtest 0.5.2 and nlme 3.1-162
// (R 4.2.2).
#include "compare/components.hpp"

#include "csv.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using testing::codes;
using testing::numbers;
using testing::read_csv;

void expect_close(double value, double expected, double tolerance) {
    EXPECT_LT(std::abs(value - expected), tolerance * std::abs(expected)) << value << " against " << expected;
}

/// Columns of treatment contrasts: 1 where the code is k, for k = 1 .. levels - 1.
MatrixXd indicators(const std::vector<int>& code, int levels) {
    MatrixXd out = MatrixXd::Zero(static_cast<Index>(code.size()), levels - 1);
    for (std::size_t i = 0; i < code.size(); ++i)
        if (code[i] > 0) out(static_cast<Index>(i), code[i] - 1) = 1.0;
    return out;
}

VectorXd as_vector(const std::vector<double>& values) {
    return Eigen::Map<const VectorXd>(values.data(), static_cast<Index>(values.size()));
}

/// lme(Y ~ V * N, random = ~ 1 | B/V) on Yates's oats, or V + N.
ComponentModel oats(bool interaction) {
    const auto csv = read_csv("oats.csv");
    const auto block = codes(csv.at("B"));
    const auto variety = codes(csv.at("V"));
    const auto nitrogen = codes(csv.at("N"));
    std::vector<int> plot;
    for (std::size_t i = 0; i < block.size(); ++i)
        plot.push_back(block[i] * 3 + variety[i]);
    const MatrixXd v = indicators(variety, 3);
    const MatrixXd n = indicators(nitrogen, 4);
    ComponentModel model;
    model.x = MatrixXd::Ones(72, interaction ? 12 : 6);
    model.x.middleCols(1, 2) = v;
    model.x.middleCols(3, 3) = n;
    if (interaction)
        for (Index i = 0; i < 2; ++i)
            for (Index j = 0; j < 3; ++j)
                model.x.col(6 + 3 * i + j) = v.col(i).cwiseProduct(n.col(j));
    model.y = as_vector(numbers(csv, "Y"));
    model.parts = {group_part(block), group_part(plot), identity_part(72)};
    return model;
}

TEST(Oats, SplitPlotVariances) {
    const auto fit = fit_components(oats(false));
    ASSERT_TRUE(fit.has_value());
    expect_close(fit->theta(0), 214.4722333, 1e-4);
    expect_close(fit->theta(1), 109.6931477, 1e-4);
    expect_close(fit->theta(2), 162.5590525, 1e-4);
    expect_close(fit->loglik, -284.0343775, 1e-7);
}

TEST(Oats, KenwardRogerTests) {
    const ComponentModel model = oats(false);
    const auto fit = fit_components(model);
    ASSERT_TRUE(fit.has_value());
    const KenwardRoger kr = kenward_roger(model, *fit);
    MatrixXd varieties = MatrixXd::Zero(6, 2);
    varieties(1, 0) = varieties(2, 1) = 1.0;
    const auto v = kr.f_test(varieties);
    expect_close(v.f, 1.48534, 1e-5);
    expect_close(v.denominator_df, 10.0, 1e-5);
    MatrixXd nitrogen = MatrixXd::Zero(6, 3);
    nitrogen(3, 0) = nitrogen(4, 1) = nitrogen(5, 2) = 1.0;
    const auto n = kr.f_test(nitrogen);
    expect_close(n.f, 41.05283, 1e-5);
    expect_close(n.denominator_df, 51.0, 1e-5);
}

// Wheat2 in randomised complete blocks: lme(yield ~ variety - 1, random = ~ 1 | Block), nlme 3.1-162.
TEST(Wheat2Blocks, VarianceComponents) {
    const auto csv = read_csv("wheat2.csv");
    const auto variety = codes(csv.at("variety"));
    ComponentModel model;
    model.x = MatrixXd::Zero(224, 56);
    for (Index i = 0; i < 224; ++i)
        model.x(i, variety[static_cast<std::size_t>(i)]) = 1.0;
    model.y = as_vector(numbers(csv, "yield"));
    model.parts = {group_part(codes(csv.at("Block"))), identity_part(224)};
    const auto fit = fit_components(model);
    ASSERT_TRUE(fit.has_value());
    expect_close(fit->theta(0), 9.882910714, 1e-4);
    expect_close(fit->theta(1), 49.582368304, 1e-5);
    expect_close(fit->loglik, -608.8507662, 1e-8);
    Index arapahoe = 0;
    Index lancer = 0;
    for (std::size_t i = 0; i < variety.size(); ++i) {
        if (csv.at("variety")[i] == "ARAPAHOE") arapahoe = variety[i];
        if (csv.at("variety")[i] == "LANCER") lancer = variety[i];
    }
    VectorXd c = VectorXd::Zero(56);
    c(arapahoe) = 1.0;
    c(lancer) = -1.0;
    expect_close(c.dot(fit->beta), 0.875, 1e-6);
    expect_close(std::sqrt(c.dot(fit->phi * c)), 4.979075, 1e-5);
}

/// Immer's barley stacked year upon year, some rows dropped, farm-variety as random block.
ComponentModel immer_without(const std::vector<std::size_t>& dropped_1_based) {
    const auto csv = read_csv("immer.csv");
    const auto first = numbers(csv, "Y1");
    const auto second = numbers(csv, "Y2");
    std::vector<double> y;
    std::vector<int> block;
    std::vector<double> is_second;
    for (std::size_t row = 1; row <= 60; ++row) {
        if (std::find(dropped_1_based.begin(), dropped_1_based.end(), row) != dropped_1_based.end()) continue;
        const std::size_t i = (row - 1) % 30;
        y.push_back(row <= 30 ? first[i] : second[i]);
        block.push_back(static_cast<int>(i));
        is_second.push_back(row <= 30 ? 0.0 : 1.0);
    }
    ComponentModel model;
    const auto n = static_cast<Index>(y.size());
    model.x = MatrixXd::Ones(n, 2);
    model.x.col(1) = as_vector(is_second);
    model.y = as_vector(y);
    model.parts = {group_part(block), identity_part(n)};
    return model;
}

TEST(Immer, UnequalBlocksByKenwardRogerAndSatterthwaite) {
    const ComponentModel model = immer_without({1, 5, 9, 33}); // lmer + pbkrtest / lmerTest
    const auto fit = fit_components(model);
    ASSERT_TRUE(fit.has_value());
    const KenwardRoger kr = kenward_roger(model, *fit);
    const VectorXd c = Eigen::Vector2d(0.0, 1.0);
    const MeanTest test = kr.contrast(c);
    expect_close(test.estimate, -14.15363403, 1e-5);
    expect_close(test.se, 5.254828204, 1e-5);
    const MeanTest plain = kr.satterthwaite(c);
    expect_close(plain.se, 5.237768486, 1e-5);
    MatrixXd l(2, 1);
    l.col(0) = c;
    expect_close(kr.f_test(l).denominator_df, 27.00228189, 1e-4);
    // lmerTest takes the curvature of the deviance, we the expected information: near, not equal.
    EXPECT_NEAR(plain.df, 26.32962328, 0.75);
}

TEST(Immer, EqualBlocksGiveThePairedT) {
    const ComponentModel model = immer_without({});
    const auto fit = fit_components(model);
    ASSERT_TRUE(fit.has_value());
    const MeanTest test = kenward_roger(model, *fit).contrast(Eigen::Vector2d(0.0, 1.0));
    expect_close(test.t(), -3.3239873, 1e-5); // t.test(Y1, Y2, paired = TRUE), R 4.2.2
    expect_close(test.df, 29.0, 1e-4);
}

// lmer(sugpct ~ block + sow + harvest + (1 | block:harvest)) against the same without harvest: KRmodcomp, pbkrtest 0.5.2.
TEST(Beets, KenwardRogerTestOfTheHarvest) {
    const auto csv = read_csv("beets.csv");
    const auto block = codes(csv.at("block"));
    const auto sow = codes(csv.at("sow"));
    const auto harvest = codes(csv.at("harvest"));
    ComponentModel model;
    model.x = MatrixXd::Zero(30, 8);
    std::vector<int> plot;
    for (std::size_t i = 0; i < 30; ++i) {
        const auto row = static_cast<Index>(i);
        model.x(row, 0) = 1.0;
        if (block[i] > 0) model.x(row, block[i]) = 1.0;
        if (sow[i] > 0) model.x(row, 2 + sow[i]) = 1.0;
        model.x(row, 7) = harvest[i];
        plot.push_back(2 * block[i] + harvest[i]);
    }
    model.y = as_vector(numbers(csv, "sugpct"));
    model.parts = {group_part(plot), identity_part(30)};
    const auto fit = fit_components(model);
    ASSERT_TRUE(fit.has_value());
    MatrixXd l = MatrixXd::Zero(8, 1);
    l(7, 0) = 1.0;
    const auto test = kenward_roger(model, *fit).f_test(l);
    expect_close(test.f, 15.21053, 1e-5);
    expect_close(test.denominator_df, 2.0, 1e-4);
    EXPECT_NEAR(t_two_sided_p(std::sqrt(test.f), test.denominator_df), 0.05989785, 1e-6);
}

// lmer(Reaction ~ Days + (Days | Subject)), lme4 1.1-31: levels and slopes of 18 people vary together, so the model has
// a part that is neither a group nor independent.
TEST(Sleepstudy, LevelsAndSlopesThatVaryTogether) {
    const auto csv = read_csv("sleepstudy.csv");
    const VectorXd days = as_vector(numbers(csv, "Days"));
    const auto subject = codes(csv.at("Subject"));
    ComponentModel model;
    model.x = MatrixXd::Ones(180, 2);
    model.x.col(1) = days;
    model.y = as_vector(numbers(csv, "Reaction"));
    CovariancePart both;
    CovariancePart slopes;
    both.dense = MatrixXd::Zero(180, 180);
    slopes.dense = MatrixXd::Zero(180, 180);
    for (Index i = 0; i < 180; ++i)
        for (Index j = 0; j < 180; ++j) {
            if (subject[static_cast<std::size_t>(i)] != subject[static_cast<std::size_t>(j)]) continue;
            both.dense(i, j) = days(i) + days(j);
            slopes.dense(i, j) = days(i) * days(j);
        }
    model.parts = {group_part(subject), both, slopes, identity_part(180)};
    const auto fit = fit_components(model);
    ASSERT_TRUE(fit.has_value());
    expect_close(-2.0 * fit->loglik, 1743.628272, 1e-7);
    expect_close(std::sqrt(fit->theta(0)), 24.740657995, 1e-3);
    expect_close(std::sqrt(fit->theta(2)), 5.922137659, 1e-3);
    const MeanTest test = kenward_roger(model, *fit).contrast(Eigen::Vector2d(0.0, 1.0));
    expect_close(test.estimate, 10.46728596, 1e-6);
    expect_close(test.se, 1.545789644, 1e-4);
    expect_close(test.df, 17.0, 1e-3);
}

} // namespace
} // namespace quartercut::contrast
