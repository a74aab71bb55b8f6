// SPDX-License-Identifier: MIT
// Screens on yield: the crop's limits, the method area's own spread, the records around.
#include "clean/robust.hpp"
#include "clean/screens.hpp"

#include <array>
#include <tbb/parallel_for.h>

namespace quartercut::cleaning {
namespace {

constexpr double along_pass_m = 25.0, beside_m = 12.5;
constexpr double area_spread = 3.0, neighbour_spread = 3.5, neighbour_share = 0.15;
constexpr std::size_t fewest_neighbours = 5, fewest_in_area = 20;

/// Yields around a record, on the stack: the filter runs over every record.
struct Around {
    std::array<double, 192> yields; // the first `count` are set
    std::size_t count = 0;
    void add(double yield) {
        if (count < yields.size()) yields[count++] = yield;
    }
    [[nodiscard]] std::span<double> all() { return {yields.data(), count}; }
};

struct NeighbourSearch {
    const FieldWork& work;
    std::size_t centre;

    [[nodiscard]] bool alike(std::size_t j) const {
        const Records& r = work.records();
        return r.method[j] == r.method[centre] && r.area[j] == r.area[centre];
    }

    /// Adds kept records of the pass of `from`, no farther than `reach_m` from it; `from` itself only if asked.
    void collect(Around& around, std::size_t from, double reach_m, bool with_from) const {
        const PassRange& range = work.ranges[at(work.out->pass[from])];
        if (with_from) take(around, from);
        for (std::size_t j = from; j-- > range.begin;)
            if (!within(from, j, reach_m) || !take(around, j)) break;
        for (std::size_t j = from + 1; j < range.end; ++j)
            if (!within(from, j, reach_m) || !take(around, j)) break;
    }

private:
    [[nodiscard]] bool within(std::size_t from, std::size_t j, double reach_m) const {
        const Records& r = work.records();
        const double x = r.x_m[j] - r.x_m[from], y = r.y_m[j] - r.y_m[from];
        return x * x + y * y <= reach_m * reach_m;
    }
    /// False once 60 records of one side were taken: enough for a median.
    bool take(Around& around, std::size_t j) const {
        if (work.kept(j) && work.out->pass[j] >= 0 && alike(j)) around.add(work.yield_t_ha(j));
        return around.count < 180;
    }
};

void look_around(Around& around, const FieldWork& work, std::size_t i) {
    const NeighbourSearch search{work, i};
    search.collect(around, i, along_pass_m, false);
    if (work.left[i] >= 0) search.collect(around, at(work.left[i]), beside_m, true);
    if (work.right[i] >= 0) search.collect(around, at(work.right[i]), beside_m, true);
}

/// Quick and sure sign that a record is no farther from the median of those around it than `neighbour_share` of that
/// median: fewer than half of them lie below, and above, the medians that would do. Most records end here; a hair is
/// left for rounding.
bool clearly_near(double yield, const Around& around) {
    constexpr double hair = 1e-9;
    const double low = yield / (1.0 + neighbour_share) * (1.0 + hair);
    const double high = yield / (1.0 - neighbour_share) * (1.0 - hair);
    std::size_t below = 0, above = 0;
    for (std::size_t k = 0; k < around.count; ++k) {
        below += around.yields[k] < low;
        above += around.yields[k] > high;
    }
    return 2 * below < around.count && 2 * above < around.count;
}

Spread around_record(const FieldWork& work, std::size_t i) {
    Around around;
    look_around(around, work, i);
    return around.count < fewest_neighbours ? Spread{} : spread_in_place(around.all());
}

/// Median and spread per method area; records of one method without areas (method from records) share one.
std::vector<Spread> spread_by_area(const FieldWork& work, std::size_t methods) {
    const Records& r = work.records();
    const std::size_t areas = work.field->method_areas.size();
    std::vector<std::vector<double>> yields(areas + methods);
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (!work.kept(i)) continue;
        yields[r.area[i] >= 0 ? at(r.area[i]) : areas + at(r.method[i])].push_back(work.yield_t_ha(i));
    }
    std::vector<Spread> spreads;
    for (std::vector<double>& group : yields)
        spreads.push_back(group.size() < fewest_in_area ? Spread{} : spread_in_place(group));
    return spreads;
}

} // namespace

void screen_limits(FieldWork& work, const Setting& setting) {
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (!work.kept(i)) continue;
        const double yield = work.yield_t_ha(i);
        if (!(yield >= setting.season->yield_low_t_ha && yield <= setting.season->yield_high_t_ha))
            work.remove(i, Removal::yield_limits);
    }
    const std::vector<Spread> spreads = spread_by_area(work, setting.season->methods.size());
    const std::size_t areas = work.field->method_areas.size();
    std::vector<std::uint8_t> marked(work.size(), 0);
    tbb::parallel_for(std::size_t{0}, work.size(), [&](std::size_t i) {
        if (!work.kept(i) || work.out->pass[i] < 0) return;
        const Spread& area = spreads[r.area[i] >= 0 ? at(r.area[i]) : areas + at(r.method[i])];
        // Readings rounded to steps have no spread: a floor keeps the rule from eating them.
        const double reach = std::max(area_spread * area.sd, neighbour_share * area.median);
        if (!(std::abs(work.yield_t_ha(i) - area.median) > reach)) return;
        const Spread near = around_record(work, i);
        marked[i] = !(std::abs(near.median - area.median) > 0.5 * reach);
    });
    for (std::size_t i = 0; i < work.size(); ++i)
        if (marked[i]) work.remove(i, Removal::far_from_method_area);
}

void screen_neighbours(FieldWork& work) {
    std::vector<std::uint8_t> marked(work.size(), 0);
    tbb::parallel_for(std::size_t{0}, work.size(), [&](std::size_t i) {
        if (!work.kept(i) || work.out->pass[i] < 0) return;
        Around around;
        look_around(around, work, i);
        if (around.count < fewest_neighbours || clearly_near(work.yield_t_ha(i), around)) return;
        const Spread near = spread_in_place(around.all());
        const double off = std::abs(work.yield_t_ha(i) - near.median);
        marked[i] = off > neighbour_spread * near.sd && off > neighbour_share * near.median;
    });
    for (std::size_t i = 0; i < work.size(); ++i)
        if (marked[i]) work.remove(i, Removal::far_from_neighbours);
}

} // namespace quartercut::cleaning
