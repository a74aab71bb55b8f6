// SPDX-License-Identifier: MIT
// Findings, totals and what they leave out.
#include "compare/findings.hpp"

#include "base/words/words.hpp"

#include "compare/budget.hpp"
#include "compare/paired.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut {

const char* evidence_word(Evidence evidence) {
    switch (evidence) {
    case Evidence::replicated_randomised:
        return "replicated-randomised";
    case Evidence::replicated:
        return "replicated";
    case Evidence::split:
        return "split";
    case Evidence::whole_field:
        break;
    }
    return "whole-field";
}

const char* finding_word(Finding finding) {
    switch (finding) {
    case Finding::gain:
        return "gain";
    case Finding::loss:
        return "loss";
    case Finding::leans_gain:
        return "leans-gain";
    case Finding::leans_loss:
        return "leans-loss";
    case Finding::not_shown:
        return "not-shown";
    case Finding::not_comparable:
        break;
    }
    return "not-comparable";
}

void add_budget_line(Contrast& contrast, BudgetLine line) {
    const auto same = [&](const BudgetLine& old) { return old.source == line.source; };
    const auto found = std::find_if(contrast.budget.begin(), contrast.budget.end(), same);
    if (found == contrast.budget.end())
        contrast.budget.push_back(std::move(line));
    else
        *found = std::move(line);
    contrast::settle(contrast);
}

namespace contrast {
namespace {

constexpr int fewest_pairs = 3;
constexpr int fewest_fields = 3;
constexpr double wanted_power = 0.8;

Ceiling ceiling_of(const Contrast& contrast) {
    if (contrast.machine_is_method) return Ceiling::nothing;
    const bool replicated =
        contrast.evidence == Evidence::replicated_randomised || contrast.evidence == Evidence::replicated;
    if (replicated) return contrast.unit_n >= fewest_pairs ? Ceiling::shown : Ceiling::nothing;
    if (contrast.evidence == Evidence::split) return Ceiling::leans;
    return contrast.unit_n >= fewest_fields ? Ceiling::leans : Ceiling::nothing;
}

double half_width(const Interval& interval) { return 0.5 * (interval[1] - interval[0]); }

void settle_fragility(Contrast& contrast) {
    contrast.fragile.clear();
    if (!contrast.gain_t_ha || !contrast.ci95_t_ha || !contrast.baseline_yield_t_ha) return;
    if (!contrast.u_calibration_t_ha || *contrast.u_calibration_t_ha <= 0.0) return;
    if ((*contrast.ci95_t_ha)[0] <= 0.0 && (*contrast.ci95_t_ha)[1] >= 0.0) return; // nothing there to erase
    contrast.fragile = fragility_word(std::abs(*contrast.gain_t_ha) / *contrast.u_calibration_t_ha);
}

const char* coin_subject(const Contrast& contrast) {
    const bool drawn = contrast.evidence == Evidence::replicated_randomised;
    return drawn ? spoken().compare.the_coin : spoken().compare.a_coin;
}

/// Findings change with the budget, so an earlier sentence goes first.
void settle_coin(Contrast& contrast) {
    std::erase_if(contrast.leaves_out, [&](const std::string& s) { return !s.empty() && s == contrast.coin_caution; });
    contrast.coin_caution = coin_words(contrast);
    if (!contrast.coin_caution.empty()) contrast.leaves_out.push_back(contrast.coin_caution);
}

} // namespace

Finding finding_from(const Interval& total, Ceiling ceiling) {
    const bool above = total[0] > 0.0;
    const bool below = total[1] < 0.0;
    if ((!above && !below) || ceiling == Ceiling::nothing) return Finding::not_shown;
    if (ceiling == Ceiling::leans) return above ? Finding::leans_gain : Finding::leans_loss;
    return above ? Finding::gain : Finding::loss;
}

void settle(Contrast& contrast) {
    if (!contrast.gain_t_ha || !contrast.se_t_ha || !contrast.df || !contrast.ci95_t_ha) return;
    std::vector<BudgetLine> lines{{error_source::sampling, *contrast.se_t_ha, *contrast.df, false}};
    double calibration2 = 0.0;
    for (const BudgetLine& line : contrast.budget) {
        if (line.source == error_source::sampling) continue;
        lines.push_back(line);
        if (line.source.starts_with(error_source::calibration_of)) calibration2 += line.u_t_ha * line.u_t_ha;
    }
    contrast.budget = lines;
    const Combined total = combine(lines);
    contrast.u_calibration_t_ha = std::sqrt(calibration2);
    contrast.u_total_t_ha = total.u;
    contrast.df_total = total.df;
    // More degrees of freedom can outweigh more error and make the total interval the narrower one. It is never quoted
    // narrower than sampling alone.
    const double level = level_for(contrast.looks);
    const double sampling_half =
        std::max(half_width(*contrast.ci95_t_ha), t_critical(*contrast.df, level) * *contrast.se_t_ha);
    const double half = std::max(sampling_half, t_critical(total.df, level) * total.u);
    contrast.ci95_total_t_ha = Interval{*contrast.gain_t_ha - half, *contrast.gain_t_ha + half};
    contrast.detectable_t_ha = std::max(detectable_in_se(*contrast.df, wanted_power, level) * *contrast.se_t_ha,
                                        detectable_in_se(total.df, wanted_power, level) * total.u);
    settle_fragility(contrast);
    if (contrast.finding != Finding::not_comparable)
        contrast.finding = finding_from(*contrast.ci95_total_t_ha, ceiling_of(contrast));
    settle_coin(contrast);
}

std::string looks_words(int looks, const std::string& what) {
    return fill(spoken().compare.looks, fmt::arg("looks", looks), fmt::arg("comparisons", what));
}

void share_looks(const std::vector<Contrast*>& family, const std::string& what) {
    std::vector<Contrast*> looks;
    std::vector<double> p;
    for (Contrast* contrast : family) {
        if (!contrast->ci95_t_ha) continue;
        looks.push_back(contrast);
        p.push_back(contrast->p.value_or(1.0));
    }
    if (looks.size() < 2) return;
    const std::vector<double> adjusted = holm_adjusted(p);
    for (std::size_t i = 0; i < looks.size(); ++i) {
        looks[i]->looks = static_cast<int>(looks.size());
        if (looks[i]->p) looks[i]->p_adjusted = adjusted[i];
        looks[i]->leaves_out.push_back(looks_words(looks[i]->looks, what));
    }
}

std::string coin_words(const Contrast& contrast) {
    if (contrast.finding != Finding::gain && contrast.finding != Finding::loss) return {};
    if (!contrast.p_randomisation || *contrast.p_randomisation <= 0.05) return {};
    const double p = *contrast.p_randomisation;
    const int pairs =
        static_cast<int>(contrast.pairs.empty() ? static_cast<std::size_t>(contrast.unit_n) : contrast.pairs.size());
    // The most any order can show: all pairs the same way round, 2 of 2^pairs orders.
    const bool extreme = pairs <= 5 && std::abs(p - std::ldexp(2.0, -pairs)) < 1e-9;
    const auto& words = spoken().compare;
    const char* one_in[] = {words.times_four, words.times_eight, words.times_sixteen};
    if (extreme && pairs >= 3)
        return fill(spoken().compare.coin_order, fmt::arg("pairs", pairs), fmt::arg("coin", coin_subject(contrast)),
                    fmt::arg("times", one_in[pairs - 3]));
    return fill(spoken().compare.coin_share, fmt::arg("pairs", pairs), fmt::arg("coin", coin_subject(contrast)),
                fmt::arg("pct", 100.0 * p));
}

std::vector<std::string> left_out(Evidence evidence) {
    std::vector<std::string> out;
    switch (evidence) {
    case Evidence::replicated_randomised:
        break;
    case Evidence::replicated:
        out.emplace_back(spoken().compare.not_random);
        break;
    case Evidence::split:
        out.emplace_back(spoken().compare.not_replicated);
        break;
    case Evidence::whole_field:
        out.emplace_back(spoken().compare.other_fields);
        break;
    }
    out.emplace_back(spoken().compare.reads_higher);
    out.emplace_back(spoken().compare.one_season);
    if (evidence != Evidence::whole_field) out.emplace_back(spoken().compare.blurred);
    return out;
}

} // namespace contrast
} // namespace quartercut
