// SPDX-License-Identifier: MIT
// Results -> the text a terminal shows.
#pragma once

#include "quartercut/results.hpp"

#include <string>

namespace quartercut::cli {

/// The answer in sentences, one table of fields, what was removed and why, and warnings.
[[nodiscard]] std::string comparison_text(const Results& results);

/// A yield as the season's unit writes it, without the unit; "-" where it is not known.
[[nodiscard]] std::string yield_number(const Season& season, std::optional<double> yield_t_ha, bool sign);

/// Records read, used and removed, by reason.
[[nodiscard]] std::string removals_text(const Results& results);

} // namespace quartercut::cli
