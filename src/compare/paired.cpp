// SPDX-License-Identifier: MIT
// Paired t, sign-flip, Welch and Holm.
#include "compare/paired.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>
#include <random>

namespace quartercut::contrast {
namespace {

constexpr std::size_t exact_limit = 20;
constexpr std::uint64_t random_flips = 10000;

double mean_of(std::span<const double> values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double variance_of(std::span<const double> values, double mean) {
    double sum = 0.0;
    for (const double value : values)
        sum += (value - mean) * (value - mean);
    return sum / static_cast<double>(values.size() - 1);
}

/// Sums that differ only by rounding count as ties: a tie is "as large".
double tie_slack(std::span<const double> differences) {
    double size = 0.0;
    for (const double d : differences)
        size += std::abs(d);
    return 1e-9 * size;
}

SignFlip flip_all(std::span<const double> differences) {
    SignFlip result;
    const std::size_t k = differences.size();
    result.total = std::uint64_t{1} << k;
    double sum = std::accumulate(differences.begin(), differences.end(), 0.0);
    const double bar = std::abs(sum) - tie_slack(differences);
    std::vector<double> sign(k, 1.0);
    // Gray code: from one assignment to the next only one sign turns.
    for (std::uint64_t step = 1;; ++step) {
        if (std::abs(sum) >= bar) ++result.as_large;
        if (step == result.total) return result;
        const auto turned = static_cast<std::size_t>(std::countr_zero(step));
        sign[turned] = -sign[turned];
        sum += 2.0 * sign[turned] * differences[turned];
    }
}

SignFlip flip_some(std::span<const double> differences, std::uint64_t seed) {
    SignFlip result{1, random_flips + 1, false};
    const double observed = std::accumulate(differences.begin(), differences.end(), 0.0);
    const double bar = std::abs(observed) - tie_slack(differences);
    std::mt19937_64 random(seed);
    for (std::uint64_t draw = 0; draw < random_flips; ++draw) {
        double sum = 0.0;
        std::uint64_t bits = 0;
        for (std::size_t i = 0; i < differences.size(); ++i) {
            if (i % 64 == 0) bits = random();
            sum += (bits & 1U) != 0 ? differences[i] : -differences[i];
            bits >>= 1U;
        }
        if (std::abs(sum) >= bar) ++result.as_large;
    }
    return result;
}

} // namespace

double SignFlip::p() const { return static_cast<double>(as_large) / static_cast<double>(total); }

std::optional<MeanTest> paired_t(std::span<const double> differences) {
    if (differences.size() < 2) return std::nullopt;
    const auto k = static_cast<double>(differences.size());
    const double mean = mean_of(differences);
    return MeanTest{mean, std::sqrt(variance_of(differences, mean) / k), k - 1.0};
}

SignFlip sign_flip(std::span<const double> differences, std::uint64_t seed) {
    return differences.size() <= exact_limit ? flip_all(differences) : flip_some(differences, seed);
}

std::optional<MeanTest> welch_t(std::span<const double> a, std::span<const double> b) {
    if (a.size() < 2 || b.size() < 2) return std::nullopt;
    const auto n_a = static_cast<double>(a.size());
    const auto n_b = static_cast<double>(b.size());
    const double mean_a = mean_of(a);
    const double mean_b = mean_of(b);
    const double v_a = variance_of(a, mean_a) / n_a;
    const double v_b = variance_of(b, mean_b) / n_b;
    const double v = v_a + v_b;
    if (v <= 0.0) return MeanTest{mean_a - mean_b, 0.0, std::min(n_a, n_b) - 1.0};
    const double df = v * v / (v_a * v_a / (n_a - 1.0) + v_b * v_b / (n_b - 1.0));
    return MeanTest{mean_a - mean_b, std::sqrt(v), df};
}

std::vector<double> holm_adjusted(std::span<const double> p) {
    std::vector<std::size_t> order(p.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) { return p[i] < p[j]; });
    std::vector<double> adjusted(p.size());
    double running = 0.0;
    for (std::size_t rank = 0; rank < order.size(); ++rank) {
        running = std::max(running, p[order[rank]] * static_cast<double>(p.size() - rank));
        adjusted[order[rank]] = std::min(1.0, running);
    }
    return adjusted;
}

} // namespace quartercut::contrast
