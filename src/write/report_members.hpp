// SPDX-License-Identifier: MIT
// The members of results that the page is drawn from, each named once for storing and fetching (archive.hpp).
#pragma once

#include "base/earlier_words.hpp"
#include "write/archive.hpp"

namespace quartercut {

QUARTERCUT_DESCRIBE(Point) {
    io("x", v.x);
    io("y", v.y);
}

QUARTERCUT_DESCRIBE(Polygon) {
    io("shell", v.shell);
    io("holes", v.holes);
}

QUARTERCUT_DESCRIBE(Issue) {
    io("code", v.code);
    io("severity", v.severity);
    io("where", v.where);
    io("message", v.message);
}

QUARTERCUT_DESCRIBE(InputFile) {
    io("path", v.path);
    io("role", v.role);
    io("layer", v.layer);
    io("bytes", v.bytes);
    io("sha256", v.sha256);
    io("rows", v.rows);
}

QUARTERCUT_DESCRIBE(Zone) {
    io("id", v.id);
    io("method", v.method);
    io("reason", v.reason);
    io("stratum", v.stratum);
    io("block", v.block);
    io("shape_m", v.shape_m);
    io("area_m2", v.area_m2);
    io("harvested_m2", v.harvested_m2);
    io("records", v.records);
    io("mass_basis_kg", v.mass_basis_kg);
    io("moisture_pct", v.moisture_pct);
    io("first_s", v.first_s);
    io("last_s", v.last_s);
}

QUARTERCUT_DESCRIBE(Pass) { io("heading_deg", v.heading_deg); }

QUARTERCUT_DESCRIBE(LagEstimate) {
    io("machine", v.machine);
    io("method", v.method);
    io("lag_s", v.lag_s);
    io("low_s", v.low_s);
    io("high_s", v.high_s);
    io("applied", v.applied);
    io("why", v.why);
}

QUARTERCUT_DESCRIBE(Calibration) {
    io("machine", v.machine);
    io("method", v.method);
    io("factor", v.factor);
    io("u_rel", v.u_rel);
    io("df", v.df);
    io("loads", v.loads);
    io("source", v.source);
}

QUARTERCUT_DESCRIBE(StepReport) {
    io("step", v.step);
    io("on", v.on);
    io("records_before", v.records_before);
    io("records_after", v.records_after);
    io("cv_before_pct", v.cv_before_pct);
    io("cv_after_pct", v.cv_after_pct);
    io("mean_before_t_ha", v.mean_before_t_ha);
    io("mean_after_t_ha", v.mean_after_t_ha);
}

QUARTERCUT_DESCRIBE(LoadCheck) {
    io("ticket", v.ticket);
    io("machine", v.machine);
    io("method", v.method);
    io("field", v.field);
    io("time_s", v.time_s);
    io("ticket_basis_kg", v.ticket_basis_kg);
    io("monitor_basis_kg", v.monitor_basis_kg);
    io("flow_kg_s", v.flow_kg_s);
}

QUARTERCUT_DESCRIBE(Estimate) {
    io("estimator", v.estimator);
    io("gain_t_ha", v.gain_t_ha);
    io("se_t_ha", v.se_t_ha);
    io("df", v.df);
    io("ci95_t_ha", v.ci95_t_ha);
    io("note", v.note);
}

QUARTERCUT_DESCRIBE(PairDifference) {
    io("block", v.block);
    io("zone", v.zone);
    io("baseline_zone", v.baseline_zone);
    io("yield_t_ha", v.yield_t_ha);
    io("baseline_yield_t_ha", v.baseline_yield_t_ha);
    io("difference_t_ha", v.difference_t_ha);
}

QUARTERCUT_DESCRIBE(BudgetLine) {
    io("source", v.source);
    io("u_t_ha", v.u_t_ha);
    io("df", v.df);
    io("shared", v.shared);
}

QUARTERCUT_DESCRIBE(Placebo) {
    io("layouts", v.layouts);
    io("share_as_large", v.share_as_large);
    io("share_found", v.share_found);
}

/// Earlier versions said it in words alone.
template <class Archive, class Row>
void describe_machine_is_method(Archive& io, Row& v) {
    if constexpr (!std::is_const_v<Row>) v.machine_is_method = said_machine_is_method(v.leaves_out);
    io.added("machine_is_method", v.machine_is_method);
}

QUARTERCUT_DESCRIBE(Contrast) {
    io("method", v.method);
    io("baseline", v.baseline);
    io("stratum", v.stratum);
    io("evidence", v.evidence);
    io("gain_t_ha", v.gain_t_ha);
    io("se_t_ha", v.se_t_ha);
    io("df", v.df);
    io("ci95_t_ha", v.ci95_t_ha);
    io("p", v.p);
    io("p_randomisation", v.p_randomisation);
    io("p_adjusted", v.p_adjusted);
    io("looks", v.looks);
    io("u_calibration_t_ha", v.u_calibration_t_ha);
    io("u_total_t_ha", v.u_total_t_ha);
    io("ci95_total_t_ha", v.ci95_total_t_ha);
    io("df_total", v.df_total);
    io("break_even_calibration_pct", v.break_even_calibration_pct);
    io("break_even_moisture_pct", v.break_even_moisture_pct);
    io("fragile", v.fragile);
    io("detectable_t_ha", v.detectable_t_ha);
    io("unit_what", v.unit_what);
    io("unit_n", v.unit_n);
    io("estimator", v.estimator);
    io("finding", v.finding);
    io("yield_t_ha", v.yield_t_ha);
    io("baseline_yield_t_ha", v.baseline_yield_t_ha);
    io("raw_gain_t_ha", v.raw_gain_t_ha);
    io("also", v.also);
    io("robustness", v.robustness);
    io("earlier", v.earlier);
    io("pairs", v.pairs);
    io("budget", v.budget);
    io("placebo", v.placebo);
    io("leaves_out", v.leaves_out);
    describe_machine_is_method(io, v);
}

QUARTERCUT_DESCRIBE(Crossing) {
    io("what", v.what);
    io("levels", v.levels);
    io("methods", v.methods);
    io("area_ha", v.area_ha);
}

QUARTERCUT_DESCRIBE(SpatialModel) {
    io("spherical", v.spherical);
    io("anisotropic", v.anisotropic);
    io("sill", v.sill);
    io("range_m", v.range_m);
    io("nugget", v.nugget);
    io("pass", v.pass);
    io("across_ratio", v.across_ratio);
}

QUARTERCUT_DESCRIBE(FieldComparison) {
    io("name", v.name);
    io("evidence", v.evidence);
    io("contrasts", v.contrasts);
    io("crossings", v.crossings);
    io("spatial", v.spatial);
    io("issues", v.issues);
}

QUARTERCUT_DESCRIBE(FarmContrast) {
    io("method", v.method);
    io("baseline", v.baseline);
    io("gain_t_ha", v.gain_t_ha);
    io("se_t_ha", v.se_t_ha);
    io("df", v.df);
    io("ci95_t_ha", v.ci95_t_ha);
    io("ci95_total_t_ha", v.ci95_total_t_ha);
    io("prediction95_t_ha", v.prediction95_t_ha);
    io("p", v.p);
    io("tau_t_ha", v.tau_t_ha);
    io("i2_pct", v.i2_pct);
    io("u_shared_t_ha", v.u_shared_t_ha);
    io("fields", v.fields);
    io("evidence", v.evidence);
    io("estimator", v.estimator);
    io("finding", v.finding);
    io("field_names", v.field_names);
    io("leaves_out", v.leaves_out);
    describe_machine_is_method(io, v);
    io("budget", v.budget);
    io("df_total", v.df_total);
    io("u_total_t_ha", v.u_total_t_ha);
    io("p_adjusted", v.p_adjusted);
    io("looks", v.looks);
    io("these_fields_gain_t_ha", v.these_fields_gain_t_ha);
    io("these_fields_ci95_total_t_ha", v.these_fields_ci95_total_t_ha);
    io("years", v.years);
    io("between_years_t_ha", v.between_years_t_ha);
}

QUARTERCUT_DESCRIBE(Comparison) {
    io("fields", v.fields);
    io("farm", v.farm);
    io("seasons", v.seasons);
    io("crossings", v.crossings);
    io("issues", v.issues);
}

} // namespace quartercut
