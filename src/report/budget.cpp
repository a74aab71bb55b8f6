// SPDX-License-Identifier: MIT
// Bars of the error budget (budget.hpp).
#include "report/budget.hpp"

#include "report/tokens.hpp"

#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

void add_bar(BudgetBars& out, const Telling& telling, const BudgetLine& line, const char* style) {
    if (!std::isfinite(line.u_t_ha)) return;
    const std::string label = source_text(line.source);
    const auto written = [&](const Figures& in) { return in.cells(line.u_t_ha).front() + " " + in.unit(); };
    const std::string shown = written(telling.figures);
    out.bars.push_back({label, telling.figures.in_unit(line.u_t_ha), shown, style,
                        telling.figures.speaks_si() ? "" : written(telling.figures.in_si())});
    const std::string told = line.shared ? fill(telling.words.page.shared_said, arg("source", label)) : label;
    out.said.push_back(told + " " + shown);
}

void add_total(BudgetBars& out, const Telling& telling, const std::optional<double>& u_total_t_ha) {
    if (u_total_t_ha) add_bar(out, telling, {telling.words.page.total, *u_total_t_ha, 0.0, false}, "total");
}

} // namespace

std::string together(const Telling& telling, const FarmContrast& farm) {
    const auto& words = telling.words.page;
    const std::string text =
        fill(words.together, arg("count", std::to_string(farm.fields)), arg("evidence", evidence_short(farm.evidence)));
    if (telling.season().methods.size() <= 2) return text;
    return fill(words.row_of_method, arg("field", text), arg("method", farm.method));
}

BudgetBars contrast_bars(const Telling& telling, const Contrast& contrast) {
    BudgetBars out;
    for (const auto& line : contrast.budget)
        add_bar(out, telling, line, line.shared ? "shared" : "own");
    add_total(out, telling, contrast.u_total_t_ha);
    return out;
}

void write_farm_budget(Html& html, const Telling& telling, std::size_t index) {
    const auto& farm = telling.results.comparison.farm[index];
    const auto& words = telling.words.page;
    if (farm.budget.empty() || !farm.se_t_ha) return;
    BudgetBars budget;
    add_bar(budget, telling, {error_source::sampling, *farm.se_t_ha, 0.0, false}, "own");
    for (const auto& line : farm.budget) {
        if (line.source != error_source::sampling)
            add_bar(budget, telling, {line.source, line.u_t_ha, line.df, true}, "shared");
    }
    add_total(budget, telling, farm.u_total_t_ha);
    const auto figure = html.in("figure");
    const std::string caption = fill(words.farm_budget, arg("who", together(telling, farm)));
    html.leaf("figcaption", caption);
    const std::string rows = fmt::format("{}", fmt::join(budget.said, "; "));
    draw_bars(html,
              {"farm-budget-" + std::to_string(index + 1), caption, fill(words.farm_budget_text, arg("rows", rows))},
              budget.bars);
    html.leaf("p", words.budget_note, {{"class", "note"}});
}

} // namespace quartercut::report
