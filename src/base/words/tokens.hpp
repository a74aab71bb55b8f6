// SPDX-License-Identifier: MIT
// What the page says for the words that results hold in one spelling for every language: a part of words.hpp.
#pragma once

namespace quartercut {

/// Found by token in report/tokens.cpp. A token that stands in no table is shown as it is.
struct TokenWords {
    // sources of error
    const char* sampling = "sampling";
    const char* calibration_of_machine = "calibration of machine {machine}";
    const char* calibration_of = "calibration of {machine}"; // of a machine without a name: "machine", "machine 2"
    const char* moisture = "moisture";
    const char* dockage = "dockage";
    const char* cut_width = "cut width";
    const char* timing = "lag and ramps";
    const char* all_years = "calibration, moisture and width of all years";
    // units of evidence and how samples were compared
    const char* pairs = "{n} pairs";
    const char* blocks = "{n} blocks";
    const char* split = "{n} split";
    const char* fields = "{n} fields";
    const char* two_groups = "{n} two groups";
    // against calibration error
    const char* fragile = "fragile";
    const char* moderate = "moderate";
    const char* sturdy = "sturdy";
    // where a calibration comes from
    const char* none = "none";
    const char* tickets = "tickets";
    const char* tickets_mixed = "tickets of mixed loads";
    const char* tickets_other = "tickets of the machine's other methods";
    const char* tickets_per_strip = "tickets per strip";
    const char* neighbouring_passes = "neighbouring passes";
    // steps of cleaning
    const char* as_logged = "as logged";
    const char* off_the_crop = "off the crop";
    const char* lag = "lag";
    const char* moisture_lag = "moisture_lag";
    const char* no_reading = "no reading";
    const char* merge = "merge";
    const char* speed = "speed";
    const char* turns = "turns";
    const char* ramps = "ramps";
    const char* coverage = "coverage";
    const char* short_passes = "short_passes";
    const char* limits = "limits";
    const char* neighbours = "neighbours";
    const char* edge_passes = "edge_passes";
    const char* tickets_and_offsets = "tickets and machine_offsets";
    // what a file was used as
    const char* role_season = "season";
    const char* role_fields = "fields";
    const char* role_points = "points";
    const char* role_methods = "methods";
    const char* role_strata = "strata";
    const char* role_tickets = "tickets";
    const char* role_history = "history";
    const char* role_losses = "loss counts";
    const char* role_samples = "seed samples";
    const char* role_weather = "weather";
    const char* role_next_year = "next_year";
    // weight of a remark
    const char* note = "note";
    const char* warning = "warning";
    const char* error = "error";
};

} // namespace quartercut
