// SPDX-License-Identifier: MIT
// Method areas: which land was cut which way, in the season file's own spelling.
#include "read/areas.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace quartercut::reading {
namespace {

/// Spellings of a method: those under `values` where given, then the names.
std::vector<std::string> known_spellings(const Season& season) {
    std::vector<std::string> known;
    for (const auto& [value, method] : season.methods_from.values)
        known.push_back(value);
    for (const Method& method : season.methods)
        known.push_back(method.name);
    return known;
}

/// Layers of one file may share one `crs` line: that of [fields].
void share_crs(const Season& season, LayerInput& input) {
    if (input.crs.empty() && input.file == season.fields.file) input.crs = season.fields.crs;
}

/// Turns the value into the season's spelling, or stops.
void settle_value(Context& context, std::string& value, const std::string& where) {
    const std::string found = value;
    if (!known_method_value(context.season, value)) throw DataError(where + no_method_words(context.season, found));
    if (value != found)
        context.note("method-spelling", where,
                     fill(spoken().read.method_spelling, fmt::arg("found", found), fmt::arg("method", value)));
}

void settle_methods_of_fields(Context& context) {
    const std::string& column = context.season.methods_from.column;
    for (RawArea& field : context.raw.fields) {
        const auto found = field.attributes.find(column);
        if (found == field.attributes.end() || trim(found->second).empty()) {
            context.warn(
                "field-without-method",
                fill(spoken().places.file_row, fmt::arg("file", context.season.fields.file),
                     fmt::arg("row", field.row)),
                fill(spoken().read.field_without_method, fmt::arg("field", field.name), fmt::arg("column", column)));
            continue;
        }
        context.attempt(context.season.fields.file, [&] {
            settle_value(context, found->second,
                         fmt::format("{}, field '{}', column '{}'", context.season.fields.file, field.name, column));
        });
    }
}

} // namespace

bool known_method_value(const Season& season, std::string& value) {
    const std::vector<std::string> known = known_spellings(season);
    if (std::find(known.begin(), known.end(), value) != known.end()) return true;
    const std::string wanted = lower(trim(value));
    std::vector<std::string> alike;
    for (const std::string& word : known)
        if (lower(trim(word)) == wanted) alike.push_back(word);
    if (alike.empty() || (alike.size() > 1 && alike.front() != alike.back())) return false;
    value = alike.front();
    return true;
}

std::string no_method_words(const Season& season, const std::string& value) {
    const std::vector<std::string> known = known_spellings(season);
    return fmt::format(": '{}' is no method of the season file. Methods: {}.{} Mend the value, or add a [[method]] of "
                       "that name.",
                       value, listed(known), did_you_mean(value, known));
}

void read_method_areas(Context& context) {
    const Season& season = context.season;
    if (season.methods_from.source == MethodSource::fields) return settle_methods_of_fields(context);
    if (season.methods_from.source != MethodSource::polygons) return;
    AreaWish wish{"methods", season.methods_from, season.methods_from.column, "column", {}};
    if (wish.input.file.empty()) wish.input.file = season.fields.file;
    share_crs(season, wish.input);
    const std::string& pairs = season.trial.pairs;
    if (!pairs.empty() && pairs != "auto" && pairs != "none") wish.more.push_back(pairs);
    std::set<std::string> told;
    const std::size_t faults_before = context.faults();
    AreaLayer layer = read_areas(context, wish);
    for (RawArea& area : layer.areas) {
        const std::string where =
            fill(spoken().places.file_row, fmt::arg("file", layer.shown), fmt::arg("row", area.row));
        if (area.name.empty()) {
            context.warn("area-without-method", where,
                         fill(spoken().read.area_without_method, fmt::arg("column", wish.name_column)));
            continue;
        }
        const std::string found = area.name;
        const bool known = context.attempt(layer.shown, [&] {
            if (!known_method_value(season, area.name)) throw DataError(where + no_method_words(season, found));
        });
        if (!known) continue;
        if (area.name != found && told.insert(found).second)
            context.note("method-spelling", where,
                         fill(spoken().read.method_spelling, fmt::arg("found", found), fmt::arg("method", area.name)));
        context.raw.method_areas.push_back(std::move(area));
    }
    if (context.raw.method_areas.empty() && context.faults() == faults_before)
        throw DataError(fmt::format("{}: no area has a value in column '{}', so no method is known.", wish.input.file,
                                    wish.name_column));
}

} // namespace quartercut::reading
