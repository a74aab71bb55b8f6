// SPDX-License-Identifier: MIT
// Pairs, error budget and robustness of one contrast (field_charts.hpp).
#include "report/field_charts.hpp"

#include "report/budget.hpp"
#include "report/table.hpp"
#include "report/tokens.hpp"

#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

// What the three charts share: names and an id stem that is unique in the page.
struct Here {
    const Telling& telling;
    const FieldComparison& field;
    const Contrast& contrast;
    std::string stem;
    bool first = true; ///< of the field's comparisons: what explains a chart is said there
};

// A chart's heading; which comparison it is of, where the field has several.
std::string heading(const Here& here, const char* what) {
    if (here.field.contrasts.size() < 2) return what;
    std::string text = fill(here.telling.words.page.chart_of, arg("what", what), arg("method", here.contrast.method),
                            arg("baseline", here.contrast.baseline));
    if (here.contrast.stratum) text += ", " + *here.contrast.stratum;
    return text;
}

std::string named(const Here& here, const char* pattern) {
    std::string text = fill(pattern, arg("field", here.field.name), arg("method", here.contrast.method),
                            arg("baseline", here.contrast.baseline), arg("rows", ""));
    if (here.contrast.stratum) text += ", " + *here.contrast.stratum;
    return text;
}

std::string described(const Here& here, const char* pattern, const std::vector<std::string>& rows) {
    return fill(pattern, arg("field", here.field.name), arg("method", here.contrast.method),
                arg("baseline", here.contrast.baseline), arg("rows", fmt::format("{}", fmt::join(rows, "; "))));
}

void write_pairs(Html& html, const Here& here) {
    if (here.contrast.pairs.empty()) return;
    const auto& words = here.telling.words.page;
    const auto& figures = here.telling.figures;
    Table table{"pairs-table-" + here.stem, named(here, words.pairs_table), {words.pair}, {}};
    append(table.headings, figures.headings(here.contrast.method));
    append(table.headings, figures.headings(here.contrast.baseline));
    append(table.headings, figures.headings(words.difference));
    std::vector<std::string> said;
    for (const auto& pair : pairs_in_order(here.contrast)) {
        std::vector<std::string> row = {pair.block};
        append(row, figures.cells(pair.yield_t_ha));
        append(row, figures.cells(pair.baseline_yield_t_ha));
        append(row, figures.cells(pair.difference_t_ha, true));
        table.rows.push_back(row);
        said.push_back(pair_name(here.telling, pair) + " " + figures.cells(pair.difference_t_ha, true).front() + " " +
                       figures.unit());
    }
    const auto figure = html.in("figure");
    html.leaf("figcaption", heading(here, words.pairs));
    draw_pairs(html, here.telling, {"pairs-" + here.stem, words.pairs, described(here, words.pairs_text, said)},
               here.contrast);
    write_folded_table(html, words.as_table, table);
}

void write_budget(Html& html, const Here& here) {
    if (here.contrast.budget.empty()) return;
    const auto& words = here.telling.words.page;
    const auto& figures = here.telling.figures;
    Table table{
        "budget-table-" + here.stem, named(here, words.budget_table), {words.source, words.shared_short}, {}, 2};
    append(table.headings, figures.headings(words.standard_uncertainty));
    table.headings.emplace_back("df");
    for (const auto& line : here.contrast.budget) {
        std::vector<std::string> row = {source_text(line.source), line.shared ? words.yes : words.no};
        append(row, figures.cells(line.u_t_ha));
        row.push_back(std::isfinite(line.df) ? fixed(line.df, 1) : "");
        table.rows.push_back(row);
    }
    const auto budget = contrast_bars(here.telling, here.contrast);
    const auto figure = html.in("figure");
    html.leaf("figcaption", heading(here, words.budget));
    draw_bars(html, {"budget-" + here.stem, words.budget, described(here, words.budget_text, budget.said)},
              budget.bars);
    if (here.first) html.leaf("p", words.budget_note, {{"class", "note"}});
    write_folded_table(html, words.as_table, table);
}

std::vector<DifferenceRow> robustness_rows(const Here& here) {
    const auto& contrast = here.contrast;
    std::vector<DifferenceRow> rows;
    DifferenceRow first;
    first.label = here.telling.words.page.as_reported;
    first.gain_t_ha = contrast.gain_t_ha;
    // The range of the spread alone: what changes under another treatment of the same records.
    first.range_t_ha = contrast.ci95_t_ha;
    first.sum = true;
    rows.push_back(first);
    for (const auto& estimate : contrast.robustness) {
        rows.push_back({estimate.estimator, estimate.gain_t_ha, estimate.ci95_t_ha, std::nullopt, "none", false});
    }
    return rows;
}

void write_robustness(Html& html, const Here& here) {
    if (here.contrast.robustness.empty()) return;
    const auto& words = here.telling.words.page;
    const auto& figures = here.telling.figures;
    Table table{"robustness-table-" + here.stem, named(here, words.robustness_table), {words.changed}, {}};
    append(table.headings, figures.headings(words.difference));
    append(table.headings, figures.headings(words.range));
    const auto rows = robustness_rows(here);
    for (const auto& row : rows) {
        std::vector<std::string> cells = {row.label};
        append(cells, figures.cells(row.gain_t_ha, true));
        append(cells, figures.cells(row.range_t_ha));
        table.rows.push_back(cells);
    }
    const auto figure = html.in("figure");
    html.leaf("figcaption", heading(here, words.robustness));
    draw_differences(html, here.telling,
                     {"robustness-" + here.stem, words.robustness,
                      described(here, words.robustness_text, {differences_in_words(here.telling, rows)})},
                     rows);
    if (here.first) html.leaf("p", words.robustness_note, {{"class", "note"}});
    write_folded_table(html, words.as_table, table);
}

} // namespace

void write_contrast_charts(Html& html, const Telling& telling, ContrastPlace place) {
    const auto& field = telling.results.comparison.fields[place.field];
    const Here here{telling, field, field.contrasts[place.contrast],
                    std::to_string(place.field + 1) + "-" + std::to_string(place.contrast + 1), place.contrast == 0};
    write_pairs(html, here);
    write_budget(html, here);
    write_robustness(html, here);
}

} // namespace quartercut::report
