// SPDX-License-Identifier: MIT
// The statistics of loads: what the scale said over what the monitor said, on the log scale.
//
//   ln(ticket / monitor) = factor of the group + flow term + load error
//
// Groups are machine x method. Few groups are fixed effects; five or more of one method are drawn towards their mean as
// far as the loads say so (one-way random effects by REML; Robinson 1991 on the prediction).
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace quartercut::cleaning {

struct Load {
    int group = -1;
    double log_ratio = 0.0; ///< ln(ticket mass / monitor mass), both at the basis
    double flow_kg_s = 0.0; ///< mean flow; not positive: unknown
    double time_s = 0.0;    ///< NaN: unknown
};

struct GroupFactor {
    int group = -1;
    int loads = 0;
    double log_factor = 0.0; ///< fixed effect
    double se = 0.0;         ///< of log_factor
};

/// A slope with its t value.
struct Slope {
    double value = 0.0, t = 0.0;
};

struct LoadFit {
    std::vector<GroupFactor> groups; ///< in order of group number
    double load_sd = 0.0;            ///< of one load about its group, relative; a stated 3 % where df is 0
    double df = 0.0;                 ///< loads - groups (- 1 with the flow term)
    std::optional<Slope> flow;       ///< with at least 6 loads over twice the flow
    std::optional<Slope> drift_per_day;
};

/// Least squares with one mean a group; pooled load SD.
[[nodiscard]] LoadFit fit_loads(const std::vector<Load>& loads);

struct RandomFactors {
    double between_sd = 0.0; ///< SD of groups about their mean
    double mean = 0.0;
    std::vector<double> predicted; ///< best linear unbiased prediction per group of the fit
};

/// One-way random effects over the groups given, REML; load_sd is estimated along.
[[nodiscard]] RandomFactors fit_random_groups(const std::vector<Load>& loads);

} // namespace quartercut::cleaning
