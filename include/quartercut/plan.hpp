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
    std::optional<double> worth_cents_t;       ///< of one tonne more, what is charged by the tonne taken off
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

// ---- losses and samples --------------------------------------------------------------------------------------------

/// Grain left on the land at one stage. The place (a strip, a spot) is the unit, never the tray.
struct StageLoss {
    LossStage stage = LossStage::before_cutting;
    int places = 0, trays = 0;
    double loss_kg_ha = 0.0;
    std::optional<double> u_kg_ha, df;
    std::optional<Interval> ci95_kg_ha;
    std::string interval_from; ///< "spread between places", "counting error of one place only", or why there is none
};

struct MethodLoss {
    std::string method;
    std::vector<StageLoss> stages;
    std::vector<std::string> not_counted; ///< stages nobody counted: the total is without them
    double total_kg_ha = 0.0;
    std::optional<double> u_kg_ha, df;
    std::optional<Interval> ci95_kg_ha;
    std::optional<double> yield_t_ha;        ///< at the basis, of the land cut this way
    std::optional<double> crop_had_t_ha;     ///< yield + loss
    std::optional<double> loss_of_yield_pct; ///< loss / yield
    std::optional<double> loss_of_crop_pct;  ///< loss / (yield + loss)
};

/// Loss of a method less that of the baseline, over the stages counted for both.
struct LossDifference {
    std::string method, baseline;
    double difference_kg_ha = 0.0;
    std::optional<Interval> ci95_kg_ha;
    std::string over; ///< the stages compared
};

struct LossResult {
    std::vector<MethodLoss> methods;
    std::vector<LossDifference> differences;
    Issues issues;
};

[[nodiscard]] LossResult count_losses(const Season& season, const std::vector<LossCount>& counts,
                                      const std::vector<ZonedField>& zoned);

/// A property of the grain (seed weight, green seed ...) of a method less that of the baseline.
struct SampleDifference {
    std::string property, method, baseline;
    double mean = 0.0, baseline_mean = 0.0, difference = 0.0;
    std::optional<Interval> ci95;
    int units = 0;   ///< pairs, or samples where there are none
    std::string how; ///< "pairs", "fields", "two groups"
};
[[nodiscard]] std::vector<SampleDifference> compare_samples(const Season& season,
                                                            const std::vector<SeedSample>& samples);

// ---- weather beside the result -------------------------------------------------------------------------------------

/// What the weather did while one method's crop of a field was out: listed, never used to change a yield.
struct WeatherWindow {
    std::string field, method, state; ///< "in swath", "standing ripe"
    long first_day = 0, last_day = 0;
    int days_known = 0;
    double rain_mm = 0.0;
    int rain_days = 0;
    std::optional<double> gust_km_h; ///< highest
    long gust_day = 0;
    std::vector<WeatherDay> days; ///< every day of the window with rain or a gust on record
};

struct WeatherResult {
    std::vector<WeatherWindow> windows;
    std::vector<std::string> gaps; ///< fields whose window is not known, and why
};

[[nodiscard]] WeatherResult list_weather(const Season& season, const Standardised& standardised,
                                         const std::vector<ZonedField>& zoned, const std::vector<WeatherDay>& days);

// ---- all of it beside a comparison ---------------------------------------------------------------------------------

/// What `compare` adds to its results when the season file has the tables for it.
struct PlanResults {
    std::optional<MoneyResult> money;
    std::optional<LossResult> losses;
    std::vector<SampleDifference> samples;
    std::optional<WeatherResult> weather;
    std::vector<InputFile> inputs; ///< files read for it
    Issues issues;
    [[nodiscard]] bool empty() const { return !money && !losses && samples.empty() && !weather; }
};

/// Reads the small tables and fills whatever the season file asks for.
[[nodiscard]] PlanResults plan_beside(const Season& season, const Standardised& standardised,
                                      const std::vector<ZonedField>& zoned, const Comparison& comparison);

} // namespace quartercut
