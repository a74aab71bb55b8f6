// SPDX-License-Identifier: MIT
// Farm rows from fields that hold both methods.
#include "compare/farm.hpp"

#include "base/words/words.hpp"

#include "compare/budget.hpp"
#include "compare/crossings.hpp"
#include "compare/findings.hpp"
#include "compare/pooling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace quartercut::contrast {
namespace {

struct Member {
    std::string field;
    const Contrast* contrast = nullptr;
    std::vector<std::string> confounded;
    double area_m2 = 0.0;
};

/// What all rows of one kind of evidence share.
struct Kind {
    bool replicated = false;
    int looks = 1; ///< rows of this kind
};

bool is_replicated(Evidence evidence) {
    return evidence == Evidence::replicated_randomised || evidence == Evidence::replicated;
}

using Names = std::pair<std::string, std::string>; // method, baseline

std::vector<Member> members(const std::vector<FieldComparison>& fields, const std::vector<double>& area_m2,
                            const Names& names, bool replicated) {
    const auto& [method, baseline] = names;
    std::vector<Member> out;
    for (std::size_t f = 0; f < fields.size(); ++f)
        for (const Contrast& c : fields[f].contrasts) {
            if (c.stratum || c.method != method || c.baseline != baseline) continue;
            if (is_replicated(c.evidence) != replicated || c.evidence == Evidence::whole_field) continue;
            if (!c.gain_t_ha || !c.se_t_ha || !c.ci95_t_ha || *c.se_t_ha <= 0.0) continue;
            out.push_back({fields[f].name, &c, confounding_words(fields[f].crossings), area_m2[f]});
        }
    return out;
}

/// Lines other than sampling after pooling. A shared source does not average out: it counts with the weighted mean of
/// its size in the fields it touches. A field's own does: its weighted squares add up.
std::vector<BudgetLine> pooled_lines(const std::vector<Member>& fields, const std::vector<double>& weight) {
    std::map<std::string, BudgetLine> lines;
    for (std::size_t i = 0; i < fields.size(); ++i)
        for (const BudgetLine& line : fields[i].contrast->budget) {
            if (line.source == error_source::sampling) continue;
            BudgetLine& sum = lines[line.source];
            sum.source = line.source;
            const double u = weight[i] * line.u_t_ha;
            sum.u_t_ha = line.shared ? sum.u_t_ha + u : std::hypot(sum.u_t_ha, u);
            sum.df = sum.df > 0.0 ? std::min(sum.df, line.df) : line.df;
            sum.shared = line.shared;
        }
    std::vector<BudgetLine> out;
    for (auto& [source, line] : lines)
        out.push_back(std::move(line));
    return out;
}

double shared_u(const std::vector<BudgetLine>& lines) {
    double sum = 0.0;
    for (const BudgetLine& line : lines)
        if (line.shared) sum += line.u_t_ha * line.u_t_ha;
    return std::sqrt(sum);
}

std::string class_of(const std::vector<Member>& fields, bool replicated) {
    if (!replicated) return evidence_word(Evidence::split);
    const bool all_random = std::all_of(fields.begin(), fields.end(), [](const Member& m) {
        return m.contrast->evidence == Evidence::replicated_randomised;
    });
    return evidence_word(all_random ? Evidence::replicated_randomised : Evidence::replicated);
}

/// One field: the farm's row is the field's own.
void copy_single(const Contrast& c, FarmContrast& row) {
    row.gain_t_ha = c.gain_t_ha;
    row.se_t_ha = c.se_t_ha;
    row.df = c.df;
    row.ci95_t_ha = c.ci95_t_ha;
    row.ci95_total_t_ha = c.ci95_total_t_ha;
    row.p = c.p;
    row.p_adjusted = c.p_adjusted;
    row.looks = c.looks;
    row.finding = c.finding;
    row.u_total_t_ha = c.u_total_t_ha;
    row.df_total = c.df_total;
    row.estimator = fill(spoken().compare.estimator_one_field, fmt::arg("estimator", c.estimator));
    for (const BudgetLine& line : c.budget)
        if (line.source != error_source::sampling) row.budget.push_back(line);
    row.u_shared_t_ha = shared_u(row.budget);
    row.leaves_out.emplace_back(spoken().compare.one_field);
    if (c.looks > 1) row.leaves_out.push_back(looks_words(c.looks, spoken().compare.in_field));
    if (const std::string coin = coin_words(c); !coin.empty()) row.leaves_out.push_back(coin);
}

/// Half of an interval that holds all errors and is never narrower than the `own` ones alone: more degrees of freedom
/// could make it so.
double total_half(const MeanTest& own, const Combined& total, double level) {
    return std::max(t_critical(total.df, level) * total.u, t_critical(own.df, level) * own.se);
}

Interval around(double middle, double half) { return {middle - half, middle + half}; }

/// The total of the mean and, from three fields on, the range for a next field: that field's own deviation on top, and
/// the same errors of the instruments, which the next field's would share.
void set_total(FarmContrast& row, const MeanTest& sampling, double tau2) {
    std::vector<BudgetLine> lines = row.budget;
    row.u_shared_t_ha = shared_u(lines);
    lines.push_back({error_source::sampling, sampling.se, sampling.df, false});
    const Combined total = combine(lines);
    row.u_total_t_ha = total.u;
    row.df_total = total.df;
    const double level = level_for(row.looks);
    const double half = total_half(sampling, total, level);
    row.ci95_total_t_ha = around(sampling.estimate, half);
    if (row.fields < 3) return;
    const MeanTest next{sampling.estimate, std::sqrt(tau2 + sampling.se * sampling.se), sampling.df};
    lines.back() = {error_source::sampling, next.se, next.df, false};
    row.prediction95_t_ha = around(next.estimate, std::max(half, total_half(next, combine(lines), level)));
}

/// What happened in these very fields: weights are their land, which is known, so each field's error enters with its
/// own degrees of freedom and no field gains weight by a small error that may be luck.
void set_these_fields(const std::vector<Member>& fields, FarmContrast& row) {
    double land = 0.0;
    for (const Member& member : fields)
        land += member.area_m2;
    const bool known = std::all_of(fields.begin(), fields.end(), [](const Member& m) { return m.area_m2 > 0.0; });
    std::vector<double> weight;
    std::vector<BudgetLine> sampling;
    double gain = 0.0;
    for (const Member& member : fields) {
        weight.push_back(known ? member.area_m2 / land : 1.0 / static_cast<double>(fields.size()));
        gain += weight.back() * *member.contrast->gain_t_ha;
        sampling.push_back(
            {error_source::sampling, weight.back() * *member.contrast->se_t_ha, *member.contrast->df, false});
    }
    const Combined own = combine(sampling);
    std::vector<BudgetLine> lines = pooled_lines(fields, weight);
    lines.insert(lines.end(), sampling.begin(), sampling.end());
    row.these_fields_gain_t_ha = gain;
    row.these_fields_ci95_total_t_ha =
        around(gain, total_half({gain, own.u, own.df}, combine(lines), level_for(row.looks)));
}

// How strongly the error of a field with few pairs is drawn towards the farm's mean error, in degrees of freedom.
// Judgement; with none, ten fields of three pairs give 7.5 % false findings where 5 % are promised, with four 3 to 4 %.
constexpr double prior_df = 4.0;
constexpr int enough_pairs = 4;

/// Squared errors of the fields' gains. Errors from three pairs or fewer are themselves so unsure that a field can get
/// nearly all the weight by luck; they are drawn towards the mean variance of a pair difference.
std::vector<double> field_variances(const std::vector<Member>& fields, FarmContrast& row) {
    std::vector<double> variance;
    double mean_of_pair = 0.0;
    for (const Member& member : fields) {
        variance.push_back(*member.contrast->se_t_ha * *member.contrast->se_t_ha);
        mean_of_pair += variance.back() * member.contrast->unit_n / static_cast<double>(fields.size());
    }
    const bool few =
        std::any_of(fields.begin(), fields.end(), [](const Member& m) { return m.contrast->unit_n < enough_pairs; });
    if (!few || fields.front().contrast->evidence == Evidence::split) return variance;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const double df = *fields[i].contrast->df;
        variance[i] = (df * variance[i] + prior_df * mean_of_pair / fields[i].contrast->unit_n) / (df + prior_df);
    }
    row.estimator = fill(spoken().compare.drawn_to_mean, fmt::arg("estimator", row.estimator));
    return variance;
}

void pool_many(const std::vector<Member>& fields, const Kind& kind, FarmContrast& row) {
    row.looks = kind.looks;
    std::vector<double> effect;
    row.estimator = spoken().compare.farm_pooled;
    for (const Member& member : fields)
        effect.push_back(*member.contrast->gain_t_ha);
    const std::vector<double> variance = field_variances(fields, row);
    const Pooled pooled = pool(effect, variance, TauMethod::reml);
    const MeanTest test = pooled.mhk();
    row.gain_t_ha = test.estimate;
    row.se_t_ha = test.se;
    row.df = test.df;
    row.ci95_t_ha = test.ci95();
    row.p = test.p();
    row.tau_t_ha = std::sqrt(pooled.tau2);
    row.i2_pct = pooled.i2_pct;
    row.budget = pooled_lines(fields, pooled.weight);
    set_total(row, test, pooled.tau2);
    set_these_fields(fields, row);
    const Ceiling ceiling = kind.replicated ? Ceiling::shown : Ceiling::leans;
    row.finding = finding_from(*row.ci95_total_t_ha, row.machine_is_method ? Ceiling::nothing : ceiling);
    if (kind.looks > 1) row.leaves_out.push_back(looks_words(kind.looks, spoken().compare.of_kind_on_farm));
    if (fields.size() == 2)
        row.leaves_out.emplace_back(spoken().compare.two_fields);
    else if (fields.size() < 6)
        row.leaves_out.emplace_back(spoken().compare.few_fields);
    if (pooled.se_hk < pooled.se && pooled.q0 < pooled.df) row.leaves_out.emplace_back(spoken().compare.agree_better);
}

/// A field of two pairs hardly knows its own error; where others know theirs better, it is left out of the pool.
std::vector<std::string> drop_two_pairs(std::vector<Member>& fields) {
    const auto is_small = [](const Member& m) { return m.contrast->unit_n < 3; };
    std::vector<std::string> dropped;
    if (std::all_of(fields.begin(), fields.end(), is_small)) return dropped;
    for (const Member& member : fields)
        if (is_small(member)) dropped.push_back(member.field);
    std::erase_if(fields, is_small);
    return dropped;
}

/// Each sentence once, with the fields it holds in.
void say_confounded(const std::vector<Member>& fields, FarmContrast& row) {
    std::vector<std::pair<std::string, std::vector<std::string>>> said;
    for (const Member& member : fields)
        for (const std::string& sentence : member.confounded) {
            auto known =
                std::find_if(said.begin(), said.end(), [&](const auto& entry) { return entry.first == sentence; });
            if (known == said.end()) known = said.insert(said.end(), {sentence, {}});
            known->second.push_back(member.field);
        }
    for (const auto& [sentence, names] : said)
        row.leaves_out.push_back(
            fill(spoken().compare.of_fields, fmt::arg("fields", fmt::join(names, ", ")), fmt::arg("what", sentence)));
}

/// One field whose machines may be the difference is enough: the pool holds its number.
void say_own_machines(const std::vector<Member>& fields, FarmContrast& row) {
    std::vector<std::string> names;
    for (const Member& member : fields)
        if (member.contrast->machine_is_method) names.push_back(member.field);
    if (names.empty()) return;
    hold_for_machines(row, fill(spoken().compare.of_fields, fmt::arg("fields", fmt::join(names, ", ")),
                                fmt::arg("what", spoken().compare.own_machines)));
}

FarmContrast row_of(std::vector<Member> fields, const Kind& kind) {
    const bool replicated = kind.replicated;
    FarmContrast row;
    const std::vector<std::string> dropped = replicated ? drop_two_pairs(fields) : std::vector<std::string>{};
    row.method = fields.front().contrast->method;
    row.baseline = fields.front().contrast->baseline;
    row.fields = static_cast<int>(fields.size());
    row.evidence = class_of(fields, replicated);
    for (const Member& member : fields)
        row.field_names.push_back(member.field);
    const bool mixed = replicated && row.evidence == evidence_word(Evidence::replicated) &&
                       std::any_of(fields.begin(), fields.end(), [](const Member& m) {
                           return m.contrast->evidence == Evidence::replicated_randomised;
                       });
    row.leaves_out = left_out(replicated && row.evidence == evidence_word(Evidence::replicated_randomised)
                                  ? Evidence::replicated_randomised
                                  : (replicated ? Evidence::replicated : Evidence::split));
    if (!dropped.empty())
        row.leaves_out.push_back(fill(spoken().compare.not_pooled, fmt::arg("fields", fmt::join(dropped, ", "))));
    if (mixed) row.leaves_out.emplace_back(spoken().compare.some_random);
    say_confounded(fields, row);
    say_own_machines(fields, row);
    if (fields.size() == 1)
        copy_single(*fields.front().contrast, row);
    else
        pool_many(fields, kind, row);
    return row;
}

std::vector<Names> pairs_in(const std::vector<FieldComparison>& fields) {
    std::vector<Names> pairs;
    for (const FieldComparison& field : fields)
        for (const Contrast& c : field.contrasts)
            if (std::find(pairs.begin(), pairs.end(), std::pair(c.method, c.baseline)) == pairs.end())
                pairs.emplace_back(c.method, c.baseline);
    return pairs;
}

} // namespace

std::vector<FarmContrast> pool_fields(const Season& season, const std::vector<FieldComparison>& fields,
                                      const std::vector<double>& area_m2) {
    auto pairs = pairs_in(fields);
    // Methods in the order of the season file, whichever field comes first.
    std::stable_sort(pairs.begin(), pairs.end(), [&](const auto& a, const auto& b) {
        return std::pair(season.method_code(a.second), season.method_code(a.first)) <
               std::pair(season.method_code(b.second), season.method_code(b.first));
    });
    std::stable_partition(pairs.begin(), pairs.end(), [&](const auto& p) { return p.second == season.baseline; });
    std::vector<FarmContrast> rows;
    for (const bool replicated : {true, false}) {
        std::vector<std::vector<Member>> found;
        for (const Names& names : pairs)
            if (auto of_pair = members(fields, area_m2, names, replicated); !of_pair.empty())
                found.push_back(std::move(of_pair));
        for (std::vector<Member>& of_pair : found)
            rows.push_back(row_of(std::move(of_pair), {replicated, static_cast<int>(found.size())}));
    }
    return rows;
}

} // namespace quartercut::contrast
