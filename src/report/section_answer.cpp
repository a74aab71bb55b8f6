// SPDX-License-Identifier: MIT
// What the page opens with: the answer for the farm, then field by field, then the season at a glance.
#include "report/chart.hpp"
#include "report/map.hpp"
#include "report/sections.hpp"
#include "report/sentences.hpp"
#include "report/table.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

void write_farm_answers(Html& html, const Telling& telling) {
    for (const auto& contrast : telling.results.comparison.farm) {
        html.leaf("p", farm_sentence(telling, contrast),
                  {{"class", "answer " + std::string(finding_style(contrast.finding))},
                   {"data-finding", finding_word(contrast.finding)}});
        const std::string raw = farm_raw_sentence(telling, contrast);
        if (!raw.empty()) html.leaf("p", raw, {{"class", "raw"}});
    }
}

void write_field_answer(Html& html, const Telling& telling, std::size_t index) {
    const auto& field = telling.results.comparison.fields[index];
    const auto item = html.in("li");
    html.leaf("a", field.name, {{"href", "#field-" + std::to_string(index + 1)}, {"class", "field-name"}});
    bool any = false;
    for (const auto& contrast : field.contrasts) {
        if (contrast.stratum) continue;
        any = true;
        html.leaf("p", field_sentence(telling, field, contrast),
                  {{"class", std::string(finding_style(contrast.finding))},
                   {"data-finding", finding_word(contrast.finding)}});
        const std::string raw = raw_sentence(telling, contrast, index);
        if (!raw.empty()) html.leaf("p", raw, {{"class", "raw"}});
    }
    if (!any) html.leaf("p", lone_field_sentence(telling, index));
}

// A label that repeats the name is none.
bool says_nothing(const Method& method) { return method.label.empty() || method.label == method.name; }

void write_methods(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto& season = telling.season();
    html.leaf("h3", words.meant_by);
    const auto& methods = season.methods;
    if (std::all_of(methods.begin(), methods.end(), [](const auto& method) { return says_nothing(method); })) {
        std::vector<std::string> others;
        for (const auto& method : methods) {
            if (method.name != season.baseline) others.push_back(method.name);
        }
        html.leaf("p", capital(fill(words.no_labels, arg("others", fmt::format("{}", fmt::join(others, ", "))),
                                    arg("baseline", season.baseline))));
        return;
    }
    const auto list = html.in("dl", {{"class", "meanings"}});
    for (const auto& method : season.methods) {
        html.leaf("dt", method.name);
        std::string meaning = says_nothing(method) ? words.no_label : method.label;
        if (method.name == season.baseline) meaning += " – " + std::string(words.compared_with);
        html.leaf("dd", meaning);
    }
}

DifferenceRow row_of(const Telling& telling, const FieldComparison& field, const Contrast& contrast) {
    DifferenceRow row;
    row.label = field.name;
    if (telling.season().comparison.all_pairs) row.label += ": " + contrast.method + " – " + contrast.baseline;
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
        if (!farm.gain_t_ha) continue;
        DifferenceRow row;
        row.label = fill(telling.words.page.together, arg("count", std::to_string(farm.fields)),
                         arg("evidence", evidence_short(farm.evidence)));
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

// The farm's own spread and what all fields share.
void write_farm_budget(Html& html, const Telling& telling, std::size_t index) {
    const auto& farm = telling.results.comparison.farm[index];
    const auto& words = telling.words.page;
    if (farm.budget.empty() || !farm.se_t_ha) return;
    std::vector<Bar> bars;
    std::vector<std::string> said;
    const auto add = [&](const std::string& label, std::optional<double> u_t_ha, const char* style) {
        if (!u_t_ha || !std::isfinite(*u_t_ha)) return;
        const std::string shown = telling.figures.cells(u_t_ha).front() + " " + telling.figures.unit();
        bars.push_back({label, telling.figures.in_unit(*u_t_ha), shown, style});
        said.push_back(label + " " + shown);
    };
    add("sampling", farm.se_t_ha, "own");
    for (const auto& line : farm.budget) {
        if (line.source != "sampling") add(line.source + " (" + words.shared_short + ")", line.u_t_ha, "shared");
    }
    add(words.total, farm.u_total_t_ha, "total");
    const auto figure = html.in("figure");
    const std::string caption =
        std::string(words.budget) + ", " +
        fill(words.together, arg("count", std::to_string(farm.fields)), arg("evidence", evidence_short(farm.evidence)));
    html.leaf("figcaption", caption);
    draw_bars(html,
              {"farm-budget-" + std::to_string(index + 1), caption,
               fill(words.farm_budget_text, arg("rows", fmt::format("{}", fmt::join(said, "; "))))},
              bars);
}

Table differences_table(const Telling& telling) {
    const auto& words = telling.words.page;
    Table table{"differences", words.forest, {words.what, words.layout, words.finding}, {}, 3};
    append(table.headings, telling.figures.headings(words.difference));
    append(table.headings, telling.figures.headings(words.range));
    append(table.headings, telling.figures.headings(words.raw_difference));
    for (const auto& field : telling.results.comparison.fields) {
        for (const auto& contrast : field.contrasts) {
            std::string name = field.name + ": " + contrast.method + " – " + contrast.baseline;
            if (contrast.stratum) name += ", " + *contrast.stratum;
            std::vector<std::string> row = {name, evidence_text(contrast.evidence), finding_text(contrast.finding)};
            append(row, telling.figures.cells(contrast.gain_t_ha, true));
            append(row, telling.figures.cells(contrast.ci95_total_t_ha));
            append(row, telling.figures.cells(contrast.raw_gain_t_ha, true));
            table.rows.push_back(row);
        }
    }
    for (const auto& farm : telling.results.comparison.farm) {
        std::vector<std::string> row = {std::string(words.all_fields) + ": " + farm.method + " – " + farm.baseline,
                                        evidence_text(farm.evidence), finding_text(farm.finding)};
        append(row, telling.figures.cells(farm.gain_t_ha, true));
        append(row, telling.figures.cells(farm.ci95_total_t_ha));
        append(row, telling.figures.cells(std::optional<double>{}));
        table.rows.push_back(row);
    }
    return table;
}

} // namespace

void write_answer(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "answer"}, {"aria-labelledby", "answer-heading"}});
    html.leaf("h2", words.answer, {{"id", "answer-heading"}});
    const auto& comparison = telling.results.comparison;
    if (comparison.fields.empty()) html.leaf("p", telling.words.answer.nothing, {{"class", "answer none"}});
    write_farm_answers(html, telling);
    if (!comparison.fields.empty()) {
        html.leaf("h3", words.by_field);
        const auto list = html.in("ul", {{"class", "field-answers"}});
        for (std::size_t i = 0; i < comparison.fields.size(); ++i)
            write_field_answer(html, telling, i);
    }
    html.leaf("p", words.answer_note, {{"class", "note"}});
    if (telling.season().methods.size() > 2) html.leaf("p", words.several_note, {{"class", "note"}});
    write_methods(html, telling);
}

void write_glance(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "glance"}, {"aria-labelledby", "glance-heading"}});
    html.leaf("h2", words.farm_view, {{"id", "glance-heading"}});
    const auto pair = html.in("div", {{"class", "maps"}});
    write_season_map(html, telling);
    const auto rows = all_rows(telling);
    if (rows.empty()) return;
    const auto figure = html.in("figure");
    html.leaf("figcaption", words.forest);
    const std::string said = fill(words.forest_text, arg("rows", differences_in_words(telling, rows)));
    draw_differences(html, telling, {"forest", words.forest, said}, rows);
    const std::string method = telling.results.comparison.farm.empty() ? "" : telling.results.comparison.farm[0].method;
    const bool one = !method.empty() && !telling.season().comparison.all_pairs && telling.season().methods.size() == 2;
    html.leaf("p", fill(words.forest_note, arg("method", one ? method : "the method named first")),
              {{"class", "note"}});
    write_folded_table(html, words.as_table, differences_table(telling));
    for (std::size_t i = 0; i < telling.results.comparison.farm.size(); ++i)
        write_farm_budget(html, telling, i);
}

} // namespace quartercut::report
