// SPDX-License-Identifier: MIT
// What the room plan says of money, losses, weather, trials and next year's fields: a part of words.hpp, apart for its
// length.
#pragma once

namespace quartercut {

struct AdviceWords {
    // money
    const char* no_price_of_grain =
        "No price of grain is given, so nothing is said in money. Add price = \"... $/bu\" under [money].";
    const char* kind_swathing = "Swathing";
    const char* kind_harvest_aid = "Harvest aid";
    const char* kind_application = "Applying a harvest aid";
    const char* kind_combining = "Combining";
    const char* kind_drying = "Drying";
    const char* kind_trampling = "Trampling";
    const char* kind_grade = "A grade discount";
    const char* kind_other = "Another cost";
    const char* kind_ownership = "Owning a machine for one way only (a header, a swather)";
    const char* not_priced = "{kind} is not priced for {methods}; it is left out, not taken as nothing.";
    const char* not_priced_any = "{kind} is not priced for any method; if one of them has it, it is left out.";
    const char* trampling_not_priced = "Trampling by a ground rig is not priced; add kind = \"trampling\" with "
                                       "crushed_width and boom_width if the aid went on by ground.";
    const char* no_price = "no price is given";
    const char* no_moisture = "{where}: {item} is left out, because not all grain has a moisture.";
    const char* the_farm = "The farm";
    const char* not_comparable = "the two ways cannot be compared here";
    const char* one_comparison =
        "there was one comparison only, so differences of the land are in it and not in the range";
    const char* price_certain = "The price is taken as certain; price_uncertainty would carry its error through.";
    const char* costs_certain = "Taken as certain, because no uncertainty is given: {costs}.";
    const char* trampling_measured = "Trampling is in the measured yield already and is not charged again.";
    const char* trampling_charged = "Trampling is charged as crushed width over boom width: an upper bound, as tracks "
                                    "of earlier passes are run in again.";
    const char* yield_difference = "yield difference";
    const char* price = "price";
    const char* item_of = "{item} ({method})";
    const char* nothing_unsure = "nothing it rests on has an uncertainty";
    // losses and weather
    const char* between_places = "spread between places";
    const char* one_place_weighed = "one place, weighed: no interval";
    const char* one_place_counted = "counting error of one place only";
    const char* cut_width_differs = "The cut width here is {width:.2f} m, but {method} is cut {cut:.2f} m wide. In a "
                                    "swathed crop it is the swather's cut, not the pick-up.";
    const char* unknown_field =
        "There is no field '{field}' among those looked at; the count is used without a yield of its own land.";
    const char* in_swath = "in swath";
    const char* standing_ripe = "standing ripe";
    const char* no_times = "the records state no times";
    const char* no_start = "no start in the boundaries' columns";
    const char* starts_late = "it starts after it was combined";
    const char* days_unknown = "{field}, {method}: the days {state} are not known ({why}).";
    const char* station_gap = "{field}, {method}: the station has {days} of {all} days.";
    // a layout of strips
    const char* variogram = "the farm's variogram";
    const char* pairs_do_not_fit = "{pairs} pairs of that width do not fit with {length} of length each";
    const char* own_map_earlier = "this field's own map of earlier years ({maps})";
    const char* own_maps_earlier = "this field's own maps of earlier years ({maps})";
    const char* own_map_now = "this field's own map of this season";
    const char* as_season_file = "as the season file says";
    const char* as_passes = "as this season's passes ran";
    const char* as_earlier_passes = "as the passes of an earlier year ran";
    const char* along_longest_side = "along the longest side";
    const char* no_design_fits = "No design fits into this field: its free stretches are too short or too narrow.";
    const char* no_design_shows =
        "No design of this field can show a difference of {difference}: the best, {pairs} pairs, would find it in "
        "{power:.0f} of 100 trials. What {pairs} pairs can show is {detectable}.";
    const char* if_weighed = "If every strip were weighed on one scale it would be {power:.0f} of 100: write weighed = "
                             "true when you mean to.";
    const char* design_shows = "{pairs} pairs of strips, {passes} passes {method} beside {baseline_passes} passes "
                               "{baseline}: a true difference of {difference} would be found in {power:.0f} of 100 "
                               "trials; where there is none, {false_findings:.1f} of 100 would find one.";
    const char* from_break_even = "{difference} from the break-even";
    const char* counted_on_weighing = "Counted on: every strip is weighed on one scale.";
    const char* extra_time_unknown =
        "The extra time at harvest is not known; give extra_time_per_strip to have it added up.";
    const char* told_apart =
        "To be told apart: {method} against {baseline} comes out even at {even}, and {guess}. A trial decides between "
        "the two ways only if it can tell these apart; were the truth nearer to the break-even, it would take more.";
    const char* best_guess_is = "the best guess of this season's trials is {gain}";
    const char* no_trial_says = "no trial so far says more than 0";
    // next year's fields
    const char* no_crop = "no crop is named";
    const char* no_trial_judged = "No trial is judged: {why}";
    const char* no_strips_fit = "no strips of that length fit.";
    const char* pairs_judged_on = "{pairs} pairs, judged on {judged}";
    const char* worth_unknown = "What a trial is worth is not known: that takes a replicated trial of several fields "
                                "(or spread under [next_year]) and prices under [money].";
    const char* cost_unknown = "What a trial costs is not given (trial_cost under [next_year]), so no set of trial "
                               "fields is picked; their value stands beside each field.";
    const char* both_in_strips = "both, in strips";
    const char* years_apart = "The earlier results under [history] could not be put together with this season's: that "
                              "takes three fields of one kind of trial in two years, of the same crop and basis.";
    const char* nothing_priced = "Nothing is priced ([money] is missing): fields are placed by limits and notes alone.";
    const char* fields_one_year_one = "{fields} field of one year only";
    const char* fields_one_year = "{fields} fields of one year only";
    const char* fields_years_one = "{fields} field in {years} years";
    const char* fields_years = "{fields} fields in {years} years";
    const char* two_years = "two years are too few to say how much years differ, so none is foretold; give results of "
                            "a third under [history], or spread under [next_year] for a very wide range";
    const char* few_fields = "too few fields were in the trial to say what the next one will do; give spread under "
                             "[next_year] if you know how much fields differ";
    const char* no_trial = "no replicated trial of this season says what it yields";
    const char* not_priced_way = "it is not priced";
    const char* speaks_for = "{because} speaks for {method}";
    const char* an_acre = "{amount} an acre";
    const char* a_hectare = "{amount} a hectare";
    const char* rests_on_years = "This rests on {fields}; the range holds how much years differed.";
    const char* all_rest_on_years =
        "What is expected of each field rests on {fields}; the range holds how much years differed.";
    const char* all_rest_on_year =
        "What is expected of each field rests on {fields}; how much years differ is not in the range.";
    const char* rests_on_year = "This rests on {fields}; how much years differ is not in the range.";
    const char* chance_high = "more than 95";
    const char* chance_low = "fewer than 5";
    const char* chance_about = "about {chance:.0f}";
    const char* yield_unknown = "{method}: what it would yield here is not known; {why}.";
    const char* yield_range = "{low} to {high}";
    const char* expected_unpriced =
        "{method}: expected {gain} against {baseline} (a field like these: {range}); {why}.";
    const char* expected = "{method}: expected {gain} (a field like these: {range}), {money} after costs; it pays in "
                           "{chance} of 100 such fields, as far as these trials can tell.";
    const char* trial_error = "A trial here ({from}) would have a standard error of {error}.";
    const char* no_trial_fits = "No trial fits here: {why}";
    const char* nothing_within_limits = "Nothing within the limits: no plan cuts it another way.";
    const char* not_known =
        "Not known: neither way's money can be foretold here, so what the other way would cost cannot be said.";
    const char* plan_unknown = "What the plan and its limits would bring in money is not known: {method}: {why}. The "
                               "proposal follows the limits, the notes and the fixed fields only.";
    const char* little = "Little: cutting it the other way, within the same limits, costs the plan next to nothing. "
                         "Let convenience decide.";
    const char* other_way = "Cutting it the other way, within the same limits, would cost the plan about {cost}.";
    const char* other_way_shares = "Cutting it the other way, within the same limits, would cost the plan about "
                                   "{cost}, but it is the limits on shares of land that make it so, as other fields "
                                   "would have to change too: without them it would cost about {own}.";
    const char* other_way_shares_nothing =
        "Cutting it the other way, within the same limits, would cost the plan about {cost}, but it is the limits on "
        "shares of land that make it so, as other fields would have to change too: without them it would cost nothing.";
    const char* trial_in_set = "A trial here ({from}) is part of the set that teaches most for its cost.";
    const char* better_alone =
        "By itself {best} looks better here; shares, machine days, notes or the dislike of loss put it to {method}.";
    const char* come_out_even =
        "{method} and {baseline} come out even at a yield difference of {even}; {expected} is expected.";
    const char* note_counted = "{note}.";
    const char* note_listed = "{note} (listed; not counted in money).";
    const char* from_years = "What is expected comes from this farm's trials of several years; the range for a field "
                             "like these holds how much fields and how much years differed.";
    const char* one_year = "One year on one farm describes what happened there; the range for a field like these holds "
                           "how much this year's trial fields differed, not how much years do.";
    // limits of the season file
    const char* at_least = "at least {share:.0f} % {method}";
    const char* at_most = "at most {share:.0f} % {method}";
    const char* days_for = "{days} days for {machine}";
    const char* fixed_fields = "fixed fields (column '{column}')";
    const char* cutting = "cutting {method}";
    const char* combining = "combining";
};

} // namespace quartercut
