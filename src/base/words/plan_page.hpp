// SPDX-License-Identifier: MIT
// The strings of money, losses, samples and weather: a part of words.hpp, apart for its length.
#pragma once

namespace quartercut {

struct PlanWords {
    const char* money = "Money";
    const char* losses = "Losses and samples";
    const char* weather = "Wind and weather";
    const char* acre = "acre";
    const char* hectare = "hectare";
    const char* acres = "acres";
    const char* hectares = "hectares";
    const char* amount = "${amount}"; // money as it is written
    const char* amount_less = "-${amount}";
    const char* label = "{what}: {text}";
    const char* pan_caution =
        "Never walk up to a running machine to place a pan. Stop it and wait until everything stands still, or use a "
        "pan that drops by remote. Never throw a pan ahead of the wheels.";
    const char* label_caution =
        "For anything sprayed before harvest, product, rate, crop stage and waiting time come from the label. The "
        "waiting time counts to the cut: the day of swathing in a swathed strip, the day of combining in a standing "
        "one. Ask the buyer about residues before delivery. Leave spraying from the air to those licensed for it.";
};

struct MoneyWords {
    const char* dollars = "dollars";
    const char* note = "In {currency}. Every price and cost is the season file's own, with its day and source.";
    const char* chance_high = "more than 95";
    const char* chance_low = "less than 5";
    const char* brought_more = "{method} brought {size} more an {land} than {baseline} after the costs given{range}.";
    const char* brought_less = "{method} brought {size} less an {land} than {baseline} after the costs given{range}.";
    const char* would_bring_more = "{method} would have brought {size} more an {land} than {baseline} after the costs "
                                   "given{range}, if the best guess held; that it did is not shown.";
    const char* would_bring_less = "{method} would have brought {size} less an {land} than {baseline} after the costs "
                                   "given{range}, if the best guess held; that it did is not shown.";
    const char* range = " (likely between {low} and {high})";
    const char* break_even = " The two ways come out even at a yield difference of {size}.";
    const char* pays = " On these figures, and on the land compared here, it pays with a chance of {chance} in 100.";
    const char* no_chance = " No chance is stated: {why}.";
    const char* regret = " Choosing the better-looking way, one would expect to lose {size} an {land} by its being the "
                         "wrong one.";
    const char* regret_nothing = " Should the better-looking way be the wrong one after all, next to nothing is to be "
                                 "expected to be lost by it.";
    const char* not_said = "Nothing is said in money: {why}.";
    const char* costs_table = "Costs as they fall on the land";
    const char* item = "Item";
    const char* way = "Way";
    const char* as_given = "As given";
    const char* source = "Source";
    const char* per_land = "Per {land}";
    const char* source_and_day = "{source}, {day}";
    const char* tornado_table = "What matters most: the net difference with one thing at the ends of its range";
    const char* moved = "What is moved";
    const char* low_end = "Low end";
    const char* high_end = "High end";
    const char* fields_table = "Field by field, in money";
    const char* field = "Field";
    const char* evidence = "Evidence";
    const char* net_per_land = "Net per {land}";
    const char* likely_from = "Likely from";
    const char* likely_to = "to";
    const char* whole_field = "Whole field";
    const char* pays_of_100 = "Pays, of 100";
    const char* not_stated = "not stated";
    const char* not_priced = "Not priced";
    // one line on the terminal
    const char* line_farm = "on the farm";
    const char* line = "In money, {who}: {text}";
};

struct LossWords {
    const char* before_cutting = "before cutting (shatter and pod drop)";
    const char* behind_header = "behind the header";
    const char* behind_machine = "out of the machine";
    const char* table = "Grain left on the land";
    const char* way = "Way";
    const char* when = "When";
    const char* places = "Places (trays)";
    const char* places_cell = "{places} ({trays}); {from}";
    const char* kg_ha = "kg/ha";
    const char* loss = "Loss";
    const char* range_kg_ha = "95 % (kg/ha)";
    const char* together = "together";
    const char* crop_had = "{way}: {yield} in the bin and {loss} kg/ha lost: the crop had {crop}. The loss is "
                           "{of_yield} % of the yield, {of_crop} % of what the crop had.";
    const char* not_counted = "{way}: not counted: {stages}; the total is without it.";
    const char* more = "{way} lost {size} kg/ha more than {baseline} ({over}){range}.";
    const char* less = "{way} lost {size} kg/ha less than {baseline} ({over}){range}.";
    const char* range = ", likely from {low} to {high}";
    const char* range_unknown = ", how sure is not known";
    const char* samples_table = "Grain samples";
    const char* property = "Property";
    const char* compared_in = "Compared in";
    const char* mean = "Mean";
    const char* baseline = "Baseline";
    const char* difference = "Difference";
    const char* range_heading = "95 %";
};

struct WeatherWords {
    const char* note = "What fell and blew while each crop was out. It is listed beside the result; no yield was "
                       "changed for it, and no gust is called too strong: no threshold has been published.";
    const char* table = "While the crop was out";
    const char* field = "Field";
    const char* way = "Way";
    const char* state = "State";
    const char* from = "From";
    const char* to = "To";
    const char* days_known = "Days on record";
    const char* rain = "Rain (mm)";
    const char* rain_days = "Days with rain";
    const char* gust = "Gust (km/h)";
    const char* highest_gust = "Highest gust (km/h)";
    const char* gust_on = "{gust} on {day}";
    const char* by_day = "{field}, {way}: day by day";
    const char* day = "Day";
};

} // namespace quartercut
