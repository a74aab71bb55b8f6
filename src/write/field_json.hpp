// SPDX-License-Identifier: MIT
// One field of the results -> JSON.
#pragma once

#include "quartercut/results.hpp"
#include "write/json_values.hpp"

namespace quartercut::write {

/// Evidence, records, cleaning facts, zones, contrasts and issues of field `index`.
/// \throws InternalError  when its records do not add up
[[nodiscard]] Json field_json(const Results& results, std::size_t index);

/// Name of a method code; null for none.
[[nodiscard]] Json method_json(const Season& season, int method);

} // namespace quartercut::write
