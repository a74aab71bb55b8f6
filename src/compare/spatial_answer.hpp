// SPDX-License-Identifier: MIT
// One field, one spatial model, every contrast of its methods: the sensitivity answer beside paired strips, and the
// answer of a split field.
#pragma once

#include "compare/cells.hpp"

#include <optional>
#include <utility>

namespace quartercut::contrast {

struct SpatialRequest {
    bool trends = false;                        ///< linear along and across: for split fields
    bool boundary = false;                      ///< also the contrast along the border
    std::vector<std::pair<int, int>> contrasts; ///< (method, baseline) codes
    std::size_t most_cells = 600;
    std::optional<SpatialModel> begin; ///< form and start of a re-run; nothing is chosen then
};

struct SpatialAnswer {
    std::vector<std::vector<Estimate>> estimates; ///< per contrast; the first is GLS, then least squares, then border
    std::optional<SpatialFit> fit;
    CellSet set;                 ///< with the design used
    std::vector<int> methods;    ///< codes in the order of the design's first columns
    bool trends_dropped = false; ///< they could not be told from the methods
    std::string trouble;         ///< why there is no estimate; empty otherwise
};

[[nodiscard]] SpatialAnswer spatial_answer(const SegmentSet& segments, const SpatialRequest& request);

/// Index of the estimate with the widest 95 % interval, or -1.
[[nodiscard]] int widest(const std::vector<Estimate>& estimates);

/// Generalised and plain least squares differ by more than twice the standard error of their difference.
[[nodiscard]] bool depends_on_model(const Estimate& generalised, const Estimate& plain);

} // namespace quartercut::contrast
