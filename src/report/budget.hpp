// SPDX-License-Identifier: MIT
// Where the uncertainty comes from, as bars: of one contrast and of a farm row.
#pragma once

#include "report/chart.hpp"

#include <string>
#include <vector>

namespace quartercut::report {

/// "4 together (strips)", with the method where there are more than two.
[[nodiscard]] std::string together(const Telling& telling, const FarmContrast& farm);

/// Bars with what a screen reader is told of them.
struct BudgetBars {
    std::vector<Bar> bars;
    std::vector<std::string> said;
};
[[nodiscard]] BudgetBars contrast_bars(const Telling& telling, const Contrast& contrast);

/// The farm's own spread and what all fields share. `index`: of the farm row in the results.
void write_farm_budget(Html& html, const Telling& telling, std::size_t index);

} // namespace quartercut::report
