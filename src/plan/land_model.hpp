// SPDX-License-Identifier: MIT
#pragma once

#include "quartercut/plan_layout.hpp"

namespace quartercut::planning {

/// What a field's own trial says a method yields more than the baseline; 0 where its layout was no replicated trial.
[[nodiscard]] double method_shift_t_ha(const FieldComparison& field, const Season& season, int method);

} // namespace quartercut::planning
