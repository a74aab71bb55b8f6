// SPDX-License-Identifier: MIT
// Whether two comparisons say the same.
#pragma once

#include "text_season.hpp"

#include <nlohmann/json.hpp>

#include <string>

namespace quartercut::test {

/// Expects the same numbers to 1e-6 and the same words. Remarks name files, and so do inputs; formats add columns of
/// their own; everything else must be alike.
void expect_alike(const nlohmann::json& got, const nlohmann::json& wanted, const std::string& where = "");

/// What `compare season.toml --json` prints; null, and the test fails, where it stops.
[[nodiscard]] nlohmann::json compared(const SeasonFolder& folder);

} // namespace quartercut::test
