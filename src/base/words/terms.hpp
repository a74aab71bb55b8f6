// SPDX-License-Identifier: MIT
// Cautions and the word list: a part of words.hpp, apart for its length.
#pragma once

#include <array>
#include <cstddef>

namespace quartercut {

/// What the word list explains, in its order.
enum class Term {
    basis,
    method,
    baseline,
    zone,
    pass,
    segment,
    pair,
    ticket,
    calibration_error,
    raw_map,
    range,
    total_range,
    standard_uncertainty,
    df,
    p,
    break_even,
    prediction_interval,
    tau,
    last
};

/// One entry of the word list.
struct Meant {
    const char* word;
    const char* meaning;
};

// Sources: pre-harvest intervals count to the cut: Keep it Clean (Canadian crop-industry programme); a monitor is not a
// trade scale: University of Kentucky PA-1, Yield Monitoring; the rest is common practice.
inline constexpr std::array<const char*, 6> english_cautions = {
    "One year on one farm describes what happened there. Weather, variety and ripeness decide as much as the cutter; "
    "repeat it before you change a whole farm.",
    "A yield monitor is not a scale that is legal for trade. Settle, insure and pay on weighed grain only.",
    "For anything sprayed before harvest, product, rate, crop stage and waiting time come from the label. The waiting "
    "time counts to the cut: the day of swathing in a swathed field, the day of combining in a standing one. Ask the "
    "buyer about residues before delivery.",
    "Harvest aids, drones and low-flying aircraft follow the label, the rules of the place and the judgement of "
    "licensed people. Nothing on this page replaces them.",
    "Never walk up to a running machine, to check losses or anything else. Stop it, or use a pan that drops by remote.",
    "Where hail or wind insurance is in play, call the adjuster before combining and leave the check strips they ask "
    "for.",
};

inline constexpr std::array<Meant, static_cast<std::size_t>(Term::last)> english_words = {{
    {"Basis", "The standard moisture every yield is brought to, so that wet and dry grain weigh alike."},
    {"Method", "One way of cutting, for example swathed or standing."},
    {"Baseline", "The method the others are compared with."},
    {"Zone", "The part of a field cut one way; one strip is one zone."},
    {"Pass", "One run of one machine through the crop."},
    {"Segment", "A stretch of one pass, about 30 m long: its yield is grain mass over land cut."},
    {"Pair", "Two strips side by side, one cut each way."},
    {"Ticket", "A weighed load."},
    {"Calibration error",
     "How far the weight a monitor reads is from what a scale says; what counts here is how much that "
     "differs between the ways of cutting."},
    {"Raw map", "Plain means of the monitor's records as logged, before any cleaning or calibration."},
    {"Range",
     "The interval that most likely holds the true difference: 95 % coverage when what it counts is all there is."},
    {"Total range",
     "The range with the errors of calibration, moisture and cut width in it. The answer uses this one."},
    {"Standard uncertainty (u)", "One standard deviation of an error; about half the range to one side."},
    {"df", "Degrees of freedom: how much information stands behind a standard error. Few means wide ranges."},
    {"p", "How often a difference as large would appear with nothing done, if the model holds."},
    {"Break-even", "How wrong the calibration, or the moisture, would have to be for the difference to vanish."},
    {"Prediction interval", "Where the difference on one more field like these would likely fall."},
    {"tau, I²",
     "How much the true difference varies from field to field; the share of the spread that is such variation."},
}};

} // namespace quartercut
