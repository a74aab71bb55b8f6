// SPDX-License-Identifier: MIT
// The parts of a contrast that every kind of evidence shares.
#include "compare/field.hpp"

#include "base/words/words.hpp"
#include "compare/findings.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace quartercut::contrast {
namespace {

Harvest harvest_of(const FieldContext& field, int method) {
    Harvest harvest;
    for (const int i : field.layout.usable)
        if (field.zone_of(i).method == method) harvest.add(field.segment(i));
    return harvest;
}

std::optional<double> raw_mean(const StandardField& field, int method) {
    for (const RawMean& raw : field.raw_means)
        if (raw.method == method && raw.records > 0 && std::isfinite(raw.mean_yield_t_ha)) return raw.mean_yield_t_ha;
    return std::nullopt;
}

double width_u_rel(const CleanedField& cleaned, const std::string& method) {
    for (const WidthCheck& check : cleaned.widths)
        if (check.method == method && std::isfinite(check.u_rel)) return check.u_rel;
    return WidthCheck{}.u_rel;
}

} // namespace

Issue note(std::string code, std::string where, std::string message) {
    return {std::move(code), Severity::note, std::move(where), std::move(message)};
}

Issue warning(std::string code, std::string where, std::string message) {
    return {std::move(code), Severity::warning, std::move(where), std::move(message)};
}

Side side_of(const FieldContext& field, const std::vector<int>& segments, int method) {
    Side side;
    side.method = field.method_name(method);
    side.width_u_rel = width_u_rel(field.view.cleaned, side.method);
    Harvest harvest;
    std::map<int, double> by_machine;
    double moist_mass = 0.0;
    double water = 0.0;
    for (const int i : segments) {
        if (field.zone_of(i).method != method) continue;
        const Segment& s = field.segment(i);
        harvest.add(s);
        by_machine[s.machine] += s.mass_basis_kg;
        if (!std::isfinite(s.moisture_pct)) continue;
        moist_mass += s.mass_basis_kg;
        water += s.mass_basis_kg * s.moisture_pct;
    }
    side.yield_t_ha = harvest.yield_t_ha().value_or(0.0);
    side.moisture_pct = moist_mass > 0.0 ? water / moist_mass : field.season.basis_pct;
    for (const auto& [machine, mass] : by_machine) {
        const bool known = machine >= 0 && static_cast<std::size_t>(machine) < field.standardised.machines.size();
        side.machines.push_back({known ? field.standardised.machines[static_cast<std::size_t>(machine)] : "machine",
                                 harvest.mass_kg > 0.0 ? mass / harvest.mass_kg : 0.0});
    }
    return side;
}

Contrast start_contrast(const FieldContext& field, std::pair<int, int> pair, Evidence evidence) {
    Contrast contrast;
    contrast.method = field.method_name(pair.first);
    contrast.baseline = field.method_name(pair.second);
    contrast.evidence = evidence;
    contrast.yield_t_ha = harvest_of(field, pair.first).yield_t_ha();
    contrast.baseline_yield_t_ha = harvest_of(field, pair.second).yield_t_ha();
    const auto raw = raw_mean(field.view.standard, pair.first);
    const auto raw_base = raw_mean(field.view.standard, pair.second);
    if (raw && raw_base) contrast.raw_gain_t_ha = *raw - *raw_base;
    contrast.leaves_out = left_out(evidence);
    return contrast;
}

void add_instruments(const FieldContext& field, std::pair<int, int> pair, Contrast& contrast) {
    if (!contrast.gain_t_ha || !contrast.baseline_yield_t_ha) return;
    const Side side = side_of(field, field.layout.usable, pair.first);
    const Side baseline = side_of(field, field.layout.usable, pair.second);
    for (BudgetLine& line : instrument_lines(side, baseline, field.view.cleaned.calibration))
        contrast.budget.push_back(std::move(line));
    const double base = *contrast.baseline_yield_t_ha;
    const double yield = base + *contrast.gain_t_ha;
    if (base > 0.0 && yield > 0.0) {
        contrast.break_even_calibration_pct = break_even_calibration_pct(yield, base);
        contrast.break_even_moisture_pct = break_even_moisture_pct(yield, base, side.moisture_pct);
    }
    if (unchecked_machines_apart(side, baseline, field.view.cleaned.calibration))
        hold_for_machines(contrast, spoken().compare.own_machines);
    settle(contrast);
}

} // namespace quartercut::contrast
