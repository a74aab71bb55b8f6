// SPDX-License-Identifier: MIT
// Results -> the text a terminal shows.
#pragma once

#include "quartercut/results.hpp"

#include <string>

namespace quartercut::cli {

/// The answer in sentences, one table of fields, what was removed and why, and warnings.
[[nodiscard]] std::string comparison_text(const Results& results);

/// What `check` found: inputs, records per field, and every remark grouped by where it belongs.
[[nodiscard]] std::string survey_text(const Results& results);
[[nodiscard]] std::string survey_json(const Results& results);

} // namespace quartercut::cli
