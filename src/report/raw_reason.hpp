// SPDX-License-Identifier: MIT
// Why the raw yield map says something else than the answer, where the reason is known.
#pragma once

#include "report/telling.hpp"

namespace quartercut::report {

/// One sentence, or empty: only where the raw difference has the other sign or lies outside the range, and calibration
/// or moisture pulls it that way by a good part of the gap. `index`: of the field in the results.
[[nodiscard]] std::string raw_reason(const Telling& telling, const Contrast& contrast, std::size_t index);

} // namespace quartercut::report
