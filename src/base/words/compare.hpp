// SPDX-License-Identifier: MIT
// What the room compare says: a part of words.hpp, apart for its length.
#pragma once

namespace quartercut {

struct CompareWords {
    // what a contrast leaves out
    const char* looks =
        "One of {looks} {comparisons}: the total interval is widened so that all {looks} hold at once (Bonferroni).";
    const char* in_field = "comparisons in this field";
    const char* in_strata = "comparisons within strata of this field";
    const char* of_whole_fields = "comparisons of whole fields";
    const char* of_kind_on_farm = "comparisons of this kind on the farm";
    const char* of_kind_over_years = "comparisons of this kind over the years";
    const char* coin_order = "With {pairs} pairs {coin} alone would give this order one time in {times}; the finding "
                             "rests on the spread between pairs being even.";
    const char* coin_share = "With {pairs} pairs {coin} alone would give a difference this large in {pct:.0f} % of all "
                             "orders; the finding rests on the spread between pairs being even.";
    const char* the_coin = "the coin";
    const char* a_coin = "a coin";
    const char* times_four = "four";
    const char* times_eight = "eight";
    const char* times_sixteen = "sixteen";
    const char* not_random = "The strips were not placed at random: a trend across the field, or the reason for where "
                             "each strip lies, may be part of the difference.";
    const char* not_replicated = "One comparison, not replicated: any change of soil, fertility, moisture or weeds "
                                 "where the methods meet cannot be told from the method.";
    const char* other_fields = "Everything else that differs between these fields (variety, seeding date, fertility, "
                               "hail, the reason a field was cut that way) is part of the difference.";
    const char* reads_higher = "A machine that reads one method's grain higher than the other's is covered only as far "
                               "as the weighed loads go.";
    const char* one_season = "One season: another year's weather may turn the answer.";
    const char* blurred = "Where a cut takes in crop of both methods, and where one method's work affects the land "
                          "beside it, the difference is blurred.";
    const char* own_machines = "Each way was cut by its own machine and weighed loads do not check both: the machines' "
                               "difference cannot be told from the methods'.";
    const char* own_machines_of = "{method} against {baseline}: {what}";
    const char* own_machines_whole = "{method} against {baseline} as whole fields: {what}";
    const char* two_pairs = "Two pairs only: they cannot tell a difference from chance, whatever its size.";
    // of what is mixed up with the methods
    const char* apart_machine = "No machine cut both {method} and {baseline}: a difference between the machines looks "
                                "like a difference between the methods.";
    const char* apart_date = "{method} and {baseline} were never cut on the same day: weather, ripeness and moisture "
                             "of the day are part of the difference.";
    const char* apart_other = "{method} and {baseline} share no {what}: the {what} is part of the difference.";
    const char* what_machine = "machine";
    const char* what_date = "date";
    const char* what_variety = "variety";
    const char* confounded_fields = "{what} Fields: {fields}.";
    // of the farm
    const char* one_field = "One field only: nothing is known of how the gain differs between fields.";
    const char* estimator_one_field = "one field: {estimator}";
    const char* two_fields = "Two fields only: how the gain differs between fields is hardly known, so the interval is "
                             "very wide and none is given for a next field.";
    const char* few_fields = "The range for a next field is rough: fewer than six fields.";
    const char* agree_better =
        "The fields agree better than their errors predict: errors may be overstated, or shared between fields.";
    const char* not_pooled = "Fields of two pairs only, not pooled: {fields}.";
    const char* some_random = "Some of these trials were placed at random and some were not.";
    const char* no_shared_machine = "No machine cut whole fields of both {method} and {baseline}: a difference between "
                                    "the machines looks like a difference between the methods.";
    const char* fields_against_one = "{fields} field against {others}: the field counts, not its records.";
    const char* fields_against = "{fields} fields against {others}: the field counts, not its records.";
    const char* of_fields = "{fields}: {what}";
    const char* one_field_a_method = "A method with one field: how much fields differ anyway is not known, so the "
                                     "difference cannot be put down to the method.";
    const char* rough = "Fewer than three fields a method: the interval is rough.";
    // of several years
    const char* reads_higher_every_year = "A machine that reads one method's grain higher than the other's every year "
                                          "is covered only as far as the weighed loads go.";
    const char* not_all_random = "Not all of these strips were placed at random.";
    const char* splits = "Split fields: one comparison each, not replicated; soil where the methods meet cannot be "
                         "told from the method.";
    const char* two_years = "Two years only: how years differ is hardly known, so the interval is very wide and none "
                            "is given for a new year.";
    const char* one_field_a_year =
        "One field a year: differences between fields and between years cannot be told apart.";
    // estimators
    const char* paired = "paired strips, t";
    const char* blocks = "block differences, t";
    const char* random_blocks = "strips in random blocks, Kenward-Roger";
    const char* two_areas = "difference of the two areas";
    const char* spatial = "spatial model ({model}, pass effect), Kenward-Roger";
    const char* spatial_trends = "spatial model ({model}, pass effect, linear trends), Kenward-Roger";
    const char* plain = "plain difference, spatial error";
    const char* plain_trends = "plain difference, linear trends, spatial error";
    const char* border = "along the border of the methods, two passes either side";
    const char* exponential = "exponential";
    const char* spherical = "spherical";
    const char* longer_one_way = "{form}, longer one way";
    const char* within_stratum = "paired strips within the stratum, t";
    const char* farm_pooled = "random effects, REML, modified Hartung-Knapp";
    const char* drawn_to_mean = "{estimator}; errors from few pairs drawn towards their mean";
    const char* field_means = "difference of field means";
    const char* welch = "Welch's t on log field yields";
    const char* within_years = "fields within years, two levels, REML";
    // remarks
    const char* history_not_used =
        "[history] names earlier maps, but none was used: every answer is of this season's records alone.";
    const char* earlier_map_differs =
        "{method} against {baseline}: in {map}, when nothing was done, the same analysis of the same land would have "
        "shown {gain:+.2f} t/ha. What differs may be the land.";
    const char* earlier_one = "less what the same land differed by in {years} earlier year";
    const char* earlier_many = "less what the same land differed by in {years} earlier years";
    const char* earlier_ratios = "With nothing done, in earlier years: {ratios}.";
    const char* earlier_no_interval =
        "How much that wanders from year to year cannot be told from so few maps: no interval.";
    const char* method_without_yield = "The land cut as {method} has no usable yield record, so nothing can be said of "
                                       "it. See the table of removed records for why.";
    const char* no_usable_records =
        "No usable yield record lies in a method area of this field: it is in no comparison.";
    const char* one_method =
        "The whole field was cut as {method}: it counts as one field in the farm's comparison of whole fields.";
    const char* baseline_missing = "The baseline {baseline} has no usable yield here, so nothing is compared with it. "
                                   "Set all_pairs to compare the other methods with each other.";
    const char* patches = "The method areas are patches, not strips side by side, so they are not taken as repeated "
                          "pairs. If they are, name their pairs in a column and set trial.pairs to it.";
    const char* strips_from_passes =
        "The method areas are not drawn strip by strip; neighbouring passes of one method were taken as the strips.";
    const char* edges_only = "Every cut of {method} takes in a border of the methods; they were used all the same, and "
                             "the difference is blurred.";
    const char* pair_incomplete =
        "{pair} has no usable yield in its {method} strip and was left out. See the table of removed records for why.";
    const char* no_variation = "All strip pairs differ by exactly the same amount. Measured strips do not do that: no "
                               "interval is given. Check that the yields were measured strip by strip.";
    const char* too_few_whole_fields = "{method} against {baseline} as whole fields: a side has one field only, so "
                                       "there is a difference but no way to tell what it is due to.";
    const char* earlier_left_out =
        "{file} is of {crop} at {basis:g} %, not of {own_crop} at {own_basis:g} %: it is not pooled with this season.";
    const char* too_few_years = "The earlier results and this season's do not hold three fields of one kind of "
                                "evidence in two years, so the years are not put together.";
    const char* pair = "pair {number}";
    const char* strips_left_over =
        "{method} against {baseline}: these strips have no partner and are in no pair: {strips}.";
    const char* widest = "{estimator}; the widest of several intervals";
    const char* drawn_out = "{estimator}, drawn out to hold what earlier years of the land say";
    const char* methods_apart = "{method} and {baseline} lie nowhere side by side in this field: all that changes over "
                                "the land between them is part of the difference.";
    const char* border_passes_kept = "The passes beside the other method were kept in the comparison: without them too "
                                     "little would be left. They may hold crop of both methods.";
    const char* no_spatial_model = "No spatial model could be fitted: {why}.";
    const char* too_few_segments = "a method has fewer than two passes or four segments in this field";
    const char* segments_alike =
        "the segments of a method do not vary, or too few of them are left for a spatial model";
    const char* range_not_found =
        "The distance over which yields resemble each other is longer than the field and could not be found; only how "
        "fast they part with distance is known. The contrast hardly depends on it.";
    const char* trend_not_separable = "A straight trend across the field cannot be told from the methods, so none was "
                                      "taken out: any trend is part of the difference.";
    const char* segments_merged =
        "For the spatial model up to {segments} neighbouring segments of a pass were taken together ({cells} cells).";
    const char* depends_on_model =
        "{method} against {baseline}: two ways of taking the field's soil into account differ by more than their "
        "errors allow. The answer depends on the model; trust it less.";
    const char* strata_of_this_yield =
        "The strata are named after a yield ({file}) of {year} or of no year: strata found from the yields that are "
        "compared would find the methods again, so no contrast is given within them. If they are of an earlier year, "
        "write that year into the name of the file, layer or column.";
    const char* strata_differ = "The gain in stratum {stratum} differs from that in the rest of the same strips: "
                                "{difference:+.3f} t/ha, p = {p:.3f} after Holm's correction for {looks} looks.";
    const char* strata_alike = "The gain in stratum {stratum} cannot be told from that in the rest of the same strips: "
                               "{difference:+.3f} t/ha, p = {p:.3f} after Holm's correction for {looks} looks.";
    const char* stratum_too_small =
        "Stratum {stratum}: fewer than two strip pairs have 100 m in it, so no contrast is given there.";
};

} // namespace quartercut
