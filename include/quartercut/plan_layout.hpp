// SPDX-License-Identifier: MIT
// Trial strips for next year: candidate designs compared by simulation on the field's own past maps (or the farm's
// variogram), the cheapest that shows the difference proposed. "No design of this field can show it" is an answer.
#pragma once

#include "quartercut/plan.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace quartercut {

/// How the farm's yields vary over land, from its segments: exponential + nugget of a segment + an effect of each pass.
struct LandModel {
    double sill = 0.0, range_m = 1.0, nugget = 0.0, pass = 0.0; ///< variances in (t/ha)^2
    double cell_m2 = 300.0;                                     ///< land of the segment the nugget belongs to
    std::size_t pairs = 0;                                      ///< segment pairs it rests on
};

/// Fitted to all segments of the season, method differences taken out. \returns nullopt with too few segments
[[nodiscard]] std::optional<LandModel> fit_land(const std::vector<ZonedField>& zoned, const Comparison& comparison,
                                                const Season& season);

struct YieldPoint {
    double x_m = 0.0, y_m = 0.0, yield_t_ha = 0.0;
};

/// An earlier year's yields of a field, brought to the mean that is expected.
struct PastMap {
    std::string name; ///< as the season file writes it
    std::vector<YieldPoint> points;
    std::optional<double> direction_deg; ///< of that year's passes
};

/// A field as the planner sees it. Designs are played on `earlier`; without it on `map`; without that on `model`.
struct TrialLand {
    std::string name;
    Frame frame;
    MultiPolygon boundary_m;
    std::vector<PastMap> earlier;            ///< [history] maps of this field
    std::vector<YieldPoint> map;             ///< of this season, method differences taken out; may be empty
    std::optional<double> map_direction_deg; ///< this season's passes
    std::optional<LandModel> model;
    double mean_yield_t_ha = 0.0; ///< 0: not known
};

/// This season's field, with its segments as a map and, where [history] names maps, those of earlier years (read here).
[[nodiscard]] TrialLand trial_land(const Season& season, const StandardField& standard, const CleanedField& cleaned,
                                   const ZonedField& zoned, const FieldComparison& comparison);

/// A field never harvested here: its outline alone.
[[nodiscard]] TrialLand new_trial_land(const RawArea& area, bool local_metres);
/// The same with its maps of [history] (read here), each brought to the mean of all that was cut this season.
[[nodiscard]] TrialLand new_trial_land(const Season& season, const std::vector<ZonedField>& zoned, const RawArea& area,
                                       bool local_metres);

struct TrialWish {
    std::string method, baseline;
    double cut_m = 0.0, baseline_cut_m = 0.0;
    LayoutChoice choice;
    double difference_t_ha = 0.0;    ///< true difference that must be shown
    bool from_break_even = false;    ///< it is a distance from the break-even, not from 0
    std::string why_difference;      ///< what is to be shown and why, in words
    double u_instruments_t_ha = 0.0; ///< errors strips do not average: calibration, moisture ...
    double df_instruments = 50.0;
    int simulations = 4000;
    YieldUnit units = YieldUnit::t_ha; ///< what the answer speaks
    double bushel_lb = 50.0;
    double wanted_power = 0.8;
};

struct DesignResult {
    int pairs = 0, passes = 0, baseline_passes = 0; ///< compared passes of each strip
    double area_ha = 0.0;                           ///< of the compared strips
    std::optional<double> minutes;                  ///< extra time at harvest
    double se_t_ha = 0.0;                           ///< of the difference, without instruments
    double false_finding = 0.0;                     ///< share of trials that find a difference where there is none
    double power = 0.0;                             ///< share that find `difference_t_ha`
    double power_weighed = 0.0;                     ///< the same if every strip were weighed on one scale
    double detectable_t_ha = 0.0;                   ///< found in 80 % of trials
    std::string judged_on;                          ///< which land it was played on, in words
    std::string why_not;                            ///< it does not fit
};

/// One strip to be cut one way.
struct TrialStrip {
    int pair = 0, order = 0; ///< 1-based; order across the field
    std::string method;
    MultiPolygon shape_m;
    std::vector<std::array<Point, 2>> lines_m; ///< middle of each pass, guards too
    double width_m = 0.0, length_m = 0.0;
    int passes = 0, guards = 0;
};

struct TrialLayout {
    std::string field;
    Frame frame;
    MultiPolygon boundary_m;
    double direction_deg = 0.0;
    std::string direction_from;
    std::string simulated_on; ///< `judged_on` of the chosen design, else of the best
    TrialWish wish;
    std::vector<DesignResult> designs; ///< cheapest first
    int chosen = -1;                   ///< -1: no design of this field can show it
    int best = -1;                     ///< highest power of those that fit
    std::vector<TrialStrip> strips;    ///< of the chosen design
    std::string answer;                ///< in words
    std::vector<std::string> notes;
};

/// \throws InputError  field narrower than two strips, no past map and no model, nothing to show
[[nodiscard]] TrialLayout lay_out_trial(const TrialLand& land, const TrialWish& wish);

/// What [next_year.layout] and the results say must be shown, with which machines. \throws InputError what is missing
[[nodiscard]] TrialWish trial_wish(const Season& season, const Comparison& comparison,
                                   const std::optional<MoneyResult>& money);

} // namespace quartercut
