// SPDX-License-Identifier: MIT
// Fields -> the farm: random effects per kind of evidence, kinds never mixed; whole fields against each other by Welch.
#pragma once

#include "quartercut/compare.hpp"

namespace quartercut::contrast {

/// Rows of replicated fields, then of split fields, per method. `area_m2`: land under the methods, per field.
[[nodiscard]] std::vector<FarmContrast> pool_fields(const Season& season, const std::vector<FieldComparison>& fields,
                                                    const std::vector<double>& area_m2);

/// One row per method against the baseline from fields cut one way only; empty where a side has no field.
[[nodiscard]] std::vector<FarmContrast> compare_whole_fields(const Season& season, const Standardised& standardised,
                                                             const Cleaned& cleaned,
                                                             const std::vector<ZonedField>& zoned, Issues& issues);

} // namespace quartercut::contrast
