// SPDX-License-Identifier: MIT
// Days: when fields are ready, what the machines do in a day, and the words of the choice.
#pragma once

#include "plan/assign.hpp"
#include "quartercut/plan_choose.hpp"

namespace quartercut::planning {

/// Limits on swather and combine days. For every ready day: what is not ready before it must fit between it and the end
/// of harvest. With one end for all fields that is exactly when the work fits (a field may be left and taken up again).
[[nodiscard]] std::vector<MachineDays> machine_days(const Season& season, const std::vector<RawArea>& areas,
                                                    const std::vector<double>& area_m2);

/// Days on which each field would be combined, first ready first.
void add_days(const Season& season, const std::vector<RawArea>& areas, const AssignProblem& problem,
              const std::vector<std::vector<double>>& share, Choice& out);

/// Why each field is placed as it is, and what would change it.
void say_reasons(const Season& season, Choice& out);

} // namespace quartercut::planning
