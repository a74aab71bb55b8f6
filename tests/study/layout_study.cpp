// SPDX-License-Identifier: MIT
// Does a proposed layout keep its promise? Its false findings and its power against a simulation that shares no code
// with the planner: 5 % +- 1.5, power within 3 points. Exits with 1 when it does not.
#include "../plan/independent_trial.hpp"

#include <cstdio>

namespace {

quartercut::TrialLand land(double range_m, double pass) {
    quartercut::TrialLand out;
    out.name = "study";
    out.boundary_m = {{{{0.0, 0.0}, {800.0, 0.0}, {800.0, 800.0}, {0.0, 800.0}}, {}}};
    out.model = quartercut::LandModel{0.03, range_m, 0.01, pass, 300.0, 1000};
    return out;
}

} // namespace

int main() {
    bool kept = true;
    std::puts("range_m pass  pairs passes  promised: false power   simulated: false power");
    for (const double range_m : {40.0, 80.0, 200.0})
        for (const double pass : {0.0004, 0.004}) {
            quartercut::TrialWish wish;
            wish.method = "standing";
            wish.baseline = "swathed";
            wish.cut_m = 12.192;
            wish.baseline_cut_m = 10.668;
            wish.difference_t_ha = pass > 0.001 ? 0.12 : 0.06;
            wish.choice.direction_deg = 0.0;
            const quartercut::TrialLand field = land(range_m, pass);
            const quartercut::TrialLayout layout = quartercut::lay_out_trial(field, wish);
            if (layout.chosen < 0) {
                std::printf("%7.0f %.4f  %s\n", range_m, pass, layout.answer.c_str());
                continue;
            }
            const auto& d = layout.designs[static_cast<std::size_t>(layout.chosen)];
            const auto claim = quartercut::independent::simulate(layout, *field.model, wish.difference_t_ha, 10000);
            std::printf("%7.0f %.4f  %d     %d+%d            %.3f %.3f              %.3f %.3f\n", range_m, pass,
                        d.pairs, d.passes, d.baseline_passes, d.false_finding, d.power, claim.found_without,
                        claim.found_with);
            kept = kept && std::abs(claim.found_without - 0.05) < 0.015 && std::abs(d.false_finding - 0.05) < 0.015 &&
                   std::abs(claim.found_with - d.power) < 0.03;
        }
    std::puts(kept ? "kept" : "NOT KEPT");
    return kept ? 0 : 1;
}
