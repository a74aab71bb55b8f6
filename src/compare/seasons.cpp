// SPDX-License-Identifier: MIT
// The two-level model of several years, its total and the range for a new field in a new year.
#include "compare/seasons.hpp"

#include "base/words/words.hpp"

#include "compare/budget.hpp"
#include "compare/components.hpp"
#include "compare/field.hpp"
#include "compare/findings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace quartercut::contrast {
namespace {

constexpr std::size_t fewest_fields = 3;
constexpr std::size_t fewest_years = 2;
constexpr std::size_t years_for_prediction = 3;

/// One field in one year.
struct FieldYear {
    int year = 0;
    EarlierGain gain;
};

bool is_replicated(const std::string& evidence) { return evidence.starts_with("replicated"); }

double shared_u(const Contrast& contrast) {
    double sum = 0.0;
    for (const BudgetLine& line : contrast.budget)
        if (line.shared && line.source != error_source::sampling) sum += line.u_t_ha * line.u_t_ha;
    return std::sqrt(sum);
}

std::vector<FieldYear> this_season(const Season& season, const std::vector<FieldComparison>& fields) {
    std::vector<FieldYear> out;
    for (const FieldComparison& field : fields)
        for (const Contrast& c : field.contrasts) {
            if (c.stratum || !c.gain_t_ha || !c.se_t_ha || !c.df || *c.se_t_ha <= 0.0) continue;
            out.push_back({season.year,
                           {field.name, c.method, c.baseline, evidence_word(c.evidence), *c.gain_t_ha, *c.se_t_ha,
                            *c.df, shared_u(c), c.machine_is_method}});
        }
    return out;
}

/// Another crop or another basis is another question.
std::vector<FieldYear> all_years(const Season& season, const Comparison& comparison, Issues& issues) {
    std::vector<FieldYear> out = this_season(season, comparison.fields);
    for (const EarlierSeason& earlier : comparison.earlier) {
        if (earlier.crop != season.crop || std::abs(earlier.basis_pct - season.basis_pct) > 1e-9) {
            issues.push_back(warning("earlier-season-left-out", "",
                                     fill(spoken().compare.earlier_left_out, fmt::arg("file", earlier.file),
                                          fmt::arg("crop", earlier.crop), fmt::arg("basis", earlier.basis_pct),
                                          fmt::arg("own_crop", season.crop), fmt::arg("own_basis", season.basis_pct))));
            continue;
        }
        for (const EarlierGain& gain : earlier.gains)
            out.push_back({earlier.year, gain});
    }
    return out;
}

std::vector<FieldYear> of_row(const std::vector<FieldYear>& all, const std::pair<std::string, std::string>& names,
                              bool replicated) {
    std::vector<FieldYear> out;
    for (const FieldYear& f : all)
        if (f.gain.method == names.first && f.gain.baseline == names.second &&
            is_replicated(f.gain.evidence) == replicated && f.gain.evidence != "whole-field")
            out.push_back(f);
    return out;
}

std::set<int> years_of(const std::vector<FieldYear>& fields) {
    std::set<int> years;
    for (const FieldYear& f : fields)
        years.insert(f.year);
    return years;
}

std::string evidence_of(const std::vector<FieldYear>& fields) {
    if (!is_replicated(fields.front().gain.evidence)) return "split";
    const bool all = std::all_of(fields.begin(), fields.end(),
                                 [](const FieldYear& f) { return f.gain.evidence == "replicated-randomised"; });
    return all ? "replicated-randomised" : "replicated";
}

/// A monitor that reads one method high may do so every year, so the years' shared errors are taken as one error of
/// their mean size: they do not average out.
double mean_shared(const std::vector<FieldYear>& fields, double tau2) {
    double sum = 0.0;
    double weight = 0.0;
    for (const FieldYear& f : fields) {
        const double w = 1.0 / (f.gain.se_t_ha * f.gain.se_t_ha + tau2);
        sum += w * f.gain.u_shared_t_ha;
        weight += w;
    }
    return sum / weight;
}

Interval around(double middle, double half) { return {middle - half, middle + half}; }

void set_total(const TwoLevel& fit, FarmContrast& row) {
    const std::vector<BudgetLine> shared{{error_source::all_years, *row.u_shared_t_ha, 50.0, true}};
    const auto half_with = [&](double se) {
        std::vector<BudgetLine> lines = shared;
        lines.push_back({error_source::sampling, se, fit.mean.df, false});
        const Combined total = combine(lines);
        const double level = level_for(row.looks);
        return std::max(t_critical(total.df, level) * total.u, t_critical(fit.mean.df, level) * se);
    };
    row.budget = shared;
    row.ci95_total_t_ha = around(fit.mean.estimate, half_with(fit.mean.se));
    if (row.years < static_cast<int>(years_for_prediction)) return;
    const double next = std::sqrt(fit.mean.se * fit.mean.se + fit.between_years2 + fit.between_fields2);
    row.prediction95_t_ha = around(fit.mean.estimate, half_with(next));
}

void say_limits(const std::vector<FieldYear>& fields, FarmContrast& row) {
    row.leaves_out.push_back(spoken().compare.reads_higher_every_year);
    if (row.evidence == "replicated") row.leaves_out.push_back(spoken().compare.not_all_random);
    if (row.evidence == "split") row.leaves_out.push_back(spoken().compare.splits);
    if (row.years < static_cast<int>(years_for_prediction)) row.leaves_out.push_back(spoken().compare.two_years);
    if (row.looks > 1) row.leaves_out.push_back(looks_words(row.looks, spoken().compare.of_kind_over_years));
    if (static_cast<std::size_t>(row.years) == fields.size())
        row.leaves_out.push_back(spoken().compare.one_field_a_year);
}

void say_own_machines(const std::vector<FieldYear>& fields, FarmContrast& row) {
    std::vector<std::string> names;
    for (const FieldYear& f : fields)
        if (f.gain.machine_is_method) names.push_back(fmt::format("{} {}", f.gain.field, f.year));
    if (names.empty()) return;
    hold_for_machines(row, fill(spoken().compare.of_fields, fmt::arg("fields", fmt::join(names, ", ")),
                                fmt::arg("what", spoken().compare.own_machines)));
}

std::optional<FarmContrast> row_of(const std::vector<FieldYear>& fields, int looks) {
    std::vector<double> effect;
    std::vector<double> variance;
    std::vector<int> year;
    for (const FieldYear& f : fields) {
        effect.push_back(f.gain.gain_t_ha);
        variance.push_back(f.gain.se_t_ha * f.gain.se_t_ha);
        year.push_back(f.year);
    }
    const auto fit = pool_two_level(effect, variance, year);
    if (!fit || !(fit->mean.se > 0.0)) return std::nullopt;
    FarmContrast row;
    row.method = fields.front().gain.method;
    row.baseline = fields.front().gain.baseline;
    row.evidence = evidence_of(fields);
    row.estimator = spoken().compare.within_years;
    row.fields = static_cast<int>(fields.size());
    row.years = static_cast<int>(years_of(fields).size());
    row.looks = looks;
    for (const FieldYear& f : fields)
        row.field_names.push_back(fmt::format("{} {}", f.gain.field, f.year));
    row.gain_t_ha = fit->mean.estimate;
    row.se_t_ha = fit->mean.se;
    row.df = fit->mean.df;
    row.ci95_t_ha = fit->mean.ci95();
    row.p = fit->mean.p();
    row.tau_t_ha = std::sqrt(fit->between_fields2);
    row.between_years_t_ha = std::sqrt(fit->between_years2);
    row.u_shared_t_ha = mean_shared(fields, fit->between_fields2 + fit->between_years2);
    set_total(*fit, row);
    say_limits(fields, row);
    say_own_machines(fields, row);
    const Ceiling ceiling = is_replicated(row.evidence) ? Ceiling::shown : Ceiling::leans;
    row.finding = finding_from(*row.ci95_total_t_ha, row.machine_is_method ? Ceiling::nothing : ceiling);
    return row;
}

using Names = std::pair<std::string, std::string>;

std::vector<Names> names_in(const std::vector<FieldYear>& all) {
    std::vector<Names> names;
    for (const FieldYear& f : all)
        if (const Names n{f.gain.method, f.gain.baseline}; std::find(names.begin(), names.end(), n) == names.end())
            names.push_back(n);
    return names;
}

} // namespace

std::vector<FarmContrast> pool_seasons(const Season& season, const Comparison& comparison, Issues& issues) {
    if (comparison.earlier.empty()) return {};
    const std::vector<FieldYear> all = all_years(season, comparison, issues);
    std::vector<FarmContrast> rows;
    for (const bool replicated : {true, false}) {
        std::vector<std::vector<FieldYear>> found;
        for (const Names& names : names_in(all)) {
            std::vector<FieldYear> fields = of_row(all, names, replicated);
            if (fields.size() >= fewest_fields && years_of(fields).size() >= fewest_years)
                found.push_back(std::move(fields));
        }
        for (const std::vector<FieldYear>& fields : found)
            if (auto row = row_of(fields, static_cast<int>(found.size()))) rows.push_back(std::move(*row));
    }
    if (rows.empty()) issues.push_back(note("too-few-years", "", spoken().compare.too_few_years));
    return rows;
}

} // namespace quartercut::contrast
