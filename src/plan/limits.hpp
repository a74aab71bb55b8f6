// SPDX-License-Identifier: MIT
// What all of one way would bring, and what each limit of the season file takes from the plan.
#pragma once

#include "plan/assign.hpp"
#include "plan/outlook.hpp"

namespace quartercut::planning {

/// A plan beside what it was made from.
struct PlanMade {
    const Season& season;
    const AssignProblem& problem;
    const Assignment& plan;
    const std::vector<FarmView>& views;
};

/// Fills plan_money_cents and one_way. The chance is that of the farm, where fields that differ make up for each other:
/// their spread counts by the share of the land each holds, and what is common to all of them counts in full.
void weigh_one_way(const PlanMade& made, Choice& out);

/// Fills limits and all_limits_cents: the programme is solved again without each limit, and without all of them. Trial
/// fields stay as they are.
void weigh_limits(const PlanMade& made, Choice& out);

} // namespace quartercut::planning
