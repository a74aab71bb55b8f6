// SPDX-License-Identifier: MIT
// Screens on one record and its own pass: merging, speed, turns, short passes.
#include "clean/screens.hpp"

#include "clean/robust.hpp"

#include <tbb/parallel_for.h>

#include <algorithm>

namespace quartercut::cleaning {
namespace {

constexpr double slowest_m_s = 0.5, fastest_m_s = 4.5;
constexpr double sudden_share = 0.25, running_s = 5.0;
constexpr double turn_rate_deg_s = 10.0, turn_over_s = 3.0, shortest_way_m = 1.5;
constexpr double short_pass_m = 40.0;
constexpr std::size_t short_pass_records = 5;

bool same_pass(const FieldWork& work, std::size_t a, std::size_t b) {
    return work.out->pass[a] >= 0 && work.out->pass[a] == work.out->pass[b];
}

bool on_one_spot(const FieldWork& work, std::size_t before, std::size_t i) {
    const Records& r = work.records();
    const double spacing = std::hypot(r.x_m[i] - r.x_m[before], r.y_m[i] - r.y_m[before]);
    if (spacing == 0.0) return true;
    const double seconds = work.clock_s[i] - work.clock_s[before];
    return std::isfinite(r.speed_m_s[i]) && spacing < 0.25 * r.speed_m_s[i] * seconds;
}

bool sudden(const FieldWork& work, std::size_t i, double speed) {
    const Records& r = work.records();
    const PassRange& range = work.ranges[at(work.out->pass[i])];
    double around[64];
    std::size_t count = 0;
    for (std::size_t j = i; j-- > range.begin && work.clock_s[i] - work.clock_s[j] <= running_s && count < 31;)
        if (std::isfinite(r.speed_m_s[j])) around[count++] = r.speed_m_s[j];
    for (std::size_t j = i; j < range.end && work.clock_s[j] - work.clock_s[i] <= running_s && count < 63; ++j)
        if (std::isfinite(r.speed_m_s[j])) around[count++] = r.speed_m_s[j];
    if (count < 3) return false;
    // Mostly even the slowest and the fastest of them are near enough, and the median, between the two, need not be found.
    const auto [slowest, fastest] = std::minmax_element(around, around + count);
    if (speed <= (1.0 + sudden_share) * *slowest && speed >= (1.0 - sudden_share) * *fastest) return false;
    const double usual = median_in_place({around, count});
    return std::abs(speed - usual) > sudden_share * usual;
}

/// Record of the same pass at least `seconds` away (by = -1 or +1), or the last there is; i itself at the pass's end.
std::size_t seconds_away(const FieldWork& work, std::size_t i, double seconds, int by) {
    const PassRange& range = work.ranges[at(work.out->pass[i])];
    std::size_t last = i;
    for (std::size_t j = i; by < 0 ? j-- > range.begin : ++j < range.end;) {
        if (!same_pass(work, i, j)) continue;
        last = j;
        if (std::abs(work.clock_s[j] - work.clock_s[i]) >= seconds) break;
    }
    return last;
}

/// Angle between the ways of the last and the next three seconds, over the time between their middles.
bool turning(const FieldWork& work, std::size_t i) {
    const Records& r = work.records();
    const std::size_t a = seconds_away(work, i, turn_over_s, -1), b = seconds_away(work, i, turn_over_s, +1);
    const double x0 = r.x_m[i] - r.x_m[a], y0 = r.y_m[i] - r.y_m[a];
    const double x1 = r.x_m[b] - r.x_m[i], y1 = r.y_m[b] - r.y_m[i];
    // Too short a way has no direction: receiver noise would turn it.
    if (std::hypot(x0, y0) < shortest_way_m || std::hypot(x1, y1) < shortest_way_m) return false;
    const double angle = std::abs(std::atan2(x0 * y1 - y0 * x1, x0 * x1 + y0 * y1)) * degrees_per_radian;
    const double seconds = 0.5 * (work.clock_s[b] - work.clock_s[a]);
    return seconds > 0.0 && angle > turn_rate_deg_s * std::max(seconds, 1.0);
}

} // namespace

void merge_on_one_spot(FieldWork& work, bool merge) {
    for (const MachineBlock& block : work.blocks) {
        std::size_t before = block.end;
        for (std::size_t i = block.begin; i < block.end; ++i) {
            if (work.copy[i]) {
                work.remove(i, Removal::merged);
                continue;
            }
            if (!work.kept(i)) continue;
            if (merge && before != block.end && same_pass(work, before, i) && on_one_spot(work, before, i)) {
                work.out->mass_basis_kg[before] += work.out->mass_basis_kg[i];
                work.out->area_m2[before] += work.out->area_m2[i];
                work.owner[i] = static_cast<std::int32_t>(before);
                work.remove(i, Removal::merged);
                continue;
            }
            before = i;
        }
    }
}

void screen_speed(FieldWork& work) {
    std::vector<std::uint8_t> marked(work.size(), 0);
    tbb::parallel_for(std::size_t{0}, work.size(), [&](std::size_t i) {
        const double speed = work.records().speed_m_s[i];
        if (!work.kept(i) || work.out->pass[i] < 0 || !std::isfinite(speed)) return;
        marked[i] = speed < slowest_m_s || speed > fastest_m_s || sudden(work, i, speed);
    });
    for (std::size_t i = 0; i < work.size(); ++i)
        if (marked[i]) work.remove(i, Removal::speed);
}

void screen_turns(FieldWork& work) {
    for (std::size_t i = 0; i < work.size(); ++i)
        if (work.kept(i) && work.out->pass[i] >= 0 && turning(work, i)) work.remove(i, Removal::turn);
}

void screen_short_passes(FieldWork& work) {
    const std::size_t passes = work.ranges.size();
    std::vector<double> length(passes, 0.0);
    std::vector<std::size_t> records(passes, 0);
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (!work.kept(i) || work.out->pass[i] < 0) continue;
        length[at(work.out->pass[i])] += work.records().distance_m[i];
        ++records[at(work.out->pass[i])];
    }
    for (std::size_t i = 0; i < work.size(); ++i) {
        const std::int32_t pass = work.out->pass[i];
        if (pass < 0 || length[at(pass)] < short_pass_m || records[at(pass)] < short_pass_records)
            work.remove(i, Removal::short_pass);
    }
}

} // namespace quartercut::cleaning
