// SPDX-License-Identifier: MIT
// The season at a glance: where the fields lie, every difference on one scale, and where the uncertainty comes from.
#include "report/budget.hpp"
#include "report/chart.hpp"
#include "report/map.hpp"
#include "report/sections.hpp"
#include "report/sentences.hpp"
#include "report/table.hpp"

#include <algorithm>

namespace quartercut::report {
namespace {

using fmt::arg;

DifferenceRow row_of(const Telling& telling, const FieldComparison& field, const Contrast& contrast) {
    DifferenceRow row;
    const auto& words = telling.words.page;
    const bool all_pairs = telling.season().comparison.all_pairs;
    const char* pattern = all_pairs                             ? words.row_of_pair
                          : telling.season().methods.size() > 2 ? words.row_of_method
                                                                : "{field}";
    row.label =
        fill(pattern, arg("field", field.name), arg("method", contrast.method), arg("baseline", contrast.baseline));
    row.gain_t_ha = contrast.gain_t_ha;
    row.range_t_ha = contrast.ci95_total_t_ha ? contrast.ci95_total_t_ha : contrast.ci95_t_ha;
    row.style = finding_style(contrast.finding);
    return row;
}

std::vector<DifferenceRow> all_rows(const Telling& telling) {
    std::vector<DifferenceRow> rows;
    for (const auto& field : telling.results.comparison.fields) {
        for (const auto& contrast : field.contrasts) {
            if (!contrast.stratum && contrast.gain_t_ha) rows.push_back(row_of(telling, field, contrast));
        }
    }
    for (const auto& farm : telling.results.comparison.farm) {
        if (!farm.gain_t_ha || !is_told(farm) || farm.finding == Finding::not_comparable) continue;
        DifferenceRow row;
        row.label = together(telling, farm);
        row.gain_t_ha = farm.gain_t_ha;
        row.range_t_ha = farm.ci95_total_t_ha ? farm.ci95_total_t_ha : farm.ci95_t_ha;
        // Not drawn where it is narrower than the range of the mean: it would claim more than is known.
        const auto& mean = row.range_t_ha;
        const auto& next = farm.prediction95_t_ha;
        if (next && mean && (*next)[0] <= (*mean)[0] && (*next)[1] >= (*mean)[1]) row.prediction_t_ha = next;
        row.style = finding_style(farm.finding);
        row.sum = true;
        rows.push_back(row);
    }
    return rows;
}

Table differences_table(const Telling& telling) {
    const auto& words = telling.words.page;
    Table table{"differences", words.forest, {words.what, words.layout, words.finding}, {}, 3};
    append(table.headings, telling.figures.headings(words.difference));
    append(table.headings, telling.figures.headings(words.range));
    append(table.headings, telling.figures.headings(words.raw_difference));
    for (const auto& field : telling.results.comparison.fields) {
        for (const auto& contrast : field.contrasts) {
            std::string name = fill(words.row_of_pair, arg("field", field.name), arg("method", contrast.method),
                                    arg("baseline", contrast.baseline));
            if (contrast.stratum) name += ", " + *contrast.stratum;
            std::vector<std::string> row = {name, evidence_text(contrast.evidence), finding_text(contrast.finding)};
            append(row, telling.figures.cells(contrast.gain_t_ha, true));
            append(row, telling.figures.cells(contrast.ci95_total_t_ha));
            append(row, telling.figures.cells(contrast.raw_gain_t_ha, true));
            table.rows.push_back(row);
        }
    }
    for (const auto& farm : telling.results.comparison.farm) {
        if (!is_told(farm)) continue;
        std::vector<std::string> row = {fill(words.row_of_pair, arg("field", words.all_fields),
                                             arg("method", farm.method), arg("baseline", farm.baseline)),
                                        evidence_text(farm.evidence), finding_text(farm.finding)};
        append(row, telling.figures.cells(farm.gain_t_ha, true));
        append(row, telling.figures.cells(farm.ci95_total_t_ha));
        append(row, telling.figures.cells(std::optional<double>{}));
        table.rows.push_back(row);
    }
    return table;
}

void write_forest(Html& html, const Telling& telling, const std::vector<DifferenceRow>& rows) {
    const auto& words = telling.words.page;
    const auto& season = telling.season();
    const auto figure = html.in("figure");
    html.leaf("figcaption", words.forest);
    const std::string said = fill(words.forest_text, arg("rows", differences_in_words(telling, rows)));
    draw_differences(html, telling, {"forest", words.forest, said}, rows);
    const bool one = !season.comparison.all_pairs && season.methods.size() == 2;
    const std::string right = one ? season.methods[season.baseline_code() == 0 ? 1 : 0].name : words.first_named;
    std::string note = fill(words.forest_note, arg("method", right));
    const bool dashed = std::any_of(rows.begin(), rows.end(), [](const auto& row) { return row.prediction_t_ha; });
    if (dashed) note += std::string(" ") + words.forest_dashed;
    const auto& farm = telling.results.comparison.farm;
    if (dashed && std::any_of(farm.begin(), farm.end(), fields_agree)) note += std::string(" ") + words.forest_agree;
    if (runs_beyond(telling, rows)) note += std::string(" ") + words.forest_cut;
    html.leaf("p", note, {{"class", "note"}});
}

// Of the best evidence only; the others stand with the agronomist's numbers.
void write_first_farm_budget(Html& html, const Telling& telling) {
    const auto& farm = telling.results.comparison.farm;
    for (std::size_t i = 0; i < farm.size(); ++i) {
        if (is_told(farm[i])) return write_farm_budget(html, telling, i);
    }
}

} // namespace

void write_glance(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "glance"}, {"aria-labelledby", "glance-heading"}});
    html.leaf("h2", words.farm_view, {{"id", "glance-heading"}});
    const auto rows = all_rows(telling);
    {
        const auto pair = html.in("div", {{"class", "maps"}});
        write_season_map(html, telling);
        if (!rows.empty()) {
            const auto beside = html.in("div");
            write_forest(html, telling, rows);
            write_first_farm_budget(html, telling);
        }
    }
    if (!rows.empty()) write_folded_table(html, words.as_table_of_all, differences_table(telling));
}

} // namespace quartercut::report
