// SPDX-License-Identifier: MIT
#include "cli/summary.hpp"

#include "cli/terminal.hpp"

#include "quartercut/job.hpp"
#include "quartercut/report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace quartercut::cli {
namespace {

std::string interval_words(const Season& season, const std::optional<Interval>& interval) {
    if (!interval) return "-";
    return yield_number(season, (*interval)[0], true) + " to " + yield_number(season, (*interval)[1], true);
}

/// Sum of mass over sum of area of one method's zones in a field.
std::optional<double> method_yield_t_ha(const ZonedField& field, int method) {
    double mass_kg = 0.0, area_m2 = 0.0;
    for (const Zone& zone : field.zones)
        if (zone.method == method) mass_kg += zone.mass_basis_kg, area_m2 += zone.harvested_m2;
    if (area_m2 <= 0.0) return std::nullopt;
    return yield(Kilograms{mass_kg}, SquareMetres{area_m2}).value();
}

std::string yields_table(const Results& results) {
    const Season& season = results.season;
    const std::string unit = yield_unit_word(season.units);
    std::string out =
        bold(fmt::format("Yield at {:.1f} % moisture, sum of mass over sum of area ({})", season.basis_pct, unit)) +
        "\n";
    out += fmt::format("  {:<24} {:>9} {:<22}", "field", land_unit_word(season.units), "evidence");
    for (const Method& method : season.methods)
        out += fmt::format(" {:>12.12}", method.name);
    out += "\n";
    for (std::size_t i = 0; i < results.standardised.fields.size(); ++i) {
        const StandardField& field = results.standardised.fields[i];
        out += fmt::format("  {:<24} {:>9.2f} {:<22}", field.name, from_m2(field.area_m2, season.units),
                           evidence_word(results.comparison.fields[i].evidence));
        for (std::size_t m = 0; m < season.methods.size(); ++m)
            out += fmt::format(" {:>12}",
                               yield_number(season, method_yield_t_ha(results.zoned[i], static_cast<int>(m)), false));
        out += "\n";
    }
    return out;
}

std::string contrasts_table(const Results& results) {
    const Season& season = results.season;
    std::string out = bold(fmt::format("Gain over {} ({})", season.baseline, yield_unit_word(season.units))) + "\n";
    out += fmt::format("  {:<24} {:<14} {:>8} {:>18} {:>12} {:<14} {}\n", "field", "method", "gain", "95 % in total",
                       "raw records", "finding", "units");
    for (const FieldComparison& field : results.comparison.fields)
        for (const Contrast& c : field.contrasts)
            out += fmt::format("  {:<24} {:<14} {:>8} {:>18} {:>12} {:<14} {} {}\n", field.name,
                               c.stratum ? c.method + " on " + *c.stratum : c.method,
                               yield_number(season, c.gain_t_ha, true), interval_words(season, c.ci95_total_t_ha),
                               yield_number(season, c.raw_gain_t_ha, true), finding_word(c.finding), c.unit_n,
                               c.unit_what);
    // A number that cannot be compared would be taken for the answer, the last in the table.
    const auto gain_of = [](const FarmContrast& c) {
        return c.finding == Finding::not_comparable ? std::nullopt : std::optional<double>(c.gain_t_ha);
    };
    for (const FarmContrast& c : results.comparison.farm)
        out += fmt::format("  {:<24} {:<14} {:>8} {:>18} {:>12} {:<14} {} {}, {}\n", "farm", c.method,
                           yield_number(season, gain_of(c), true), interval_words(season, c.ci95_total_t_ha), "-",
                           finding_word(c.finding), c.fields, c.fields == 1 ? "field" : "fields", c.evidence);
    return out;
}

std::array<std::size_t, removal_count> removed_in(const CleanedField& field) {
    std::array<std::size_t, removal_count> counts{};
    for (const Removal removal : field.removal)
        ++counts[static_cast<std::size_t>(removal)];
    return counts;
}

std::string removals_table(const Results& results) {
    std::array<std::size_t, removal_count> total{};
    std::size_t read = 0;
    for (const CleanedField& field : results.cleaned.fields) {
        const auto counts = removed_in(field);
        for (std::size_t r = 0; r < removal_count; ++r)
            total[r] += counts[r];
        read += field.removal.size();
    }
    std::string out = bold("Records") + "\n";
    out += fmt::format("  {:<24} {:>9}\n  {:<24} {:>9}\n", "read, in a field", read, "used", total[0]);
    for (std::size_t r = 1; r < removal_count; ++r)
        if (total[r] > 0)
            out += fmt::format("  {:<24} {:>9}  {:4.1f} %\n", removal_word(static_cast<Removal>(r)), total[r],
                               100.0 * static_cast<double>(total[r]) /
                                   static_cast<double>(std::max<std::size_t>(read, 1)));
    if (results.standardised.records_outside > 0)
        out += fmt::format("  {:<24} {:>9}\n", "outside every field", results.standardised.records_outside);
    return out;
}

std::string warnings_text(const Results& results) {
    Issues warnings;
    for (const Issue& issue : all_issues(results))
        if (issue.severity != Severity::note) warnings.push_back(issue);
    std::string out;
    for (const std::string& line : remark_lines(warnings))
        out += "  " + line + "\n";
    return out.empty() ? out : "\n" + bold("To know") + "\n" + out;
}

} // namespace

std::string comparison_text(const Results& results) {
    std::string out = bold(results.season.title) + "\n\n";
    for (const std::string& sentence : answer_sentences(results))
        out += sentence + "\n";
    out += "\n" + contrasts_table(results) + "\n" + yields_table(results) + "\n" + removals_table(results);
    return out + warnings_text(results);
}

std::string yield_number(const Season& season, std::optional<double> yield_t_ha, bool sign) {
    if (!yield_t_ha || !std::isfinite(*yield_t_ha)) return "-";
    const double value = from_t_ha(*yield_t_ha, season.units, season.bushel_lb);
    const int digits = season.units == YieldUnit::t_ha ? 3 : season.units == YieldUnit::bu_ac ? 1 : 0;
    return sign ? fmt::format("{:+.{}f}", value, digits) : fmt::format("{:.{}f}", value, digits);
}

std::string removals_text(const Results& results) { return removals_table(results); }

} // namespace quartercut::cli
