// SPDX-License-Identifier: MIT
// Which field is cut which way: a small whole-number program, solved by CBC (COIN-OR branch and cut).
#pragma once

#include <string>
#include <vector>

namespace quartercut::planning {

/// A machine's days, from some day on: fields not ready earlier must fit between it and the end.
struct MachineDays {
    std::string what;
    std::vector<std::vector<double>> days; ///< [field][method]
    double available = 0.0;
    std::string machine{}; ///< without the day: "combining"
};

struct AssignProblem {
    std::vector<double> area_m2;
    std::vector<std::vector<double>> value;    ///< [field][method], cents
    std::vector<std::vector<double>> fixed;    ///< [field]: empty, or the share of each method
    std::vector<double> share_low, share_high; ///< [method], of all land
    std::vector<MachineDays> machines;
    [[nodiscard]] std::size_t fields() const { return area_m2.size(); }
    [[nodiscard]] std::size_t methods() const { return share_low.size(); }
};

struct Assignment {
    bool feasible = false;
    std::vector<std::vector<double>> share; ///< [field][method]: 0, 1, or as fixed
    double value = 0.0;
};

[[nodiscard]] Assignment assign(const AssignProblem& problem);

/// What a plan is worth, and whether it keeps every limit.
[[nodiscard]] bool keeps_limits(const AssignProblem& problem, const std::vector<std::vector<double>>& share);
[[nodiscard]] double plan_value(const AssignProblem& problem, const std::vector<std::vector<double>>& share);

} // namespace quartercut::planning
