// SPDX-License-Identifier: MIT
// The rectangle a segment is drawn as.
#pragma once

#include "quartercut/clean.hpp"
#include "quartercut/zone.hpp"

#include <vector>

namespace quartercut::write {

/// A rectangle of the segment's length and area around its centre, along its pass: towards its neighbours in the same
/// pass where it has any, along the pass's mean heading otherwise. Empty where length or area is not positive.
[[nodiscard]] MultiPolygon segment_shape_m(const std::vector<Segment>& segments, std::size_t index,
                                           const std::vector<Pass>& passes);

} // namespace quartercut::write
