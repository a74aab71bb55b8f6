// SPDX-License-Identifier: MIT
// Money, losses and weather of results, member by member (archive.hpp, report_members.hpp).
#pragma once

#include "write/report_members.hpp"

namespace quartercut {

QUARTERCUT_DESCRIBE(CostLine) {
    io("item", v.item);
    io("method", v.method);
    io("written", v.written);
    io("as_of", v.as_of);
    io("source", v.source);
    io("cents_ha", v.cents_ha);
}

QUARTERCUT_DESCRIBE(MoneyMove) {
    io("what", v.what);
    io("low_cents_ha", v.low_cents_ha);
    io("high_cents_ha", v.high_cents_ha);
}

QUARTERCUT_DESCRIBE(NetDifference) {
    io("field", v.field);
    io("method", v.method);
    io("baseline", v.baseline);
    io("evidence", v.evidence);
    io("area_ha", v.area_ha);
    io("gain_t_ha", v.gain_t_ha);
    io("net_cents_ha", v.net_cents_ha);
    io("u_cents_ha", v.u_cents_ha);
    io("df", v.df);
    io("ci95_cents_ha", v.ci95_cents_ha);
    io("net_field_cents", v.net_field_cents);
    io("ci95_field_cents", v.ci95_field_cents);
    io("extra_cost_cents_ha", v.extra_cost_cents_ha);
    io("worth_cents_t", v.worth_cents_t);
    io("break_even_t_ha", v.break_even_t_ha);
    io("p_pays", v.p_pays);
    io("regret_cents_ha", v.regret_cents_ha);
    io("why_no_chance", v.why_no_chance);
    io("lines", v.lines);
    io("tornado", v.tornado);
}

QUARTERCUT_DESCRIBE(MoneyResult) {
    io("currency", v.currency);
    io("fields", v.fields);
    io("farm", v.farm);
    io("gaps", v.gaps);
    io("notes", v.notes);
}

QUARTERCUT_DESCRIBE(StageLoss) {
    io("stage", v.stage);
    io("places", v.places);
    io("trays", v.trays);
    io("loss_kg_ha", v.loss_kg_ha);
    io("u_kg_ha", v.u_kg_ha);
    io("df", v.df);
    io("ci95_kg_ha", v.ci95_kg_ha);
    io("interval_from", v.interval_from);
}

QUARTERCUT_DESCRIBE(MethodLoss) {
    io("method", v.method);
    io("stages", v.stages);
    io("not_counted", v.not_counted);
    io("total_kg_ha", v.total_kg_ha);
    io("u_kg_ha", v.u_kg_ha);
    io("df", v.df);
    io("ci95_kg_ha", v.ci95_kg_ha);
    io("yield_t_ha", v.yield_t_ha);
    io("crop_had_t_ha", v.crop_had_t_ha);
    io("loss_of_yield_pct", v.loss_of_yield_pct);
    io("loss_of_crop_pct", v.loss_of_crop_pct);
}

QUARTERCUT_DESCRIBE(LossDifference) {
    io("method", v.method);
    io("baseline", v.baseline);
    io("difference_kg_ha", v.difference_kg_ha);
    io("ci95_kg_ha", v.ci95_kg_ha);
    io("over", v.over);
}

QUARTERCUT_DESCRIBE(LossResult) {
    io("methods", v.methods);
    io("differences", v.differences);
    io("issues", v.issues);
}

QUARTERCUT_DESCRIBE(SampleDifference) {
    io("property", v.property);
    io("method", v.method);
    io("baseline", v.baseline);
    io("mean", v.mean);
    io("baseline_mean", v.baseline_mean);
    io("difference", v.difference);
    io("ci95", v.ci95);
    io("units", v.units);
    io("how", v.how);
}

QUARTERCUT_DESCRIBE(WeatherDay) {
    io("day", v.day);
    io("rain_mm", v.rain_mm);
    io("gust_km_h", v.gust_km_h);
}

QUARTERCUT_DESCRIBE(WeatherWindow) {
    io("field", v.field);
    io("method", v.method);
    io("state", v.state);
    io("first_day", v.first_day);
    io("last_day", v.last_day);
    io("days_known", v.days_known);
    io("rain_mm", v.rain_mm);
    io("rain_days", v.rain_days);
    io("gust_km_h", v.gust_km_h);
    io("gust_day", v.gust_day);
    io("days", v.days);
}

QUARTERCUT_DESCRIBE(WeatherResult) {
    io("windows", v.windows);
    io("gaps", v.gaps);
}

QUARTERCUT_DESCRIBE(PlanResults) {
    io("money", v.money);
    io("losses", v.losses);
    io("samples", v.samples);
    io("weather", v.weather);
    io("inputs", v.inputs);
    io("issues", v.issues);
}

} // namespace quartercut
