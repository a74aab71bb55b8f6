// SPDX-License-Identifier: MIT
// A contrast, a farm contrast and issues -> JSON.
#include "write/json_values.hpp"

namespace quartercut::write {

namespace {

Json estimate_json(const Estimate& e) {
    return Json{{"estimator", e.estimator}, {"gain_t_ha", number(e.gain_t_ha)},   {"se_t_ha", number(e.se_t_ha)},
                {"df", number(e.df)},       {"ci95_t_ha", interval(e.ci95_t_ha)}, {"note", e.note}};
}

Json pair_json(const PairDifference& p) {
    return Json{{"block", p.block},
                {"zone", p.zone},
                {"baseline_zone", p.baseline_zone},
                {"yield_t_ha", number(p.yield_t_ha)},
                {"baseline_yield_t_ha", number(p.baseline_yield_t_ha)},
                {"difference_t_ha", number(p.difference_t_ha)}};
}

Json budget_json(const BudgetLine& line) {
    return Json{
        {"source", line.source}, {"u_t_ha", number(line.u_t_ha)}, {"df", number(line.df)}, {"shared", line.shared}};
}

Json placebo_json(const std::optional<Placebo>& placebo) {
    if (!placebo) return nullptr;
    return Json{{"layouts", placebo->layouts},
                {"share_as_large", number(placebo->share_as_large)},
                {"share_found", number(placebo->share_found)}};
}

void add_total(Json& out, const Contrast& c) {
    out["u_calibration_t_ha"] = number(c.u_calibration_t_ha);
    out["u_total_t_ha"] = number(c.u_total_t_ha);
    out["ci95_total_t_ha"] = interval(c.ci95_total_t_ha);
    out["df_total"] = number(c.df_total);
    out["break_even_calibration_pct"] = number(c.break_even_calibration_pct);
    out["break_even_moisture_pct"] = number(c.break_even_moisture_pct);
    out["fragile"] = c.fragile.empty() ? Json(nullptr) : Json(c.fragile);
    out["detectable_t_ha"] = number(c.detectable_t_ha);
}

} // namespace

Json issues_json(const Issues& issues) {
    return array_of(issues, [](const Issue& issue) {
        return Json{{"code", issue.code},
                    {"severity", severity_word(issue.severity)},
                    {"where", issue.where},
                    {"message", issue.message}};
    });
}

Json contrast_json(const Contrast& c) {
    Json out{{"method", c.method},
             {"baseline", c.baseline},
             {"stratum", text_or_null(c.stratum)},
             {"evidence", evidence_word(c.evidence)},
             {"gain_t_ha", number(c.gain_t_ha)},
             {"se_t_ha", number(c.se_t_ha)},
             {"df", number(c.df)},
             {"ci95_t_ha", interval(c.ci95_t_ha)},
             {"p", number(c.p)},
             {"p_randomisation", number(c.p_randomisation)},
             {"p_adjusted", number(c.p_adjusted)},
             {"looks", c.looks}};
    add_total(out, c);
    out["units"] = Json{{"what", c.unit_what}, {"n", c.unit_n}};
    out["estimator"] = c.estimator;
    out["finding"] = finding_word(c.finding);
    out["yield_t_ha"] = number(c.yield_t_ha);
    out["baseline_yield_t_ha"] = number(c.baseline_yield_t_ha);
    out["raw_gain_t_ha"] = number(c.raw_gain_t_ha);
    out["also"] = array_of(c.also, estimate_json);
    out["robustness"] = array_of(c.robustness, estimate_json);
    out["earlier"] = array_of(c.earlier, estimate_json);
    out["pairs"] = array_of(c.pairs, pair_json);
    out["budget"] = array_of(c.budget, budget_json);
    out["placebo"] = placebo_json(c.placebo);
    out["leaves_out"] = Json(c.leaves_out);
    out["machine_is_method"] = c.machine_is_method;
    return out;
}

Json farm_contrast_json(const FarmContrast& c) {
    return Json{{"method", c.method},
                {"baseline", c.baseline},
                {"gain_t_ha", number(c.gain_t_ha)},
                {"se_t_ha", number(c.se_t_ha)},
                {"df", number(c.df)},
                {"ci95_t_ha", interval(c.ci95_t_ha)},
                {"ci95_total_t_ha", interval(c.ci95_total_t_ha)},
                {"prediction95_t_ha", interval(c.prediction95_t_ha)},
                {"these_fields_gain_t_ha", number(c.these_fields_gain_t_ha)},
                {"these_fields_ci95_total_t_ha", interval(c.these_fields_ci95_total_t_ha)},
                {"p", number(c.p)},
                {"p_adjusted", number(c.p_adjusted)},
                {"looks", c.looks},
                {"tau_t_ha", number(c.tau_t_ha)},
                {"between_years_t_ha", number(c.between_years_t_ha)},
                {"years", c.years},
                {"i2_pct", number(c.i2_pct)},
                {"u_shared_t_ha", number(c.u_shared_t_ha)},
                {"u_total_t_ha", number(c.u_total_t_ha)},
                {"df_total", number(c.df_total)},
                {"budget", array_of(c.budget, budget_json)},
                {"fields", c.fields},
                {"evidence", c.evidence},
                {"estimator", c.estimator},
                {"finding", finding_word(c.finding)},
                {"field_names", Json(c.field_names)},
                {"leaves_out", Json(c.leaves_out)},
                {"machine_is_method", c.machine_is_method}};
}

std::string to_text(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n'; }

} // namespace quartercut::write
