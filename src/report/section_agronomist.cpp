// SPDX-License-Identifier: MIT
// Every number of every contrast with its estimator, for a reader who must defend or attack it.
#include "report/budget.hpp"
#include "report/meanings.hpp"
#include "report/sections.hpp"
#include "report/sentences.hpp"
#include "report/table.hpp"
#include "report/tokens.hpp"

#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

// Two columns: what, and its value with the unit and SI beside it.
class Sheet {
public:
    Sheet(const Telling& telling, std::string id, std::string caption) : telling_(telling) {
        table_ = {std::move(id), std::move(caption), {telling.words.page.item, telling.words.page.value}, {}, 2};
    }
    void text(const char* item, const std::string& value) {
        if (!value.empty()) table_.rows.push_back({item, value});
    }
    void number(const char* item, std::optional<double> value, int decimals) {
        if (value && std::isfinite(*value)) text(item, fixed(*value, decimals));
    }
    void chance(const char* item, std::optional<double> p) {
        if (p && std::isfinite(*p)) text(item, probability(*p));
    }
    void yield(const char* item, std::optional<double> t_ha, bool sign = false) {
        if (t_ha && std::isfinite(*t_ha)) text(item, telling_.figures.both(*t_ha, sign));
    }
    void range(const char* item, const std::optional<Interval>& t_ha) {
        const auto cells = telling_.figures.cells(t_ha);
        if (cells.front().empty()) return;
        text(item, cells.size() == 1 ? cells[0] + " t/ha"
                                     : cells[0] + " " + telling_.figures.unit() + " (" + cells[1] + " t/ha)");
    }
    [[nodiscard]] const Table& table() const { return table_; }

private:
    const Telling& telling_;
    Table table_;
};

void fill_contrast(Sheet& sheet, const SheetWords& w, const Contrast& c) {
    sheet.text(w.evidence, std::string(evidence_word(c.evidence)) + ": " + evidence_text(c.evidence));
    sheet.text(w.finding, std::string(finding_word(c.finding)) + ": " + finding_text(c.finding));
    if (c.unit_n > 0) sheet.text(w.units, units_text(c.unit_n, c.unit_what));
    sheet.text(w.estimator_covariance, c.estimator);
    sheet.yield(w.gain, c.gain_t_ha, true);
    sheet.yield(w.se_sampling, c.se_t_ha);
    sheet.number(w.df, c.df, 2);
    sheet.range(w.ci_sampling, c.ci95_t_ha);
    sheet.chance(w.p, c.p);
    sheet.chance(w.p_randomisation, c.p_randomisation);
    sheet.chance(w.p_adjusted, c.p_adjusted);
    sheet.yield(w.u_calibration, c.u_calibration_t_ha);
    sheet.yield(w.u_total, c.u_total_t_ha);
    sheet.number(w.df_total, c.df_total, 2);
    sheet.range(w.ci_total, c.ci95_total_t_ha);
    sheet.number(w.break_even_calibration, c.break_even_calibration_pct, 2);
    sheet.number(w.break_even_moisture, c.break_even_moisture_pct, 2);
    sheet.text(w.fragile, fragile_text(c.fragile));
    sheet.yield(w.detectable, c.detectable_t_ha);
    sheet.yield(w.yield_method, c.yield_t_ha);
    sheet.yield(w.yield_baseline, c.baseline_yield_t_ha);
    sheet.yield(w.raw_gain, c.raw_gain_t_ha, true);
    if (!c.placebo) return;
    sheet.text(w.placebo_layouts, std::to_string(c.placebo->layouts));
    sheet.number(w.placebo_as_large, c.placebo->share_as_large, 3);
    sheet.number(w.placebo_found, c.placebo->share_found, 3);
}

// Ranges that do not meet: the estimates contradict each other and the reader must know.
bool disagree(const Contrast& contrast) {
    if (!contrast.ci95_t_ha) return false;
    for (const auto& other : contrast.also) {
        if (!other.ci95_t_ha) continue;
        const bool apart =
            (*other.ci95_t_ha)[1] < (*contrast.ci95_t_ha)[0] || (*other.ci95_t_ha)[0] > (*contrast.ci95_t_ha)[1];
        if (apart) return true;
    }
    return false;
}

// One row an estimate: what worked it out, its note, its numbers.
Table estimates_table(const Telling& telling, Table table, const std::vector<Estimate>& estimates) {
    const auto& words = telling.words.page;
    const auto& w = telling.words.sheets;
    append(table.headings, telling.figures.headings(words.difference));
    append(table.headings, telling.figures.headings(w.se));
    table.headings.emplace_back(w.df);
    append(table.headings, telling.figures.headings(words.range));
    for (const auto& estimate : estimates) {
        std::vector<std::string> row = {estimate.estimator, estimate.note};
        append(row, telling.figures.cells(estimate.gain_t_ha, true));
        append(row, telling.figures.cells(estimate.se_t_ha));
        row.push_back(estimate.df && std::isfinite(*estimate.df) ? fixed(*estimate.df, 1) : "");
        append(row, telling.figures.cells(estimate.ci95_t_ha));
        table.rows.push_back(row);
    }
    return table;
}

std::string titled(const char* pattern, const FieldComparison& field, const Contrast& contrast) {
    return fill(pattern, arg("field", field.name), arg("method", contrast.method), arg("baseline", contrast.baseline));
}

void write_also(Html& html, const Telling& telling, const FieldComparison& field, const Contrast& contrast,
                const std::string& stem) {
    const auto& words = telling.words.page;
    const char* note = telling.words.sheets.note;
    if (!contrast.also.empty())
        write_table(
            html,
            estimates_table(telling,
                            {"also-" + stem, titled(words.also_table, field, contrast), {words.estimator, note}, {}, 2},
                            contrast.also));
    if (disagree(contrast)) html.leaf("p", words.disagree, {{"class", "warning"}});
    if (!contrast.earlier.empty())
        write_table(html, estimates_table(telling,
                                          {"earlier-" + stem,
                                           titled(words.earlier_table, field, contrast),
                                           {words.earlier_map, words.estimator},
                                           {},
                                           2},
                                          contrast.earlier));
}

void write_contrast(Html& html, const Telling& telling, const FieldComparison& field, const Contrast& contrast,
                    const std::string& stem) {
    std::string caption = fill(telling.words.page.contrast_table, arg("field", field.name),
                               arg("method", contrast.method), arg("baseline", contrast.baseline));
    if (contrast.stratum) caption += ", " + *contrast.stratum;
    Sheet sheet(telling, "contrast-" + stem, caption);
    fill_contrast(sheet, telling.words.sheets, contrast);
    const auto details = html.in("details");
    html.leaf("summary", caption);
    write_table(html, sheet.table());
    write_also(html, telling, field, contrast, stem);
}

void write_farm(Html& html, const Telling& telling, const FarmContrast& farm, std::size_t index) {
    const auto& w = telling.words.sheets;
    const bool years = farm.years > 1;
    const auto& words = telling.words.page;
    Sheet sheet(telling, (years ? "seasons-" : "farm-") + std::to_string(index + 1),
                fill(years ? words.seasons_table : words.farm_table, arg("method", farm.method),
                     arg("baseline", farm.baseline), arg("evidence", evidence_text(farm.evidence))));
    sheet.text(w.evidence, farm.evidence);
    sheet.text(w.finding, std::string(finding_word(farm.finding)) + ": " + finding_text(farm.finding));
    sheet.text(w.fields, std::to_string(farm.fields) + ": " + fmt::format("{}", fmt::join(farm.field_names, ", ")));
    if (years) sheet.text(w.years, std::to_string(farm.years));
    sheet.text(w.estimator, farm.estimator);
    sheet.yield(w.gain, farm.gain_t_ha, true);
    sheet.yield(w.se, farm.se_t_ha);
    sheet.number(w.df, farm.df, 2);
    sheet.range(w.ci_sampling, farm.ci95_t_ha);
    sheet.range(w.ci_total, farm.ci95_total_t_ha);
    sheet.range(w.prediction, farm.prediction95_t_ha);
    sheet.chance(w.p, farm.p);
    sheet.yield(w.tau, farm.tau_t_ha);
    sheet.yield(w.between_years, farm.between_years_t_ha);
    sheet.number(w.i2, farm.i2_pct, 1);
    sheet.yield(w.u_shared, farm.u_shared_t_ha);
    for (const auto& line : farm.budget)
        sheet.yield((std::string(w.of_it) + source_text(line.source)).c_str(), line.u_t_ha);
    sheet.yield(w.u_total, farm.u_total_t_ha);
    sheet.number(w.df_total, farm.df_total, 2);
    write_table(html, sheet.table());
}

} // namespace

void write_agronomist(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "agronomist"}, {"aria-labelledby", "agronomist-heading"}});
    html.leaf("h2", words.agronomist, {{"id", "agronomist-heading"}});
    html.leaf("p", words.agronomist_note);
    const auto& comparison = telling.results.comparison;
    write_meant(
        html, telling,
        {Term::standard_uncertainty, Term::df, Term::p, Term::break_even, Term::prediction_interval, Term::tau});
    bool first = true;
    for (std::size_t i = 0; i < comparison.farm.size(); ++i) {
        if (!is_told(comparison.farm[i])) continue;
        write_farm(html, telling, comparison.farm[i], i);
        if (!first) write_farm_budget(html, telling, i); // the first stands at the season's glance
        first = false;
    }
    for (std::size_t i = 0; i < comparison.seasons.size(); ++i)
        write_farm(html, telling, comparison.seasons[i], i);
    for (std::size_t i = 0; i < comparison.fields.size(); ++i) {
        const auto& field = comparison.fields[i];
        for (std::size_t k = 0; k < field.contrasts.size(); ++k) {
            write_contrast(html, telling, field, field.contrasts[k],
                           std::to_string(i + 1) + "-" + std::to_string(k + 1));
        }
    }
}

} // namespace quartercut::report
