// SPDX-License-Identifier: MIT
// From curves to a delay that may be used, or to a plain reason why none is.
#include "base/random.hpp"

#include "base/words/words.hpp"
#include "clean/lag.hpp"
#include "clean/robust.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

namespace quartercut::cleaning {
namespace {

constexpr std::size_t draws = 200, fewest_pass_pairs = 6;
constexpr std::size_t fit_reach = 8; // +-4 s: the curve is close to a parabola there
constexpr double least_depth = 0.05, telling_depth = 4.0, widest_s = 4.0;
constexpr double telling_t = 3.0;      // the best of many delays looks good by luck: two is not enough
constexpr double halves_apart_s = 3.0; // the first and the last passes must tell the same story
constexpr double left_alone_s = 1.0;   // a rest under one second is no reason to touch the data

double lag_at(double k) { return lag_from_s + lag_step_s * k; }

/// Place (in steps) of the least value: vertex of the parabola fitted by least squares around it.
double lowest(const std::vector<double>& curve) {
    const auto k0 = static_cast<std::size_t>(std::min_element(curve.begin(), curve.end()) - curve.begin());
    const std::size_t reach = std::min({fit_reach, k0, lag_count - 1 - k0});
    if (reach == 0) return static_cast<double>(k0);
    double s2 = 0.0, s4 = 0.0, sy = 0.0, sxy = 0.0, sx2y = 0.0;
    const double n = 2.0 * static_cast<double>(reach) + 1.0;
    for (std::size_t k = k0 - reach; k <= k0 + reach; ++k) {
        const double x = static_cast<double>(k) - static_cast<double>(k0);
        s2 += x * x;
        s4 += x * x * x * x;
        sy += curve[k];
        sxy += x * curve[k];
        sx2y += x * x * curve[k];
    }
    const double bend = (n * sx2y - s2 * sy) / (n * s4 - s2 * s2);
    if (!(bend > 0.0)) return static_cast<double>(k0);
    const double vertex = -0.5 * (sxy / s2) / bend;
    return static_cast<double>(k0) + std::clamp(vertex, -static_cast<double>(reach), static_cast<double>(reach));
}

/// t value, over pass pairs, of how much better the best delay agrees than the average one. Noise alone also has a best
/// delay; its pass pairs do not back it together.
double backing(const std::vector<PassPairCurve>& curves, std::size_t best) {
    const auto n = static_cast<double>(curves.size());
    std::vector<double> better;
    double mean = 0.0, squares = 0.0;
    for (const PassPairCurve& curve : curves) {
        double average = 0.0;
        for (const double value : curve.sum)
            average += value / static_cast<double>(lag_count);
        better.push_back(average - curve.sum[best]);
        mean += better.back() / n;
    }
    for (const double value : better)
        squares += (value - mean) * (value - mean);
    const double se = std::sqrt(squares / (n - 1.0) / n);
    return se > 0.0 ? mean / se : 0.0;
}

/// Seconds between the best delays of the first and of the second half of the pass pairs. Halves share no pass but one:
/// what noise makes of one it does not make of the other.
double apart_s(const std::vector<PassPairCurve>& curves) {
    const std::size_t middle = curves.size() / 2;
    std::vector<double> first(lag_count, 0.0), second(lag_count, 0.0);
    for (std::size_t c = 0; c < curves.size(); ++c)
        for (std::size_t k = 0; k < lag_count; ++k)
            (c < middle ? first : second)[k] += curves[c].sum[k];
    return lag_step_s * std::abs(lowest(first) - lowest(second));
}

template <class Pick>
double lowest_of_draw(const std::vector<PassPairCurve>& curves, std::vector<double>& total, Pick pick) {
    total.assign(lag_count, 0.0);
    double pairs = 0.0;
    for (std::size_t c = 0; c < curves.size(); ++c) {
        const PassPairCurve& curve = curves[pick(c)];
        for (std::size_t k = 0; k < lag_count; ++k)
            total[k] += curve.sum[k];
        pairs += curve.pairs;
    }
    for (double& value : total)
        value /= pairs;
    return lowest(total);
}

/// Relative scatter of a mean squared difference of noise: each window is a draw of its own, and the variance of a
/// squared normal is twice its mean squared.
double noise_of(const std::vector<PassPairCurve>& curves) {
    double windows = 0.0;
    for (const PassPairCurve& curve : curves)
        windows += curve.seconds / lag_window_s;
    return std::sqrt(2.0 / windows);
}

struct Backing {
    double t = 0.0, halves_apart_s = 0.0, noise = 0.0;
};

std::string judge(LagEstimate& lag, std::vector<double> curve, double place, const Backing& backing) {
    const double least = *std::min_element(curve.begin(), curve.end());
    const double middling = median_in_place(curve);
    const double depth = middling > 0.0 ? 1.0 - least / middling : 0.0;
    const double last = static_cast<double>(lag_count - 1);
    if (!(depth >= std::max(least_depth, telling_depth * backing.noise)))
        return fill(spoken().clean.too_even, fmt::arg("pct", 100.0 * depth));
    if (!(backing.t >= telling_t && backing.halves_apart_s <= halves_apart_s)) return spoken().clean.not_backed;
    if (place < 1.0 || place > last - 1.0) return spoken().clean.end_of_range;
    if (lag.high_s - lag.low_s > widest_s)
        return fill(spoken().clean.no_agreement, fmt::arg("low", lag.low_s), fmt::arg("high", lag.high_s));
    lag.not_found = false;
    if (std::abs(lag.lag_s) <= left_alone_s || (lag.low_s <= 0.0 && lag.high_s >= 0.0)) return spoken().clean.shifted;
    if (lag.lag_s < 0.0) return fill(spoken().clean.shifted_early, fmt::arg("seconds", -lag.lag_s));
    lag.applied = true;
    return spoken().clean.found;
}

} // namespace

LagEstimate judge_lag(const std::vector<PassPairCurve>& curves, std::uint64_t seed) {
    LagEstimate lag;
    lag.not_found = true;
    if (curves.size() < fewest_pass_pairs) {
        lag.lag_s = lag.low_s = lag.high_s = nan_value;
        lag.why =
            fill(spoken().clean.few_passes, fmt::arg("pairs", curves.size()), fmt::arg("needed", fewest_pass_pairs));
        return lag;
    }
    std::vector<double> total;
    const double place = lowest_of_draw(curves, total, [](std::size_t c) { return c; });
    std::vector<double> found(draws);
    tbb::parallel_for(std::size_t{0}, draws, [&](std::size_t d) {
        Random random(stream_seed(seed, d));
        std::vector<double> scratch;
        found[d] = lag_at(lowest_of_draw(curves, scratch, [&](std::size_t) { return random.below(curves.size()); }));
    });
    lag.lag_s = lag_at(place);
    lag.low_s = quantile_in_place(found, 0.05);
    lag.high_s = quantile_in_place(found, 0.95);
    const auto best = static_cast<std::size_t>(std::min_element(total.begin(), total.end()) - total.begin());
    lag.why = judge(lag, total, place, {backing(curves, best), apart_s(curves), noise_of(curves)});
    return lag;
}

} // namespace quartercut::cleaning
