// SPDX-License-Identifier: MIT
// Tokens of the results, the same in every language, in a reader's words. What stands in no table is shown as it is.
#pragma once

#include "report/telling.hpp"

namespace quartercut::report {

/// Source of error: machines are called machines, since "A" alone could be anything.
[[nodiscard]] std::string source_text(const std::string& token);
/// "6 pairs"
[[nodiscard]] std::string units_text(int n, const std::string& token);
[[nodiscard]] std::string fragile_text(const std::string& token);
/// Where a calibration comes from.
[[nodiscard]] std::string calibration_text(const std::string& token);
[[nodiscard]] std::string step_text(const std::string& token);
/// What a file was used as.
[[nodiscard]] std::string role_text(const std::string& token);
[[nodiscard]] std::string severity_text(Severity severity);
/// Why a zone has no method; empty says what the page says of such land.
[[nodiscard]] std::string zone_reason_text(const std::string& token);
/// When a loss was counted: "before", "header", "machine".
[[nodiscard]] std::string stage_token_text(const std::string& token);

} // namespace quartercut::report
