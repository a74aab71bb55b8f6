// SPDX-License-Identifier: MIT
// The strings of the pages beside the report (next year's fields, the cab sheet, the counting sheet): a part of
// words.hpp, apart for its length.
#pragma once

namespace quartercut {

/// Next year's fields.
struct ChoiceWords {
    const char* title = "Which way to cut in {year}";
    const char* share = "{way}: {area} {lands}, {share} %";
    const char* limits = " (your limits: {low} to {high} %)";
    const char* value =
        " That is expected to bring {amount} more than all of it cut as “{baseline}”, dislike of loss and "
        "notes taken into account.";
    const char* trials = "Where to learn more";
    const char* no_set = "No set of trial fields is picked; see what is missing below.";
    const char* none_worth = "No trial is worth its cost: what it could teach would not change enough.";
    const char* strips_in = "Strips in {fields}: together they are expected to be worth {worth} for better decisions, "
                            "and cost {cost}.";
    const char* all_sets = " Every other set was looked at; none is better.";
    const char* fields = "Fields";
    const char* field = "Field";
    const char* proposed = "Proposed";
    const char* variety = "Variety";
    const char* expected = "Expected ({unit})";
    const char* like_these = "A field like these";
    const char* net = "Net per {land}";
    const char* pays = "Pays, of 100";
    const char* trial_worth = "A trial is worth";
    const char* combine_from = "Combine from";
    const char* field_by_field = "Field by field";
    const char* would_change = "What would change it:";
    const char* missing = "What is missing";
    const char* left_out = "Left out";
    const char* cautions = "Cautions";
    const char* plan_caution = "The plan knows only what the season file tells it. Ripeness, weeds, hail and the "
                               "weather of the week decide in the field.";
    const char* insurance_caution = "Where hail or wind insurance is in play, call the adjuster before combining and "
                                    "leave the check strips they ask for.";

    const char* whole_farm = "The whole farm";
    const char* plan_brings = "This plan: about {amount} over cutting all of it as “{baseline}”.";
    const char* all_baseline = "All of it cut as “{way}”: what the others are measured against{allowed}.";
    const char* all_one_way =
        "All of it cut as “{way}”: about {amount} over all of it as “{baseline}”{ahead}{allowed}.";
    const char* all_unpriced = "All of it cut as “{way}”: not known, as it is not priced{allowed}.";
    const char* ahead = ", ahead in {chance} of 100 such cases as far as these trials can tell";
    const char* not_allowed = "; your limits do not allow it";
    const char* limit_costs =
        "Your limit of {limit} costs about {amount}: the best plan without it brings that much more.";
    const char* limit_free = "Your limit of {limit} costs nothing: the best plan keeps it anyway.";
    const char* limits_cost = "All limits of the season file together cost about {amount}.";
    const char* limits_free = "All limits of the season file together cost nothing.";
    const char* counted_too =
        "What a limit costs counts your notes and your dislike of a loss, as the plan does; what a "
        "plan brings is money alone.";
};

/// The sheet for the cab.
struct CabWords {
    const char* title = "Trial strips: {field}";
    const char* judged = "Direction {direction}; judged on {judged}; {trials} trials played for each design; seed "
                         "{seed}.";
    const char* map = "Map of the strips";
    const char* map_note = "North is up. The numbers are the strips; blue: {method}; orange: {baseline}.";
    const char* strips = "Strips in order across the field";
    const char* strip = "Strip";
    const char* pair = "Pair";
    const char* cut_it = "Cut it";
    const char* passes = "Passes";
    const char* done = "Done (day, time)";
    const char* combine = "Combine";
    const char* ticket = "Scale ticket";
    const char* moisture = "Moisture";
    const char* remarks = "Remarks";
    const char* guards = "{passes} + {guards} guard each side";
    const char* designs = "Designs tried, cheapest first";
    const char* design = "Design";
    const char* design_row = "{pairs} pairs of {passes} + {baseline_passes} passes";
    const char* proposed = " (proposed)";
    const char* land = "Land ({lands})";
    const char* extra_time = "Extra time (min)";
    const char* finds = "Finds it, of 100";
    const char* finds_weighed = "of 100, weighed strip by strip";
    const char* finds_nothing = "Finds one where there is none, of 100";
    const char* can_show = "Can show ({unit})";
    const char* does_not_fit = "does not fit";
    const char* feet = "{ft} ft ({m} m)";
    const char* in_the_cab = "In the cab";
    const char* drive = "Drive along {degrees} degrees from north (or straight back), on the guidance lines of "
                        "strips.gpkg, strips.kml or guidance.shp.";
    const char* order = "Strips are whole passes wide; the first is {width} wide. Keep the order: a coin put it so.";
    const char* headlands = "Leave the headlands and the land between pairs for before or after; do not open a strip "
                            "across.";
    const char* weigh = "Empty the combine before a strip and weigh each strip by itself on one scale, or note the "
                        "load of every ticket. Take a moisture sample from each.";
    const char* write_down = "Write down machine, header, operator, day and time for every strip. Change no monitor "
                             "setting between the two strips of a pair; log the real cut width.";
    const char* same = "Same variety, same inputs, same machine in both strips of a pair.";
};

/// The counting sheet.
struct CountingWords {
    const char* title = "Counting lost seed";
    const char* before_start = "Before you start";
    const char* shatter = "Before cutting: trays on the ground through ripening and curing catch shatter and pods that "
                          "drop.";
    const char* header = "Behind the header: stop, back up, lay the tray where the header has been and the discharge "
                         "has not. On bare ground, what fell earlier is counted too; use a tray.";
    const char* machine = "Out of the machine: spreader and chopper off, a pan under the discharge. Note the cut width "
                          "(of the swather in a swathed crop, not the pick-up) and the width the discharge falls in.";
    const char* places = "At least four places for each way and field; places are what counts, not trays at one place.";
    const char* empty_tray = "An empty tray is a count of 0, and is written down. Weigh 1000 seeds of each way.";
    const char* place = "Place";
    const char* when = "When";
    const char* seeds = "Seeds";
    const char* grams = "Grams";
    const char* tray = "Tray area";
    const char* thousand = "1000 seeds (g)";
    const char* cut_width = "Cut width";
    const char* discharge = "Discharge";
    const char* at_before = "before";
    const char* at_header = "header";
    const char* at_machine = "machine";
};

} // namespace quartercut
