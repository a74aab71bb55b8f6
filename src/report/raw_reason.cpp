// SPDX-License-Identifier: MIT
// Finds the reason (raw_reason.hpp) in what the records used say of calibration and moisture of the two methods.
#include "report/raw_reason.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::report {
namespace {

// A cause is named when it makes up at least this share of the gap (judgement).
constexpr double share_worth_naming = 0.25;

// Means over the segments of one method, weighted by mass; NaN where unknown.
struct MethodMeans {
    double factor = 0.0, moisture_pct = 0.0;
};

double factor_of(const CleanedField& cleaned, const std::string& machine, const std::string& method) {
    for (const auto& used : cleaned.calibration) {
        if (used.machine == machine && used.method == method) return used.factor;
    }
    return std::nan("");
}

MethodMeans means_of(const Results& results, std::size_t index, const std::string& method) {
    const auto& zoned = results.zoned[index];
    const int code = results.season.method_code(method);
    MethodMeans sum;
    double mass_kg = 0.0;
    for (const auto& segment : zoned.segments) {
        if (segment.zone < 0 || zoned.zones[static_cast<std::size_t>(segment.zone)].method != code) continue;
        const bool known =
            segment.machine >= 0 && static_cast<std::size_t>(segment.machine) < results.standardised.machines.size();
        const std::string machine =
            known ? results.standardised.machines[static_cast<std::size_t>(segment.machine)] : std::string{};
        sum.factor += segment.mass_basis_kg * factor_of(results.cleaned.fields[index], machine, method);
        sum.moisture_pct += segment.mass_basis_kg * segment.moisture_pct;
        mass_kg += segment.mass_basis_kg;
    }
    return {sum.factor / mass_kg, sum.moisture_pct / mass_kg};
}

bool other_than_answer(const Contrast& contrast) {
    const double raw = *contrast.raw_gain_t_ha;
    if (std::signbit(raw) != std::signbit(*contrast.gain_t_ha)) return true;
    const auto& range = contrast.ci95_total_t_ha;
    return range && (raw < (*range)[0] || raw > (*range)[1]);
}

bool logged_at_basis(const Results& results, std::size_t index) {
    const auto& at_basis = results.standardised.fields[index].records.at_basis;
    return std::any_of(at_basis.begin(), at_basis.end(), [](const auto dry) { return dry != 0; });
}

} // namespace

std::string raw_reason(const Telling& telling, const Contrast& contrast, std::size_t index) {
    const auto& results = telling.results;
    if (!contrast.raw_gain_t_ha || !contrast.gain_t_ha || !contrast.baseline_yield_t_ha) return {};
    if (index >= results.zoned.size() || index >= results.cleaned.fields.size()) return {};
    if (!other_than_answer(contrast)) return {};
    const double gap_t_ha = *contrast.raw_gain_t_ha - *contrast.gain_t_ha;
    const MethodMeans method = means_of(results, index, contrast.method);
    const MethodMeans baseline = means_of(results, index, contrast.baseline);
    // What the raw map shows too much of: grain not yet calibrated, and water.
    const double dry_pct = 100.0 - telling.season().basis_pct;
    const double calibration_t_ha = *contrast.baseline_yield_t_ha * (1.0 / method.factor - 1.0 / baseline.factor);
    const double water_t_ha = *contrast.baseline_yield_t_ha *
                              (dry_pct / (100.0 - method.moisture_pct) - dry_pct / (100.0 - baseline.moisture_pct));
    const auto& words = telling.words.answer;
    std::vector<std::string> reasons;
    if (calibration_t_ha / gap_t_ha >= share_worth_naming) {
        const double pct = 100.0 * std::abs(method.factor / baseline.factor - 1.0);
        reasons.push_back(fill(words.raw_calibration, fmt::arg("pct", fixed(pct, 1))));
    }
    if (water_t_ha / gap_t_ha >= share_worth_naming && !logged_at_basis(results, index)) {
        const double points = std::abs(method.moisture_pct - baseline.moisture_pct);
        reasons.push_back(fill(words.raw_moisture, fmt::arg("points", fixed(points, 1))));
    }
    if (reasons.empty()) return {};
    return fill(words.raw_reason, fmt::arg("reasons", fmt::format("{}", fmt::join(reasons, words.raw_and)))) + ".";
}

} // namespace quartercut::report
