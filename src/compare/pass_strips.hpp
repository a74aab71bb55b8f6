// SPDX-License-Identifier: MIT
// Strips from passes, where the drawn areas are no strips: "everything else" around a few check strips, or areas grown
// from the records. Neighbouring passes of one method are one strip.
#pragma once

#include "compare/strips.hpp"

namespace quartercut::contrast {

/// Strips of the field by runs of passes in `direction_rad`; empty when the methods do not keep to passes (nineteen
/// twentieths of each pass's length in one method, on average), for then borders cross passes and nothing is a strip.
[[nodiscard]] std::vector<Strip> strips_from_passes(const ZonedField& zoned, const CleanedField& cleaned,
                                                    const std::vector<int>& usable, double direction_rad);

} // namespace quartercut::contrast
