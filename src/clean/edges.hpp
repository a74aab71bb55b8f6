// SPDX-License-Identifier: MIT
// Cuts that straddle two methods.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

/// Sets edge = 1 where more than a tenth of the cut width lies on land of another method: such grain is a mixture, kept
/// for the map and left out of contrasts.
void mark_edges(FieldWork& work);

} // namespace quartercut::cleaning
