// SPDX-License-Identifier: MIT
// From the comparison to a decision: money, losses, weather beside the result, trial layouts, next year's fields.
//
// Money is cents inside; amounts for a whole field are whole cents. Nothing is priced that the season file does not
// price: what is missing is a named gap. Nothing here changes a yield.
#pragma once

#include "quartercut/compare.hpp"
#include "quartercut/plan_inputs.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace quartercut {

// ---- money ---------------------------------------------------------------------------------------------------------

/// One cost as it falls on a hectare cut by a method.
struct CostLine {
    std::string item, method, written, as_of, source;
    double cents_ha = 0.0;
};

/// The net difference with one input at its low and at its high end, everything else as it is.
struct MoneyMove {
    std::string what;
    double low_cents_ha = 0.0, high_cents_ha = 0.0;
    [[nodiscard]] double swing_cents_ha() const;
};

/// Money of one method over the baseline, in one field or on the farm.
struct NetDifference {
    std::string field; ///< empty: the farm
    std::string method, baseline, evidence;
    double area_ha = 0.0; ///< of the field; farm: of the fields pooled
    std::optional<double> gain_t_ha;
    std::optional<double> net_cents_ha, u_cents_ha, df;
    std::optional<Interval> ci95_cents_ha;
    std::optional<std::int64_t> net_field_cents; ///< the whole field cut one way rather than the other
    std::optional<std::array<std::int64_t, 2>> ci95_field_cents;
    std::optional<double> extra_cost_cents_ha; ///< costs alone, at the baseline's yield
    std::optional<double> break_even_t_ha;     ///< gain at which the two ways cost the same
    std::optional<double> p_pays;              ///< replicated evidence only
    std::optional<double> regret_cents_ha;     ///< expected loss if the better-looking way is the worse
    std::string why_no_chance;                 ///< why p_pays is absent
    std::vector<CostLine> lines;
    std::vector<MoneyMove> tornado; ///< largest swing first
};

struct MoneyResult {
    std::string currency;
    std::vector<NetDifference> fields, farm;
    std::vector<std::string> gaps; ///< what is not priced, each a sentence
    std::vector<std::string> notes;
};

/// \pre season.money
[[nodiscard]] MoneyResult price_comparison(const Season& season, const Standardised& standardised,
                                           const std::vector<ZonedField>& zoned, const Comparison& comparison);

} // namespace quartercut
