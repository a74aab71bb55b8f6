// SPDX-License-Identifier: MIT
// Replicated strips: the difference within each block, its mean, and how far blocks disagree.
#pragma once

#include "compare/field.hpp"

namespace quartercut::contrast {

/// Blocks whose strips of both methods have a yield; the others are named in `issues`.
[[nodiscard]] std::vector<Block> blocks_with_yield(const FieldContext& field, const Pairing& pairing,
                                                   std::pair<int, int> pair, Issues& issues);

/// Fills gain, error, interval, p values, pairs. \pre at least two blocks, all with both yields
void compare_blocks(const FieldContext& field, const std::vector<Block>& blocks, std::pair<int, int> pair,
                    Contrast& contrast, Issues& issues);

/// The same within each stratum, and whether the gain differs between strata. The caller adds the instruments' errors
/// when all looks are known.
[[nodiscard]] std::vector<Contrast> compare_strata(const FieldContext& field, const std::vector<Block>& blocks,
                                                   std::pair<int, int> pair, Evidence evidence, Issues& issues);

} // namespace quartercut::contrast
