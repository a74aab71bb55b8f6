// SPDX-License-Identifier: MIT
// What the farm's results say about a field they have not seen.
#pragma once

#include "quartercut/plan_choose.hpp"

namespace quartercut::planning {

/// The farm's pooled trials of one method, in what is needed to look ahead.
struct FarmView {
    std::string method;
    const FarmContrast* farm = nullptr; ///< replicated evidence only; nullptr: none
    const NetDifference* net = nullptr; ///< its money; nullptr: not priced
    std::optional<double> sd_next_t_ha; ///< of the gain in a next field
    double df_next = 1.0;
    std::optional<double> spread_t_ha; ///< true difference from field to field
    std::string why_unknown;
};

[[nodiscard]] FarmView farm_view(const std::string& method, const NextYearInput& next, const Comparison& comparison,
                                 const std::optional<MoneyResult>& money);

[[nodiscard]] Outlook outlook_of(const FarmView& view);

/// The grower's notes that hold in a field, and what they are worth to each method.
struct Suitability {
    std::vector<std::string> notes;
    std::vector<int> favoured; ///< method code, one per note
};
[[nodiscard]] Suitability suitability_of(const Season& season, const RawArea& area);

} // namespace quartercut::planning
