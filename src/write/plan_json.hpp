// SPDX-License-Identifier: MIT
#pragma once

#include "quartercut/plan.hpp"
#include "write/json_values.hpp"

namespace quartercut::write {

/// Money, losses, samples and weather of a season, for comparison.json.
[[nodiscard]] Json plan_json(const PlanResults& plan);

} // namespace quartercut::write
