// SPDX-License-Identifier: MIT
// Which record was cut which way: from method areas, from the whole field, or from the records' own column.
#include "standardise/work.hpp"

#include "quartercut/error.hpp"

#include "base/faults.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

namespace quartercut::standardise_room {

namespace {

std::vector<std::string> known_values(const Season& season) {
    std::vector<std::string> known;
    for (const Method& method : season.methods)
        known.push_back(method.name);
    for (const auto& [value, name] : season.methods_from.values)
        known.push_back(value);
    return known;
}

} // namespace

std::int32_t method_of_value(const Season& season, const std::string& value, const std::string& where) {
    const auto mapped = season.methods_from.values.find(value);
    const int code = season.method_code(mapped == season.methods_from.values.end() ? value : mapped->second);
    if (code >= 0) return code;
    const std::vector<std::string> known = known_values(season);
    const auto nearest = nearest_word(value, known);
    throw DataError(fmt::format("{}: \"{}\" is no method of the season file; known: {}.{} Add a [[method]] of that "
                                "name, or map the value under values in [methods].",
                                where, value, join_with(known, "and"),
                                nearest ? fmt::format(" Did you mean \"{}\"?", *nearest) : std::string{}));
}

std::vector<std::vector<std::int32_t>> method_words(const Season& season, const Raw& raw) {
    std::vector<std::vector<std::int32_t>> codes(raw.records.size());
    if (season.methods_from.source != MethodSource::points) return codes;
    Faults faults;
    for (std::size_t f = 0; f < raw.records.size(); ++f) {
        const std::string shown = file_text(raw, raw.records[f]);
        const TextColumn* column = text_column(raw.records[f], Meaning::method);
        if (column == nullptr) {
            faults.attempt("", [&] {
                throw DataError(fmt::format("{}: the file has no column \"{}\", from which [methods] takes the method "
                                            "of each record.",
                                            shown, season.methods_from.column));
            });
            continue;
        }
        const std::string where = fmt::format("{}, column \"{}\"", shown, season.methods_from.column);
        codes[f].assign(column->words.size(), -1);
        for (std::size_t w = 0; w < column->words.size(); ++w)
            if (!trim(column->words[w]).empty())
                faults.attempt("", [&] { codes[f][w] = method_of_value(season, column->words[w], where); });
    }
    faults.raise();
    return codes;
}

void assign_methods(const Season& season, FieldWork& work) {
    StandardField& field = work.field;
    Records& records = field.records;
    records.area.assign(records.size(), -1);
    if (season.methods_from.source == MethodSource::points) return; // set with the columns
    records.method.assign(records.size(), -1);
    const bool whole_field = season.methods_from.source == MethodSource::fields;
    std::vector<PointLocator> locators;
    for (const MethodArea& area : field.method_areas)
        locators.emplace_back(area.shape_m);
    for (std::size_t i = 0; i < records.size(); ++i) {
        const Point place{records.x_m[i], records.y_m[i]};
        for (std::size_t a = 0; a < locators.size(); ++a) {
            if (!whole_field && !locators[a].contains(place)) continue;
            records.area[i] = static_cast<std::int32_t>(a);
            records.method[i] = field.method_areas[a].method;
            break; // where areas overlap the first row wins, in zone/ as here
        }
    }
}

} // namespace quartercut::standardise_room
