// SPDX-License-Identifier: MIT
// Does a proposed layout keep its promise? Its false findings and its power against a simulation that shares no code
// with the planner: 5 % +- 1.5, power within 3 points. Exits with 1 when it does not.
#include "../plan/independent_trial.hpp"

#include <cstdio>
#include <cstdlib>

namespace {

quartercut::TrialLand land(double range_m, double pass) {
    quartercut::TrialLand out;
    out.name = "study";
    out.boundary_m = {{{{0.0, 0.0}, {800.0, 0.0}, {800.0, 800.0}, {0.0, 800.0}}, {}}};
    out.model = quartercut::LandModel{0.03, range_m, 0.01, pass, 300.0, 1000};
    return out;
}

quartercut::TrialWish wish(double difference_t_ha) {
    quartercut::TrialWish out;
    out.method = "standing";
    out.baseline = "swathed";
    out.cut_m = 12.192;
    out.baseline_cut_m = 10.668;
    out.difference_t_ha = difference_t_ha;
    out.choice.direction_deg = 0.0;
    return out;
}

bool near(double promised, double came, double allowed) { return std::abs(promised - came) < allowed; }

/// Designs judged on the field's own earlier maps, means over fields.
bool judge_own_maps(int fields) {
    bool kept = true;
    std::puts("own maps: range_m years  fields refused  promised: false power   came: false power (se)");
    for (const double range_m : {40.0, 80.0, 200.0})
        for (const int years : {1, 3}) {
            const quartercut::LandModel model{0.03, range_m, 0.01, 0.0004, 300.0, 1000};
            quartercut::TrialWish asked = wish(0.07);
            asked.simulations = 1000; // many fields count more than many trials of one
            const auto seen = quartercut::independent::play_own_maps(model, asked, years, fields, 4000);
            std::printf("        %7.0f %d        %3d %3d        %.3f %.3f                %.3f %.3f (%.3f)\n", range_m,
                        years, seen.fields, seen.refused, seen.promised.found_without, seen.promised.found_with,
                        seen.came.found_without, seen.came.found_with, seen.power_se);
            kept = kept && near(seen.came.found_without, 0.05, 0.015) &&
                   near(seen.promised.found_with, seen.came.found_with, 0.03);
        }
    return kept;
}

/// Designs judged on the farm's variogram.
bool judge_models() {
    bool kept = true;
    std::puts("range_m pass  pairs passes  promised: false power   simulated: false power");
    for (const double range_m : {40.0, 80.0, 200.0})
        for (const double pass : {0.0004, 0.004}) {
            const quartercut::TrialWish asked = wish(pass > 0.001 ? 0.12 : 0.06);
            const quartercut::TrialLand field = land(range_m, pass);
            const quartercut::TrialLayout layout = quartercut::lay_out_trial(field, asked);
            if (layout.chosen < 0) {
                std::printf("%7.0f %.4f  %s\n", range_m, pass, layout.answer.c_str());
                continue;
            }
            const auto& d = layout.designs[static_cast<std::size_t>(layout.chosen)];
            const auto claim = quartercut::independent::simulate(layout, *field.model, asked.difference_t_ha, 10000);
            std::printf("%7.0f %.4f  %d     %d+%d            %.3f %.3f              %.3f %.3f\n", range_m, pass,
                        d.pairs, d.passes, d.baseline_passes, d.false_finding, d.power, claim.found_without,
                        claim.found_with);
            kept = kept && std::abs(claim.found_without - 0.05) < 0.015 && std::abs(d.false_finding - 0.05) < 0.015 &&
                   std::abs(claim.found_with - d.power) < 0.03;
        }
    return kept;
}

} // namespace

int main(int count, char** words) {
    std::setvbuf(stdout, nullptr, _IOLBF, BUFSIZ); // a long run shows how far it has come
    const int fields = count > 1 ? std::atoi(words[1]) : 40;
    const bool models = judge_models(), own = judge_own_maps(fields);
    std::puts(models && own ? "kept" : "NOT KEPT");
    return models && own ? 0 : 1;
}
