// SPDX-License-Identifier: MIT
// One field -> JSON: what was read, what the cleaning did, the zones, the contrasts.
#include "write/field_json.hpp"

#include "write/record_count.hpp"

namespace quartercut::write {

namespace {

Json records_json(const RecordCount& count) {
    Json removed = Json::object();
    for (std::size_t reason = 1; reason < removal_count; ++reason) {
        if (count.removed[reason] > 0) removed[removal_word(static_cast<Removal>(reason))] = count.removed[reason];
    }
    return Json{{"read", count.read}, {"used", count.used}, {"removed", removed}};
}

Json removed_by_method_json(const Season& season, const CleanedField& cleaned) {
    Json out = Json::array();
    for (std::size_t row = 0; row < cleaned.removed.size(); ++row) {
        Json removed = Json::object();
        for (std::size_t reason = 1; reason < removal_count; ++reason) {
            const std::size_t n = cleaned.removed[row][reason];
            if (n > 0) removed[removal_word(static_cast<Removal>(reason))] = n;
        }
        if (removed.empty()) continue;
        out.push_back(Json{{"method", method_json(season, static_cast<int>(row) - 1)}, {"removed", removed}});
    }
    return out;
}

Json lag_json(const LagEstimate& lag) {
    return Json{{"machine", lag.machine},
                {"method", lag.method},
                {"lag_s", number(lag.lag_s)},
                {"low_s", number(lag.low_s)},
                {"high_s", number(lag.high_s)},
                {"applied", lag.applied},
                {"why", lag.why}};
}

Json ramp_json(const RampEstimate& ramp) {
    return Json{{"machine", ramp.machine},
                {"method", ramp.method},
                {"start_s", number(ramp.start_s)},
                {"end_s", number(ramp.end_s)},
                {"from_data", ramp.from_data}};
}

Json calibration_json(const Calibration& c) {
    return Json{{"machine", c.machine}, {"method", c.method}, {"factor", number(c.factor)}, {"u_rel", number(c.u_rel)},
                {"df", number(c.df)},   {"loads", c.loads},   {"source", c.source}};
}

Json width_json(const WidthCheck& w) {
    return Json{{"method", w.method},
                {"set_width_m", number(w.set_width_m)},
                {"measured_width_m", number(w.measured_width_m)},
                {"closure_pct", number(w.closure_pct)},
                {"u_rel", number(w.u_rel)}};
}

Json step_json(const StepReport& step) {
    const auto numbers = [](const std::vector<double>& values) {
        return array_of(values, [](double value) { return number(value); });
    };
    return Json{{"step", step.step},
                {"on", step.on},
                {"records_before", step.records_before},
                {"records_after", step.records_after},
                {"cv_before_pct", number(step.cv_before_pct)},
                {"cv_after_pct", number(step.cv_after_pct)},
                {"nugget_before", number(step.nugget_before)},
                {"nugget_after", number(step.nugget_after)},
                {"mean_before_t_ha", numbers(step.mean_before_t_ha)},
                {"mean_after_t_ha", numbers(step.mean_after_t_ha)}};
}

Json raw_mean_json(const Season& season, const RawMean& mean) {
    return Json{{"method", method_json(season, mean.method)},
                {"records", mean.records},
                {"mean_yield_t_ha", number(mean.mean_yield_t_ha)},
                {"mean_moisture_pct", number(mean.mean_moisture_pct)}};
}

Json zone_json(const Season& season, const Zone& zone) {
    return Json{{"id", zone.id},
                {"method", method_json(season, zone.method)},
                {"reason", zone.reason.empty() ? Json(nullptr) : Json(zone.reason)},
                {"stratum", text_or_null(zone.stratum)},
                {"block", zone.block.empty() ? Json(nullptr) : Json(zone.block)},
                {"area_ha", number(zone.area_m2 / m2_per_hectare)},
                {"harvested_ha", number(zone.harvested_m2 / m2_per_hectare)},
                {"records", zone.records},
                {"mass_t", number(zone.mass_basis_kg / kg_per_tonne)},
                {"yield_t_ha", number(zone.yield_t_ha())},
                {"moisture_pct", number(zone.moisture_pct)}};
}

Json crossing_json(const Crossing& crossing) {
    Json areas = Json::array();
    for (const auto& row : crossing.area_ha)
        areas.push_back(array_of(row, [](double v) { return number(v); }));
    return Json{{"what", crossing.what},
                {"levels", Json(crossing.levels)},
                {"methods", Json(crossing.methods)},
                {"area_ha", areas}};
}

void add_cleaning(Json& out, const Season& season, const StandardField& standard, const CleanedField& cleaned) {
    out["records"] = records_json(count_records(standard, cleaned));
    out["removed_by_method"] = removed_by_method_json(season, cleaned);
    out["raw_means"] = array_of(standard.raw_means, [&](const RawMean& mean) { return raw_mean_json(season, mean); });
    out["lag_s"] = array_of(cleaned.lag, lag_json);
    out["moisture_lag_s"] = array_of(cleaned.moisture_lag, lag_json);
    out["ramps"] = array_of(cleaned.ramps, ramp_json);
    out["calibration"] = array_of(cleaned.calibration, calibration_json);
    out["widths"] = array_of(cleaned.widths, width_json);
    out["steps"] = array_of(cleaned.steps, step_json);
}

/// The remarks of every room on this field, in the order of the data's way.
Json all_issues(const Results& results, std::size_t index) {
    Json out = Json::array();
    for (const Issues* issues : {&results.standardised.fields[index].issues, &results.cleaned.fields[index].issues,
                                 &results.zoned[index].issues, &results.comparison.fields[index].issues}) {
        for (const Json& issue : issues_json(*issues))
            out.push_back(issue);
    }
    return out;
}

} // namespace

Json method_json(const Season& season, int method) {
    if (method < 0) return nullptr;
    return season.methods.at(static_cast<std::size_t>(method)).name;
}

Json field_json(const Results& results, std::size_t index) {
    const Season& season = results.season;
    const StandardField& standard = results.standardised.fields[index];
    const FieldComparison& compared = results.comparison.fields[index];
    Json out{{"name", standard.name},
             {"area_ha", number(standard.area_m2 / m2_per_hectare)},
             {"evidence", evidence_word(compared.evidence)},
             {"attributes", Json(standard.attributes)}};
    add_cleaning(out, season, standard, results.cleaned.fields[index]);
    out["zones"] = array_of(results.zoned[index].zones, [&](const Zone& zone) { return zone_json(season, zone); });
    out["segments"] = results.zoned[index].segments.size();
    out["contrasts"] = array_of(compared.contrasts, contrast_json);
    out["crossings"] = array_of(compared.crossings, crossing_json);
    out["issues"] = all_issues(results, index);
    return out;
}

} // namespace quartercut::write
