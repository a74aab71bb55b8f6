// SPDX-License-Identifier: MIT
// The table of steps and the table of removals, with the warnings that follow from them.
#include "clean/step_report.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>

namespace quartercut::cleaning {
namespace {

constexpr double uneven_points = 5.0, least_removed_pct = 3.0, most_removed_pct = 45.0;
constexpr std::size_t fewest_to_judge = 100;

} // namespace

StepNumbers measure(const FieldWork& work, std::size_t methods) {
    StepNumbers numbers;
    std::vector<double> mass(methods, 0.0), area(methods, 0.0);
    double mean = 0.0, squares = 0.0, half_differences = 0.0, before_yield = 0.0;
    std::size_t pairs = 0;
    std::int32_t before_pass = -1;
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (!work.kept(i) || !(work.out->area_m2[i] > 0.0)) continue;
        const double yield = work.yield_t_ha(i);
        ++numbers.records;
        const double step = yield - mean;
        mean += step / static_cast<double>(numbers.records);
        squares += step * (yield - mean);
        if (work.out->pass[i] >= 0 && work.out->pass[i] == before_pass) {
            half_differences += 0.5 * (yield - before_yield) * (yield - before_yield);
            ++pairs;
        }
        before_yield = yield;
        before_pass = work.out->pass[i];
        if (r.method[i] < 0) continue;
        mass[at(r.method[i])] += work.out->mass_basis_kg[i];
        area[at(r.method[i])] += work.out->area_m2[i];
    }
    if (numbers.records > 1 && mean > 0.0)
        numbers.cv_pct = 100.0 * std::sqrt(squares / static_cast<double>(numbers.records - 1)) / mean;
    if (pairs > 0) numbers.nugget = half_differences / static_cast<double>(pairs);
    for (std::size_t m = 0; m < methods; ++m)
        numbers.mean_t_ha.push_back(area[m] > 0.0 ? 10.0 * mass[m] / area[m] : nan_value);
    return numbers;
}

void report_step(FieldWork& work, const Setting& setting, const std::string& step, bool on) {
    if (setting.is_rerun()) return;
    const StepNumbers after = measure(work, setting.season->methods.size());
    StepReport report;
    report.step = step;
    report.on = on;
    report.records_after = after.records;
    report.cv_after_pct = after.cv_pct;
    report.nugget_after = after.nugget;
    report.mean_after_t_ha = after.mean_t_ha;
    if (work.out->steps.empty()) {
        report.records_before = after.records;
        report.cv_before_pct = after.cv_pct;
        report.nugget_before = after.nugget;
        report.mean_before_t_ha = after.mean_t_ha;
    } else {
        const StepReport& last = work.out->steps.back();
        report.records_before = last.records_after;
        report.cv_before_pct = last.cv_after_pct;
        report.nugget_before = last.nugget_after;
        report.mean_before_t_ha = last.mean_after_t_ha;
    }
    work.out->steps.push_back(report);
}

namespace {

std::size_t judged(const std::array<std::size_t, removal_count>& counts) {
    std::size_t records = 0;
    for (std::size_t reason = 0; reason < removal_count; ++reason)
        if (reason != static_cast<std::size_t>(Removal::off_field)) records += counts[reason];
    return records;
}

void warn_uneven(FieldWork& work, const Setting& setting, std::size_t reason) {
    double low = 101.0, high = -1.0;
    std::size_t low_method = 0, high_method = 0;
    for (std::size_t m = 0; m < setting.season->methods.size(); ++m) {
        const auto& counts = work.out->removed[m + 1];
        const std::size_t records = judged(counts);
        if (records < fewest_to_judge) continue;
        const double share = 100.0 * static_cast<double>(counts[reason]) / static_cast<double>(records);
        if (share < low) low = share, low_method = m;
        if (share > high) high = share, high_method = m;
    }
    if (high - low <= uneven_points || high < 0.0 || low > 100.0) return;
    const auto& methods = setting.season->methods;
    work.out->issues.push_back(
        {"uneven-removal", Severity::warning, fill(spoken().places.field, fmt::arg("field", work.field->name)),
         fill(spoken().clean.uneven_removal, fmt::arg("high", high), fmt::arg("method", methods[high_method].name),
              fmt::arg("low", low), fmt::arg("other", methods[low_method].name),
              fmt::arg("reason", spoken().kinds.removed[reason]))});
}

void warn_unusual_share(FieldWork& work) {
    std::size_t records = 0, kept = 0;
    for (std::size_t m = 1; m < work.out->removed.size(); ++m) {
        records += judged(work.out->removed[m]);
        kept += work.out->removed[m][0];
    }
    if (records < fewest_to_judge) return;
    const double removed = 100.0 - 100.0 * static_cast<double>(kept) / static_cast<double>(records);
    if (removed >= least_removed_pct && removed <= most_removed_pct) return;
    // Few removals are the rule with clean records and tell nothing against them.
    const Severity weight = removed < least_removed_pct ? Severity::note : Severity::warning;
    work.out->issues.push_back(
        {"unusual-removal", weight, fill(spoken().places.field, fmt::arg("field", work.field->name)),
         fill(removed < least_removed_pct ? spoken().clean.removed_few : spoken().clean.removed_many,
              fmt::arg("pct", removed))});
}

} // namespace

void report_removals(FieldWork& work, const Setting& setting) {
    work.out->removed.assign(setting.season->methods.size() + 1, {});
    for (std::size_t i = 0; i < work.size(); ++i)
        ++work.out->removed[static_cast<std::size_t>(work.records().method[i] + 1)]
                           [static_cast<std::size_t>(work.out->removal[i])];
    // Off the field says nothing about the method.
    for (std::size_t reason = static_cast<std::size_t>(Removal::header_up); reason < removal_count; ++reason)
        warn_uneven(work, setting, reason);
    warn_unusual_share(work);
}

} // namespace quartercut::cleaning
