// SPDX-License-Identifier: MIT
// Contrasts within strata, from the parts of each strip pair that lie in the stratum, and the interaction
// method x stratum. Many looks at one field: p values of the interaction are adjusted after Holm, intervals by the caller.
#include "compare/paired.hpp"

#include "base/words/words.hpp"
#include "compare/replicated.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace quartercut::contrast {
namespace {

constexpr double fewest_metres = 100.0; // of each strip within the stratum; judgement

/// Yield of a block's strips of one method within one stratum; nullopt below 100 m.
std::optional<double> yield_within(const FieldContext& field, const Block& block, int method,
                                   const std::string& stratum) {
    Harvest harvest;
    for (const int s : block.strips) {
        const Strip& strip = field.layout.strips[static_cast<std::size_t>(s)];
        if (strip.method != method) continue;
        for (const int i : strip.segments)
            if (field.zone_of(i).stratum == stratum) harvest.add(field.segment(i));
    }
    return harvest.length_m < fewest_metres ? std::nullopt : harvest.yield_t_ha();
}

std::vector<std::string> strata_of(const FieldContext& field) {
    std::set<std::string> names;
    for (const int i : field.layout.usable)
        if (field.zone_of(i).stratum) names.insert(*field.zone_of(i).stratum);
    return {names.begin(), names.end()};
}

/// Block name -> difference within the stratum.
std::map<std::string, double> differences_within(const FieldContext& field, const std::vector<Block>& blocks,
                                                 std::pair<int, int> pair, const std::string& stratum) {
    std::map<std::string, double> out;
    for (const Block& block : blocks) {
        const auto method = yield_within(field, block, pair.first, stratum);
        const auto baseline = yield_within(field, block, pair.second, stratum);
        if (method && baseline) out[block.name] = *method - *baseline;
    }
    return out;
}

void set_yields(const FieldContext& field, std::pair<int, int> pair, const std::string& stratum, Contrast& contrast) {
    Harvest method;
    Harvest baseline;
    for (const int i : field.layout.usable) {
        if (field.zone_of(i).stratum != stratum) continue;
        if (field.zone_of(i).method == pair.first) method.add(field.segment(i));
        if (field.zone_of(i).method == pair.second) baseline.add(field.segment(i));
    }
    contrast.yield_t_ha = method.yield_t_ha();
    contrast.baseline_yield_t_ha = baseline.yield_t_ha();
    contrast.raw_gain_t_ha.reset();
}

std::vector<double> values_of(const std::map<std::string, double>& named) {
    std::vector<double> out;
    for (const auto& [name, value] : named)
        out.push_back(value);
    return out;
}

/// p of the differences in `stratum` against those of the other strata, block by block.
std::optional<MeanTest> interaction(const std::map<std::string, std::map<std::string, double>>& all,
                                    const std::string& stratum) {
    std::vector<double> contrasts;
    for (const auto& [block, here] : all.at(stratum)) {
        double sum = 0.0;
        int count = 0;
        for (const auto& [other, differences] : all) {
            const auto there = differences.find(block);
            if (other == stratum || there == differences.end()) continue;
            sum += there->second;
            ++count;
        }
        if (count > 0) contrasts.push_back(here - sum / count);
    }
    if (contrasts.size() < 3) return std::nullopt;
    const auto test = paired_t(contrasts);
    return test && test->se > 0.0 ? test : std::nullopt;
}

void report_interaction(const FieldContext& field, const std::map<std::string, std::map<std::string, double>>& all,
                        Issues& issues) {
    std::vector<std::string> names;
    std::vector<MeanTest> tests;
    std::vector<double> p;
    for (const auto& [stratum, differences] : all) {
        const auto test = interaction(all, stratum);
        if (!test) continue;
        names.push_back(stratum);
        tests.push_back(*test);
        p.push_back(test->p());
    }
    if (names.size() == 2) { // two strata are one comparison, seen from either side
        names.pop_back();
        p.pop_back();
    }
    const std::vector<double> adjusted = holm_adjusted(p);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const bool differs = adjusted[i] < 0.05;
        issues.push_back(note(differs ? "strata-differ" : "strata-alike", field.view.standard.name,
                              fill(differs ? spoken().compare.strata_differ : spoken().compare.strata_alike,
                                   fmt::arg("stratum", names[i]), fmt::arg("difference", tests[i].estimate),
                                   fmt::arg("p", adjusted[i]), fmt::arg("looks", p.size()))));
    }
}

std::optional<Contrast> contrast_within(const FieldContext& field, const std::map<std::string, double>& differences,
                                        std::pair<int, int> pair, Contrast contrast) {
    const std::vector<double> values = values_of(differences);
    const auto test = paired_t(values);
    if (!test || !(test->se > 0.0)) return std::nullopt;
    set_yields(field, pair, *contrast.stratum, contrast);
    contrast.gain_t_ha = test->estimate;
    contrast.se_t_ha = test->se;
    contrast.df = test->df;
    contrast.ci95_t_ha = test->ci95();
    contrast.p = test->p();
    contrast.p_randomisation = sign_flip(values, field.seed).p();
    contrast.unit_what = "pairs";
    contrast.unit_n = static_cast<int>(values.size());
    contrast.estimator = spoken().compare.within_stratum;
    return contrast;
}

/// Years written in a text: four digits that stand by themselves.
std::set<int> years_in(const std::string& text) {
    std::set<int> years;
    for (std::size_t i = 0; i < text.size();) {
        std::size_t end = i;
        while (end < text.size() && text[end] >= '0' && text[end] <= '9')
            ++end;
        if (end - i == 4) years.insert(std::stoi(text.substr(i, 4)));
        i = std::max(end, i + 1);
    }
    return years;
}

/// Called a yield, of this year or of no year it says: strata found from what the methods themselves made differ would
/// find the methods again. Nothing in the shapes gives that away, so the names have to.
bool from_this_yield(const StrataInput& strata, int year) {
    std::string name = strata.file + " " + strata.layer + " " + strata.column;
    std::transform(name.begin(), name.end(), name.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    if (name.find("yield") == std::string::npos) return false;
    const std::set<int> years = years_in(name);
    return years.empty() || years.contains(year);
}

/// The file of strata that may not be used, of all tables of strata.
std::optional<std::string> forbidden_strata(const Season& season) {
    for (const StrataInput& strata : season.strata_tables())
        if (from_this_yield(strata, season.year)) return strata.file;
    return std::nullopt;
}

void refuse_strata(const FieldContext& field, const std::string& file, Issues& issues) {
    issues.push_back(warning(
        "strata-of-this-yield", field.view.standard.name,
        fill(spoken().compare.strata_of_this_yield, fmt::arg("file", file), fmt::arg("year", field.season.year))));
}

} // namespace

std::vector<Contrast> compare_strata(const FieldContext& field, const std::vector<Block>& blocks,
                                     std::pair<int, int> pair, Evidence evidence, Issues& issues) {
    const std::vector<std::string> strata = strata_of(field);
    if (strata.size() < 2) return {};
    if (const auto file = forbidden_strata(field.season)) {
        refuse_strata(field, *file, issues);
        return {};
    }
    std::map<std::string, std::map<std::string, double>> all;
    std::vector<Contrast> contrasts;
    for (const std::string& stratum : strata) {
        all[stratum] = differences_within(field, blocks, pair, stratum);
        Contrast start = start_contrast(field, pair, evidence);
        start.stratum = stratum;
        if (auto contrast = contrast_within(field, all[stratum], pair, std::move(start)))
            contrasts.push_back(std::move(*contrast));
        else
            issues.push_back(note("stratum-too-small", field.view.standard.name,
                                  fill(spoken().compare.stratum_too_small, fmt::arg("stratum", stratum))));
    }
    report_interaction(field, all, issues);
    return contrasts;
}

} // namespace quartercut::contrast
