// SPDX-License-Identifier: MIT
// Results -> comparison.json, schema quartercut.comparison/1.
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"
#include "write/field_json.hpp"
#include "write/plan_json.hpp"

#include <fmt/format.h>

namespace quartercut {

namespace {

using write::Json;
using write::number;

Json season_json(const Season& season) {
    Json methods = write::array_of(season.methods, [](const Method& method) {
        return Json{{"name", method.name}, {"label", method.label}, {"cut_width_m", number(method.cut_width_m)}};
    });
    return Json{{"title", season.title},
                {"year", season.year},
                {"crop", season.crop},
                {"basis_pct", number(season.basis_pct)},
                {"bushel_lb", number(season.bushel_lb)},
                {"baseline", season.baseline},
                {"units", yield_unit_word(season.units)},
                {"methods", methods},
                {"randomised", season.trial.randomised}};
}

Json load_json(const LoadCheck& load) {
    return Json{{"ticket", load.ticket},
                {"machine", load.machine},
                {"method", load.method},
                {"field", load.field},
                {"time_s", number(load.time_s)},
                {"ticket_basis_kg", number(load.ticket_basis_kg)},
                {"monitor_basis_kg", number(load.monitor_basis_kg)},
                {"flow_kg_s", number(load.flow_kg_s)}};
}

/// The rooms must speak of the same fields in the same order.
void require_same_fields(const Results& results) {
    const std::size_t fields = results.standardised.fields.size();
    if (results.cleaned.fields.size() == fields && results.zoned.size() == fields &&
        results.comparison.fields.size() == fields) {
        return;
    }
    throw InternalError(fmt::format("{} fields were standardised, but {} cleaned, {} zoned and {} compared.", fields,
                                    results.cleaned.fields.size(), results.zoned.size(),
                                    results.comparison.fields.size()));
}

std::string indented(const std::string& text, const std::string& by) {
    std::string out;
    for (const char letter : text)
        letter == '\n' ? out += by : out += letter;
    return out;
}

/// Puts the fields in where the text has an empty list of them, one after the other: as values, those of thousands of
/// fields would fill the memory. A line break inside a JSON text is never part of a word, so the place is certain.
std::string with_fields(const std::string& text, const Results& results) {
    const std::string before = "\n  \"fields\": [";
    const std::size_t at = text.find(before + "]") + before.size();
    std::string out = text.substr(0, at);
    const std::size_t fields = results.standardised.fields.size();
    for (std::size_t i = 0; i < fields; ++i) {
        std::string field = write::to_text(write::field_json(results, i));
        field.pop_back();
        out += (i == 0 ? "\n    " : ",\n    ") + indented(field, "\n    ");
    }
    return out + (fields == 0 ? "" : "\n  ") + text.substr(at);
}

} // namespace

std::string comparison_json(const Results& results) {
    require_same_fields(results);
    Json issues = Json::array();
    for (const Issues* list : {&results.standardised.issues, &results.cleaned.issues, &results.comparison.issues}) {
        for (const Json& issue : write::issues_json(*list))
            issues.push_back(issue);
    }
    const Json out{{"schema", "quartercut.comparison/1"},
                   {"version", results.version},
                   {"season", season_json(results.season)},
                   {"records", Json{{"read", results.standardised.records_read},
                                    {"outside", results.standardised.records_outside}}},
                   {"fields", Json::array()},
                   {"farm", Json{{"contrasts", write::array_of(results.comparison.farm, write::farm_contrast_json)},
                                 {"seasons", write::array_of(results.comparison.seasons, write::farm_contrast_json)}}},
                   {"loads", write::array_of(results.cleaned.loads, load_json)},
                   {"plan", write::plan_json(results.plan)},
                   {"issues", issues}};
    return with_fields(write::to_text(out), results);
}

} // namespace quartercut
