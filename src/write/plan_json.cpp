// SPDX-License-Identifier: MIT
#include "write/plan_json.hpp"

namespace quartercut::write {
namespace {

Json line_json(const CostLine& l) {
    return Json{{"item", l.item},   {"method", l.method}, {"written", l.written},
                {"as_of", l.as_of}, {"source", l.source}, {"cents_ha", number(l.cents_ha)}};
}

Json move_json(const MoneyMove& m) {
    return Json{{"what", m.what}, {"low_cents_ha", number(m.low_cents_ha)}, {"high_cents_ha", number(m.high_cents_ha)}};
}

Json net_json(const NetDifference& n) {
    return Json{{"field", n.field.empty() ? Json(nullptr) : Json(n.field)},
                {"method", n.method},
                {"baseline", n.baseline},
                {"evidence", n.evidence},
                {"area_ha", number(n.area_ha)},
                {"gain_t_ha", number(n.gain_t_ha)},
                {"net_cents_ha", number(n.net_cents_ha)},
                {"u_cents_ha", number(n.u_cents_ha)},
                {"df", number(n.df)},
                {"ci95_cents_ha", interval(n.ci95_cents_ha)},
                {"net_field_cents", n.net_field_cents ? Json(*n.net_field_cents) : Json(nullptr)},
                {"ci95_field_cents", n.ci95_field_cents ? Json(*n.ci95_field_cents) : Json(nullptr)},
                {"extra_cost_cents_ha", number(n.extra_cost_cents_ha)},
                {"break_even_t_ha", number(n.break_even_t_ha)},
                {"p_pays", number(n.p_pays)},
                {"regret_cents_ha", number(n.regret_cents_ha)},
                {"why_no_chance", n.why_no_chance},
                {"costs", array_of(n.lines, line_json)},
                {"tornado", array_of(n.tornado, move_json)}};
}

Json stage_json(const StageLoss& s) {
    return Json{{"when", loss_stage_word(s.stage)},
                {"places", s.places},
                {"trays", s.trays},
                {"loss_kg_ha", number(s.loss_kg_ha)},
                {"ci95_kg_ha", interval(s.ci95_kg_ha)},
                {"interval_from", s.interval_from}};
}

Json loss_json(const MethodLoss& l) {
    return Json{{"method", l.method},
                {"stages", array_of(l.stages, stage_json)},
                {"not_counted", l.not_counted},
                {"total_kg_ha", number(l.total_kg_ha)},
                {"ci95_kg_ha", interval(l.ci95_kg_ha)},
                {"yield_t_ha", number(l.yield_t_ha)},
                {"crop_had_t_ha", number(l.crop_had_t_ha)},
                {"loss_of_yield_pct", number(l.loss_of_yield_pct)},
                {"loss_of_crop_pct", number(l.loss_of_crop_pct)}};
}

Json sample_json(const SampleDifference& s) {
    return Json{{"property", s.property},
                {"method", s.method},
                {"baseline", s.baseline},
                {"mean", number(s.mean)},
                {"baseline_mean", number(s.baseline_mean)},
                {"difference", number(s.difference)},
                {"ci95", interval(s.ci95)},
                {"units", s.units},
                {"how", s.how}};
}

Json window_json(const WeatherWindow& w) {
    return Json{{"field", w.field},
                {"method", w.method},
                {"state", w.state},
                {"first_day", day_text(w.first_day)},
                {"last_day", day_text(w.last_day)},
                {"days_known", w.days_known},
                {"rain_mm", number(w.rain_mm)},
                {"rain_days", w.rain_days},
                {"gust_km_h", number(w.gust_km_h)},
                {"gust_day", w.gust_km_h ? Json(day_text(w.gust_day)) : Json(nullptr)}};
}

} // namespace

Json plan_json(const PlanResults& plan) {
    Json out = Json::object();
    if (plan.money)
        out["money"] = Json{{"currency", plan.money->currency},
                            {"farm", array_of(plan.money->farm, net_json)},
                            {"fields", array_of(plan.money->fields, net_json)},
                            {"gaps", plan.money->gaps},
                            {"notes", plan.money->notes}};
    if (plan.losses)
        out["losses"] = Json{{"methods", array_of(plan.losses->methods, loss_json)},
                             {"differences", array_of(plan.losses->differences, [](const LossDifference& d) {
                                  return Json{{"method", d.method},
                                              {"baseline", d.baseline},
                                              {"difference_kg_ha", number(d.difference_kg_ha)},
                                              {"ci95_kg_ha", interval(d.ci95_kg_ha)},
                                              {"over", d.over}};
                              })}};
    if (!plan.samples.empty()) out["samples"] = array_of(plan.samples, sample_json);
    if (plan.weather)
        out["weather"] = Json{{"windows", array_of(plan.weather->windows, window_json)}, {"gaps", plan.weather->gaps}};
    return out;
}

} // namespace quartercut::write
