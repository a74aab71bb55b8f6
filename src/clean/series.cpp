// SPDX-License-Identifier: MIT
// Knots of a piecewise straight running sum. Moments are mostly asked for in their order, so a look-up walks on from the
// one before, however long the machine stood between two runs; else it is by bisection.
#include "clean/series.hpp"

#include <algorithm>

namespace quartercut::cleaning {
namespace {
constexpr double grace_s = 0.5;
constexpr std::size_t longest_walk = 32;
} // namespace

Series::Series(double gap_s, std::size_t reserve) : gap_s_(gap_s) {
    time_s_.reserve(reserve + 16);
    sum_.reserve(reserve + 16);
    run_.reserve(reserve + 16);
}

void Series::add(double from_s, double to_s, double amount) {
    const double last_sum = sum_.empty() ? 0.0 : sum_.back();
    const bool fresh = time_s_.empty() || from_s - time_s_.back() > gap_s_;
    if (fresh || from_s > time_s_.back() + 1e-9) {
        // Within a run a short silence is bridged at the rate of the record after it.
        double bridged = 0.0;
        if (!fresh && to_s > from_s) bridged = amount / (to_s - from_s) * (from_s - time_s_.back());
        time_s_.push_back(from_s);
        sum_.push_back(last_sum + bridged);
        run_.push_back(fresh ? (run_.empty() ? 0 : run_.back() + 1) : run_.back());
    }
    time_s_.push_back(std::max(to_s, time_s_.back()));
    sum_.push_back(sum_.back() + amount);
    run_.push_back(run_.back());
}

std::size_t Series::knot_not_before(double moment_s, std::size_t near) const {
    if (near > 0 && near < time_s_.size() && time_s_[near - 1] < moment_s)
        for (std::size_t knot = near; knot < std::min(time_s_.size(), near + longest_walk); ++knot)
            if (time_s_[knot] >= moment_s) return knot;
    return static_cast<std::size_t>(std::lower_bound(time_s_.begin(), time_s_.end(), moment_s) - time_s_.begin());
}

Series::Place Series::place(double moment_s, std::size_t& near) const {
    if (time_s_.empty() || moment_s < time_s_.front() - grace_s || moment_s > time_s_.back() + grace_s) return {};
    if (moment_s <= time_s_.front()) return {sum_.front(), run_.front()};
    if (moment_s >= time_s_.back()) return {sum_.back(), run_.back()};
    const std::size_t knot = near = knot_not_before(moment_s, near);
    if (run_[knot] != run_[knot - 1]) {
        if (moment_s - time_s_[knot - 1] <= grace_s) return {sum_[knot - 1], run_[knot - 1]};
        if (time_s_[knot] - moment_s <= grace_s) return {sum_[knot], run_[knot]};
        return {};
    }
    const double span = time_s_[knot] - time_s_[knot - 1];
    const double share = span > 0.0 ? (moment_s - time_s_[knot - 1]) / span : 1.0;
    return {sum_[knot - 1] + share * (sum_[knot] - sum_[knot - 1]), run_[knot]};
}

double Series::between(double from_s, double to_s, std::size_t& near) const {
    const Place from = place(from_s, near);
    std::size_t end = near;
    return between(from, place(to_s, end));
}

Series flow_series(const FieldWork& work, const MachineBlock& block) {
    const Records& r = work.records();
    Series series(block.gap_s, 2 * (block.end - block.begin));
    for (std::size_t i = block.begin; i < block.end; ++i) {
        if (work.copy[i]) continue;
        double mass = r.mass_kg[i];
        if (!(mass >= 0.0) && r.header_up[i]) mass = 0.0;
        if (!(mass >= 0.0)) continue;
        series.add(work.clock_s[i] - work.step_s[i], work.clock_s[i], mass);
    }
    return series;
}

} // namespace quartercut::cleaning
