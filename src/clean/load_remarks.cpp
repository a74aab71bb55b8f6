// SPDX-License-Identifier: MIT
// Each remark has a code, a place and words of its own; none of them changes a factor.
#include "clean/load_remarks.hpp"

#include "base/words/words.hpp"

#include "clean/robust.hpp"

#include <fmt/format.h>

#include <cmath>
#include <map>

namespace quartercut::cleaning {
namespace {

constexpr double large_correction = 0.10, odd_load = 0.20, telling_t = 2.0;
constexpr std::size_t fewest_fellows = 3;

void remark_on_load(Cleaned& cleaned, const WeighedLoad& load, const std::string& method, const Setting& setting) {
    const Ticket& first = setting.input->tickets[load.tickets.front()];
    const std::string where = place_of(setting, first);
    if (!load.readable)
        cleaned.issues.push_back(
            {"load-without-readings", Severity::warning, where,
             fill(spoken().clean.load_without_readings, fmt::arg("pct", 100.0 * load.unread_s / load.cutting_s))});
    else if (load.group < 0)
        cleaned.issues.push_back({"mixed-load", Severity::warning, where, spoken().clean.mixed_load});
    else if (!first.method.empty() && first.method != method)
        cleaned.issues.push_back(
            {"ticket-method-differs", Severity::warning, where,
             fill(spoken().clean.ticket_method_differs, fmt::arg("said", first.method), fmt::arg("found", method))});
}

/// One load's scale against the others' of its machine and method: a slip of the pen, or part of the load on another
/// truck. Loads of one group lie within a few percent of each other (common practice, no source).
void remark_on_odd_loads(Cleaned& cleaned, const std::vector<WeighedLoad>& weighed, const Setting& setting) {
    std::map<int, std::vector<double>> ratios;
    for (const WeighedLoad& load : weighed)
        if (load.group >= 0 && load.readable) ratios[load.group].push_back(load.ticket_kg / load.monitor_kg);
    for (const WeighedLoad& load : weighed) {
        if (load.group < 0 || !load.readable || ratios[load.group].size() < fewest_fellows) continue;
        std::vector<double> all = ratios[load.group];
        const double apart = load.ticket_kg / load.monitor_kg / median_in_place(all);
        if (std::abs(std::log(apart)) <= std::log1p(odd_load)) continue;
        const auto& words = spoken().clean;
        cleaned.issues.push_back({"load-far-from-others", Severity::warning,
                                  place_of(setting, setting.input->tickets[load.tickets.front()]),
                                  fill(apart > 1.0 ? words.odd_load_more : words.odd_load_less,
                                       fmt::arg("pct", 100.0 * std::abs(apart - 1.0)))});
    }
}

void note_large_corrections(Cleaned& cleaned, const Setting& setting) {
    for (const Calibration& c : cleaned.calibration)
        if (std::abs(c.factor - 1.0) > large_correction)
            cleaned.issues.push_back(
                {"large-correction", Severity::warning,
                 fill(spoken().places.machine_method, fmt::arg("machine", c.machine), fmt::arg("method", c.method)),
                 fill(spoken().clean.large_correction, fmt::arg("pct", 100.0 * (c.factor - 1.0)),
                      fmt::arg("question", unit_mistaken(c.factor, setting.input->tickets)))});
}

/// A monitor reads windrowed and standing grain a little differently; a tenth apart it is more likely that something is
/// wrong with the loads, and half of the difference between the methods would hang on it.
void note_unlike_methods(Cleaned& cleaned) {
    const std::vector<Calibration>& all = cleaned.calibration;
    for (std::size_t a = 0; a < all.size(); ++a)
        for (std::size_t b = a + 1; b < all.size(); ++b) {
            const double ratio = all[b].factor / all[a].factor;
            if (all[a].machine != all[b].machine || all[a].loads == 0 || all[b].loads == 0) continue;
            if (std::abs(std::log(ratio)) <= std::log1p(large_correction)) continue;
            cleaned.issues.push_back({"factors-differ", Severity::warning,
                                      fill(spoken().places.machine_methods, fmt::arg("machine", all[a].machine),
                                           fmt::arg("method", all[a].method), fmt::arg("other", all[b].method)),
                                      fill(ratio > 1.0 ? spoken().clean.factors_more : spoken().clean.factors_less,
                                           fmt::arg("pct", 100.0 * std::abs(ratio - 1.0)),
                                           fmt::arg("method", all[b].method), fmt::arg("other", all[a].method))});
        }
}

} // namespace

void remark_on_fit(Cleaned& cleaned, const LoadFit& fit, const Setting& setting) {
    const std::string file = setting.season->tickets ? setting.season->tickets->file : "tickets";
    if (fit.flow && std::abs(fit.flow->t) > telling_t)
        cleaned.issues.push_back(
            {"calibration-depends-on-flow", Severity::warning, file,
             fill(spoken().clean.depends_on_flow, fmt::arg("pct", 100.0 * (std::exp2(fit.flow->value) - 1.0)),
                  fmt::arg("t", fit.flow->t))});
    if (fit.drift_per_day && std::abs(fit.drift_per_day->t) > telling_t)
        cleaned.issues.push_back({"calibration-drifts", Severity::warning, file,
                                  fill(spoken().clean.drifts, fmt::arg("pct", 100.0 * fit.drift_per_day->value),
                                       fmt::arg("t", fit.drift_per_day->t))});
}

void remark_on_loads(Cleaned& cleaned, const std::vector<WeighedLoad>& weighed, const Setting& setting) {
    for (const WeighedLoad& load : weighed) {
        const Ticket& first = setting.input->tickets[load.tickets.front()];
        LoadCheck check;
        check.ticket = first.id.empty() ? fill(spoken().places.row, fmt::arg("row", first.row)) : first.id;
        if (load.group >= 0) check.machine = setting.group_machine(load.group);
        if (load.group >= 0) check.method = setting.group_method(load.group);
        check.field = first.field;
        check.time_s = load.time_s;
        check.ticket_basis_kg = load.ticket_kg;
        check.monitor_basis_kg = load.monitor_kg;
        check.flow_kg_s = load.seconds > 0.0 ? load.monitor_kg / load.seconds : 0.0;
        if (load.readable) cleaned.loads.push_back(check);
        remark_on_load(cleaned, load, check.method, setting);
    }
    remark_on_odd_loads(cleaned, weighed, setting);
}

void remark_on_factors(Cleaned& cleaned, const Setting& setting) {
    note_large_corrections(cleaned, setting);
    note_unlike_methods(cleaned);
}

} // namespace quartercut::cleaning
