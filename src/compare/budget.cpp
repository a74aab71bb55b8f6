// SPDX-License-Identifier: MIT
// Uncertainty budget of one difference. Defaults are stated here, each with where it comes from.
#include "compare/budget.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut::contrast {
namespace {

constexpr double default_df = 50.0; // of a stated default: well known, but not from counting
constexpr double width_df = 12.0;

// Bench meters against the oven: 0.4-0.5 point (Trans. ASAE 28:634-640); 0.3 after tickets, 0.8 without. Judgement.
constexpr double moisture_u_checked_pct = 0.3;
constexpr double moisture_u_unchecked_pct = 0.8;
// Dockage differs between windrowed and standing grain; half a point of each side. Judgement.
constexpr double dockage_u_pct = 0.5;
// Flow delay and ramps, until the job has re-run the cleaning with other values: 0.3 % of the yield. Judgement.
constexpr double lag_u_rel = 0.003;
// A machine and method that no ticket covers. Judgement: 5 %, what growers' scale checks show.
constexpr double uncalibrated_u_rel = 0.05;

// A machine tells the methods apart once it cut a tenth of each: one stray pass of thirty says nothing. Judgement.
constexpr double least_share_of_both = 0.10;

double square(double x) { return x * x; }

bool has_tickets(const Calibration& c) { return c.loads > 0; }

/// One load factor applied to both methods: the record says the same loads and number for either.
bool same_factor(const Calibration& a, const Calibration& b) {
    return a.machine == b.machine && has_tickets(a) && a.factor == b.factor && a.u_rel == b.u_rel && a.df == b.df &&
           a.loads == b.loads && a.source == b.source;
}

const Calibration* find(const std::vector<Calibration>& all, const std::string& machine, const std::string& method) {
    for (const Calibration& c : all)
        if (c.machine == machine && c.method == method) return &c;
    for (const Calibration& c : all)
        if (c.machine == machine && c.method.empty()) return &c;
    return nullptr;
}

double share_of(const Side& side, const std::string& machine) {
    for (const Side::Share& share : side.machines)
        if (share.machine == machine) return share.mass_share;
    return 0.0;
}

Calibration fallback(const std::string& machine, const std::string& method) {
    Calibration c;
    c.machine = machine;
    c.method = method;
    c.u_rel = uncalibrated_u_rel;
    c.df = default_df;
    c.source = "none";
    return c;
}

BudgetLine calibration_line(const std::string& what, double u_t_ha, double df) {
    return {error_source::calibration_of + what, u_t_ha, df > 0.0 ? df : default_df, true};
}

/// Lines of one machine: one where a common factor serves both methods, else one per method.
void add_machine(const std::string& machine, const Side& side, const Side& baseline,
                 const std::vector<Calibration>& calibration, std::vector<BudgetLine>& lines) {
    const double mass_side = share_of(side, machine) * side.yield_t_ha;
    const double mass_base = share_of(baseline, machine) * baseline.yield_t_ha;
    const Calibration* found_side = find(calibration, machine, side.method);
    const Calibration* found_base = find(calibration, machine, baseline.method);
    const Calibration of_side = found_side != nullptr ? *found_side : fallback(machine, side.method);
    const Calibration of_base = found_base != nullptr ? *found_base : fallback(machine, baseline.method);
    const bool one_entry = found_side != nullptr && found_side == found_base && has_tickets(of_side);
    if (one_entry || same_factor(of_side, of_base)) {
        lines.push_back(calibration_line(machine, std::abs(mass_side - mass_base) * of_side.u_rel, of_side.df));
        return;
    }
    if (mass_side > 0.0)
        lines.push_back(calibration_line(machine + ", " + side.method, mass_side * of_side.u_rel, of_side.df));
    if (mass_base > 0.0)
        lines.push_back(calibration_line(machine + ", " + baseline.method, mass_base * of_base.u_rel, of_base.df));
}

bool all_on_tickets(const Side& side, const std::vector<Calibration>& calibration) {
    return !side.machines.empty() && std::all_of(side.machines.begin(), side.machines.end(), [&](const auto& share) {
        const Calibration* found = find(calibration, share.machine, side.method);
        return found != nullptr && has_tickets(*found);
    });
}

/// Weighed, or levelled against a neighbour, or weighed with another method.
bool is_checked(const std::string& machine, const std::string& method, const std::vector<Calibration>& calibration) {
    const Calibration* found = find(calibration, machine, method);
    return found != nullptr && (has_tickets(*found) || (!found->source.empty() && found->source != "none"));
}

/// Half and more of the side's grain. Judgement: less is what the budget's assumed error can carry.
bool mostly_unchecked(const Side& side, const std::vector<Calibration>& calibration) {
    double share = 0.0;
    for (const Side::Share& of : side.machines)
        if (!is_checked(of.machine, side.method, calibration)) share += of.mass_share;
    return share >= 0.5;
}

/// t/ha of yield per point of moisture: Y / (100 - M).
double moisture_sensitivity(const Side& side) { return side.yield_t_ha / (100.0 - side.moisture_pct); }

void add_moisture(const Side& side, const Side& baseline, bool tickets, std::vector<BudgetLine>& lines) {
    // Half of the variance is taken as common to both methods (one sensor), half as their own (grain of another
    // temperature and greenness). Judgement.
    const double u_half = (tickets ? moisture_u_checked_pct : moisture_u_unchecked_pct) / std::sqrt(2.0);
    const double c_side = moisture_sensitivity(side);
    const double c_base = moisture_sensitivity(baseline);
    const double u_own = u_half * std::hypot(c_side, c_base);
    const double u_common = u_half * std::abs(c_side - c_base);
    lines.push_back({error_source::moisture, std::hypot(u_own, u_common), default_df, true});
}

} // namespace

Combined combine(std::span<const BudgetLine> lines) {
    double u2 = 0.0;
    double over_df = 0.0;
    for (const BudgetLine& line : lines) {
        u2 += square(line.u_t_ha);
        if (line.df > 0.0) over_df += square(square(line.u_t_ha)) / line.df;
    }
    // No line with a size: nothing limits the degrees of freedom.
    return {std::sqrt(u2), over_df > 0.0 ? square(u2) / over_df : default_df};
}

std::vector<BudgetLine> instrument_lines(const Side& side, const Side& baseline,
                                         const std::vector<Calibration>& calibration) {
    std::vector<std::string> machines;
    for (const Side* of : {&side, &baseline})
        for (const Side::Share& share : of->machines)
            if (std::find(machines.begin(), machines.end(), share.machine) == machines.end())
                machines.push_back(share.machine);
    std::sort(machines.begin(), machines.end());

    std::vector<BudgetLine> lines;
    for (const std::string& machine : machines)
        add_machine(machine, side, baseline, calibration, lines);
    const bool tickets = all_on_tickets(side, calibration) && all_on_tickets(baseline, calibration);
    add_moisture(side, baseline, tickets, lines);
    const double size = std::hypot(side.yield_t_ha, baseline.yield_t_ha);
    lines.push_back({error_source::dockage, size * dockage_u_pct / 100.0, default_df, true});
    const double u_width = std::hypot(side.yield_t_ha * side.width_u_rel, baseline.yield_t_ha * baseline.width_u_rel);
    lines.push_back({error_source::cut_width, u_width, width_df, true});
    lines.push_back({error_source::timing, size * lag_u_rel, default_df, false});
    return lines;
}

bool unchecked_machines_apart(const Side& side, const Side& baseline, const std::vector<Calibration>& calibration) {
    const bool shared = std::any_of(side.machines.begin(), side.machines.end(), [&](const Side::Share& of) {
        return std::min(of.mass_share, share_of(baseline, of.machine)) >= least_share_of_both;
    });
    if (shared) return false;
    return mostly_unchecked(side, calibration) || mostly_unchecked(baseline, calibration);
}

double break_even_calibration_pct(double yield_t_ha, double baseline_yield_t_ha) {
    return 100.0 * std::abs(yield_t_ha / baseline_yield_t_ha - 1.0);
}

double break_even_moisture_pct(double yield_t_ha, double baseline_yield_t_ha, double moisture_pct) {
    return (100.0 - moisture_pct) * std::abs(1.0 - baseline_yield_t_ha / yield_t_ha);
}

const char* fragility_word(double break_even_over_u) {
    if (break_even_over_u < 2.0) return "fragile";
    return break_even_over_u <= 3.0 ? "moderate" : "sturdy";
}

} // namespace quartercut::contrast
