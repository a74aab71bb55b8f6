// SPDX-License-Identifier: MIT
// The recipe for one field: layout, evidence, contrasts by evidence, strata, crossings.
#include "compare/field.hpp"

#include "base/words/words.hpp"

#include "compare/cells.hpp"
#include "compare/crossings.hpp"
#include "compare/findings.hpp"
#include "compare/history.hpp"
#include "compare/pass_strips.hpp"
#include "compare/placebo.hpp"
#include "compare/replicated.hpp"
#include "compare/split.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace quartercut::contrast {
namespace {

using MethodPair = std::pair<int, int>;

std::vector<int> methods_with_yield(const FieldContext& field) {
    std::set<int> methods;
    for (const int i : field.layout.usable)
        methods.insert(field.zone_of(i).method);
    return {methods.begin(), methods.end()};
}

std::set<int> methods_drawn(const ZonedField& zoned) {
    std::set<int> methods;
    for (const Zone& zone : zoned.zones)
        if (zone.method >= 0) methods.insert(zone.method);
    return methods;
}

bool has(const std::vector<int>& codes, int code) { return std::find(codes.begin(), codes.end(), code) != codes.end(); }

/// Every method against the baseline; on request every other pair too, the later method against the earlier.
std::vector<MethodPair> wanted_pairs(const FieldContext& field) {
    const int baseline = field.season.baseline_code();
    std::vector<MethodPair> pairs;
    if (has(field.methods, baseline))
        for (const int method : field.methods)
            if (method != baseline) pairs.emplace_back(method, baseline);
    if (!field.season.comparison.all_pairs) return pairs;
    for (const int first : field.methods)
        for (const int second : field.methods)
            if (first > second && first != baseline && second != baseline) pairs.emplace_back(first, second);
    return pairs;
}

/// Methods that were drawn but have nothing to compare: an empty row each, so that nobody looks for it in vain.
void add_missing(const FieldContext& field, FieldComparison& out) {
    const int baseline = field.season.baseline_code();
    for (const int method : methods_drawn(field.view.zoned)) {
        if (has(field.methods, method)) continue;
        const std::string why =
            fill(spoken().compare.method_without_yield, fmt::arg("method", field.method_name(method)));
        out.issues.push_back(warning("method-without-yield", field.view.standard.name, why));
        if (method == baseline || methods_drawn(field.view.zoned).size() < 2) continue;
        Contrast empty = start_contrast(field, {method, baseline}, Evidence::split);
        empty.finding = Finding::not_comparable;
        empty.leaves_out = {why};
        out.contrasts.push_back(std::move(empty));
    }
}

void explain_no_contrast(const FieldContext& field, FieldComparison& out) {
    const std::string& where = field.view.standard.name;
    if (field.methods.empty()) {
        out.issues.push_back(warning("no-usable-records", where, spoken().compare.no_usable_records));
        return;
    }
    if (field.methods.size() == 1) {
        out.issues.push_back(
            note("one-method", where,
                 fill(spoken().compare.one_method, fmt::arg("method", field.method_name(field.methods.front())))));
        return;
    }
    out.issues.push_back(warning("baseline-missing", where,
                                 fill(spoken().compare.baseline_missing, fmt::arg("baseline", field.season.baseline))));
}

void report_layout(const FieldContext& field, const Pairing& pairing, MethodPair pair, Issues& issues) {
    const std::string& where = field.view.standard.name;
    if (pairing.patches) {
        issues.push_back(warning("patches", where, spoken().compare.patches));
        return;
    }
    if (pairing.left_over.empty() || pairing.blocks.empty()) return;
    std::string names;
    for (const int i : pairing.left_over) {
        if (!names.empty()) names += ", ";
        names += field.layout.strips[static_cast<std::size_t>(i)].zone_id;
    }
    issues.push_back(note("strips-left-over", where,
                          fill(spoken().compare.strips_left_over, fmt::arg("method", field.method_name(pair.first)),
                               fmt::arg("baseline", field.method_name(pair.second)), fmt::arg("strips", names))));
}

Evidence replicated_word(const FieldContext& field) {
    return field.season.trial.randomised ? Evidence::replicated_randomised : Evidence::replicated;
}

struct Replicated {
    MethodPair pair;
    std::vector<Block> blocks;
};

void add_sensitivity(const FieldContext& field, const std::vector<Replicated>& replicated, FieldComparison& out) {
    if (!field.options.sensitivity || replicated.empty()) return;
    std::vector<MethodPair> pairs;
    for (const Replicated& r : replicated)
        pairs.push_back(r.pair);
    const SpatialAnswer answer = sensitivity_answer(field, pairs);
    report_fit(field, answer, out.issues);
    for (std::size_t i = 0; i < answer.estimates.size(); ++i)
        for (const Estimate& estimate : answer.estimates[i])
            out.contrasts[i].also.push_back(estimate);
}

void add_replicated(const FieldContext& field, const std::vector<Replicated>& replicated, FieldComparison& out) {
    for (const Replicated& r : replicated) {
        Contrast contrast = start_contrast(field, r.pair, replicated_word(field));
        compare_blocks(field, r.blocks, r.pair, contrast, out.issues);
        if (field.options.placebo_layouts > 0) contrast.placebo = placebo_of_pairs(field, r.blocks, r.pair, contrast);
        out.contrasts.push_back(std::move(contrast));
    }
    add_sensitivity(field, replicated, out);
}

void add_splits(const FieldContext& field, const std::vector<MethodPair>& splits, FieldComparison& out) {
    if (splits.empty()) return;
    SpatialAnswer answer = split_answer(field, splits, out.issues);
    out.spatial = model_of(answer);
    answer.estimates.resize(splits.size()); // empty where no model could be fitted
    report_fit(field, answer, out.issues);
    for (std::size_t i = 0; i < splits.size(); ++i) {
        Contrast contrast = start_contrast(field, splits[i], Evidence::split);
        contrast.unit_what = "split";
        contrast.unit_n = 1;
        contrast.estimator = spoken().compare.two_areas;
        if (contrast.yield_t_ha && contrast.baseline_yield_t_ha)
            contrast.gain_t_ha = *contrast.yield_t_ha - *contrast.baseline_yield_t_ha;
        const auto control = history_estimate(field, splits[i], contrast);
        if (control) answer.estimates[i].push_back(*control);
        quote_widest(field, answer, i, contrast, out.issues);
        if (control) hold_control(*control, contrast);
        if (field.options.placebo_layouts > 0) contrast.placebo = placebo_of_split(field, answer, splits[i], contrast);
        out.contrasts.push_back(std::move(contrast));
    }
}

void finish(const FieldContext& field, const std::vector<MethodPair>& order, FieldComparison& out) {
    std::vector<Contrast*> family;
    for (Contrast& contrast : out.contrasts)
        family.push_back(&contrast);
    share_looks(family, spoken().compare.in_field);
    out.crossings = field_crossings(field);
    const std::vector<std::string> words = confounding_words(out.crossings);
    for (const std::string& sentence : words)
        out.issues.push_back(warning("confounded", field.view.standard.name, sentence));
    for (std::size_t i = 0; i < order.size(); ++i) {
        Contrast& contrast = out.contrasts[i];
        contrast.leaves_out.insert(contrast.leaves_out.end(), words.begin(), words.end());
        add_instruments(field, order[i], contrast);
        if (contrast.machine_is_method)
            out.issues.push_back(warning("machine-is-method", field.view.standard.name,
                                         fill(spoken().compare.own_machines_of, fmt::arg("method", contrast.method),
                                              fmt::arg("baseline", contrast.baseline),
                                              fmt::arg("what", spoken().compare.own_machines))));
    }
}

/// All strata of all methods are looks of one family.
void add_strata(const FieldContext& field, const std::vector<Replicated>& replicated, FieldComparison& out) {
    std::vector<Contrast> all;
    std::vector<MethodPair> order;
    for (const Replicated& r : replicated)
        for (Contrast& c : compare_strata(field, r.blocks, r.pair, replicated_word(field), out.issues)) {
            all.push_back(std::move(c));
            order.push_back(r.pair);
        }
    std::vector<Contrast*> family;
    for (Contrast& contrast : all)
        family.push_back(&contrast);
    share_looks(family, spoken().compare.in_strata);
    for (std::size_t i = 0; i < all.size(); ++i) {
        add_instruments(field, order[i], all[i]);
        out.contrasts.push_back(std::move(all[i]));
    }
}

/// Contrasts by evidence; returns the pairs in the order of `out.contrasts`.
std::vector<Replicated> sort_by_evidence(const FieldContext& field, std::vector<MethodPair>& splits, Issues& issues) {
    std::vector<Replicated> replicated;
    for (const MethodPair& pair : wanted_pairs(field)) {
        const Pairing pairing = find_pairs(field.layout, pair.first, pair.second, field.season.trial.pairs);
        report_layout(field, pairing, pair, issues);
        std::vector<Block> blocks = blocks_with_yield(field, pairing, pair, issues);
        if (blocks.size() >= 2)
            replicated.push_back({pair, std::move(blocks)});
        else
            splits.push_back(pair);
    }
    return replicated;
}

/// Several contrasts of one field may raise the same remark: once is enough.
void say_once(Issues& issues) {
    Issues kept;
    for (Issue& issue : issues) {
        const bool known = std::any_of(kept.begin(), kept.end(), [&](const Issue& other) {
            return other.code == issue.code && other.message == issue.message;
        });
        if (!known) kept.push_back(std::move(issue));
    }
    issues = std::move(kept);
}

bool has_two_pairs(const FieldContext& field) {
    const std::vector<MethodPair> pairs = wanted_pairs(field);
    return std::any_of(pairs.begin(), pairs.end(), [&](const MethodPair& pair) {
        return find_pairs(field.layout, pair.first, pair.second, field.season.trial.pairs).blocks.size() >= 2;
    });
}

/// Check strips in a field otherwise cut one way, or areas grown from records: the passes tell the strips, where the
/// drawn areas do not.
void look_for_strips_in_passes(FieldContext& field, Issues& issues) {
    if (field.season.trial.pairs != "auto" || field.methods.size() < 2 || has_two_pairs(field)) return;
    FieldContext other = field;
    other.layout.direction_rad = field.pass_direction_rad;
    other.layout.strips =
        strips_from_passes(field.view.zoned, field.view.cleaned, field.layout.usable, field.pass_direction_rad);
    if (!has_two_pairs(other)) return;
    field.layout = std::move(other.layout);
    issues.push_back(note("strips-from-passes", field.view.standard.name, spoken().compare.strips_from_passes));
}

} // namespace

FieldComparison compare_field(const Season& season, const Standardised& standardised, const FieldView& view,
                              const CompareOptions& options) {
    FieldContext field{
        season, standardised, view,        options, find_layout(view.zoned, static_cast<int>(season.methods.size())),
        {},     0.0,          options.seed};
    field.methods = methods_with_yield(field);
    field.pass_direction_rad = pass_direction(view.cleaned, field.layout.direction_rad);
    FieldComparison out;
    out.name = view.standard.name;
    out.evidence = methods_drawn(view.zoned).size() > 1 ? Evidence::split : Evidence::whole_field;
    look_for_strips_in_passes(field, out.issues);
    std::vector<MethodPair> splits;
    const std::vector<Replicated> replicated = sort_by_evidence(field, splits, out.issues);
    if (replicated.empty() && splits.empty()) explain_no_contrast(field, out);
    add_replicated(field, replicated, out);
    add_splits(field, splits, out);
    std::vector<MethodPair> order;
    for (const Replicated& r : replicated)
        order.push_back(r.pair);
    order.insert(order.end(), splits.begin(), splits.end());
    if (!replicated.empty()) out.evidence = replicated_word(field);
    finish(field, order, out);
    add_strata(field, replicated, out);
    for (const int method : field.layout.on_edges_only)
        out.issues.push_back(note("edges-only", out.name,
                                  fill(spoken().compare.edges_only, fmt::arg("method", field.method_name(method)))));
    add_missing(field, out);
    say_once(out.issues);
    return out;
}

} // namespace quartercut::contrast
