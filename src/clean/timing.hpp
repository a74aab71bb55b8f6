// SPDX-License-Identifier: MIT
// Delays and ramps of the season: found out, or taken over from an earlier cleaning where it would find the same.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

struct Lags {
    std::vector<LagEstimate> flow, moisture; ///< per group
};

[[nodiscard]] Lags find_lags(const std::vector<FieldWork>& works, const Setting& setting);

/// Ramps with the run's extra length. Call when the flow is shifted and the screens before the ramps have run.
[[nodiscard]] std::vector<RampEstimate> find_ramps(const std::vector<FieldWork>& works, const Setting& setting);

/// Puts what was used into the season's result, for the reader and for re-runs.
void keep_timing(Cleaned& cleaned, const Setting& setting, const Lags& lags, const std::vector<RampEstimate>& ramps);

} // namespace quartercut::cleaning
