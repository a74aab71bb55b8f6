// SPDX-License-Identifier: MIT
// The same analysis on the same land with nothing done: the found gain is taken back out of the yields, the pattern of
// methods is laid elsewhere in the field, and the analysis is run again. How often it finds something is its true error
// rate on this field, whatever its formulas say.
#pragma once

#include "compare/pairs.hpp"
#include "compare/split.hpp"

namespace quartercut::contrast {

/// Strip pairs moved sideways over the field; in a randomised trial the order within each pair is drawn anew.
/// nullopt when fewer than ten layouts leave two whole pairs.
[[nodiscard]] std::optional<Placebo> placebo_of_pairs(const FieldContext& field, const std::vector<Block>& blocks,
                                                      std::pair<int, int> pair, const Contrast& contrast);

/// The border of a split moved between a quarter and three quarters of the field, judged with the covariance as fitted.
[[nodiscard]] std::optional<Placebo> placebo_of_split(const FieldContext& field, const SpatialAnswer& answer,
                                                      std::pair<int, int> pair, const Contrast& contrast);

} // namespace quartercut::contrast
