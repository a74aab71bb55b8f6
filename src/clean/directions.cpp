// SPDX-License-Identifier: MIT
// The clock serves everything that is said in seconds. Where times lack it is made up: each record follows the one
// before by its duration, and a hole of a thousand seconds is put where the positions show that records are missing.
#include "clean/directions.hpp"

#include "clean/robust.hpp"

namespace quartercut::cleaning {
namespace {

constexpr double made_up_gap_s = 1000.0;
constexpr double half_reach_m = 5.0;   // direction is taken over 5 m on either side
constexpr std::size_t most_steps = 40; // a standing machine must not make the walk long

double distance_between(const Records& r, std::size_t a, std::size_t b) {
    return std::hypot(r.x_m[b] - r.x_m[a], r.y_m[b] - r.y_m[a]);
}

double squared_distance(const Records& r, std::size_t a, std::size_t b) {
    const double x = r.x_m[b] - r.x_m[a], y = r.y_m[b] - r.y_m[a];
    return x * x + y * y;
}

double usual_duration_s(const Records& r, const MachineBlock& block) {
    std::vector<double> durations;
    for (std::size_t i = block.begin; i < block.end; ++i)
        if (r.duration_s[i] > 0.0) durations.push_back(r.duration_s[i]);
    return durations.empty() ? 1.0 : median_in_place(durations);
}

/// Times cut off to the minute put many records on one moment: such times order the records but cannot time them.
bool times_are_coarse(const Records& r, const MachineBlock& block) {
    std::size_t same = 0;
    for (std::size_t i = block.begin + 1; i < block.end; ++i)
        if (r.time_s[i] == r.time_s[i - 1] && (r.x_m[i] != r.x_m[i - 1] || r.y_m[i] != r.y_m[i - 1])) ++same;
    return 5 * same > block.end - block.begin;
}

void set_clock(FieldWork& work, MachineBlock& block) {
    const Records& r = work.records();
    const double usual = usual_duration_s(r, block);
    const bool coarse = times_are_coarse(r, block);
    std::vector<double> steps;
    double now = 0.0;
    for (std::size_t i = block.begin; i < block.end; ++i) {
        const double duration = r.duration_s[i] > 0.0 ? r.duration_s[i] : usual;
        if (std::isfinite(r.time_s[i]) && (!coarse || r.time_s[i] > now + block.gap_s + usual)) {
            now = i > block.begin ? std::max(now, r.time_s[i]) : r.time_s[i];
        } else if (i > block.begin) {
            const double travelled = r.distance_m[i] > 0.0 ? r.distance_m[i] : 0.0;
            now += distance_between(r, i - 1, i) > 3.0 * travelled + 10.0 ? made_up_gap_s : duration;
        }
        work.clock_s[i] = now;
        if (i > block.begin && now > work.clock_s[i - 1]) steps.push_back(now - work.clock_s[i - 1]);
    }
    block.typical_step_s = steps.empty() ? usual : median_in_place(steps);
    block.gap_s = std::max(5.0, 2.5 * block.typical_step_s);
}

void set_steps(FieldWork& work, const MachineBlock& block) {
    const Records& r = work.records();
    for (std::size_t i = block.begin; i < block.end; ++i) {
        const double since = i > block.begin ? work.clock_s[i] - work.clock_s[i - 1] : block.gap_s + 1.0;
        const bool regular = since <= 1.5 * block.typical_step_s;
        work.step_s[i] = regular ? since : std::min(block.typical_step_s, since);
        const bool same_moment = i > block.begin && std::isfinite(r.time_s[i]) && r.time_s[i] == r.time_s[i - 1];
        work.copy[i] = same_moment && r.x_m[i] == r.x_m[i - 1] && r.y_m[i] == r.y_m[i - 1] &&
                       (r.mass_kg[i] == r.mass_kg[i - 1] || std::isnan(r.mass_kg[i]));
    }
}

bool too_fast(const FieldWork& work, const MachineBlock& block, std::size_t k, std::size_t i) {
    const Records& r = work.records();
    const double seconds = work.clock_s[i] - work.clock_s[k];
    if (seconds > block.gap_s) return false;
    // Positions are only good to a metre or so on many receivers: a metre of play whatever the time step.
    if (squared_distance(r, k, i) < 3.0 * 3.0) return false;
    const double metres = distance_between(r, k, i);
    const double implied = (metres - 1.0) / std::max(seconds, 0.2);
    const double logged = r.speed_m_s[i];
    return implied > 8.0 || (std::isfinite(logged) && implied > 1.5 * std::max(logged, 0.0) + 1.0);
}

std::size_t walk(const FieldWork& work, const MachineBlock& block, std::size_t i, int by) {
    const Records& r = work.records();
    std::size_t last = i;
    for (std::size_t step = 0; step < most_steps; ++step) {
        const std::size_t next = by < 0 ? last - 1 : last + 1;
        if ((by < 0 && last == block.begin) || next >= block.end || work.jump[next]) break;
        if (std::abs(work.clock_s[next] - work.clock_s[last]) > block.gap_s) break;
        last = next;
        if (squared_distance(r, i, last) >= half_reach_m * half_reach_m) break;
    }
    return last;
}

void set_direction(FieldWork& work, const MachineBlock& block, std::size_t i) {
    const Records& r = work.records();
    const std::size_t back = walk(work, block, i, -1), ahead = walk(work, block, i, +1);
    const double metres = distance_between(r, back, ahead);
    if (metres >= 1.0) {
        work.dir_x[i] = (r.x_m[ahead] - r.x_m[back]) / metres;
        work.dir_y[i] = (r.y_m[ahead] - r.y_m[back]) / metres;
    } else if (std::isfinite(r.heading_deg[i])) {
        work.dir_x[i] = std::sin(r.heading_deg[i] / degrees_per_radian);
        work.dir_y[i] = std::cos(r.heading_deg[i] / degrees_per_radian);
    } else if (i > block.begin) {
        work.dir_x[i] = work.dir_x[i - 1];
        work.dir_y[i] = work.dir_y[i - 1];
    }
}

} // namespace

void prepare_clock(FieldWork& work) {
    const Records& r = work.records();
    const std::size_t n = r.size();
    work.clock_s.assign(n, 0.0);
    work.step_s.assign(n, 0.0);
    work.copy.assign(n, 0);
    work.blocks.clear();
    for (std::size_t i = 0; i < n; ++i) {
        if (i == 0 || r.machine[i] != r.machine[i - 1]) work.blocks.push_back({i, i, r.machine[i]});
        work.blocks.back().end = i + 1;
        if (!std::isfinite(r.time_s[i])) continue;
        work.blocks.back().first_s = std::min(work.blocks.back().first_s, r.time_s[i]);
        work.blocks.back().last_s = std::max(work.blocks.back().last_s, r.time_s[i]);
    }
    for (MachineBlock& block : work.blocks) {
        set_clock(work, block);
        set_steps(work, block);
    }
}

void find_jumps(FieldWork& work) {
    work.jump.assign(work.size(), 0);
    for (const MachineBlock& block : work.blocks) {
        std::size_t good = block.begin, before = block.begin;
        for (std::size_t i = block.begin + 1; i < block.end; ++i) {
            const bool from_last = too_fast(work, block, before, i);
            // After a stray position the next one fits the last good record again.
            if (from_last && (before == good || too_fast(work, block, good, i))) {
                work.jump[i] = 1;
            } else {
                good = i;
            }
            before = i;
        }
    }
}

void find_directions(FieldWork& work) {
    work.dir_x.assign(work.size(), 0.0);
    work.dir_y.assign(work.size(), 0.0);
    for (const MachineBlock& block : work.blocks)
        for (std::size_t i = block.begin; i < block.end; ++i)
            set_direction(work, block, i);
}

bool follows(const FieldWork& work, const MachineBlock& block, std::size_t k, std::size_t i) {
    if (work.clock_s[i] - work.clock_s[k] > block.gap_s) return false;
    const Records& r = work.records();
    const double travelled = r.distance_m[i] > 0.0 ? r.distance_m[i] : 0.0;
    return distance_between(r, k, i) <= 3.0 * travelled * static_cast<double>(i - k) + 10.0;
}

} // namespace quartercut::cleaning
