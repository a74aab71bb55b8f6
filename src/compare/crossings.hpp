// SPDX-License-Identifier: MIT
// How often each machine, day and variety met each method; where they never met both, the difference may be theirs.
#pragma once

#include "compare/field.hpp"

namespace quartercut::contrast {

[[nodiscard]] std::vector<Crossing> field_crossings(const FieldContext& field);

/// variety (or any mapped attribute of that name) x method over all fields.
[[nodiscard]] std::vector<Crossing> season_crossings(const Season& season, const Standardised& standardised,
                                                     const std::vector<ZonedField>& zoned);

/// One sentence per crossing whose levels never met two methods; empty when each method pair shares a level.
[[nodiscard]] std::vector<std::string> confounding_words(const std::vector<Crossing>& crossings);

} // namespace quartercut::contrast
