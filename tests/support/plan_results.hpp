// SPDX-License-Identifier: MIT
// Money, losses, samples, weather and plans filled by hand; every string that users or other rooms give is `said`.
#pragma once

#include "quartercut/report_plan.hpp"
#include "quartercut/results.hpp"

#include <string>
#include <utility>

namespace quartercut::plans {

inline NetDifference net(const std::string& field, const std::string& evidence, const std::string& said) {
    NetDifference out;
    out.field = field;
    out.method = "standing";
    out.baseline = "swathed";
    out.evidence = evidence;
    out.area_ha = 16.0;
    out.gain_t_ha = 0.09;
    out.net_cents_ha = 5000.0;
    out.ci95_cents_ha = Interval{1000.0, 9000.0};
    out.net_field_cents = 80000;
    out.break_even_t_ha = 0.02;
    out.p_pays = 0.93;
    out.regret_cents_ha = 12.0;
    out.lines = {{said, "swathed", said, said, said, 3459.5}};
    out.tornado = {{said, -300.0, 500.0}};
    return out;
}

/// `said` stands for what is typed by hand; `field` for the name of a field.
inline Results with_plan(Results results, const std::string& said = "drum", const std::string& field = "Home") {
    results.plan.money =
        MoneyResult{"$", {net(field, "replicated", said)}, {net("", "replicated", said)}, {said}, {said}};
    StageLoss stage{LossStage::before_cutting, 4, 16, 21.5, 3.0, 3.0, Interval{12.0, 31.0}, said};
    MethodLoss loss{"standing", {stage}, {said}, 21.5, 3.0, 3.0, Interval{12.0, 31.0}, 2.6, 2.62, 0.8, 0.79};
    results.plan.losses = LossResult{{loss}, {{"standing", "swathed", 4.5, Interval{-2.0, 11.0}, said}}, {}};
    results.plan.samples = {{said, "standing", "swathed", 1.2, 0.8, 0.4, Interval{-0.1, 0.9}, 4, said}};
    WeatherWindow window{field, "swathed", said, 20330, 20344, 14, 18.5, 3, 71.0, 20335, {}};
    window.days = {{20335, 6.5, 71.0}, {20336, std::nullopt, 40.0}};
    results.plan.weather = WeatherResult{{window}, {said}};
    return results;
}

inline Choice choice(const std::string& said) {
    Choice out;
    out.year = 2026;
    out.currency = "$";
    CandidateField field;
    field.name = field.variety = field.method = said;
    field.area_ha = 64.0;
    field.outlooks = {Outlook{}};
    field.outlooks[0].gain_t_ha = 0.1;
    field.reasons = field.would_change = {said};
    field.trial = true;
    out.fields = {field};
    out.shares = {{said, 64.0, 1.0}};
    out.plan_value_cents = out.trials_value_cents = out.trials_cost_cents = 123400.0;
    out.gaps = out.notes = out.skipped = {said};
    return out;
}

inline TrialLayout layout(const std::string& said) {
    TrialLayout out;
    out.field = out.direction_from = out.simulated_on = out.answer = said;
    out.boundary_m = {{{{0.0, 0.0}, {400.0, 0.0}, {400.0, 400.0}, {0.0, 400.0}}, {}}};
    out.wish.method = "standing";
    out.wish.baseline = said;
    TrialStrip strip;
    strip.pair = strip.order = strip.passes = strip.guards = 1;
    strip.method = said;
    strip.shape_m = {{{{0.0, 0.0}, {12.0, 0.0}, {12.0, 400.0}, {0.0, 400.0}}, {}}};
    strip.width_m = 12.2;
    out.strips = {strip};
    DesignResult fits, not_fit;
    fits.pairs = not_fit.pairs = 4;
    not_fit.why_not = said;
    out.designs = {fits, not_fit};
    out.chosen = 0;
    out.notes = {said};
    return out;
}

} // namespace quartercut::plans
