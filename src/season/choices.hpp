// SPDX-License-Identifier: MIT
// The tables of the season file that choose how the work is done, and the methods themselves.
#pragma once

#include "season/table_reader.hpp"

namespace quartercut::season {

[[nodiscard]] std::vector<Method> read_methods(const TableReader& root);
/// `source`: where methods come from; a pairs column needs method polygons.
[[nodiscard]] TrialInput read_trial(const TableReader& root, MethodSource source);
[[nodiscard]] CleaningChoice read_cleaning(const TableReader& root);
[[nodiscard]] ComparisonChoice read_comparison(const TableReader& root);

} // namespace quartercut::season
