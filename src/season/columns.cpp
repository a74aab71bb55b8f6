// SPDX-License-Identifier: MIT
// Reads the column mapping of yield records. Units are checked here, where their line is known; no column is looked up.
#include "season/columns.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"
#include "season/faults.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace quartercut {
namespace {

struct MeaningFacts {
    Meaning meaning;
    const char* word;
    std::optional<Dimension> dimension;
};

constexpr std::array<MeaningFacts, 17> meaning_facts{{
    {Meaning::yield, "yield", Dimension::yield},
    {Meaning::flow, "flow", Dimension::mass_flow},
    {Meaning::moisture, "moisture", Dimension::moisture},
    {Meaning::speed, "speed", Dimension::speed},
    {Meaning::distance, "distance", Dimension::length},
    {Meaning::duration, "duration", Dimension::duration},
    {Meaning::width, "width", Dimension::length},
    {Meaning::time, "time", std::nullopt},
    {Meaning::heading, "heading", Dimension::angle},
    {Meaning::machine, "machine", std::nullopt},
    {Meaning::header, "header", std::nullopt},
    {Meaning::load, "load", std::nullopt},
    {Meaning::longitude, "longitude", Dimension::angle},
    {Meaning::latitude, "latitude", Dimension::angle},
    {Meaning::date, "date", std::nullopt},
    {Meaning::clock, "clock", std::nullopt},
    {Meaning::method, "method", std::nullopt},
}};

const MeaningFacts& facts_of(Meaning meaning) {
    for (const MeaningFacts& facts : meaning_facts)
        if (facts.meaning == meaning) return facts;
    throw InternalError("A meaning of columns without a name.");
}

const MeaningFacts& facts_of(const std::string& word) {
    for (const MeaningFacts& facts : meaning_facts)
        if (word == facts.word) return facts;
    throw InternalError(fmt::format("\"{}\" passed as a known column meaning.", word));
}

bool is_meaning(const std::string& word) {
    return std::any_of(meaning_facts.begin(), meaning_facts.end(),
                       [&](const MeaningFacts& facts) { return word == facts.word; });
}

} // namespace

const char* meaning_word(Meaning meaning) { return facts_of(meaning).word; }

std::optional<Dimension> dimension_of(Meaning meaning) { return facts_of(meaning).dimension; }

namespace season {
namespace {

void check_unit(const TableReader& table, const MeaningFacts& facts, const std::string& unit, double bushel_lb) {
    if (!facts.dimension)
        table.fail_at("unit", fmt::format("is set, but a column of kind \"{}\" has no unit; remove it", facts.word));
    if (unit_factor(*facts.dimension, unit, bushel_lb)) return;
    table.fail_at("unit", fmt::format("is \"{}\", which is not known for {}; known: {}", unit, facts.word,
                                      known_units(*facts.dimension)));
}

ColumnChoice read_choice(const TableReader& table, const MeaningFacts& facts, double bushel_lb) {
    ColumnChoice choice;
    choice.place = table.place();
    choice.column = table.required_text("column", "it names the column of the records");
    choice.unit = table.text_or("unit", "");
    if (!choice.unit.empty()) check_unit(table, facts, choice.unit, bushel_lb);
    if (table.has("moisture")) {
        if (facts.meaning != Meaning::yield)
            table.fail_at("moisture", "can be said of the yield column only; remove it");
        choice.moisture = table.required_text("moisture", "");
        if (choice.moisture != "wet" && choice.moisture != "dry")
            table.fail_at("moisture",
                          fmt::format("is \"{}\"; write \"wet\" (as it came in) or \"dry\" (already brought "
                                      "to the basis)",
                                      choice.moisture));
    }
    if (table.has("up")) {
        if (facts.meaning != Meaning::header) table.fail_at("up", "can be said of the header column only; remove it");
        choice.up = table.value_as_text("up").value_or("");
    }
    return choice;
}

ColumnChoice read_entry(const TableReader& columns, const MeaningFacts& facts, const std::string& schema,
                        double bushel_lb) {
    if (!columns.is_text(facts.word))
        return read_choice(*columns.table(facts.word, schema + ".columns.*"), facts, bushel_lb);
    // time = "utc": the short form, for a column that needs nothing but its name.
    ColumnChoice choice;
    choice.column = columns.required_text(facts.word, "");
    choice.place = columns.value_place(facts.word);
    return choice;
}

} // namespace

std::map<Meaning, ColumnChoice> read_columns(const TableReader& table, const std::string& schema, double bushel_lb) {
    std::map<Meaning, ColumnChoice> choices;
    const std::optional<TableReader> columns = table.table("columns", schema + ".columns");
    if (!columns) return choices;
    for (const std::string& word : columns->keys()) {
        if (!is_meaning(word)) continue; // told already: an unknown key
        const MeaningFacts& facts = facts_of(word);
        attempt([&] { choices[facts.meaning] = read_entry(*columns, facts, schema, bushel_lb); });
    }
    return choices;
}

} // namespace season
} // namespace quartercut
