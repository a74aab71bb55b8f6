// SPDX-License-Identifier: MIT
// Trials first (what they teach less what they cost), then every other field a method under the farm's limits.
#include "plan/assign.hpp"

#include "base/words/words.hpp"
#include "plan/chances.hpp"
#include "plan/earlier_land.hpp"
#include "plan/limits.hpp"
#include "plan/outlook.hpp"
#include "plan/readiness.hpp"
#include "plan/trial_set.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace quartercut {
namespace planning {
namespace {

constexpr int quick_simulations = 400; // enough for the error of a trial; its power is not asked here

struct Work {
    const Season& season;
    const Standardised& standardised;
    const Cleaned& cleaned;
    const std::vector<ZonedField>& zoned;
    const Comparison& comparison;
    const std::optional<MoneyResult>& money;
    std::vector<RawArea> areas; ///< of the candidates, same order as the choice's fields
    std::vector<FarmView> views;
    std::vector<Suitability> suitability;
    const NextYearInput& next() const { return *season.next_year; }
};

std::string attribute(const RawArea& area, const std::string& column) {
    const auto found = area.attributes.find(column);
    return found == area.attributes.end() ? std::string() : found->second;
}

/// The column [next_year] names, else the one [fields] names, else one that is called so.
std::string variety_of(const Season& season, const RawArea& area) {
    const auto mapped = season.fields.columns.find("variety");
    if (!season.next_year->variety_column.empty()) return attribute(area, season.next_year->variety_column);
    if (mapped != season.fields.columns.end() && area.attributes.count(mapped->second) > 0)
        return attribute(area, mapped->second);
    for (const auto& [column, value] : area.attributes)
        if (lower(trim(column)) == "variety") return value;
    return {};
}

void take_candidates(Work& work, const Candidates& candidates, Choice& out) {
    for (const RawArea& area : candidates.areas) {
        const std::string crop = attribute(area, work.next().crop_column);
        if (!work.next().crop_column.empty() && lower(trim(crop)) != lower(work.season.crop)) {
            out.skipped.push_back(fmt::format("{}: {}", area.name, crop.empty() ? spoken().advice.no_crop : crop));
            continue;
        }
        CandidateField field;
        field.name = area.name;
        field.variety = variety_of(work.season, area);
        field.shape_deg = area.shape_deg;
        field.area_ha =
            (candidates.local_metres ? planar_area(area.shape_deg) : geodesic_area_m2(area.shape_deg)) / m2_per_hectare;
        for (const FarmView& view : work.views)
            field.outlooks.push_back(outlook_of(view));
        work.suitability.push_back(suitability_of(work.season, area));
        field.notes = work.suitability.back().notes;
        out.fields.push_back(std::move(field));
        work.areas.push_back(area);
    }
    if (out.fields.empty())
        throw InputError(fmt::format("{}: no field of [next_year] is planned for {}; there is nothing to choose from.",
                                     work.season.file.string(), work.season.crop));
}

TrialLand bare_land(const Work& work, const RawArea& area, bool local) {
    for (std::size_t f = 0; f < work.standardised.fields.size(); ++f) {
        if (work.standardised.fields[f].name != area.name) continue;
        return season_land(work.season, work.standardised.fields[f], work.cleaned.fields[f], work.zoned[f],
                           work.comparison.fields[f]);
    }
    return new_trial_land(area, local);
}

struct KnownLand {
    std::optional<LandModel> model;
    std::vector<EarlierLand> earlier;
    double farm_yield_t_ha = 0.0;
    bool local_metres = false;
};

TrialLand land_of(const Work& work, std::size_t candidate, const KnownLand& known) {
    TrialLand land = bare_land(work, work.areas[candidate], known.local_metres);
    land.model = known.model;
    add_earlier(land, known.earlier, land.mean_yield_t_ha > 0.0 ? land.mean_yield_t_ha : known.farm_yield_t_ha);
    return land;
}

const FarmView* view_of(const Work& work, const std::string& method) {
    for (const FarmView& view : work.views)
        if (view.method == method) return &view;
    return nullptr;
}

/// The instruments' error a trial would have of its own: what all trials of a year share is counted once, not here.
double own_instruments_t_ha(const Work& work, const TrialWish& wish) {
    const FarmView* view = view_of(work, wish.method);
    const double shared = view != nullptr && view->farm != nullptr ? view->farm->u_shared_t_ha.value_or(0.0) : 0.0;
    return std::sqrt(std::max(0.0, wish.u_instruments_t_ha * wish.u_instruments_t_ha - shared * shared));
}

/// How precise a trial in each field would be; a field that cannot hold one says why.
void judge_trials(const Work& work, Choice& out, bool local) {
    TrialWish wish;
    try {
        wish = trial_wish(work.season, work.comparison, work.money);
    } catch (const InputError& error) {
        out.gaps.push_back(fill(spoken().advice.no_trial_judged, fmt::arg("why", error.what())));
        return;
    }
    out.method = wish.method;
    out.baseline = wish.baseline;
    wish.simulations = quick_simulations;
    const KnownLand known{fit_land(work.zoned, work.comparison, work.season),
                          read_earlier_land(work.season, work.areas), farm_yield_t_ha(work.zoned), local};
    for (std::size_t f = 0; f < out.fields.size(); ++f) {
        CandidateField& field = out.fields[f];
        try {
            const TrialLayout layout = lay_out_trial(land_of(work, f, known), wish);
            const int at = layout.chosen >= 0 ? layout.chosen : layout.best;
            if (at < 0) {
                field.trial_precision_from = spoken().advice.no_strips_fit;
                continue;
            }
            const DesignResult& design = layout.designs[static_cast<std::size_t>(at)];
            field.trial_se_t_ha = std::hypot(design.se_t_ha, own_instruments_t_ha(work, wish));
            field.trial_precision_from = fill(spoken().advice.pairs_judged_on, fmt::arg("pairs", design.pairs),
                                              fmt::arg("judged", layout.simulated_on));
        } catch (const InputError& error) {
            field.trial_precision_from = error.what();
        }
    }
}

double total_ha(const Choice& choice) {
    double sum = 0.0;
    for (const CandidateField& field : choice.fields)
        sum += field.area_ha;
    return sum;
}

std::optional<TrialWorth> worth_of(const Work& work, Choice& out) {
    const FarmView* view = view_of(work, out.method);
    if (view == nullptr || !view->is_foretold() || !view->spread_t_ha) {
        if (!out.method.empty()) out.gaps.push_back(spoken().advice.worth_unknown);
        return std::nullopt;
    }
    const FarmContrast& farm = *view->farm;
    TrialWorth worth;
    worth.mean_cents_ha = *view->net->net_cents_ha;
    worth.worth_cents_t = *view->net->worth_cents_t;
    worth.sd_cents_ha = worth.worth_cents_t * total_u_t_ha(farm);
    worth.spread_t_ha = *view->spread_t_ha;
    // What next year does to the difference is common to all its trials, however many there are.
    worth.shared_t_ha = std::hypot(farm.u_shared_t_ha.value_or(0.0), farm.between_years_t_ha.value_or(0.0));
    worth.area_ha = total_ha(out);
    worth.years = work.next().years;
    worth.cost_cents = work.next().trial_cost_cents.value_or(0.0);
    return worth;
}

void choose_trials(const Work& work, Choice& out) {
    const auto worth = worth_of(work, out);
    if (!worth) return;
    std::vector<std::size_t> able;
    std::vector<double> se;
    for (std::size_t f = 0; f < out.fields.size(); ++f) {
        CandidateField& field = out.fields[f];
        if (!field.trial_se_t_ha) continue;
        field.trial_value_cents = value_of_trials(*worth, {*field.trial_se_t_ha});
        const bool fixed = !attribute(work.areas[f], work.next().fixed_column).empty();
        if (fixed) continue;
        able.push_back(f);
        se.push_back(*field.trial_se_t_ha);
    }
    if (!work.next().trial_cost_cents) {
        out.gaps.emplace_back(spoken().advice.cost_unknown);
        return;
    }
    const TrialSet set = pick_trials(*worth, se);
    for (const std::size_t i : set.fields)
        out.fields[able[i]].trial = true;
    out.trials_value_cents = set.value_cents;
    out.trials_cost_cents = static_cast<double>(set.fields.size()) * worth->cost_cents;
    out.greedy_was_best = set.greedy_was_best;
    out.checked_all_sets = set.checked_all;
}

/// Money of a method in a field over the baseline there, cents per hectare, with the grower's dislike of loss in it.
double value_cents_ha(const Work& work, const Choice& out, std::size_t f, std::size_t m) {
    double value = 0.0;
    for (const Outlook& outlook : out.fields[f].outlooks)
        if (outlook.method == work.season.methods[m].name && outlook.net_cents_ha)
            value = *outlook.net_cents_ha - work.next().risk * outlook.shortfall_cents_ha.value_or(0.0);
    const auto& favoured = work.suitability[f].favoured;
    const auto notes = std::count(favoured.begin(), favoured.end(), static_cast<int>(m));
    return value + static_cast<double>(notes) * work.next().note_cents_m2.value_or(0.0) * m2_per_hectare;
}

std::vector<double> fixed_share(const Work& work, const Choice& out, std::size_t f) {
    std::vector<double> share(work.season.methods.size(), 0.0);
    if (out.fields[f].trial) {
        share[static_cast<std::size_t>(work.season.method_code(out.method))] = 0.5;
        share[static_cast<std::size_t>(work.season.method_code(out.baseline))] = 0.5;
        return share;
    }
    const std::string word(trim(attribute(work.areas[f], work.next().fixed_column)));
    if (word.empty()) return {};
    const int code = work.season.method_code(word);
    if (code < 0)
        throw InputError(
            fmt::format("Field '{}' of [next_year] is fixed to '{}', which is no method.", out.fields[f].name, word));
    share[static_cast<std::size_t>(code)] = 1.0;
    return share;
}

AssignProblem problem_of(const Work& work, const Choice& out) {
    AssignProblem problem;
    const std::size_t methods = work.season.methods.size();
    problem.share_low.assign(methods, 0.0);
    problem.share_high.assign(methods, 1.0);
    for (const MethodLimits& limits : work.next().methods) {
        const auto m = static_cast<std::size_t>(work.season.method_code(limits.method));
        problem.share_low[m] = limits.share_low;
        problem.share_high[m] = limits.share_high;
    }
    for (std::size_t f = 0; f < out.fields.size(); ++f) {
        problem.area_m2.push_back(out.fields[f].area_ha * m2_per_hectare);
        problem.fixed.push_back(fixed_share(work, out, f));
        problem.value.emplace_back();
        for (std::size_t m = 0; m < methods; ++m)
            problem.value.back().push_back(value_cents_ha(work, out, f, m) * out.fields[f].area_ha);
    }
    problem.machines = machine_days(work.season, work.areas, problem.area_m2);
    return problem;
}

std::string method_in(const Season& season, const std::vector<double>& share) {
    for (std::size_t m = 0; m < share.size(); ++m)
        if (share[m] > 0.75) return season.methods[m].name;
    return spoken().advice.both_in_strips;
}

/// What the plan loses when a field must be cut another way; nullopt when it then cannot be met.
std::optional<double> margin_of(const AssignProblem& problem, const Assignment& plan, std::size_t f) {
    std::optional<double> least;
    for (std::size_t m = 0; m < problem.methods(); ++m) {
        if (plan.share[f][m] > 0.5) continue;
        AssignProblem forced = problem;
        forced.fixed[f].assign(problem.methods(), 0.0);
        forced.fixed[f][m] = 1.0;
        const Assignment other = assign(forced);
        if (other.feasible) least = std::min(least.value_or(plan.value - other.value), plan.value - other.value);
    }
    return least;
}

/// What the field's own way is worth to a plan without limits on shares; nullopt where none are set.
std::optional<double> margin_without_shares(const AssignProblem& problem, const Assignment& plan, std::size_t f) {
    AssignProblem loose = problem;
    loose.share_low.assign(problem.methods(), 0.0);
    loose.share_high.assign(problem.methods(), 1.0);
    if (loose.share_low == problem.share_low && loose.share_high == problem.share_high) return std::nullopt;
    loose.fixed[f] = plan.share[f]; // as it is planned, even where the loose plan would not
    const Assignment as_planned = assign(loose);
    loose.fixed[f].clear();
    if (!as_planned.feasible) return std::nullopt;
    return margin_of(loose, {true, plan.share, as_planned.value}, f);
}

void assign_methods(const Work& work, Choice& out) {
    const AssignProblem problem = problem_of(work, out);
    const Assignment plan = assign(problem);
    if (!plan.feasible)
        throw InputError(
            fmt::format("{}: the limits of [next_year] cannot all be met: shares of land, fixed fields and "
                        "days of machines leave no plan. Loosen one of them.",
                        work.season.file.string()));
    const double all = total_ha(out);
    for (const Method& method : work.season.methods)
        out.shares.push_back({method.name, 0.0, 0.0});
    for (std::size_t f = 0; f < out.fields.size(); ++f) {
        out.fields[f].method = method_in(work.season, plan.share[f]);
        if (problem.fixed[f].empty()) {
            out.fields[f].margin_cents = margin_of(problem, plan, f);
            out.fields[f].margin_without_shares_cents = margin_without_shares(problem, plan, f);
        }
        for (std::size_t m = 0; m < problem.methods(); ++m)
            out.shares[m].area_ha += plan.share[f][m] * out.fields[f].area_ha;
    }
    for (MethodShare& share : out.shares)
        share.share = share.area_ha / all;
    if (money_is_foretold(work.views)) out.plan_value_cents = plan.value;
    for (const FarmView& view : work.views)
        if (view.net && !view.is_foretold())
            out.gaps.push_back(
                fill(spoken().advice.plan_unknown, fmt::arg("method", view.method), fmt::arg("why", view.why_unknown)));
    const PlanMade made{work.season, problem, plan, work.views};
    weigh_one_way(made, out);
    weigh_limits(made, out);
    add_days(work.season, work.areas, problem, plan.share, out);
}

/// The comparison with the farm's earlier results in it; the files are read unless it holds them already.
Comparison over_years(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                      const std::vector<ZonedField>& zoned, const Comparison& comparison, Choice& out) {
    Comparison years = comparison;
    const bool given = season.history && !season.history->results.empty();
    if (given && years.earlier.empty()) {
        std::vector<InputFile> inputs;
        years.earlier = read_earlier_results(season, inputs);
        pool_farm(years, season, standardised, cleaned, zoned);
    }
    if (!years.earlier.empty() && years.seasons.empty()) out.notes.emplace_back(spoken().advice.years_apart);
    return years;
}

} // namespace
} // namespace planning

Choice choose_fields(const Season& season, const Standardised& standardised, const Cleaned& cleaned,
                     const std::vector<ZonedField>& zoned, const Comparison& comparison,
                     const std::optional<MoneyResult>& money, const Candidates& candidates) {
    using namespace planning;
    if (!season.next_year) throw InternalError("A choice asked for without [next_year].");
    Choice out;
    const Comparison years = over_years(season, standardised, cleaned, zoned, comparison, out);
    Work work{season, standardised, cleaned, zoned, years, money, {}, {}, {}};
    out.year = season.next_year->year;
    out.currency = money ? money->currency : "$";
    for (const Method& method : season.methods)
        if (method.name != season.baseline)
            work.views.push_back(farm_view(season, method.name, work.comparison, money));
    take_candidates(work, candidates, out);
    judge_trials(work, out, candidates.local_metres);
    choose_trials(work, out);
    assign_methods(work, out);
    if (money) out.gaps.insert(out.gaps.end(), money->gaps.begin(), money->gaps.end());
    if (!money) out.gaps.emplace_back(spoken().advice.nothing_priced);
    say_reasons(season, out);
    return out;
}

} // namespace quartercut
