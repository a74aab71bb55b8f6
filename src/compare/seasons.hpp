// SPDX-License-Identifier: MIT
// Several seasons: fields within years, two levels, from earlier comparison.json files and this season's own fields.
#pragma once

#include "quartercut/compare.hpp"

namespace quartercut::contrast {

/// One row per method, baseline and kind of evidence that two or more years hold; kinds are never mixed.
/// What of `comparison.earlier` cannot be pooled is said in `issues`.
[[nodiscard]] std::vector<FarmContrast> pool_seasons(const Season& season, const Comparison& comparison,
                                                     Issues& issues);

} // namespace quartercut::contrast
