// SPDX-License-Identifier: MIT
// Marks records, never deletes; turns flow into mass per area; calibrates to tickets.
//
// The steps run in a fixed order, once, blind to the method's name, and no neighbourhood crosses a method boundary.
// Every removal has a reason, every step reports what it did in numbers.
#pragma once

#include "quartercut/standardise.hpp"

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace quartercut {

namespace cleaning {
struct Groundwork;
}

/// Why a record is not used. `kept` first; the order is that of the steps.
enum class Removal : std::uint8_t {
    kept,
    off_field, ///< outside the boundary or in a hole
    no_method, ///< in no method area: shown on the map, in no contrast
    header_up,
    no_flow,             ///< no grain or no reading
    no_travel,           ///< no distance or no width
    impossible_moisture, ///< not within (0, 100), or missing where it is needed
    position_jump,
    merged, ///< its mass and area went into the record beside it
    speed,
    turn,
    pass_start,     ///< machine filling
    pass_end,       ///< machine emptying
    covered_before, ///< most of its land had been cut already
    short_pass,
    yield_limits,         ///< no crop yields that
    far_from_method_area, ///< far from the median of its method area
    far_from_neighbours,
};
inline constexpr std::size_t removal_count = 18;

/// The word used in comparison.json and the maps: "off-field", "no-flow", ...
[[nodiscard]] const char* removal_word(Removal removal);

/// One run of one machine through the crop.
struct Pass {
    int machine = -1;
    int method = -1;          ///< method of most of its records
    double heading_deg = 0.0; ///< mean direction, clockwise from north
    double length_m = 0.0;
    double start_s = 0.0; ///< NaN where times are unknown
};

/// Shift between the sensor's reading and the cut, per machine and method. The methods of one machine share one shift
/// unless theirs clearly differ.
struct LagEstimate {
    std::string machine, method;
    double lag_s = 0.0, low_s = 0.0, high_s = 0.0; ///< 90 % interval by bootstrap over pass pairs
    bool applied = false;
    std::string why;        ///< in words: found, already shifted, no structure, too few opposite passes, ...
    bool not_found = false; ///< nothing could be found out: as logged, and that may be wrong
};

struct RampEstimate {
    std::string machine, method;
    double start_s = 0.0, end_s = 0.0;
    bool from_data = false; ///< false: the default, too few passes
};

/// Factor that multiplies monitor mass, per machine and method.
struct Calibration {
    std::string machine, method;
    double factor = 1.0;
    double u_rel = 0.0; ///< standard uncertainty of the factor, relative
    double df = 0.0;    ///< degrees of freedom of u_rel; 50 for a stated default
    int loads = 0;
    std::string source; ///< "tickets", "neighbouring passes", "none"
};

/// What one step did: counts, spread and mean per method before and after.
struct StepReport {
    std::string step;
    bool on = true;
    std::size_t records_before = 0, records_after = 0;
    double cv_before_pct = 0.0, cv_after_pct = 0.0;        ///< of record yields
    double nugget_before = 0.0, nugget_after = 0.0;        ///< half mean squared difference of neighbours along a pass
    std::vector<double> mean_before_t_ha, mean_after_t_ha; ///< per method code, mass/area; NaN where none
};

/// Harvested against mapped land, per method: a check of the cut width.
struct WidthCheck {
    std::string method;
    double set_width_m = 0.0;
    double measured_width_m = 0.0; ///< median spacing of neighbouring passes; NaN: too few
    double closure_pct = 0.0;      ///< 100 * harvested / mapped - 100; NaN: not to be had
    double u_rel = 0.02;           ///< relative standard uncertainty of area carried on
};

struct CleanedField {
    std::vector<Removal> removal;      ///< one per record
    std::vector<std::int32_t> pass;    ///< index into passes, -1: in none
    std::vector<std::uint8_t> edge;    ///< 1: kept for the map, left out of contrasts (cut straddles two methods)
    std::vector<double> mass_basis_kg; ///< calibrated, at the basis, lag-shifted; 0 where removed
    std::vector<double> moisture_pct;  ///< lag-shifted moisture used
    std::vector<double> area_m2;       ///< land newly cut by the record
    std::vector<Pass> passes;
    std::vector<LagEstimate> lag, moisture_lag;
    std::vector<RampEstimate> ramps;
    std::vector<Calibration> calibration; ///< those used in this field
    std::vector<WidthCheck> widths;
    std::vector<std::array<std::size_t, removal_count>> removed; ///< per method code + 1 (0: no method), per reason
    std::vector<StepReport> steps;
    Issues issues;
};

/// Load by load: what the scale said and what the monitor said, for the chart and the drift check.
struct LoadCheck {
    std::string ticket, machine, method, field;
    double time_s = 0.0;
    double ticket_basis_kg = 0.0, monitor_basis_kg = 0.0;
    double flow_kg_s = 0.0;
};

struct Cleaned;

/// What a re-run changes, for the robustness table. Default: as the season file says.
struct CleanOptions {
    CleaningChoice steps;
    double extra_lag_s = 0.0;            ///< added to every lag
    double extra_ramp_s = 0.0;           ///< added to every ramp
    std::optional<double> assumed_lag_s; ///< shift of flow where no lag could be found; absent: as logged
    bool moisture_correction = true;     ///< false: masses stay wet
    int jobs = 0;                        ///< worker threads; 0: all cores. Results do not depend on it.
    const Cleaned* earlier = nullptr;    ///< cleaning of the same records that was begun anew: what it found out about
                                         ///< passes, land, lags and ramps is taken over where it would be found again.
                                         ///< Same bits, less time; steps and the check of widths, which the first
                                         ///< cleaning told of, are left out.
};

struct Cleaned {
    std::vector<CleanedField> fields;           ///< same order as Standardised::fields
    std::vector<Calibration> calibration;       ///< per machine x method over the season
    std::vector<LagEstimate> lag, moisture_lag; ///< likewise
    std::vector<RampEstimate> ramps;            ///< likewise
    std::vector<LoadCheck> loads;
    CleanOptions made_with;                                              ///< without `earlier`
    std::shared_ptr<const std::vector<cleaning::Groundwork>> groundwork; ///< for later cleanings; null in these
    Issues issues;
};

/// \throws DataError  a ticket that names an unknown field, machine or method, or whose time window holds no records;
///                    a width that the spacing of passes and the mapped land both speak against
[[nodiscard]] Cleaned clean(const Season& season, const Standardised& input, const CleanOptions& options);

} // namespace quartercut
