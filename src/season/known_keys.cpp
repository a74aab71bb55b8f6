// SPDX-License-Identifier: MIT
// One list of every key the season file knows. A key in the wrong place is told where it belongs: the commonest slip in
// TOML is a top-level line written below the first table.
#include "season/known_keys.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <optional>

namespace quartercut::season {
namespace {

const std::vector<std::string> meanings{"yield",     "flow",     "moisture", "speed",   "distance", "duration",
                                        "width",     "time",     "heading",  "machine", "header",   "load",
                                        "longitude", "latitude", "date",     "clock"};
const std::vector<std::string> column_choice{"column", "unit", "moisture", "up"};

const std::vector<KnownKeys>& all_keys() {
    static const std::vector<KnownKeys> all{
        {"", {"title",    "year",       "crop",    "basis",  "bushel",      "baseline", "units",
              "fields",   "points",     "methods", "method", "strata",      "tickets",  "trial",
              "cleaning", "comparison", "history", "money",  "loss_counts", "weather",  "next_year"}},
        {"fields", {"file", "layer", "name", "crs", "columns"}},
        {"points", {"files", "layer", "crs", "time_zone", "dates", "columns"}},
        {"points.columns", meanings},
        {"points.columns.*", column_choice},
        {"methods", {"file", "layer", "crs", "column", "from_points", "from_fields"}},
        {"methods.from_points", {"column", "values"}},
        {"methods.from_fields", {"column", "values"}},
        {"method", {"name", "label", "cut_width"}},
        {"strata",
         {"kind", "file", "layer", "crs", "column", "cell", "widths", "band", "classes", "layers", "yield_year",
          "across"}},
        {"strata.across",
         {"kind", "file", "layer", "crs", "column", "cell", "widths", "band", "classes", "layers", "yield_year"}},
        {"strata.layers", {"file", "layer", "crs", "column", "band", "yield_year"}},
        {"tickets", {"file", "dockage"}},
        {"trial", {"randomised", "pairs"}},
        {"cleaning",
         {"lag", "moisture_lag", "ramps", "coverage", "speed", "turns", "limits", "neighbours", "short_passes", "merge",
          "edge_passes", "tickets", "machine_offsets", "width_check"}},
        {"comparison", {"segment", "placebo_layouts", "all_pairs"}},
        {"history", {"results", "maps", "columns"}},
        {"history.columns", meanings},
        {"history.columns.*", column_choice},
        {"money", {"currency", "as_of", "source", "price", "price_uncertainty", "cost"}},
        {"money.cost",
         {"kind", "item", "method", "amount", "uncertainty", "per_point", "rate", "over", "capital", "interest",
          "crushed_width", "boom_width", "in_yield", "as_of", "source"}},
        {"loss_counts", {"file", "samples"}},
        {"weather", {"file", "in_swath", "swathed", "ripe"}},
        {"next_year",
         {"file", "layer", "crs", "name", "year", "crop", "variety", "fixed", "method", "note", "note_worth", "risk",
          "harvest_days", "years", "trial_cost", "spread", "layout"}},
        {"next_year.method",
         {"name", "share_low", "share_high", "cut_per_day", "combine_per_day", "ready", "cure_days"}},
        {"next_year.note", {"column", "favours", "because", "words"}},
        {"next_year.layout",
         {"methods", "direction", "headland", "obstacle_margin", "overlap", "min_length", "guard_passes", "most_pairs",
          "difference", "extra_time_per_strip", "weighed", "seed"}},
    };
    return all;
}

/// Where a key of the table stands: in [fields], in [[method]], or at the top of the file.
std::string inside(const std::string& table) {
    if (table.empty()) return "at the top of the file";
    return table == "method" ? "in [[method]]" : fmt::format("in [{}]", table);
}

/// The table that knows this very key, when the one at hand does not.
std::optional<std::string> home_of(const std::string& key, const std::string& not_this) {
    for (const KnownKeys& known : all_keys()) {
        if (known.table == not_this || known.table.ends_with('*')) continue;
        if (std::find(known.keys.begin(), known.keys.end(), key) != known.keys.end()) return known.table;
    }
    return std::nullopt;
}

} // namespace

const KnownKeys* known_keys(std::string_view table) {
    for (const KnownKeys& known : all_keys())
        if (known.table == table) return &known;
    return nullptr;
}

std::string unknown_key_message(const KnownKeys& table, const std::string& key) {
    if (table.table == "points.columns" && key == "method")
        return "the method is not mapped here; write from_points = { column = \"...\" } under [methods]";
    const std::string start = fmt::format("unknown key \"{}\" {}", key, inside(table.table));
    const std::optional<std::string> nearest = nearest_word(key, table.keys);
    const std::optional<std::string> home = home_of(key, table.table);
    const bool close = nearest && edit_distance(lower(key), *nearest) < 2;
    if (home && !close) {
        const std::string_view above = home->empty() ? ", above the first table in brackets" : "";
        return fmt::format("{}; it belongs {}{}", start, inside(*home), above);
    }
    if (nearest) return fmt::format("{}; did you mean \"{}\"?", start, *nearest);
    return fmt::format("{}; known here: {}", start, join(table.keys, ", "));
}

} // namespace quartercut::season
