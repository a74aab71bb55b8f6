// SPDX-License-Identifier: MIT
// Seed weight and grade samples, compared like yields: pairs first, then fields, then two groups.
#include "plan/chances.hpp"

#include "quartercut/plan.hpp"

#include <cmath>
#include <map>
#include <set>

namespace quartercut {
namespace planning {
namespace {

using Key = std::pair<std::string, std::string>; // field, block

struct Mean {
    double sum = 0.0;
    int n = 0;
    void add(double value) { sum += value, ++n; }
    [[nodiscard]] double value() const { return sum / n; }
};

struct Spread {
    double mean = 0.0, se = 0.0;
    int n = 0;
};

Spread spread_of(const std::vector<double>& values) {
    Spread out;
    out.n = static_cast<int>(values.size());
    for (const double value : values)
        out.mean += value / out.n;
    double squares = 0.0;
    for (const double value : values)
        squares += (value - out.mean) * (value - out.mean);
    if (out.n > 1) out.se = std::sqrt(squares / (out.n - 1) / out.n);
    return out;
}

std::map<Key, Mean> means_of(const std::vector<SeedSample>& samples, const std::string& property,
                             const std::string& method, bool by_block) {
    std::map<Key, Mean> means;
    for (const SeedSample& sample : samples) {
        const auto value = sample.values.find(property);
        if (sample.method != method || value == sample.values.end()) continue;
        if (by_block && sample.block.empty()) continue;
        means[{sample.field, by_block ? sample.block : ""}].add(value->second);
    }
    return means;
}

std::optional<SampleDifference> paired(const std::map<Key, Mean>& a, const std::map<Key, Mean>& b, const char* how) {
    std::vector<double> differences;
    SampleDifference out;
    for (const auto& [key, mean] : a) {
        const auto other = b.find(key);
        if (other == b.end()) continue;
        differences.push_back(mean.value() - other->second.value());
        out.mean += mean.value();
        out.baseline_mean += other->second.value();
    }
    if (differences.size() < 2) return std::nullopt;
    const Spread spread = spread_of(differences);
    out.mean /= spread.n;
    out.baseline_mean /= spread.n;
    out.difference = spread.mean;
    const double half = t95(spread.n - 1.0) * spread.se;
    out.ci95 = Interval{spread.mean - half, spread.mean + half};
    out.units = spread.n;
    out.how = how;
    return out;
}

std::vector<double> values_of(const std::map<Key, Mean>& means) {
    std::vector<double> values;
    for (const auto& [key, mean] : means)
        values.push_back(mean.value());
    return values;
}

/// Welch (1947), Biometrika 34:28-35, over the means of fields.
SampleDifference two_groups(const std::map<Key, Mean>& a, const std::map<Key, Mean>& b) {
    const Spread x = spread_of(values_of(a)), y = spread_of(values_of(b));
    SampleDifference out;
    out.mean = x.mean;
    out.baseline_mean = y.mean;
    out.difference = x.mean - y.mean;
    out.units = x.n + y.n;
    out.how = "two groups";
    if (x.n < 2 || y.n < 2) return out;
    const double vx = x.se * x.se, vy = y.se * y.se;
    if (!(vx + vy > 0.0)) return out;
    const double df = (vx + vy) * (vx + vy) / (vx * vx / (x.n - 1) + vy * vy / (y.n - 1));
    const double half = t95(df) * std::sqrt(vx + vy);
    out.ci95 = Interval{out.difference - half, out.difference + half};
    return out;
}

std::optional<SampleDifference> difference_in(const std::vector<SeedSample>& samples, const std::string& property,
                                              const std::string& method, const std::string& baseline) {
    const auto in_blocks =
        paired(means_of(samples, property, method, true), means_of(samples, property, baseline, true), "pairs");
    if (in_blocks) return in_blocks;
    const auto a = means_of(samples, property, method, false), b = means_of(samples, property, baseline, false);
    if (a.empty() || b.empty()) return std::nullopt;
    if (const auto in_fields = paired(a, b, "fields")) return in_fields;
    return two_groups(a, b);
}

} // namespace
} // namespace planning

std::vector<SampleDifference> compare_samples(const Season& season, const std::vector<SeedSample>& samples) {
    std::set<std::string> properties;
    for (const SeedSample& sample : samples)
        for (const auto& [property, value] : sample.values)
            properties.insert(property);
    std::vector<SampleDifference> out;
    for (const std::string& property : properties)
        for (const Method& method : season.methods) {
            if (method.name == season.baseline) continue;
            auto difference = planning::difference_in(samples, property, method.name, season.baseline);
            if (!difference) continue;
            difference->property = property;
            difference->method = method.name;
            difference->baseline = season.baseline;
            out.push_back(*difference);
        }
    return out;
}

} // namespace quartercut
