// SPDX-License-Identifier: MIT
// One thing changed at a time: does the gain stand? Each re-run goes through cleaning, zoning and comparing again; what
// the lag and the ramps might be wrong by becomes a line of the error budget.
#include "job/steps.hpp"

#include "base/words/words.hpp"

#include <algorithm>
#include <cmath>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace quartercut::job {
namespace {

/// Typical of combines: readings come 8 to 14 s after the cut (Beal and Tian 2001 shifted three machines by as much).
constexpr double typical_lag_s = 12.0;

struct Variant {
    std::string words;
    CleanOptions clean;
    ZoneOptions zone;
    bool same_cleaning = false; ///< only the zoning differs
};

bool any_lag_unknown(const Cleaned& cleaned) {
    return std::any_of(cleaned.lag.begin(), cleaned.lag.end(), [](const LagEstimate& lag) { return lag.not_found; });
}

std::vector<Variant> variants_of(const Results& results, const JobOptions& options) {
    const Season& season = results.season;
    CleanOptions base = clean_options(season, options);
    base.earlier = &results.cleaned;
    const ZoneOptions zoning = zone_options(season);
    std::vector<Variant> out;
    const auto step_off = [&](bool CleaningChoice::*step, const char* words) {
        if (!(season.cleaning.*step)) return;
        Variant variant{words, base, zoning, false};
        variant.clean.steps.*step = false;
        out.push_back(variant);
    };
    step_off(&CleaningChoice::lag, spoken().robustness.lag_off);
    step_off(&CleaningChoice::ramps, spoken().robustness.ramps_off);
    step_off(&CleaningChoice::coverage, spoken().robustness.coverage_off);
    step_off(&CleaningChoice::speed, spoken().robustness.speed_off);
    step_off(&CleaningChoice::limits, spoken().robustness.limits_off);
    step_off(&CleaningChoice::neighbours, spoken().robustness.neighbours_off);
    step_off(&CleaningChoice::edge_passes, spoken().robustness.edge_passes_off);
    if (season.tickets) step_off(&CleaningChoice::tickets, spoken().robustness.tickets_off);

    const auto changed = [&](const char* words, auto change) {
        Variant variant{words, base, zoning, false};
        change(variant);
        out.push_back(variant);
    };
    changed(spoken().robustness.lag_longer, [](Variant& v) { v.clean.extra_lag_s = 1.0; });
    changed(spoken().robustness.lag_shorter, [](Variant& v) { v.clean.extra_lag_s = -1.0; });
    if (season.cleaning.lag && any_lag_unknown(results.cleaned))
        changed(spoken().robustness.typical_lag, [](Variant& v) { v.clean.assumed_lag_s = typical_lag_s; });
    changed(spoken().robustness.trimmed_more, [](Variant& v) { v.clean.extra_ramp_s = 3.0; });
    changed(spoken().robustness.trimmed_less, [](Variant& v) { v.clean.extra_ramp_s = -3.0; });
    changed(spoken().robustness.moisture_off, [](Variant& v) { v.clean.moisture_correction = false; });
    changed(spoken().robustness.half_segments, [](Variant& v) { v.zone.segment_m *= 0.5, v.same_cleaning = true; });
    changed(spoken().robustness.double_segments, [](Variant& v) { v.zone.segment_m *= 2.0, v.same_cleaning = true; });
    return out;
}

const Contrast* find_contrast(const FieldComparison& field, const Contrast& like) {
    const auto found = std::find_if(field.contrasts.begin(), field.contrasts.end(), [&](const Contrast& c) {
        return c.method == like.method && c.baseline == like.baseline && c.stratum == like.stratum;
    });
    return found == field.contrasts.end() ? nullptr : &*found;
}

/// What the contrasts of each field came to, in their order.
using Rows = std::vector<std::vector<Estimate>>;

Rows rows_of(const std::vector<FieldComparison>& found, const std::vector<FieldComparison>& changed,
             const std::string& words) {
    Rows rows(found.size());
    for (std::size_t i = 0; i < found.size(); ++i)
        for (const Contrast& contrast : found[i].contrasts) {
            Estimate& row = rows[i].emplace_back();
            row.estimator = words;
            if (const Contrast* other = find_contrast(changed[i], contrast)) {
                row.gain_t_ha = other->gain_t_ha;
                row.se_t_ha = other->se_t_ha;
                row.df = other->df;
                row.ci95_t_ha = other->ci95_t_ha;
            }
        }
    return rows;
}

Rows rerun(const Survey& survey, const std::vector<FieldComparison>& found, const Variant& variant,
           const JobOptions& options) {
    CompareOptions comparing;
    comparing.sensitivity = false;
    comparing.jobs = options.jobs;
    comparing.begin_at = &found;
    if (survey.results.season.history) comparing.history = &survey.history;
    const Results& results = survey.results;
    Cleaned changed;
    if (!variant.same_cleaning) changed = clean_wanted(survey, variant.clean);
    const Cleaned& cleaned = variant.same_cleaning ? results.cleaned : changed;
    const auto zoned = zone_all(results, cleaned, variant.zone);
    return rows_of(found, compare_each_field(results.season, results.standardised, cleaned, zoned, comparing),
                   variant.words);
}

void record(std::vector<FieldComparison>& into, Rows& rows) {
    for (std::size_t i = 0; i < into.size(); ++i)
        for (std::size_t k = 0; k < into[i].contrasts.size(); ++k)
            into[i].contrasts[k].robustness.push_back(std::move(rows[i][k]));
}

std::optional<double> gain_of(const Contrast& contrast, const char* words) {
    for (const auto& row : contrast.robustness)
        if (row.estimator == words) return row.gain_t_ha;
    return std::nullopt;
}

/// Half the spread of the gain between two re-runs, as a rectangular error (JCGM 100:2008, 4.3.7: half-width / sqrt 3).
double rectangular_u(const Contrast& contrast, const char* longer, const char* shorter) {
    const auto a = gain_of(contrast, longer), b = gain_of(contrast, shorter);
    if (!a || !b) return 0.0;
    return std::abs(*a - *b) / 2.0 / std::sqrt(3.0);
}

/// Seconds the delays may be off by: at least the one second of the re-runs, else half the widest interval, or what was
/// left uncorrected where the readings had been shifted before.
double lag_half_width_s(const Cleaned& cleaned) {
    double half_s = 1.0;
    for (const LagEstimate& lag : cleaned.lag) {
        if (lag.not_found || !std::isfinite(lag.lag_s)) continue;
        half_s = std::max(half_s, lag.applied ? 0.5 * (lag.high_s - lag.low_s) : std::abs(lag.lag_s));
    }
    return half_s;
}

/// Where no delay was found the readings may be as late as on most machines, or may have been shifted already: either is
/// as likely, and the answer takes one of them. Root mean square of an error of nothing or of d: d / sqrt 2.
double unknown_lag_u(const Contrast& contrast) {
    const auto late = gain_of(contrast, spoken().robustness.typical_lag);
    return late ? std::abs(*late - *contrast.gain_t_ha) / std::sqrt(2.0) : 0.0;
}

/// Takes the place of the comparison's stated default for lag and ramps.
void add_timing_error(Contrast& contrast, const Cleaned& cleaned) {
    if (!contrast.gain_t_ha || !contrast.se_t_ha) return;
    const double lag_u = lag_half_width_s(cleaned) *
                         rectangular_u(contrast, spoken().robustness.lag_longer, spoken().robustness.lag_shorter);
    const double ramp_u = rectangular_u(contrast, spoken().robustness.trimmed_more, spoken().robustness.trimmed_less);
    const double u = std::hypot(lag_u, ramp_u, unknown_lag_u(contrast));
    add_budget_line(contrast, BudgetLine{error_source::timing, u, 50.0, false});
}

} // namespace

void add_robustness(const Survey& survey, const JobOptions& options, std::vector<FieldComparison>& fields) {
    const std::vector<Variant> variants = variants_of(survey.results, options);
    std::vector<Rows> changed(variants.size());
    say(options, "re-running with one thing changed at a time");
    tbb::parallel_for(std::size_t{0}, variants.size(), [&](std::size_t v) {
        // Isolated: a thread that waits for one re-run must not begin another, or many would be held in memory at once.
        tbb::this_task_arena::isolate([&] { changed[v] = rerun(survey, fields, variants[v], options); });
    });
    for (Rows& rows : changed)
        record(fields, rows);
    for (FieldComparison& field : fields)
        for (Contrast& contrast : field.contrasts)
            add_timing_error(contrast, survey.results.cleaned);
}

} // namespace quartercut::job
