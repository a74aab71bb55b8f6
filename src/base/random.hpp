// SPDX-License-Identifier: MIT
// Random draws that are the same everywhere.
//
// std::mt19937_64 is fixed to the bit by the C++ standard; the standard distributions are not and differ between
// libraries. So the engine is the standard's and the distributions are here, from integer arithmetic, sqrt and log.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <random>
#include <string_view>
#include <utility>
#include <vector>

namespace quartercut {

/// Seed for one of many independent streams, e.g. one per field: SplitMix64 of seed and stream number (Steele, Lea and
/// Flood 2014, OOPSLA). Results then do not depend on which thread draws first.
[[nodiscard]] constexpr std::uint64_t stream_seed(std::uint64_t seed, std::uint64_t stream) {
    std::uint64_t z = seed + (stream + 1) * 0x9E3779B97F4A7C15ULL;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
}

/// The stream of something that has a name and no number of its own: FNV-1a of the name (Fowler, Noll and Vo; constants
/// of draft-eastlake-fnv), so that it draws alike whatever stands beside it.
[[nodiscard]] constexpr std::uint64_t stream_seed(std::uint64_t seed, std::string_view name) {
    std::uint64_t stream = 0xCBF29CE484222325ULL;
    for (const char c : name)
        stream = (stream ^ static_cast<unsigned char>(c)) * 0x100000001B3ULL;
    return stream_seed(seed, stream);
}

/// One stream of draws.
class Random {
public:
    explicit Random(std::uint64_t seed) : engine_(seed) {}

    [[nodiscard]] std::uint64_t bits() { return engine_(); }

    /// In [0, 1), on the grid of 2^-53.
    [[nodiscard]] double uniform() { return static_cast<double>(engine_() >> 11U) * 0x1.0p-53; }
    [[nodiscard]] double uniform(double low, double high) { return low + (high - low) * uniform(); }

    /// Whole number in [0, count), every one equally likely; count > 0.
    [[nodiscard]] std::uint64_t below(std::uint64_t count) {
        const std::uint64_t surplus = (std::numeric_limits<std::uint64_t>::max() % count + 1) % count;
        std::uint64_t draw = engine_();
        while (draw > std::numeric_limits<std::uint64_t>::max() - surplus)
            draw = engine_();
        return draw % count;
    }

    /// Standard normal by Marsaglia's polar method (Marsaglia and Bray 1964); the spare draw is kept.
    [[nodiscard]] double normal() {
        if (has_spare_) {
            has_spare_ = false;
            return spare_;
        }
        double u = 0.0, v = 0.0, s = 0.0;
        do {
            u = 2.0 * uniform() - 1.0;
            v = 2.0 * uniform() - 1.0;
            s = u * u + v * v;
        } while (s >= 1.0 || s == 0.0);
        const double scale = std::sqrt(-2.0 * std::log(s) / s);
        spare_ = v * scale;
        has_spare_ = true;
        return u * scale;
    }

    /// Fisher-Yates: every order equally likely.
    template <class Item>
    void shuffle(std::vector<Item>& items) {
        for (std::size_t i = items.size(); i > 1; --i)
            std::swap(items[i - 1], items[below(i)]);
    }

private:
    std::mt19937_64 engine_;
    double spare_ = 0.0;
    bool has_spare_ = false;
};

} // namespace quartercut
