// SPDX-License-Identifier: MIT
// What holds of several comparisons of one field and is said once after them, not with each.
#pragma once

#include "report/telling.hpp"

#include <string>

namespace quartercut::report {

/// Does the field hold several comparisons of land cut once in each way, so that their caution stands after them?
[[nodiscard]] bool is_caution_shared(const FieldComparison& field);

/// That caution as a sentence, or empty.
[[nodiscard]] std::string shared_caution(const Telling& telling, const FieldComparison& field);

/// Is the best guess plainly another than the difference of the two yields told beside it: by more than a hundredth of
/// the crop?
[[nodiscard]] bool differs_from_yields(const Contrast& contrast);

/// Why, said once where it holds for several comparisons of the field; else empty.
[[nodiscard]] std::string shared_reason(const Telling& telling, const FieldComparison& field);

} // namespace quartercut::report
