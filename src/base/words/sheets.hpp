// SPDX-License-Identifier: MIT
// The strings of the tables for the agronomist, of cleaning, loads and settings: a part of words.hpp, apart for its
// length.
#pragma once

namespace quartercut {

struct SheetWords {
    // every number of a difference, for the agronomist
    const char* evidence = "Evidence";
    const char* finding = "Finding";
    const char* units = "Units of evidence";
    const char* estimator_covariance = "Estimator and covariance";
    const char* gain = "Gain";
    const char* se_sampling = "Standard error (sampling)";
    const char* df = "df";
    const char* ci_sampling = "95 % interval (sampling)";
    const char* p = "p";
    const char* p_randomisation = "p by randomisation";
    const char* p_adjusted = "p adjusted for several looks (Holm)";
    const char* u_calibration = "u of calibration";
    const char* u_total = "u in total";
    const char* df_total = "df of the total";
    const char* ci_total = "95 % interval (total)";
    const char* break_even_calibration = "Break-even calibration error (%)";
    const char* break_even_moisture = "Break-even moisture error (points)";
    const char* fragile = "Against calibration error the result is";
    const char* detectable = "Difference seen with 80 % power";
    const char* yield_method = "Yield of the method";
    const char* yield_baseline = "Yield of the baseline";
    const char* raw_gain = "Difference of raw record means";
    const char* placebo_layouts = "Layouts with nothing done";
    const char* placebo_as_large = "... share with a difference as large";
    const char* placebo_found = "... share that would be called a difference";
    const char* note = "Note";
    const char* se = "Standard error";
    const char* fields = "Fields";
    const char* estimator = "Estimator";
    const char* prediction = "95 % prediction interval";
    const char* years = "Years";
    const char* between_years = "Spread between years";
    const char* tau = "tau, spread between fields";
    const char* i2 = "I² (%)";
    const char* u_shared = "u shared by all fields";
    const char* of_it = "... of it, ";
    // what cleaning did, delays, calibration
    const char* field = "Field";
    const char* machine = "Machine";
    const char* lag_outcome = "What came of it";
    const char* lag_delay = "Delay (s)";
    const char* lag_range = "Range (s)";
    const char* lag_applied = "applied: ";
    const char* lag_not_applied = "not applied: ";
    const char* calibration_from = "From";
    const char* calibration_loads = "Loads";
    const char* calibration_factor = "Factor";
    const char* calibration_uncertainty = "Uncertainty (%)";
    const char* count_of = " of ";
    const char* mean_before = " before (";
    const char* mean_after = " after (";
    // loads
    const char* load = "Load";
    const char* flow = "Flow (kg/s)";
    // settings
    const char* on = "on";
    const char* off = "off";
    const char* cleaning_step = "cleaning: ";
    const char* crop = "crop";
    const char* basis = "basis moisture";
    const char* bushel = "bushel";
    const char* baseline = "baseline";
    const char* report_unit = "report unit";
    const char* believable = "believable yield of a record";
    const char* randomised = "strips placed at random";
    const char* yes = "yes";
    const char* not_stated = "not stated";
    const char* pairs = "pairs";
    const char* segment = "segment";
    const char* cut_width = "cut width, ";
};

} // namespace quartercut
