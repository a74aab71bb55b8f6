// SPDX-License-Identifier: MIT
// What the farm's results say about a field they have not seen.
#pragma once

#include "quartercut/plan_choose.hpp"

namespace quartercut::planning {

/// The farm's pooled trials of one method, in what is needed to look ahead: over the years where earlier results were
/// given, else of this season alone.
struct FarmView {
    std::string method;
    const FarmContrast* farm = nullptr; ///< replicated evidence only; nullptr: none
    std::optional<NetDifference> net;   ///< its money at the farm's gain; nullopt: not priced
    std::optional<double> sd_next_t_ha; ///< of the gain in a next field
    double df_next = 1.0;
    std::optional<double> spread_t_ha; ///< true difference from field to field
    std::string why_unknown;
    std::string rests_on; ///< "3 fields of one year", "9 fields in 4 years"
    /// Is it known what it brings in another field? A mean that says nothing of the next field is no plan.
    [[nodiscard]] bool is_foretold() const { return net && sd_next_t_ha; }
};

/// Is that known of every priced method, and is there one?
[[nodiscard]] bool money_is_foretold(const std::vector<FarmView>& views);

/// \pre season.next_year
[[nodiscard]] FarmView farm_view(const Season& season, const std::string& method, const Comparison& comparison,
                                 const std::optional<MoneyResult>& money);

[[nodiscard]] Outlook outlook_of(const FarmView& view);

/// Chance that the method ends ahead in money where the gain has that standard uncertainty. \pre view.net
[[nodiscard]] double chance_ahead(const FarmView& view, double sd_t_ha);

/// Error of the pooled gain, the instruments' in it.
[[nodiscard]] double total_u_t_ha(const FarmContrast& farm);

/// The grower's notes that hold in a field, and what they are worth to each method.
struct Suitability {
    std::vector<std::string> notes;
    std::vector<int> favoured; ///< method code, one per note
};
[[nodiscard]] Suitability suitability_of(const Season& season, const RawArea& area);

} // namespace quartercut::planning
