// SPDX-License-Identifier: MIT
// Every English string of the pages, in one place: another language is another value of this struct. Rooms that compose
// remarks, reasons and the like take their words from here, one struct a room, and so does the report.
//
// Sentences are fmt templates with named places, so a translation may reorder them. Where a grower reads first, no word
// of statistics stands; such words appear below, and the word list says what each means.
#pragma once

#include "base/words/advice.hpp"
#include "base/words/clean.hpp"
#include "base/words/compare.hpp"
#include "base/words/pages.hpp"
#include "base/words/places.hpp"
#include "base/words/plan_page.hpp"
#include "base/words/read.hpp"
#include "base/words/robustness.hpp"
#include "base/words/sheets.hpp"
#include "base/words/standardise.hpp"
#include "base/words/terms.hpp"
#include "base/words/tokens.hpp"
#include "base/words/zone.hpp"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace quartercut {

/// The answer in sentences (sentences.cpp). Places: method, baseline, size, interval, and those named.
struct AnswerWords {
    // how the land was laid out, before the comma; {fields}: "four fields", "one field"
    const char* farm_replicated_randomised = "On the {fields} laid out in side-by-side strips placed at random";
    const char* farm_replicated = "On the {fields} laid out in side-by-side strips";
    const char* farm_split = "On the {fields} cut in more than one way, but not in repeated strips";
    const char* farm_whole = "Across {fields}, each cut wholly one way";
    const char* farm_other = "On the {fields} compared";
    const char* over_years = "Over {years} years, {place}";
    const char* one_field = "one field";
    const char* many_fields = "{count} fields";
    const char* stratum = "in {stratum}, ";

    const char* more = "{method} yielded {size} more than {baseline}";
    const char* less = "{method} yielded {size} less than {baseline}";
    const char* same = "{method} and {baseline} yielded the same to the last digit shown";
    const char* bracket = " ({interval})";
    const char* bracket_unknown = "; how sure that is cannot be said from this layout";
    const char* beyond_chance = "That is more than chance";
    const char* erase = "; a calibration error of {pct} % between the {what} would erase it";
    const char* erase_range = "; a calibration error of {low} to {high} % between the {what}, depending on the field, "
                              "would erase it";
    const char* machines = "machines";
    const char* methods = "two methods";

    const char* leans = "This is one comparison, not replicated: it leans that way, but the land, the day or the "
                        "machine could be the reason";
    const char* leans_farm = "These fields were not laid out in repeated strips, so it leans that way and no more: the "
                             "land, the days or the machines could be the reason";
    const char* not_shown = "no difference was shown between {method} and {baseline}";
    const char* best_guess_more = "The best guess is {size} more for {method} ({interval})";
    const char* best_guess_less = "The best guess is {size} less for {method} ({interval})";
    const char* best_guess_same = "The best guess is no difference ({interval})";
    const char* best_guess_bare_more = "The best guess is {size} more for {method}";
    const char* best_guess_bare_less = "The best guess is {size} less for {method}";
    const char* best_guess_bare_same = "The best guess is no difference";
    const char* outside_unlikely = "A difference outside that range is unlikely";
    const char* detectable = "This layout could have shown {detectable} or more four times in five; a smaller "
                             "difference needs more strips or more years";
    const char* detectable_poor =
        "This layout could only have shown a difference of {detectable} or more, so it says little "
        "either way";
    const char* detectable_single = "A difference smaller than {detectable} would most likely not have stood out here";
    const char* few_fields = "{shown} on its own shows more than chance, but {fields} say little about what other "
                             "fields would do";
    const char* few_fields_many = "{shown} of them show more than chance on their own, but {fields} say little about "
                                  "what other fields would do";
    const char* fields_differ = "One of them on its own shows more than chance, but the fields do not agree well "
                                "enough to say so of fields in general";
    const char* fields_differ_many = "{shown} of them show more than chance on their own, but the fields do not agree "
                                     "well enough to say so of fields in general";
    const char* these_fields = "For these {fields} alone, {clause}";
    const char* too_wide = "So wide a range says little either way";
    const char* too_wide_not_repeated = "So wide a range says little either way; strips side by side, repeated in a "
                                        "field, would say more";
    const char* own_machines = "Each way was cut by its own machine and weighed loads do not check both: the machines' "
                               "difference cannot be told from the methods'";
    const char* own_machines_some = "On at least one of these fields each way was cut by its own machine and weighed "
                                    "loads do not check both: the machines' difference cannot be told from the "
                                    "methods'";
    const char* single = "It is one comparison, not replicated";
    const char* single_each = "Each of these is one comparison, not replicated";
    const char* not_comparable = "{method} and {baseline} cannot be compared here";
    const char* raw_more = "The raw yield map would have said {size} more";
    const char* raw_less = "The raw yield map would have said {size} less";
    const char* raw_same = "The raw yield map would have said no difference";
    const char* raw_reason = "Part of the reason: {reasons}";
    const char* raw_calibration = "before calibration, the grain of the two methods was read {pct} % apart";
    const char* raw_moisture = "the two were cut at moistures {points} points apart";
    const char* raw_and = " and ";
    const char* raw_farm = "The raw yield maps of these fields would have said {spread}";
    const char* both_yields = "Yield at {basis} % moisture: {yield} {unit} for {method}, {other} for {baseline}";
    const char* allows_for_land =
        "The best guess is another than the difference of these two because it allows for how "
        "the yield changes across the field";
    const char* allows_for_land_each = "Where a best guess is another than the difference of its two yields, it allows "
                                       "for how the yield changes across "
                                       "the field";
    const char* another_field = "On another field like these, expect {spread}";
    const char* another_year = "On another field like these in another year, expect {spread}";
    const char* another_field_rough = "; with so few fields that is rough";
    const char* another_field_agree =
        "; these {fields} agree better than their errors let one expect, so take it as at "
        "least that wide, and rough";
    const char* spread_more = "between {low} and {high} {unit} more";
    const char* spread_less = "between {low} and {high} {unit} less";
    const char* spread_both = "between {low} {unit} less and {high} {unit} more";

    const char* one_method =
        "the whole field was cut one way ({method}, {yield}); alone it says nothing about the other "
        "way";
    const char* one_method_each = "cut wholly one way, so that each alone says nothing about the other way: {fields}";
    const char* one_method_field = "{field} ({method}, {yield})";
    const char* no_method = "no yield could be assigned to a method, so nothing is compared here";
    const char* nothing = "Nothing could be compared in this season.";
};

/// Headings, captions, labels, explanations.
struct PageWords {
    const char* skip = "Skip to the answer";
    const char* subtitle = "{crop}, {year}. Harvest methods compared from yield-monitor records.";
    const char* subtitle_no_year = "{crop}. Harvest methods compared from yield-monitor records.";
    const char* nav = "On this page";

    const char* answer = "The answer";
    const char* several_note = "Several comparisons are made here. Every range is widened for their number, so that "
                               "all of them together hold the truth 19 times in 20: the more one looks, the easier "
                               "chance fools one.";
    const char* answer_note = "The numbers in brackets are the range the true difference most likely lies in: ranges "
                              "made this way hold the truth 19 times in 20, when what they count is all there is. "
                              "They count the spread between strips or fields and the errors of calibration, moisture "
                              "and cut width. What they do not count stands under “What the range leaves out”.";
    const char* by_field = "Field by field";
    const char* caution = "Read with care: {what}";
    const char* caution_of_all = "Read all of them with care: {what}";
    const char* meant_by = "What the methods are";
    const char* compared_with = "the one the others are compared with";
    const char* no_label = "not described in the season file";
    const char* no_labels = "{others} compared with {baseline}. The season file does not describe them further.";

    const char* farm_view = "The season at a glance";
    const char* season_map = "Where the fields lie";
    const char* season_map_text =
        "Map of the {n} fields of the season in their places, north up. Each is numbered; the "
        "list names them.";
    const char* forest = "Every difference on one scale";
    const char* forest_text = "Differences with their ranges: {rows}.";
    const char* forest_note = "Dot: best guess. Thick line: range counting every error we could size. Right of the "
                              "upright line at 0 {method} yielded more.";
    const char* forest_dashed = "The dashed line below it is where another field like these would likely fall.";
    const char* forest_agree =
        "Where it is no longer than the thick line, the fields agree better than their errors let "
        "one expect: take it as at least that long.";
    const char* forest_cut = "An arrow: the range runs on beyond the picture, as far as the numbers say.";
    const char* row_of_method = "{field}: {method}";
    const char* row_of_pair = "{field}: {method} – {baseline}";
    const char* first_named = "the method named";
    const char* all_fields = "All fields";
    const char* together = "{count} together ({evidence})";
    const char* farm_budget = "Where the uncertainty comes from, {who}";
    const char* farm_budget_text = "Sizes of the sources of error of the farm's difference. {rows}.";
    const char* place_key_gain = "more, beyond chance";
    const char* place_key_loss = "less, beyond chance";
    const char* place_key_leans_gain = "leans to more";
    const char* place_key_leans_loss = "leans to less";
    const char* place_key_not_shown = "nothing shown";
    const char* place_key_not_comparable = "not compared";

    const char* fields = "The fields";
    const char* fact_legal = "{value}";
    const char* fact_variety = "variety {value}";
    const char* fact_seeded = "seeded {value}";
    const char* fact_area = "{ac} ac ({ha} ha)";
    const char* fact_records = "{used} of {all} records used";
    const char* map_methods = "How it was cut";
    const char* map_yield = "What it yielded";
    const char* map_methods_text = "Map of {field}, north up: land by method. {zones}.";
    const char* map_yield_text = "Map of {field}, north up: yield at {basis} % moisture in five classes from {low} to "
                                 "{high} {unit}. The table of zones below holds the numbers.";
    const char* map_yield_thinned = "Every {n} stretches of a pass are drawn as one; the numbers use all of them.";
    const char* dots_thinned = "One removed record in {n} is drawn; the counts are of all.";
    const char* layers = "Show on this map";
    const char* layer_yield = "Yield";
    const char* layer_zones = "Zone lines";
    const char* layer_removed = "Records not used";
    const char* removed_list = "Records not used, by reason";
    const char* yield_legend = "Yield, {unit}";
    const char* yield_legend_note = "Five classes of equal count within this field.";
    const char* not_cut = "in no method area";
    const char* zone_readout = "Point at, or tap, a part of the map for what it is and yielded.";
    const char* show_unit = "Show yields in {unit}";
    const char* readout = "Point at, or tap, the map for the yield there.";
    const char* north = "N";
    const char* many_fields =
        "Of so many fields ({fields}) this page tells each in words. Maps, charts and tables of one of them: "
        "quartercut compare {season} --only \"its name\" --out a-folder-of-its-own";
    const char* zones_table = "Zones of {field}";
    const char* zone = "Zone";
    const char* method = "Method";
    const char* stratum = "Stratum";
    const char* block = "Block";
    const char* area = "Area";
    const char* used_area = "Area of the records used";
    const char* yield = "Yield";
    const char* moisture = "Moisture (%)";
    const char* records = "Records";
    const char* zone_area = ": {ha} ha";
    const char* at_moisture = "{pct} % moisture";
    const char* no_segments = "No yield is left on this field after cleaning, so there is no yield map.";

    const char* methods_table = "Yield by method, {field}";
    const char* compared_table = "Differences on {field}";
    const char* difference = "Difference";
    const char* range = "Range";
    const char* finding = "Finding";
    const char* raw_difference = "Raw map said";
    const char* layout = "Layout";

    const char* pairs = "Pair by pair";
    const char* pairs_text = "Yields of the pairs of strips on {field}, {method} against {baseline}. {rows}.";
    const char* chart_of = "{what} ({method} against {baseline})";
    const char* pairs_table = "Pairs of strips on {field}: {method} against {baseline}";
    const char* pair = "Pair";
    const char* budget = "Where the uncertainty comes from";
    const char* budget_text = "Sizes of the sources of error of the difference on {field}. {rows}.";
    const char* budget_table = "Sources of error on {field}: {method} against {baseline}";
    const char* source = "Source";
    const char* standard_uncertainty = "Size";
    const char* shared_short = "Same on all fields";
    const char* shared_said = "{source} (the same on all fields)";
    const char* budget_note = "Each bar is the standard uncertainty of the difference from one source: about half of "
                              "what it alone would make of the range to one side. They add as squares. Hatched: the "
                              "same on all fields, so that more fields do not shrink it.";
    const char* yes = "yes";
    const char* no = "no";
    const char* total = "all together";
    const char* robustness = "Does it hold when one thing is changed?";
    const char* robustness_text =
        "The difference on {field} worked out again with one thing changed each time. {rows}.";
    const char* robustness_table = "The difference on {field} with one thing changed: {method} against {baseline}";
    const char* robustness_note = "The ranges here show the spread between strips or segments alone.";
    const char* changed = "What was changed";
    const char* as_reported = "as reported";
    const char* crossing_table = "{what} by method on {field}: area of the records used, hectares";
    const char* crossing_note = "If each {what} met only one method, its effect and the method's cannot be told apart.";

    const char* cleaning = "What cleaning did";
    const char* cleaning_note = "Nothing is deleted: records that cannot be trusted are marked with a reason and left "
                                "out. The steps do not look at which method a record belongs to.";
    const char* cleaning_removed_table = "Records not used, by reason and field";
    const char* cleaning_steps_table = "Step by step on {field}";
    const char* cleaning_chart = "Share of records used and not used";
    const char* cleaning_chart_text = "Records by field: {rows}.";
    const char* reason = "Reason";
    const char* step = "Step";
    const char* kept_before = "Records before";
    const char* kept_after = "Records after";
    const char* spread_before = "Spread before (%)";
    const char* spread_after = "Spread after (%)";
    const char* off = "off";
    const char* used = "used";
    const char* not_used = "not used";
    const char* steps_chart = "The plain difference after each step on {field}: {method} minus {baseline}";
    const char* steps_chart_note = "Step by step, the differences are of plain means of the records left. They have no "
                                   "range: they are not the answer, they show which step moved it.";
    const char* as_logged = "as logged";
    const char* lag_table = "Delay between cutting and weighing";
    const char* calibration_table = "Calibration used";

    const char* tickets = "Monitor against the scale";
    const char* tickets_none = "No scale tickets were given. Without them nobody knows how far the monitor is out; the "
                               "ranges above carry a large allowance for that.";
    const char* tickets_text = "Each load: what the scale said and what the monitor said, before calibration. {rows}.";
    const char* tickets_caption = "Each load, in tonnes";
    const char* tickets_note = "On the slanted line scale and monitor agree; above it the monitor reads too much.";
    const char* tickets_table = "Loads, brought to the basis moisture";
    const char* scale = "Scale";
    const char* monitor = "Monitor";

    const char* moisture_date = "When and how wet each method was cut";
    const char* moisture_date_note =
        "If one method was cut on other days or much wetter than the other, the weather and "
        "the moisture sensor are part of the difference.";
    const char* moisture_caption = "Moisture and day of cutting of each zone";
    const char* moisture_date_text = "Mean moisture and days of cutting of each zone. {rows}.";
    const char* moisture_date_table = "Moisture and dates by zone";
    const char* moisture_none = "The records hold no moisture, so this cannot be shown.";
    const char* first = "First";
    const char* last = "Last";
    const char* day = "Day of cutting";

    const char* season_crossing_table = "{what} by method over the season: area of the records used, hectares";
    const char* leaves_out = "What the range leaves out";
    const char* leaves_out_note = "The range in brackets cannot know about these:";
    const char* cautions = "Before you act on it";

    const char* agronomist = "For the agronomist";
    const char* agronomist_note =
        "How each difference was estimated, with every other answer that was worked out, also "
        "where they disagree.";
    const char* contrast_table = "{field}: {method} minus {baseline}";
    const char* farm_table = "All fields: {method} minus {baseline} ({evidence})";
    const char* also_table = "Other estimates, {field}: {method} minus {baseline}";
    const char* seasons_table = "All years: {method} minus {baseline} ({evidence})";
    const char* earlier_table = "What earlier maps of the same land showed, when nothing was done: {field}, {method} "
                                "minus {baseline}";
    const char* earlier_map = "Map";
    const char* item = "Item";
    const char* value = "Value";
    const char* estimator = "Estimator";
    const char* disagree = "Two estimates disagree here: their ranges do not overlap. Trust neither alone.";

    const char* remarks = "Remarks";
    const char* remarks_note = "Things the program noticed that a reader should know.";
    const char* no_remarks = "Nothing out of the ordinary was noticed.";
    const char* where = "Where";
    const char* what = "What";
    const char* weight = "Weight";
    const char* whole_season = "whole season";
    const char* more_places = "; {count} places";

    const char* sources = "How this was made";
    const char* settings = "Settings";
    const char* setting = "Setting";
    const char* inputs = "Inputs";
    const char* inputs_note =
        "The fingerprint (SHA-256) changes when a single letter of a file changes: with it anyone "
        "can check that a result was made from these very files.";
    const char* file = "File";
    const char* role = "Used as";
    const char* bytes = "Bytes";
    const char* rows = "Rows";
    const char* fingerprint = "Fingerprint (SHA-256)";
    const char* season_file = "The season file as it was read";
    const char* cite = "How to cite";
    const char* cite_text = "quartercut {version}: comparison of harvest methods, “{title}”, made from the inputs with "
                            "the fingerprints above; season file {hash}.";
    const char* cite_text_no_hash = "quartercut {version}: comparison of harvest methods, “{title}”, made from the "
                                    "inputs with the fingerprints above.";
    const char* glossary = "Words";
    const char* footer = "Made by quartercut {version}. This page holds everything it needs and fetches nothing.";
    const char* as_table = "The same as a table";
    const char* as_table_of_all = "Every difference as a table";
    const char* unfold = "Unfold every table";
    const char* fold = "Fold every table";
    const char* print_note = "Folded tables are left off paper; unfold those you want before printing.";
    const char* copy = "Copy table";
    const char* copied = "Copied";
};

/// Findings, layouts and reasons.
struct KindWords {
    const char* gain = "more, beyond chance";
    const char* loss = "less, beyond chance";
    const char* leans_gain = "leans to more; one comparison, not replicated";
    const char* leans_loss = "leans to less; one comparison, not replicated";
    const char* not_shown = "no difference shown";
    const char* not_comparable = "cannot be compared";
    const char* replicated_randomised = "strips, repeated, placed at random";
    const char* replicated = "strips, repeated";
    const char* split = "parts of one field, not repeated";
    const char* whole_field = "whole fields";
    // in one or two words
    const char* strips = "strips";
    const char* parts = "fields in parts";
    // why a record is not used, in the order of Removal
    const char* removed[18] = {"used",
                               "outside the field",
                               "in no method area",
                               "header raised",
                               "no grain flow",
                               "no distance or width",
                               "impossible moisture",
                               "position jumped",
                               "joined to the record beside it",
                               "speed out of range or changing",
                               "turning",
                               "start of a pass, machine filling",
                               "end of a pass, machine emptying",
                               "land already cut",
                               "pass too short",
                               "a yield no crop gives",
                               "far from the rest of its method area",
                               "far from its neighbours"};
};

/// How numbers, counts and dates are written (figures.cpp): another language brings its own.
struct NumberForms {
    char point = '.';
    const char* thousands = ",";
    const char* unknown = "not known";
    const char* months[12] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const char* counts[13] = {"no",    "one",   "two",  "three", "four",   "five",  "six",
                              "seven", "eight", "nine", "ten",   "eleven", "twelve"};
    const char* date = "{day} {month} {year}";
    const char* from_to = "{low} to {high}";
    const char* from_less_to_more = "from {low} less to {high} more";
};

struct Words {
    const char* language = "en-CA";
    AnswerWords answer;
    PageWords page;
    KindWords kinds;
    NumberForms numbers;
    PlanWords plan;
    MoneyWords money;
    LossWords losses;
    WeatherWords weather;
    ChoiceWords choice;
    CabWords cab;
    CountingWords counting;
    SheetWords sheets;
    PlaceWords places;
    ReadWords read;
    StandardiseWords standardise;
    CleanWords clean;
    ZoneWords zone;
    CompareWords compare;
    RobustnessWords robustness;
    AdviceWords advice;
    TokenWords tokens;
    std::array<const char*, english_cautions.size()> cautions = english_cautions;
    std::array<Meant, english_words.size()> terms = english_words; // by Term
};

inline constexpr Words english{};

/// The words in use, in every thread. English, unless a `Speaking` stands.
[[nodiscard]] const Words& spoken();

/// Fills the named places of a template: fill(words.more, fmt::arg("size", text)).
template <class... Arguments>
[[nodiscard]] std::string fill(const char* pattern, Arguments&&... arguments) {
    return fmt::format(fmt::runtime(pattern), std::forward<Arguments>(arguments)...);
}

/// What stands in a crossing table, "machine", "date" or "variety", in words; another column's name as it is.
[[nodiscard]] std::string crossing_word(const std::string& what);

/// Another language for as long as it stands. Begun and ended while no sentence is being composed.
class Speaking {
public:
    explicit Speaking(const Words& words);
    Speaking(const Speaking&) = delete;
    Speaking& operator=(const Speaking&) = delete;
    ~Speaking();

private:
    const Words& before_;
};

} // namespace quartercut
