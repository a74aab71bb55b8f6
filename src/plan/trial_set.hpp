// SPDX-License-Identifier: MIT
// Which fields to trial: the value of a set of trials less its cost, greedy, with an exact check on small sets.
#pragma once

#include <functional>
#include <vector>

namespace quartercut::planning {

/// Everything about the farm's mean a set of trials could teach.
struct TrialWorth {
    double mean_cents_ha = 0.0, sd_cents_ha = 0.0; ///< what is known of the farm's mean net difference
    double worth_cents_t = 0.0;                    ///< of a tonne per hectare
    double spread_t_ha = 0.0;                      ///< true difference from field to field
    double shared_t_ha = 0.0;                      ///< error all trials of a year share
    double area_ha = 0.0, years = 1.0;             ///< land and years the decision is for
    double cost_cents = 0.0;                       ///< of one trial
};

/// Expected value of what the trials would teach, cents; their cost not yet taken off.
[[nodiscard]] double value_of_trials(const TrialWorth& worth, const std::vector<double>& se_t_ha);

struct TrialSet {
    std::vector<std::size_t> fields; ///< in the order they were taken
    double value_cents = 0.0;        ///< before cost
    bool greedy_was_best = true, checked_all = false;
};

/// \param se_t_ha  error of a trial in each field
[[nodiscard]] TrialSet pick_trials(const TrialWorth& worth, const std::vector<double>& se_t_ha);

} // namespace quartercut::planning
