// SPDX-License-Identifier: MIT
// Cuts the records of each machine into passes.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

/// A new pass begins after a gap, a raised header, a jump, a turn of more than 60 degrees within about 10 m, or with a
/// new load. Any of these may be missing from the records; the others still work.
void find_passes(FieldWork& work);

} // namespace quartercut::cleaning
