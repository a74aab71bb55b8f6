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

} // namespace

std::string comparison_json(const Results& results) {
    require_same_fields(results);
    Json fields = Json::array();
    for (std::size_t i = 0; i < results.standardised.fields.size(); ++i) {
        fields.push_back(write::field_json(results, i));
    }
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
                   {"fields", fields},
                   {"farm", Json{{"contrasts", write::array_of(results.comparison.farm, write::farm_contrast_json)},
                                 {"seasons", write::array_of(results.comparison.seasons, write::farm_contrast_json)}}},
                   {"loads", write::array_of(results.cleaned.loads, load_json)},
                   {"plan", write::plan_json(results.plan)},
                   {"issues", issues}};
    return write::to_text(out);
}

} // namespace quartercut
