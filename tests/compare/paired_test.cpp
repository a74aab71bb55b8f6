// SPDX-License-Identifier: MIT
// Paired t, sign-flip, Welch and power against R 4.2.2 (t.test, exact enumeration, power.t.test with strict = TRUE).
#include "compare/paired.hpp"

#include "csv.hpp"
#include "mercer_hall.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace quartercut::contrast {
namespace {

using testing::mercer_hall;
using testing::numbers;
using testing::read_csv;

std::vector<double> minus(const std::vector<double>& a, const std::vector<double>& b) {
    std::vector<double> out;
    for (std::size_t i = 0; i < a.size(); ++i)
        out.push_back(a[i] - b[i]);
    return out;
}

double relative(double value, double expected) { return std::abs(value / expected - 1.0); }

TEST(PairedT, AgreesWithRForTheBarleyOfImmer) {
    const auto csv = read_csv("immer.csv"); // MASS; t.test(Y1, Y2, paired = TRUE), R 4.2.2
    const MeanTest test = *paired_t(minus(numbers(csv, "Y1"), numbers(csv, "Y2")));
    EXPECT_LT(relative(test.estimate, 15.91333333), 1e-6);
    EXPECT_LT(relative(test.t(), 3.3239873), 1e-6);
    EXPECT_DOUBLE_EQ(test.df, 29.0);
    EXPECT_LT(relative(test.p(), 0.002412634), 1e-5);
    EXPECT_LT(relative(test.ci95()[0], 6.121953867), 1e-6);
    EXPECT_LT(relative(test.ci95()[1], 25.7047128), 1e-6);
}

TEST(PairedT, AgreesWithRForStudentsSleepers) {
    // Student 1908, R's `sleep`: extra hours under two drugs, the same ten people.
    const std::vector<double> first{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
    const std::vector<double> second{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
    const MeanTest paired = *paired_t(minus(first, second));
    EXPECT_LT(relative(paired.t(), -4.0621277), 1e-6);
    EXPECT_LT(relative(paired.p(), 0.00283289), 1e-5);
    const MeanTest welch = *welch_t(first, second);
    EXPECT_LT(relative(welch.t(), -1.860813467), 1e-6);
    EXPECT_LT(relative(welch.df, 17.77647), 1e-6);
    EXPECT_LT(relative(welch.p(), 0.07939414), 1e-6);
}

TEST(PairedT, AgreesWithRForMercerAndHallsColumns) {
    const MeanTest test = *paired_t(mercer_hall().pair_differences()); // R 4.2.2
    EXPECT_LT(relative(test.estimate, 0.0565), 1e-6);
    EXPECT_LT(relative(test.se * std::sqrt(12.0), 0.2875997851), 1e-6);
    EXPECT_LT(relative(test.se, 0.08302290666), 1e-6);
    EXPECT_LT(relative(test.t(), 0.6805350749), 1e-6);
}

TEST(PairedT, NeedsTwoDifferences) {
    EXPECT_FALSE(paired_t(std::vector<double>{1.0}).has_value());
    EXPECT_FALSE(paired_t(std::vector<double>{}).has_value());
}

TEST(SignFlip, CountsDarwinsMaizeAsFisherDid) {
    // boot::darwin; Fisher (1935) counted 863 one-sided. R 4.2.2: 1726 of 32768 two-sided.
    const SignFlip flip = sign_flip(numbers(read_csv("darwin.csv"), "diff"), 1);
    EXPECT_TRUE(flip.exact);
    EXPECT_EQ(flip.as_large, 1726U);
    EXPECT_EQ(flip.total, 32768U);
    EXPECT_LT(relative(flip.p(), 0.05267333984), 1e-9);
    const MeanTest t = *paired_t(numbers(read_csv("darwin.csv"), "diff"));
    EXPECT_LT(relative(t.t(), 2.1479875), 1e-6);
    EXPECT_LT(relative(t.p(), 0.04970294), 1e-6);
}

TEST(SignFlip, CountsTheShoes) {
    const auto csv = read_csv("shoes.csv"); // MASS; R 4.2.2
    const auto differences = minus(numbers(csv, "A"), numbers(csv, "B"));
    const SignFlip flip = sign_flip(differences, 1);
    EXPECT_EQ(flip.as_large, 14U);
    EXPECT_EQ(flip.total, 1024U);
    const MeanTest t = *paired_t(differences);
    EXPECT_LT(relative(t.t(), -3.3488765), 1e-6);
    EXPECT_LT(relative(t.p(), 0.008538781), 1e-6);
}

TEST(SignFlip, CannotReachFivePercentWithFivePairs) {
    const std::vector<double> all_up{0.11, 0.12, 0.13, 0.14, 0.15};
    EXPECT_DOUBLE_EQ(sign_flip(all_up, 1).p(), 2.0 / 32.0);
    const std::vector<double> six{0.11, 0.12, 0.13, 0.14, 0.15, 0.16};
    EXPECT_DOUBLE_EQ(sign_flip(six, 1).p(), 2.0 / 64.0);
}

TEST(SignFlip, DrawsTheSameForTheSameSeed) {
    std::vector<double> many;
    for (int i = 0; i < 25; ++i)
        many.push_back(std::sin(i) + 0.25);
    const SignFlip once = sign_flip(many, 7);
    EXPECT_FALSE(once.exact);
    EXPECT_EQ(once.as_large, sign_flip(many, 7).as_large);
    EXPECT_GT(once.p(), 0.0);
}

// No treatment was ever applied to Mercer & Hall's wheat. Over all 4096 ways of assigning two fake methods within the
// 12 column pairs, paired t must find one in 5 % of them (0.0498046875 by R 4.2.2, full enumeration).
TEST(PairedT, FindsNothingMoreThanItPromisesInAUniformField) {
    const std::vector<double> d = mercer_hall().pair_differences();
    int found = 0;
    double sum_squares = 0.0;
    for (unsigned bits = 0; bits < 4096U; ++bits) {
        std::vector<double> flipped;
        for (unsigned k = 0; k < 12U; ++k)
            flipped.push_back((bits >> k & 1U) != 0 ? -d[k] : d[k]);
        const MeanTest test = *paired_t(flipped);
        sum_squares += test.estimate * test.estimate;
        if (test.p() < 0.05) ++found;
    }
    EXPECT_DOUBLE_EQ(found / 4096.0, 0.0498046875);
    EXPECT_LT(relative(std::sqrt(sum_squares / 4096.0), 0.08114446137), 1e-6);
}

// The same wheat judged plot by plot: a third of the fake methods "differ". This is why records are never the units.
TEST(PlainT, OnPlotsFindsAThirdOfFakeMethods) {
    const auto wheat = mercer_hall();
    int found = 0;
    for (unsigned bits = 0; bits < 4096U; ++bits) {
        double sum[2] = {0.0, 0.0};
        double square[2] = {0.0, 0.0};
        for (std::size_t i = 0; i < wheat.yield.size(); ++i) {
            if (wheat.column[i] > 24) continue;
            const unsigned pair = static_cast<unsigned>(wheat.column[i] - 1) / 2U;
            const bool second = wheat.column[i] % 2 == 0;
            const std::size_t g = second != ((bits >> pair & 1U) != 0) ? 1 : 0;
            sum[g] += wheat.yield[i];
            square[g] += wheat.yield[i] * wheat.yield[i];
        }
        const double n = 240.0;
        const double pooled = (square[0] - sum[0] * sum[0] / n + square[1] - sum[1] * sum[1] / n) / (2.0 * n - 2.0);
        const double t = (sum[1] - sum[0]) / n / std::sqrt(2.0 * pooled / n);
        if (t_two_sided_p(t, 2.0 * n - 2.0) < 0.05) ++found;
    }
    EXPECT_DOUBLE_EQ(found / 4096.0, 0.3330078125); // R 4.2.2
}

TEST(DetectableDifference, IsTheExactOneNotTheSumOfTwoQuantiles) {
    // power.t.test(type = "paired", power = 0.8, strict = TRUE), R 4.2.2: difference over sd of the pair differences.
    const std::vector<std::pair<int, double>> expected{{3, 3.264},  {4, 2.128},   {5, 1.682},  {6, 1.4346},
                                                       {8, 1.1560}, {10, 0.9960}, {12, 0.8887}};
    for (const auto& [pairs, value] : expected)
        EXPECT_LT(relative(detectable_in_se(pairs - 1.0) / std::sqrt(pairs), value), 5e-4) << pairs << " pairs";
}

TEST(Power, AtOneStandardDeviation) {
    const std::vector<std::pair<int, double>> expected{{3, 0.179}, {4, 0.289},  {5, 0.401}, {6, 0.507},
                                                       {8, 0.681}, {10, 0.803}, {12, 0.883}};
    for (const auto& [pairs, value] : expected)
        EXPECT_NEAR(power_of_t(std::sqrt(pairs), pairs - 1.0), value, 6e-4) << pairs << " pairs"; // R 4.2.2
    EXPECT_NEAR(power_of_t(0.0, 5.0), 0.05, 1e-12);
    EXPECT_NEAR(power_of_t(0.0, 5.0, 0.99), 0.01, 1e-12);
}

TEST(Holm, StepsDownAndStaysMonotone) {
    // p.adjust(c(0.01, 0.04, 0.03, 0.005), "holm"), by hand after Holm (1979)
    const std::vector<double> adjusted = holm_adjusted(std::vector<double>{0.01, 0.04, 0.03, 0.005});
    EXPECT_DOUBLE_EQ(adjusted[0], 0.03);
    EXPECT_DOUBLE_EQ(adjusted[1], 0.06);
    EXPECT_DOUBLE_EQ(adjusted[2], 0.06);
    EXPECT_DOUBLE_EQ(adjusted[3], 0.02);
}

} // namespace
} // namespace quartercut::contrast
