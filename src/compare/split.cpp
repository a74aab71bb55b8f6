// SPDX-License-Identifier: MIT
// Split fields and the spatial sensitivity of replicated ones.
#include "compare/split.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace quartercut::contrast {
namespace {

std::vector<int> segments_of_methods(const FieldContext& field, const std::vector<std::pair<int, int>>& pairs) {
    std::set<int> wanted;
    for (const auto& [method, baseline] : pairs) {
        wanted.insert(method);
        wanted.insert(baseline);
    }
    std::vector<int> out;
    for (const int i : field.layout.usable)
        if (wanted.contains(field.zone_of(i).method)) out.push_back(i);
    return out;
}

/// Enough is left of every method for a model: two passes and half of what there was before.
bool leaves_enough(const FieldContext& field, const std::vector<int>& before, const std::vector<int>& after) {
    std::map<int, int> count_before;
    std::map<int, int> count_after;
    std::map<int, std::set<int>> passes;
    for (const int i : before)
        ++count_before[field.zone_of(i).method];
    for (const int i : after) {
        ++count_after[field.zone_of(i).method];
        passes[field.zone_of(i).method].insert(field.segment(i).pass);
    }
    return std::all_of(count_before.begin(), count_before.end(), [&](const auto& entry) {
        return 2 * count_after[entry.first] >= entry.second && passes[entry.first].size() >= 2;
    });
}

/// Nearest distance between the two methods' segments, in units of a segment's longer side.
double distance_apart(const FieldContext& field, const std::pair<int, int>& pair) {
    double nearest2 = std::numeric_limits<double>::max();
    double side = 0.0;
    const auto of = [&](int method) {
        std::vector<const Segment*> out;
        for (const int i : field.layout.usable)
            if (field.zone_of(i).method == method) out.push_back(&field.segment(i));
        return out;
    };
    const auto others = of(pair.second);
    for (const Segment* a : of(pair.first)) {
        side = std::max({side, a->length_m, a->length_m > 0.0 ? a->area_m2 / a->length_m : 0.0});
        for (const Segment* b : others)
            nearest2 =
                std::min(nearest2, (a->x_m - b->x_m) * (a->x_m - b->x_m) + (a->y_m - b->y_m) * (a->y_m - b->y_m));
    }
    return side > 0.0 ? std::sqrt(nearest2) / side : 0.0;
}

constexpr std::size_t rerun_cells = 300;

std::optional<SpatialModel> model_to_begin_at(const FieldContext& field) {
    if (field.options.begin_at == nullptr) return std::nullopt;
    for (const FieldComparison& known : *field.options.begin_at)
        if (known.name == field.view.standard.name) return known.spatial;
    return std::nullopt;
}

constexpr double apart_from = 2.5; // neighbours lie one side apart; judgement

void report_apart(const FieldContext& field, const std::vector<std::pair<int, int>>& pairs, Issues& issues) {
    for (const auto& pair : pairs)
        if (distance_apart(field, pair) > apart_from)
            issues.push_back(
                warning("methods-apart", field.view.standard.name,
                        fill(spoken().compare.methods_apart, fmt::arg("method", field.method_name(pair.first)),
                             fmt::arg("baseline", field.method_name(pair.second)))));
}

} // namespace

SpatialAnswer split_answer(const FieldContext& field, const std::vector<std::pair<int, int>>& pairs, Issues& issues) {
    report_apart(field, pairs, issues);
    SegmentSet set{field.view.zoned, segments_of_methods(field, pairs), field.pass_direction_rad};
    std::vector<int> away = away_from_other_methods(set);
    if (leaves_enough(field, set.segments, away))
        set.segments = std::move(away);
    else
        issues.push_back(note("border-passes-kept", field.view.standard.name, spoken().compare.border_passes_kept));
    SpatialRequest request;
    request.trends = true;
    request.boundary = true;
    request.contrasts = pairs;
    request.begin = model_to_begin_at(field);
    if (request.begin) request.most_cells = rerun_cells;
    return spatial_answer(set, request);
}

std::optional<SpatialModel> model_of(const SpatialAnswer& answer) {
    if (!answer.fit) return std::nullopt;
    const SpatialParameters& at = answer.fit->at;
    return SpatialModel{answer.fit->form.correlation == Correlation::spherical,
                        answer.fit->form.anisotropic,
                        at.sill,
                        at.range_m,
                        at.nugget,
                        at.pass,
                        at.across_ratio};
}

SpatialAnswer sensitivity_answer(const FieldContext& field, const std::vector<std::pair<int, int>>& pairs) {
    const SegmentSet set{field.view.zoned, segments_of_methods(field, pairs), field.pass_direction_rad};
    SpatialRequest request;
    request.contrasts = pairs;
    return spatial_answer(set, request);
}

void report_fit(const FieldContext& field, const SpatialAnswer& answer, Issues& issues) {
    const std::string& where = field.view.standard.name;
    if (!answer.trouble.empty()) {
        issues.push_back(warning("no-spatial-model", where,
                                 fill(spoken().compare.no_spatial_model, fmt::arg("why", answer.trouble))));
        return;
    }
    if (answer.fit && !answer.fit->range_found)
        issues.push_back(note("range-not-found", where, spoken().compare.range_not_found));
    if (answer.trends_dropped)
        issues.push_back(warning("trend-not-separable", where, spoken().compare.trend_not_separable));
    if (answer.set.merged > 1)
        issues.push_back(note("segments-merged", where,
                              fill(spoken().compare.segments_merged, fmt::arg("segments", answer.set.merged),
                                   fmt::arg("cells", answer.set.cells.size()))));
}

void quote_widest(const FieldContext& field, const SpatialAnswer& answer, std::size_t which, Contrast& contrast,
                  Issues& issues) {
    const std::vector<Estimate>& estimates = answer.estimates[which];
    const int chosen = widest(estimates);
    for (std::size_t i = 0; i < estimates.size(); ++i)
        if (static_cast<int>(i) != chosen) contrast.also.push_back(estimates[i]);
    if (chosen < 0) return;
    const Estimate& quoted = estimates[static_cast<std::size_t>(chosen)];
    contrast.gain_t_ha = quoted.gain_t_ha;
    contrast.se_t_ha = quoted.se_t_ha;
    contrast.df = quoted.df;
    contrast.ci95_t_ha = quoted.ci95_t_ha;
    if (quoted.se_t_ha && *quoted.se_t_ha > 0.0)
        contrast.p = t_two_sided_p(*quoted.gain_t_ha / *quoted.se_t_ha, *quoted.df);
    contrast.estimator = fill(spoken().compare.widest, fmt::arg("estimator", quoted.estimator));
    contrast.unit_what = "split";
    contrast.unit_n = 1;
    if (estimates.size() < 2 || !depends_on_model(estimates[0], estimates[1])) return;
    issues.push_back(warning("depends-on-model", field.view.standard.name,
                             fill(spoken().compare.depends_on_model, fmt::arg("method", contrast.method),
                                  fmt::arg("baseline", contrast.baseline))));
}

void hold_control(const Estimate& control, Contrast& contrast) {
    if (!contrast.gain_t_ha || !contrast.ci95_t_ha || !contrast.df || !control.gain_t_ha) return;
    const Interval then = control.ci95_t_ha.value_or(Interval{*control.gain_t_ha, *control.gain_t_ha});
    const double gain = *contrast.gain_t_ha;
    const double half = 0.5 * ((*contrast.ci95_t_ha)[1] - (*contrast.ci95_t_ha)[0]);
    const double reach = std::max(std::abs(then[0] - gain), std::abs(then[1] - gain));
    if (reach <= half * (1.0 + 1e-9)) return;
    contrast.ci95_t_ha = Interval{gain - reach, gain + reach};
    contrast.se_t_ha = reach / t_critical(*contrast.df);
    contrast.p = t_two_sided_p(gain / *contrast.se_t_ha, *contrast.df);
    contrast.estimator = fill(spoken().compare.drawn_out, fmt::arg("estimator", contrast.estimator));
}

} // namespace quartercut::contrast
