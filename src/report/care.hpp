// SPDX-License-Identifier: MIT
// What changes how an answer is to be read, so that it stands beside the answer and not only among the remarks.
#pragma once

#include "report/telling.hpp"

#include <string>
#include <vector>

namespace quartercut::report {

/// Of one field, each once, as sentences. What its answer says already (own machines) is not said again.
[[nodiscard]] std::vector<std::string> cares_of(const Results& results, const FieldComparison& field);

/// Those that hold for every field compared; empty where fewer than two fields are.
[[nodiscard]] std::vector<std::string> cares_of_all(const Results& results);

} // namespace quartercut::report
