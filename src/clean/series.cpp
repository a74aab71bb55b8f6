// SPDX-License-Identifier: MIT
// Knots of a piecewise straight running sum. A table by whole seconds points near the right knot, so a look-up costs
// the same in a long harvest as in a short one.
#include "clean/series.hpp"

namespace quartercut::cleaning {
namespace {
constexpr double grace_s = 0.5;
// Hours of silence would make the table by seconds long: clocks with such holes are looked up by bisection.
constexpr double longest_table_s = 4.0e6;
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

void Series::finish() {
    first_after_.clear();
    if (time_s_.empty() || time_s_.back() - time_s_.front() > longest_table_s) return;
    const auto seconds = static_cast<std::size_t>(time_s_.back() - time_s_.front()) + 2;
    first_after_.resize(seconds);
    std::size_t knot = 0;
    for (std::size_t s = 0; s < seconds; ++s) {
        while (knot < time_s_.size() && time_s_[knot] < time_s_.front() + static_cast<double>(s))
            ++knot;
        first_after_[s] = static_cast<std::uint32_t>(knot);
    }
}

Series::Place Series::place(double moment_s) const {
    if (time_s_.empty() || moment_s < time_s_.front() - grace_s || moment_s > time_s_.back() + grace_s) return {};
    if (moment_s <= time_s_.front()) return {sum_.front(), run_.front()};
    if (moment_s >= time_s_.back()) return {sum_.back(), run_.back()};
    std::size_t knot = 0;
    if (first_after_.empty()) {
        knot = static_cast<std::size_t>(std::lower_bound(time_s_.begin(), time_s_.end(), moment_s) - time_s_.begin());
    } else {
        knot = first_after_[static_cast<std::size_t>(moment_s - time_s_.front())];
        while (time_s_[knot] < moment_s)
            ++knot;
    }
    if (run_[knot] != run_[knot - 1]) {
        if (moment_s - time_s_[knot - 1] <= grace_s) return {sum_[knot - 1], run_[knot - 1]};
        if (time_s_[knot] - moment_s <= grace_s) return {sum_[knot], run_[knot]};
        return {};
    }
    const double span = time_s_[knot] - time_s_[knot - 1];
    const double share = span > 0.0 ? (moment_s - time_s_[knot - 1]) / span : 1.0;
    return {sum_[knot - 1] + share * (sum_[knot] - sum_[knot - 1]), run_[knot]};
}

double Series::between(double from_s, double to_s) const { return between(place(from_s), place(to_s)); }

bool Series::silent_at(double moment_s) const { return place(moment_s).run < 0; }

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
    series.finish();
    return series;
}

} // namespace quartercut::cleaning
