// SPDX-License-Identifier: MIT
// Every number of every contrast with its estimator, for a reader who must defend or attack it.
#include "report/budget.hpp"
#include "report/meanings.hpp"
#include "report/sections.hpp"
#include "report/sentences.hpp"
#include "report/table.hpp"

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

void fill_contrast(Sheet& sheet, const Contrast& c) {
    sheet.text("Evidence", std::string(evidence_word(c.evidence)) + ": " + evidence_text(c.evidence));
    sheet.text("Finding", std::string(finding_word(c.finding)) + ": " + finding_text(c.finding));
    if (c.unit_n > 0) sheet.text("Units of evidence", std::to_string(c.unit_n) + " " + c.unit_what);
    sheet.text("Estimator and covariance", c.estimator);
    sheet.yield("Gain", c.gain_t_ha, true);
    sheet.yield("Standard error (sampling)", c.se_t_ha);
    sheet.number("df", c.df, 2);
    sheet.range("95 % interval (sampling)", c.ci95_t_ha);
    sheet.chance("p", c.p);
    sheet.chance("p by randomisation", c.p_randomisation);
    sheet.chance("p adjusted for several looks (Holm)", c.p_adjusted);
    sheet.yield("u of calibration", c.u_calibration_t_ha);
    sheet.yield("u in total", c.u_total_t_ha);
    sheet.number("df of the total", c.df_total, 2);
    sheet.range("95 % interval (total)", c.ci95_total_t_ha);
    sheet.number("Break-even calibration error (%)", c.break_even_calibration_pct, 2);
    sheet.number("Break-even moisture error (points)", c.break_even_moisture_pct, 2);
    sheet.text("Against calibration error the result is", c.fragile);
    sheet.yield("Difference seen with 80 % power", c.detectable_t_ha);
    sheet.yield("Yield of the method", c.yield_t_ha);
    sheet.yield("Yield of the baseline", c.baseline_yield_t_ha);
    sheet.yield("Difference of raw record means", c.raw_gain_t_ha, true);
    if (!c.placebo) return;
    sheet.text("Layouts with nothing done", std::to_string(c.placebo->layouts));
    sheet.number("... share with a difference as large", c.placebo->share_as_large, 3);
    sheet.number("... share that would be called a difference", c.placebo->share_found, 3);
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

void write_also(Html& html, const Telling& telling, const FieldComparison& field, const Contrast& contrast,
                const std::string& stem) {
    if (contrast.also.empty()) return;
    const auto& words = telling.words.page;
    Table table{"also-" + stem,
                fill(words.also_table, arg("field", field.name), arg("method", contrast.method),
                     arg("baseline", contrast.baseline)),
                {words.estimator, "Note"},
                {},
                2};
    append(table.headings, telling.figures.headings(words.difference));
    append(table.headings, telling.figures.headings("Standard error"));
    table.headings.emplace_back("df");
    append(table.headings, telling.figures.headings(words.range));
    for (const auto& estimate : contrast.also) {
        std::vector<std::string> row = {estimate.estimator, estimate.note};
        append(row, telling.figures.cells(estimate.gain_t_ha, true));
        append(row, telling.figures.cells(estimate.se_t_ha));
        row.push_back(estimate.df && std::isfinite(*estimate.df) ? fixed(*estimate.df, 1) : "");
        append(row, telling.figures.cells(estimate.ci95_t_ha));
        table.rows.push_back(row);
    }
    write_table(html, table);
    if (disagree(contrast)) html.leaf("p", words.disagree, {{"class", "warning"}});
}

void write_contrast(Html& html, const Telling& telling, const FieldComparison& field, const Contrast& contrast,
                    const std::string& stem) {
    std::string caption = fill(telling.words.page.contrast_table, arg("field", field.name),
                               arg("method", contrast.method), arg("baseline", contrast.baseline));
    if (contrast.stratum) caption += ", " + *contrast.stratum;
    Sheet sheet(telling, "contrast-" + stem, caption);
    fill_contrast(sheet, contrast);
    const auto details = html.in("details");
    html.leaf("summary", caption);
    write_table(html, sheet.table());
    write_also(html, telling, field, contrast, stem);
}

void write_farm(Html& html, const Telling& telling, const FarmContrast& farm, std::size_t index) {
    Sheet sheet(telling, "farm-" + std::to_string(index + 1),
                fill(telling.words.page.farm_table, arg("method", farm.method), arg("baseline", farm.baseline),
                     arg("evidence", evidence_text(farm.evidence))));
    sheet.text("Evidence", farm.evidence);
    sheet.text("Finding", std::string(finding_word(farm.finding)) + ": " + finding_text(farm.finding));
    sheet.text("Fields", std::to_string(farm.fields) + ": " + fmt::format("{}", fmt::join(farm.field_names, ", ")));
    sheet.text("Estimator", farm.estimator);
    sheet.yield("Gain", farm.gain_t_ha, true);
    sheet.yield("Standard error", farm.se_t_ha);
    sheet.number("df", farm.df, 2);
    sheet.range("95 % interval (sampling)", farm.ci95_t_ha);
    sheet.range("95 % interval (total)", farm.ci95_total_t_ha);
    sheet.range("95 % prediction interval", farm.prediction95_t_ha);
    sheet.chance("p", farm.p);
    sheet.yield("tau, spread between fields", farm.tau_t_ha);
    sheet.number("I² (%)", farm.i2_pct, 1);
    sheet.yield("u shared by all fields", farm.u_shared_t_ha);
    for (const auto& line : farm.budget)
        sheet.yield(("... of it, " + source_text(telling, line.source)).c_str(), line.u_t_ha);
    sheet.yield("u in total", farm.u_total_t_ha);
    sheet.number("df of the total", farm.df_total, 2);
    write_table(html, sheet.table());
}

} // namespace

void write_agronomist(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "agronomist"}, {"aria-labelledby", "agronomist-heading"}});
    html.leaf("h2", words.agronomist, {{"id", "agronomist-heading"}});
    html.leaf("p", words.agronomist_note);
    const auto& comparison = telling.results.comparison;
    write_meant(html, telling, {"Standard uncertainty (u)", "df", "p", "Break-even", "Prediction interval", "tau, I²"});
    bool first = true;
    for (std::size_t i = 0; i < comparison.farm.size(); ++i) {
        if (!is_told(comparison.farm[i])) continue;
        write_farm(html, telling, comparison.farm[i], i);
        if (!first) write_farm_budget(html, telling, i); // the first stands at the season's glance
        first = false;
    }
    for (std::size_t i = 0; i < comparison.fields.size(); ++i) {
        const auto& field = comparison.fields[i];
        for (std::size_t k = 0; k < field.contrasts.size(); ++k) {
            write_contrast(html, telling, field, field.contrasts[k],
                           std::to_string(i + 1) + "-" + std::to_string(k + 1));
        }
    }
}

} // namespace quartercut::report
