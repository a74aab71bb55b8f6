// SPDX-License-Identifier: MIT
// What the room clean says: a part of words.hpp, apart for its length.
#pragma once

namespace quartercut {

struct CleanWords {
    const char* moisture_not_recorded =
        "the records carry no moisture, so their mass could not be brought to the basis and stands as logged; give the "
        "moisture column, or tickets with moisture for every method";
    const char* depends_on_flow = "ticket over monitor changes by {pct:+.1f} % for each doubling of flow (t {t:.1f}); "
                                  "calibrate the machines over the range of flows they meet";
    const char* drifts = "ticket over monitor drifts by {pct:+.2f} % a day (t {t:.1f}); methods cut on different days "
                         "are not calibrated alike";
    const char* load_without_readings =
        "the sensor gave no reading for {pct:.1f} % of the time the load was cut (at most 2 % can be filled in), so "
        "the load is left out of the calibration; look for empty or negative flow in the records";
    const char* mixed_load = "the load holds grain of more than one machine or method, so it says nothing about their "
                             "difference; it is used only where nothing better is";
    const char* ticket_method_differs =
        "the ticket says {said} but its records lie on land cut {found}; the records were believed";
    const char* large_correction = "the monitor was corrected by {pct:+.1f} %: {question}";
    const char* odd_load_more =
        "against the monitor this load weighs {pct:.0f} % more than the middle one of its machine "
        "and method; look whether its weight was written down right and no other grain is in it";
    const char* odd_load_less =
        "against the monitor this load weighs {pct:.0f} % less than the middle one of its machine "
        "and method; look whether its weight was written down right and nothing of it is missing";
    const char* factors_more =
        "by its weighed loads the monitor has to be corrected {pct:.1f} % more for {method} than for {other}; one "
        "machine seldom reads two ways of cutting more than a few percent apart, so look whether each load holds all "
        "the grain it is taken for, and of one method only";
    const char* factors_less =
        "by its weighed loads the monitor has to be corrected {pct:.1f} % less for {method} than for {other}; one "
        "machine seldom reads two ways of cutting more than a few percent apart, so look whether each load holds all "
        "the grain it is taken for, and of one method only";
    const char* pounds = "are the tickets pounds in a column for kilograms?";
    const char* kilograms_as_pounds = "are the tickets kilograms in a column for pounds?";
    const char* kilograms_as_tonnes = "are the tickets kilograms in a column for tonnes?";
    const char* tonnes = "are the tickets tonnes in a column for kilograms?";
    const char* short_tons = "are the tickets short tons in a column for tonnes?";
    const char* tonnes_as_short_tons = "are the tickets tonnes in a column for short tons?";
    const char* all_of_load =
        "do the tickets hold all of the load and nothing else, and are the units of tickets and records right?";
    // why a delay was shifted or not
    const char* too_even = "kept as logged: the crop is too even to show a delay (agreement improves by {pct:.1f} %)";
    const char* not_backed =
        "kept as logged: the crop is too even to show a delay (the passes do not back one together)";
    const char* end_of_range = "kept as logged: the best delay lies at the end of the range tried";
    const char* no_agreement = "kept as logged: the passes do not agree on a delay ({low:.1f} to {high:.1f} s)";
    const char* shifted = "already shifted: opposite passes agree best as logged";
    const char* shifted_early =
        "already shifted: opposite passes agree best {seconds:.1f} s earlier than logged, and grain cannot be read "
        "before it is cut (readings stamped with the start of their interval look so too); left as logged";
    const char* found = "found from the agreement of opposite neighbouring passes";
    const char* few_passes = "kept as logged: only {pairs} pairs of opposite neighbouring passes, {needed} needed";
    const char* together = "{why} (all methods of the machine together)";
    const char* from_others = "taken from the machine's other methods: its own passes show none";
    const char* shifted_as_others = "already shifted, as the machine's other methods are; its own passes show no delay";
    const char* switched_off = "kept as logged: switched off in the season file";
    const char* lag_not_found = "the delay between cut and sensor could not be found ({why}); readings may lie some 8 "
                                "to 14 seconds of travel behind their place";
    // what was taken out, and the land
    const char* uneven_removal =
        "{high:.1f} % of the records of {method} but {low:.1f} % of those of {other} were taken out for one reason "
        "({reason}); look at the map of records taken out before trusting the difference";
    const char* removed_few = "{pct:.1f} % of the records were removed; published cleanings of yield records remove 13 "
                              "to 30 %. The records may have been cleaned before.";
    const char* removed_many = "{pct:.1f} % of the records were removed; published cleanings of yield records remove "
                               "13 to 30 %. Check the columns, units and widths of the records.";
    const char* width_more =
        "machine {machine}, method {method}: {from} takes one pass for {width:.2f} m of land, but its passes run "
        "{spacing:.2f} m apart, and the records add up to {pct:.1f} % more land than is mapped for the method; {cure}: "
        "what one pass takes off the field (for swathed crop the swather's cut, not the pickup's width)";
    const char* width_less =
        "machine {machine}, method {method}: {from} takes one pass for {width:.2f} m of land, but its passes run "
        "{spacing:.2f} m apart, and the records add up to {pct:.1f} % less land than is mapped for the method; {cure}: "
        "what one pass takes off the field (for swathed crop the swather's cut, not the pickup's width); or are "
        "records of a second machine missing, or labels of methods exchanged?";
    const char* logged_width = "the width the records log";
    const char* correct_width = "correct cut_width";
    const char* give_width = "give cut_width in the [[method]] \"{method}\"";
    const char* area_more = "the records account for {pct:.1f} % more land than is mapped for this one area";
    const char* area_less = "the records account for {pct:.1f} % less land than is mapped for this one area";
    const char* passes_apart = "the width set is {width:.2f} m but neighbouring passes run {spacing:.2f} m apart "
                               "({pct:+.1f} %); if the land between was cut, the yield of this method is overstated by "
                               "as much: check cut_width (for swathed crop it is the swather's cut)";
    const char* passes_overlap = "the width set is {width:.2f} m but neighbouring passes run {spacing:.2f} m apart "
                                 "({pct:+.1f} %); the passes overlap, or the width is set too large";
    const char* method_more = "the records account for {pct:.1f} % more land than is mapped for this method; the width "
                              "may be set too large or passes may overlap";
    const char* method_less = "the records account for {pct:.1f} % less land than is mapped for this method; part of "
                              "the land has no records, or the width is set too small";
};

} // namespace quartercut
