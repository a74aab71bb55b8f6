// SPDX-License-Identifier: MIT
// Results -> comparison.csv: one row per field x contrast, then the farm rows. RFC 4180, UTF-8, a point for decimals.
//
// Text from the user's files that a spreadsheet would run as a formula gets an apostrophe in front (csv_text.hpp).
#include "quartercut/write.hpp"
#include "write/csv_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>

namespace quartercut {

namespace {

using write::csv_cell;
using write::csv_number;

constexpr std::array columns{"level",
                             "field",
                             "evidence",
                             "method",
                             "baseline",
                             "stratum",
                             "finding",
                             "gain_t_ha",
                             "se_t_ha",
                             "df",
                             "ci95_low_t_ha",
                             "ci95_high_t_ha",
                             "ci95_total_low_t_ha",
                             "ci95_total_high_t_ha",
                             "prediction95_low_t_ha",
                             "prediction95_high_t_ha",
                             "p",
                             "p_randomisation",
                             "u_calibration_t_ha",
                             "u_total_t_ha",
                             "break_even_calibration_pct",
                             "detectable_t_ha",
                             "tau_t_ha",
                             "yield_t_ha",
                             "baseline_yield_t_ha",
                             "raw_gain_t_ha",
                             "units_what",
                             "units_n",
                             "estimator",
                             "leaves_out"};

using Row = std::array<std::string, columns.size()>;

/// The cell of a named column. A name that does not exist would not compile.
template <std::size_t N>
consteval std::size_t at(const char (&name)[N]) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (std::string_view(columns[i]) == name) return i;
    }
    throw "no such column";
}

void set_interval(Row& row, std::size_t low, const std::optional<Interval>& interval) {
    if (!interval) return;
    row[low] = csv_number((*interval)[0]);
    row[low + 1] = csv_number((*interval)[1]);
}

/// What contrasts of a field and of the farm have in common.
template <class AnyContrast>
void set_common(Row& row, const AnyContrast& c) {
    row[at("method")] = csv_cell(c.method);
    row[at("baseline")] = csv_cell(c.baseline);
    row[at("finding")] = finding_word(c.finding);
    row[at("gain_t_ha")] = csv_number(c.gain_t_ha);
    row[at("se_t_ha")] = csv_number(c.se_t_ha);
    row[at("df")] = csv_number(c.df);
    set_interval(row, at("ci95_low_t_ha"), c.ci95_t_ha);
    set_interval(row, at("ci95_total_low_t_ha"), c.ci95_total_t_ha);
    row[at("p")] = csv_number(c.p);
    row[at("estimator")] = csv_cell(c.estimator);
    row[at("leaves_out")] = csv_cell(fmt::format("{}", fmt::join(c.leaves_out, "; ")));
}

Row field_row(const FieldComparison& field, const Contrast& c) {
    Row row;
    set_common(row, c);
    row[at("level")] = "field";
    row[at("field")] = csv_cell(field.name);
    row[at("evidence")] = evidence_word(field.evidence);
    row[at("stratum")] = csv_cell(c.stratum.value_or(""));
    row[at("p_randomisation")] = csv_number(c.p_randomisation);
    row[at("u_calibration_t_ha")] = csv_number(c.u_calibration_t_ha);
    row[at("u_total_t_ha")] = csv_number(c.u_total_t_ha);
    row[at("break_even_calibration_pct")] = csv_number(c.break_even_calibration_pct);
    row[at("detectable_t_ha")] = csv_number(c.detectable_t_ha);
    row[at("yield_t_ha")] = csv_number(c.yield_t_ha);
    row[at("baseline_yield_t_ha")] = csv_number(c.baseline_yield_t_ha);
    row[at("raw_gain_t_ha")] = csv_number(c.raw_gain_t_ha);
    row[at("units_what")] = csv_cell(c.unit_what);
    row[at("units_n")] = std::to_string(c.unit_n);
    return row;
}

Row farm_row(const FarmContrast& c) {
    Row row;
    set_common(row, c);
    row[at("level")] = "farm";
    row[at("evidence")] = csv_cell(c.evidence);
    set_interval(row, at("prediction95_low_t_ha"), c.prediction95_t_ha);
    row[at("tau_t_ha")] = csv_number(c.tau_t_ha);
    row[at("units_what")] = "fields";
    row[at("units_n")] = std::to_string(c.fields);
    return row;
}

} // namespace

std::string comparison_csv(const Results& results) {
    std::string text = fmt::format("{}\r\n", fmt::join(columns, ","));
    const auto add = [&](const Row& row) { text += fmt::format("{}\r\n", fmt::join(row, ",")); };
    for (const FieldComparison& field : results.comparison.fields) {
        for (const Contrast& contrast : field.contrasts)
            add(field_row(field, contrast));
    }
    for (const FarmContrast& contrast : results.comparison.farm)
        add(farm_row(contrast));
    return text;
}

} // namespace quartercut
