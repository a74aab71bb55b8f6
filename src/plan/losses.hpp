// SPDX-License-Identifier: MIT
// The arithmetic of one tray.
#pragma once

#include "quartercut/plan.hpp"

namespace quartercut::planning {

/// Grain lost per hectare of field, from one tray.
[[nodiscard]] double tray_loss_kg_ha(const LossCount& count);

/// Exact 95 % interval of the mean behind a count.
[[nodiscard]] Interval poisson_interval(double seeds);

} // namespace quartercut::planning
