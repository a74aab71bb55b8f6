// SPDX-License-Identifier: MIT
#include "plan/limits.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace quartercut::planning {
namespace {

using Shares = std::vector<std::vector<double>>; // [field][method]

const FarmView* priced_view(const PlanMade& made, const std::string& method) {
    for (const FarmView& view : made.views)
        if (view.method == method && view.net) return &view;
    return nullptr;
}

double all_ha(const AssignProblem& problem) {
    return std::accumulate(problem.area_m2.begin(), problem.area_m2.end(), 0.0) / m2_per_hectare;
}

/// Expected money of a plan over cutting all of it the baseline's way, notes and dislike of loss left aside.
double money_cents(const PlanMade& made, const Shares& share) {
    double sum = 0.0;
    for (std::size_t m = 0; m < made.problem.methods(); ++m) {
        const FarmView* view = priced_view(made, made.season.methods[m].name);
        if (view == nullptr) continue;
        for (std::size_t f = 0; f < share.size(); ++f)
            sum += share[f][m] * made.problem.area_m2[f] / m2_per_hectare * *view->net->net_cents_ha;
    }
    return sum;
}

/// Share of the land that stands for one field: 1 for a single field, 1/n for n alike ones.
double concentration(const AssignProblem& problem) {
    double squares = 0.0;
    for (const double area : problem.area_m2)
        squares += area * area;
    const double all = all_ha(problem) * m2_per_hectare;
    return squares / (all * all);
}

/// Standard uncertainty of the gain averaged over the farm's land next year.
std::optional<double> farm_sd_t_ha(const FarmView& view, double concentration) {
    if (!view.sd_next_t_ha) return std::nullopt;
    const double spread = view.spread_t_ha.value_or(0.0), pooled = total_u_t_ha(*view.farm);
    const double evened_out = spread * spread * (1.0 - concentration);
    return std::sqrt(std::max(pooled * pooled, *view.sd_next_t_ha * *view.sd_next_t_ha - evened_out));
}

/// Trial fields are no limit: a farm cut one way has none.
bool keeps_limits_in(const PlanMade& made, const Choice& out, std::size_t method) {
    Shares share(made.problem.fields(), std::vector<double>(made.problem.methods(), 0.0));
    for (std::size_t f = 0; f < share.size(); ++f) {
        share[f][method] = 1.0;
        const std::vector<double>& fixed = made.problem.fixed[f];
        if (!fixed.empty() && !out.fields[f].trial && fixed[method] < 1.0) return false;
    }
    return keeps_limits(made.problem, share);
}

/// One limit, and how to take it away.
struct Limit {
    std::string words;
    AssignProblem without;
};

void add_share_limits(const PlanMade& made, std::vector<Limit>& out) {
    for (const MethodLimits& limits : made.season.next_year->methods) {
        const auto m = static_cast<std::size_t>(made.season.method_code(limits.method));
        if (limits.share_low > 0.0) {
            out.push_back({fill(spoken().advice.at_least, fmt::arg("share", 100.0 * limits.share_low),
                                fmt::arg("method", limits.method)),
                           made.problem});
            out.back().without.share_low[m] = 0.0;
        }
        if (limits.share_high < 1.0) {
            out.push_back({fill(spoken().advice.at_most, fmt::arg("share", 100.0 * limits.share_high),
                                fmt::arg("method", limits.method)),
                           made.problem});
            out.back().without.share_high[m] = 1.0;
        }
    }
}

void add_machine_limits(const PlanMade& made, std::vector<Limit>& out) {
    std::set<std::string> machines;
    for (const MachineDays& days : made.problem.machines)
        machines.insert(days.machine);
    for (const std::string& machine : machines) {
        const int all_days = made.season.next_year->harvest_days;
        out.push_back(
            {fill(spoken().advice.days_for, fmt::arg("days", all_days), fmt::arg("machine", machine)), made.problem});
        std::erase_if(out.back().without.machines, [&](const MachineDays& days) { return days.machine == machine; });
    }
}

void free_fixed_fields(const Choice& choice, AssignProblem& problem) {
    for (std::size_t f = 0; f < problem.fields(); ++f)
        if (!choice.fields[f].trial) problem.fixed[f].clear();
}

std::vector<Limit> limits_of(const PlanMade& made, const Choice& choice) {
    std::vector<Limit> out;
    add_share_limits(made, out);
    add_machine_limits(made, out);
    AssignProblem free = made.problem;
    free_fixed_fields(choice, free);
    if (free.fixed != made.problem.fixed)
        out.push_back(
            {fill(spoken().advice.fixed_fields, fmt::arg("column", made.season.next_year->fixed_column)), free});
    return out;
}

AssignProblem without_limits(const PlanMade& made, const Choice& choice) {
    AssignProblem free = made.problem;
    free.share_low.assign(free.methods(), 0.0);
    free.share_high.assign(free.methods(), 1.0);
    free.machines.clear();
    free_fixed_fields(choice, free);
    return free;
}

double cost_cents(const PlanMade& made, const AssignProblem& without) {
    return std::max(0.0, assign(without).value - made.plan.value);
}

} // namespace

void weigh_one_way(const PlanMade& made, Choice& out) {
    if (!money_is_foretold(made.views)) return;
    out.plan_money_cents = money_cents(made, made.plan.share);
    const double area_ha = all_ha(made.problem), one_field = concentration(made.problem);
    for (std::size_t m = 0; m < made.problem.methods(); ++m) {
        OneWay way;
        way.method = made.season.methods[m].name;
        way.within_limits = keeps_limits_in(made, out, m);
        if (way.method == made.season.baseline) way.expected_cents = 0.0;
        if (const FarmView* view = priced_view(made, way.method)) {
            way.expected_cents = *view->net->net_cents_ha * area_ha;
            if (const auto sd = farm_sd_t_ha(*view, one_field)) way.p_ahead = chance_ahead(*view, *sd);
        }
        out.one_way.push_back(way);
    }
}

void weigh_limits(const PlanMade& made, Choice& out) {
    if (!money_is_foretold(made.views)) return;
    for (const Limit& limit : limits_of(made, out))
        out.limits.push_back({limit.words, cost_cents(made, limit.without)});
    if (out.limits.size() > 1) out.all_limits_cents = cost_cents(made, without_limits(made, out));
}

} // namespace quartercut::planning
