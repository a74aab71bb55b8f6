// SPDX-License-Identifier: MIT
// The charts of one contrast of one field, each with its table.
#pragma once

#include "report/chart.hpp"

#include <cstddef>

namespace quartercut::report {

struct ContrastPlace {
    std::size_t field = 0, contrast = 0;
};

/// Pairs, error budget and robustness, as far as the contrast has them.
void write_contrast_charts(Html& html, const Telling& telling, ContrastPlace place);

} // namespace quartercut::report
