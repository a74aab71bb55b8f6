// SPDX-License-Identifier: MIT
// Strips -> blocks: sets of neighbouring strips that hold every method, from a column of the layer or from the layout.
#pragma once

#include "compare/strips.hpp"

namespace quartercut::contrast {

/// Strips of one block, indices into Layout::strips.
struct Block {
    std::string name;
    std::vector<int> strips;
};

struct Pairing {
    std::vector<Block> blocks;
    std::vector<int> left_over; ///< strips in no block
    bool from_column = false;
    bool patches = false; ///< the method areas are not strips: nothing was paired
};

/// Blocks for one pair of methods. `setting`: "auto", "none", or the name of a column (then Zone::block says).
[[nodiscard]] Pairing find_pairs(const Layout& layout, int method, int baseline, const std::string& setting);

} // namespace quartercut::contrast
