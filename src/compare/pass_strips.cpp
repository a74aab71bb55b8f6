// SPDX-License-Identifier: MIT
// Runs of neighbouring passes of one method.
#include "compare/pass_strips.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

namespace quartercut::contrast {
namespace {

constexpr double parallel_limit_rad = 12.0 * std::numbers::pi / 180.0;
constexpr double kept_to_passes = 0.95;
constexpr double shortest_pass_share = 0.5; // of the longest: shorter ones are headlands and corners

/// The part of a pass that one method holds.
struct Run {
    int pass = -1, method = -1;
    double along_min = 1e300, along_max = -1e300;
    double across_area = 0.0;
    Harvest harvest;
    std::vector<int> segments;
    [[nodiscard]] double across_m() const { return across_area / harvest.area_m2; }
    [[nodiscard]] double width_m() const { return harvest.area_m2 / std::max(1e-9, harvest.length_m); }
};

bool is_parallel(const Pass& pass, double direction_rad) {
    if (!std::isfinite(pass.heading_deg)) return false;
    const double angle = (90.0 - pass.heading_deg) * std::numbers::pi / 180.0 - direction_rad;
    return std::abs(std::sin(angle)) <= std::sin(parallel_limit_rad);
}

std::vector<Run> runs_of(const ZonedField& zoned, const CleanedField& cleaned, const std::vector<int>& usable,
                         double direction_rad) {
    const double c = std::cos(direction_rad);
    const double s = std::sin(direction_rad);
    std::map<std::pair<int, int>, Run> runs;
    for (const int i : usable) {
        const Segment& segment = zoned.segments[static_cast<std::size_t>(i)];
        if (segment.pass < 0 || static_cast<std::size_t>(segment.pass) >= cleaned.passes.size()) continue;
        if (!is_parallel(cleaned.passes[static_cast<std::size_t>(segment.pass)], direction_rad)) continue;
        const int method = zoned.zones[static_cast<std::size_t>(segment.zone)].method;
        Run& run = runs[{segment.pass, method}];
        const double along = segment.x_m * c + segment.y_m * s;
        run.pass = segment.pass;
        run.method = method;
        run.along_min = std::min(run.along_min, along - 0.5 * segment.length_m);
        run.along_max = std::max(run.along_max, along + 0.5 * segment.length_m);
        run.across_area += (-segment.x_m * s + segment.y_m * c) * segment.area_m2;
        run.harvest.add(segment);
        run.segments.push_back(i);
    }
    std::vector<Run> out;
    for (auto& [key, run] : runs)
        out.push_back(std::move(run));
    return out;
}

/// Share of pass length that lies in its pass's main method.
double purity(const std::vector<Run>& runs) {
    std::map<int, std::pair<double, double>> by_pass; // longest, total
    for (const Run& run : runs) {
        auto& [longest, total] = by_pass[run.pass];
        longest = std::max(longest, run.harvest.length_m);
        total += run.harvest.length_m;
    }
    double main = 0.0;
    double all = 0.0;
    for (const auto& [pass, lengths] : by_pass) {
        main += lengths.first;
        all += lengths.second;
    }
    return all > 0.0 ? main / all : 0.0;
}

void drop_short(std::vector<Run>& runs) {
    double longest = 0.0;
    for (const Run& run : runs)
        longest = std::max(longest, run.harvest.length_m);
    std::erase_if(runs, [&](const Run& run) { return run.harvest.length_m < shortest_pass_share * longest; });
}

void join(Strip& strip, const Run& run, const ZonedField& zoned) {
    const double half = 0.5 * run.width_m();
    if (strip.segments.empty()) {
        const Segment& first = zoned.segments[static_cast<std::size_t>(run.segments.front())];
        strip.method = run.method;
        strip.zone_id = zoned.zones[static_cast<std::size_t>(first.zone)].id;
        strip.block = zoned.zones[static_cast<std::size_t>(first.zone)].block;
        strip.across_min = run.across_m() - half;
        strip.along_min = run.along_min;
        strip.along_max = run.along_max;
        strip.parallel_share = 1.0;
    }
    strip.across_max = run.across_m() + half;
    strip.along_min = std::min(strip.along_min, run.along_min);
    strip.along_max = std::max(strip.along_max, run.along_max);
    strip.shape_m2 += run.harvest.area_m2;
    strip.harvest.mass_kg += run.harvest.mass_kg;
    strip.harvest.area_m2 += run.harvest.area_m2;
    strip.harvest.length_m += run.harvest.length_m;
    for (const int i : run.segments) {
        strip.segments.push_back(i);
        const int zone = zoned.segments[static_cast<std::size_t>(i)].zone;
        if (std::find(strip.zones.begin(), strip.zones.end(), zone) == strip.zones.end()) strip.zones.push_back(zone);
    }
}

/// The run continues the strip: same method, and no more than one missing pass between them.
bool continues(const Strip& strip, const Run& run) {
    return strip.method == run.method && run.across_m() - strip.across_max < 1.6 * run.width_m();
}

} // namespace

std::vector<Strip> strips_from_passes(const ZonedField& zoned, const CleanedField& cleaned,
                                      const std::vector<int>& usable, double direction_rad) {
    std::vector<Run> runs = runs_of(zoned, cleaned, usable, direction_rad);
    if (purity(runs) < kept_to_passes) return {};
    drop_short(runs);
    std::stable_sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) {
        return std::tuple(a.across_m(), a.along_min) < std::tuple(b.across_m(), b.along_min);
    });
    std::vector<Strip> strips;
    for (const Run& run : runs) {
        if (strips.empty() || !continues(strips.back(), run)) strips.emplace_back();
        join(strips.back(), run, zoned);
    }
    return strips;
}

} // namespace quartercut::contrast
