// SPDX-License-Identifier: MIT
// A width that passes and land both speak against is a wrong yield of one method, and no interval would show it.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

/// Compares the width used for land with how far apart passes run, machine x method over the season. The spacing is
/// measured whatever the width: a pickup's width lies far below that of the swathes.
/// \throws DataError  spacing and area closure both speak against the width, and `cleaning.width_check` is on; when it
///                    is off, the same words become a warning of the season
void judge_widths(const std::vector<FieldWork>& works, const Setting& setting, Cleaned& cleaned);

} // namespace quartercut::cleaning
