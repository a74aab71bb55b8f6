// SPDX-License-Identifier: MIT
// Sums that keep their digits, and random draws that are the same on every machine.
#include "base/random.hpp"
#include "base/sum.hpp"

#include <algorithm>
#include <array>
#include <gtest/gtest.h>
#include <limits>
#include <vector>

namespace quartercut {
namespace {

// Neumaier's own example: the plain sum and Kahan's give 0.
TEST(Sums, KeepWhatAPlainSumLoses) {
    const std::vector<double> terms{1.0, 1e100, 1.0, -1e100};
    EXPECT_EQ(sum_of(terms), 2.0);
}

TEST(Sums, OfManySmallTermsAreExactToTheLastDigits) {
    Sum sum;
    double plain = 0.0;
    for (int i = 0; i < 10000000; ++i) {
        sum += 0.1;
        plain += 0.1;
    }
    EXPECT_NEAR(sum.value(), 1e6, 1e-9);
    EXPECT_GT(std::abs(plain - 1e6), 1e-5); // or this test would show nothing
}

TEST(Sums, SayInfinityAndNotANumberAsTheyAre) {
    Sum sum;
    sum += std::numeric_limits<double>::infinity();
    sum += 1.0;
    EXPECT_EQ(sum.value(), std::numeric_limits<double>::infinity());
    sum -= std::numeric_limits<double>::infinity();
    EXPECT_TRUE(std::isnan(sum.value()));
    EXPECT_EQ(Sum().value(), 0.0);
}

// [rand.predef] of the C++ standard: the 10 000th draw of a default mt19937_64 is 9981545732273789042.
TEST(RandomDraws, ComeFromTheEngineTheStandardFixes) {
    Random random(5489);
    std::uint64_t last = 0;
    for (int i = 0; i < 10000; ++i)
        last = random.bits();
    EXPECT_EQ(last, 9981545732273789042ULL);
}

TEST(RandomDraws, OfOneSeedAreTheSameEveryTime) {
    Random one(42), other(42), third(43);
    EXPECT_EQ(one.normal(), other.normal());
    EXPECT_EQ(one.uniform(), other.uniform());
    EXPECT_NE(one.uniform(), third.uniform());
}

// SplitMix64 from state 0: its first outputs, from memory of the published reference program.
TEST(RandomDraws, HaveIndependentStreams) {
    EXPECT_EQ(stream_seed(0, 0), 0xE220A8397B1DCDAFULL);
    EXPECT_EQ(stream_seed(0, 1), 0x6E789E6AA1B965F4ULL);
    EXPECT_NE(stream_seed(1, 0), stream_seed(0, 0));
}

// FNV-1a of "a", 64 bits: AF63DC4C8601EC8C (test vectors of draft-eastlake-fnv, from memory).
TEST(RandomDraws, OfANameAreAStreamOfItsOwn) {
    EXPECT_EQ(stream_seed(7, std::string_view("a")), stream_seed(7, 0xAF63DC4C8601EC8CULL));
    EXPECT_NE(stream_seed(7, std::string_view("NE 4")), stream_seed(7, std::string_view("NW 4")));
}

TEST(RandomDraws, StayInTheirRange) {
    Random random(1);
    for (int i = 0; i < 100000; ++i) {
        const double u = random.uniform();
        EXPECT_GE(u, 0.0);
        EXPECT_LT(u, 1.0);
        EXPECT_LT(random.below(7), 7U);
    }
    EXPECT_EQ(random.below(1), 0U);
}

// Mean, variance and fourth moment of the standard normal are 0, 1 and 3; five standard errors are allowed.
TEST(RandomDraws, OfTheNormalHaveItsMoments) {
    Random random(11);
    const int n = 1000000;
    double first = 0.0, second = 0.0, fourth = 0.0;
    for (int i = 0; i < n; ++i) {
        const double z = random.normal();
        first += z / n;
        second += z * z / n;
        fourth += z * z * z * z / n;
    }
    EXPECT_NEAR(first, 0.0, 0.005);
    EXPECT_NEAR(second, 1.0, 5 * 0.0015);
    EXPECT_NEAR(fourth, 3.0, 5 * 0.0098);
}

// Chi-squared on 5 degrees of freedom exceeds 20.5 once in a thousand (from memory of the tables); the seed is fixed.
TEST(RandomDraws, ShuffleEveryOrderAlike) {
    Random random(12);
    std::array<int, 6> counts{};
    const std::vector<std::vector<int>> orders{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    for (int i = 0; i < 60000; ++i) {
        std::vector<int> items{0, 1, 2};
        random.shuffle(items);
        ++counts.at(static_cast<std::size_t>(std::find(orders.begin(), orders.end(), items) - orders.begin()));
    }
    double chi_squared = 0.0;
    for (const int count : counts)
        chi_squared += (count - 10000.0) * (count - 10000.0) / 10000.0;
    EXPECT_LT(chi_squared, 20.5);
}

} // namespace
} // namespace quartercut
