// SPDX-License-Identifier: MIT
// The answer in plain sentences: what the page opens with and the terminal prints.
#pragma once

#include "report/telling.hpp"

#include <string>
#include <vector>

namespace quartercut::report {

/// "On the four fields laid out in side-by-side strips, standing yielded 1.1 bu/ac more than swathed (0.3 to 1.9). ..."
[[nodiscard]] std::string farm_sentence(const Telling& telling, const FarmContrast& contrast);

/// The same for one field, without its name in front.
[[nodiscard]] std::string field_sentence(const Telling& telling, const FieldComparison& field,
                                         const Contrast& contrast);

/// The same for the fields a farm row pooled: the least and the greatest.
[[nodiscard]] std::string farm_raw_sentence(const Telling& telling, const FarmContrast& contrast);

/// "Yield at 10.0 % moisture: standing 46.6, swathed 45.0 bu/ac.", or empty.
[[nodiscard]] std::string yields_sentence(const Telling& telling, const Contrast& contrast);

/// For a field in which nothing is compared: why. `index`: of the field in the results.
[[nodiscard]] std::string lone_field_sentence(const Telling& telling, std::size_t index);

/// What the plain record means would have said, or empty where unknown.
/// With the reason why, if known, where it is far from the answer and the contrast's field is given.
[[nodiscard]] std::string raw_sentence(const Telling& telling, const Contrast& contrast,
                                       std::optional<std::size_t> field_index = std::nullopt);

} // namespace quartercut::report
