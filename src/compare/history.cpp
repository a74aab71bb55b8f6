// SPDX-License-Identifier: MIT
// Difference in differences from earlier maps, and the placebo on each of them.
#include "compare/history.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace quartercut::contrast {
namespace {

constexpr double least_cover = 0.5; // of a method's land in an earlier map, else the map is not of this land; judgement
constexpr std::size_t own_years = 3; // from here on a field's own years tell their spread

std::optional<std::size_t> field_in(const EarlierMap& map, const std::string& name) {
    for (std::size_t f = 0; f < map.standardised.fields.size() && f < map.zoned.size(); ++f)
        if (map.standardised.fields[f].name == name) return f;
    return std::nullopt;
}

/// Yield of one method's land in an earlier year; nullopt where the map covers too little of it.
std::optional<double> yield_then(const ZonedField& zoned, int method) {
    double land_m2 = 0.0;
    for (const Zone& zone : zoned.zones)
        if (zone.method == method) land_m2 += zone.area_m2;
    Harvest harvest;
    for (const Segment& s : zoned.segments) {
        if (s.zone < 0 || zoned.zones[static_cast<std::size_t>(s.zone)].method != method) continue;
        if (s.area_m2 > 0.0 && std::isfinite(s.mass_basis_kg)) harvest.add(s);
    }
    if (harvest.area_m2 < least_cover * land_m2 || harvest.mass_kg <= 0.0) return std::nullopt;
    return harvest.yield_t_ha();
}

std::optional<double> log_ratio_then(const EarlierMap& map, const std::string& field, std::pair<int, int> pair) {
    const auto f = field_in(map, field);
    if (!f) return std::nullopt;
    const auto method = yield_then(map.zoned[*f], pair.first);
    const auto baseline = yield_then(map.zoned[*f], pair.second);
    if (!method || !baseline) return std::nullopt;
    return std::log(*method / *baseline);
}

std::set<std::string> fields_of(const History& history) {
    std::set<std::string> names;
    for (const EarlierMap& map : history.maps)
        for (const StandardField& field : map.standardised.fields)
            names.insert(field.name);
    return names;
}

/// Adds a field's own sum of squares and degrees of freedom.
void add_spread(std::span<const double> ratios, double& squares, double& df) {
    if (ratios.size() < 2) return;
    double mean = 0.0;
    for (const double r : ratios)
        mean += r / static_cast<double>(ratios.size());
    for (const double r : ratios)
        squares += (r - mean) * (r - mean);
    df += static_cast<double>(ratios.size() - 1);
}

const Contrast* same_contrast(const FieldComparison& answer, const Contrast& like) {
    for (const Contrast& c : answer.contrasts)
        if (c.method == like.method && c.baseline == like.baseline && c.evidence == like.evidence && !c.stratum)
            return &c;
    return nullptr;
}

std::string percent_words(std::span<const double> log_ratios) {
    std::vector<std::string> words;
    for (const double r : log_ratios)
        words.push_back(fmt::format("{:+.1f} %", 100.0 * std::expm1(r)));
    return fmt::format("{}", fmt::join(words, ", "));
}

} // namespace

std::vector<double> earlier_log_ratios(const History& history, const std::string& field, std::pair<int, int> pair) {
    std::vector<double> out;
    for (const EarlierMap& map : history.maps)
        if (const auto ratio = log_ratio_then(map, field, pair)) out.push_back(*ratio);
    return out;
}

YearSpread year_spread(const History& history, const std::string& field, std::pair<int, int> pair) {
    double squares = 0.0;
    double df = 0.0;
    const std::vector<double> own = earlier_log_ratios(history, field, pair);
    if (own.size() >= own_years)
        add_spread(own, squares, df);
    else
        for (const std::string& name : fields_of(history))
            add_spread(earlier_log_ratios(history, name, pair), squares, df);
    return df > 0.0 ? YearSpread{squares / df, df} : YearSpread{};
}

MeanTest difference_in_differences(double log_ratio, std::span<const double> earlier, const YearSpread& spread) {
    const auto m = static_cast<double>(earlier.size());
    double mean = 0.0;
    for (const double r : earlier)
        mean += r / m;
    return {log_ratio - mean, std::sqrt(spread.variance * (1.0 + 1.0 / m)), spread.df};
}

std::optional<Estimate> history_estimate(const FieldContext& field, std::pair<int, int> pair,
                                         const Contrast& contrast) {
    if (field.options.history == nullptr) return std::nullopt;
    const double yield = contrast.yield_t_ha.value_or(0.0);
    const double base = contrast.baseline_yield_t_ha.value_or(0.0);
    const History& history = *field.options.history;
    const std::vector<double> earlier = earlier_log_ratios(history, field.view.standard.name, pair);
    if (earlier.empty() || yield <= 0.0 || base <= 0.0) return std::nullopt;
    const YearSpread spread = year_spread(history, field.view.standard.name, pair);
    const MeanTest test = difference_in_differences(std::log(yield / base), earlier, spread);
    Estimate out;
    const auto& words = spoken().compare;
    out.estimator =
        fill(earlier.size() == 1 ? words.earlier_one : words.earlier_many, fmt::arg("years", earlier.size()));
    out.note = fill(words.earlier_ratios, fmt::arg("ratios", percent_words(earlier)));
    out.gain_t_ha = base * std::expm1(test.estimate);
    if (test.df <= 0.0 || test.se <= 0.0) {
        out.note += std::string(" ") + words.earlier_no_interval;
        return out;
    }
    const Interval ci = test.ci95();
    out.se_t_ha = base * std::exp(test.estimate) * test.se;
    out.df = test.df;
    // Even about the gain, so that the error budget can be added to it; the wider side of the log interval counts.
    const double half = base * (std::expm1(ci[1]) - std::expm1(test.estimate));
    out.ci95_t_ha = Interval{*out.gain_t_ha - half, *out.gain_t_ha + half};
    return out;
}

void add_earlier_answers(const Season& season, const CompareOptions& options, FieldComparison& out) {
    if (options.history == nullptr || !options.sensitivity) return;
    CompareOptions plain = options;
    plain.history = nullptr;
    plain.sensitivity = false;
    plain.placebo_layouts = 0;
    for (const EarlierMap& map : options.history->maps) {
        const auto f = field_in(map, out.name);
        if (!f) continue;
        const FieldView view{map.standardised.fields[*f], map.cleaned.fields[*f], map.zoned[*f]};
        const FieldComparison then = compare_field(season, map.standardised, view, plain);
        for (Contrast& contrast : out.contrasts) {
            const Contrast* answer = contrast.stratum ? nullptr : same_contrast(then, contrast);
            if (answer == nullptr || !answer->gain_t_ha) continue;
            contrast.earlier.push_back(
                {map.name, answer->gain_t_ha, answer->se_t_ha, answer->df, answer->ci95_t_ha, answer->estimator});
        }
    }
}

void report_history(const Season& season, const History* history, Comparison& comparison) {
    if (!season.history || season.history->maps.empty()) return;
    const std::size_t maps = history == nullptr ? 0 : history->maps.size();
    if (maps == 0) {
        comparison.issues.push_back(warning("history-not-used", "", spoken().compare.history_not_used));
        return;
    }
    for (const FieldComparison& field : comparison.fields)
        for (const Contrast& contrast : field.contrasts)
            for (const Estimate& then : contrast.earlier) {
                const bool seems = then.ci95_t_ha && ((*then.ci95_t_ha)[0] > 0.0 || (*then.ci95_t_ha)[1] < 0.0);
                if (!seems) continue;
                comparison.issues.push_back(
                    warning("earlier-map-differs", field.name,
                            fill(spoken().compare.earlier_map_differs, fmt::arg("method", contrast.method),
                                 fmt::arg("baseline", contrast.baseline), fmt::arg("map", then.estimator),
                                 fmt::arg("gain", *then.gain_t_ha))));
            }
}

} // namespace quartercut::contrast
