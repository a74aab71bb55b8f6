// SPDX-License-Identifier: MIT
// A split field: one method here, another there. No model can tell soil from method at the one border; the answer is
// the most cautious of several estimates and is never more than a lean.
#pragma once

#include "compare/field.hpp"
#include "compare/spatial_answer.hpp"

namespace quartercut::contrast {

/// Spatial answers for `pairs`, with linear trends, without the passes beside the border.
[[nodiscard]] SpatialAnswer split_answer(const FieldContext& field, const std::vector<std::pair<int, int>>& pairs,
                                         Issues& issues);

/// The model behind an answer, for re-runs to begin at.
[[nodiscard]] std::optional<SpatialModel> model_of(const SpatialAnswer& answer);

/// Takes the estimate with the widest interval as the one quoted; the others go to `also`.
void quote_widest(const FieldContext& field, const SpatialAnswer& answer, std::size_t which, Contrast& contrast,
                  Issues& issues);

/// Draws the quoted interval out until it holds that of the control from earlier years (or its estimate, where it has no
/// interval): a lean must not stand on a model while the land itself says otherwise.
void hold_control(const Estimate& control, Contrast& contrast);

/// Spatial answers beside paired strips: every strip counts, no trends.
[[nodiscard]] SpatialAnswer sensitivity_answer(const FieldContext& field,
                                               const std::vector<std::pair<int, int>>& pairs);

/// Notes every reader of a spatial fit needs: the range was not found, cells were merged, trends were dropped.
void report_fit(const FieldContext& field, const SpatialAnswer& answer, Issues& issues);

} // namespace quartercut::contrast
