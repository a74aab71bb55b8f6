// SPDX-License-Identifier: MIT
// What cleaning did, in counts, spreads and means; the delays and calibrations it used.
#include "report/chart.hpp"
#include "report/map_parts.hpp"
#include "report/sections.hpp"
#include "report/table.hpp"
#include "report/tokens.hpp"

#include <algorithm>

#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

std::string field_name(const Telling& telling, std::size_t i) { return telling.results.standardised.fields[i].name; }

Table removed_table(const Telling& telling) {
    const auto& words = telling.words.page;
    Table table{"removed", words.cleaning_removed_table, {words.reason}, {}};
    const std::size_t fields = telling.results.cleaned.fields.size();
    std::vector<RemovedRecords> all;
    for (std::size_t i = 0; i < fields; ++i) {
        table.headings.push_back(field_name(telling, i));
        all.push_back(removed_records(telling, i));
    }
    for (std::size_t k = 1; k < removal_count; ++k) {
        std::vector<std::string> row = {removal_text(static_cast<Removal>(k))};
        std::size_t sum = 0;
        for (const auto& field : all) {
            row.push_back(count(field.counts[k]));
            sum += field.counts[k];
        }
        if (sum > 0) table.rows.push_back(row);
    }
    std::vector<std::string> used = {words.used};
    for (std::size_t i = 0; i < fields; ++i) {
        used.push_back(count(telling.results.cleaned.fields[i].removal.size() - all[i].total));
    }
    table.rows.push_back(used);
    return table;
}

void write_share_chart(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto& w = telling.words.sheets;
    std::vector<Bar> bars;
    std::vector<std::string> said;
    for (std::size_t i = 0; i < telling.results.cleaned.fields.size(); ++i) {
        const std::size_t records = telling.results.cleaned.fields[i].removal.size();
        if (records == 0) continue;
        const std::size_t used = records - removed_records(telling, i).total;
        const double share = 100.0 * static_cast<double>(used) / static_cast<double>(records);
        const std::string shown = count(used) + w.count_of + count(records) + " (" + fixed(share, 0) + " %)";
        bars.push_back({field_name(telling, i), share, shown, "own"});
        said.push_back(field_name(telling, i) + " " + shown + " " + words.used);
    }
    if (bars.empty()) return;
    const auto figure = html.in("figure");
    html.leaf("figcaption", words.cleaning_chart);
    draw_bars(html,
              {"used-records", words.cleaning_chart,
               fill(words.cleaning_chart_text, arg("rows", fmt::format("{}", fmt::join(said, "; "))))},
              bars, 100.0);
}

// The plain difference to the baseline, as logged and after each step.
void draw_step_differences(Html& html, const Telling& telling, std::size_t index, std::size_t method) {
    const auto& season = telling.season();
    const int baseline = season.baseline_code();
    if (baseline < 0 || static_cast<int>(method) == baseline) return;
    const auto difference = [&](const std::vector<double>& means) -> std::optional<double> {
        const auto base = static_cast<std::size_t>(baseline);
        if (method >= means.size() || base >= means.size()) return std::nullopt;
        const double found = means[method] - means[base];
        return std::isfinite(found) ? std::optional<double>(found) : std::nullopt;
    };
    const auto& words = telling.words.page;
    std::vector<DifferenceRow> rows;
    const auto add = [&rows](const std::string& label, std::optional<double> gain_t_ha) {
        if (!gain_t_ha) return;
        DifferenceRow row;
        row.label = label;
        row.gain_t_ha = gain_t_ha;
        rows.push_back(row);
    };
    const auto& steps = telling.results.cleaned.fields[index].steps;
    if (!steps.empty()) add(words.as_logged, difference(steps.front().mean_before_t_ha));
    for (const auto& step : steps) {
        if (step.on) add(step_text(step.step), difference(step.mean_after_t_ha));
    }
    if (rows.empty()) return;
    const auto figure = html.in("figure");
    const std::string caption = fill(words.steps_chart, arg("field", field_name(telling, index)),
                                     arg("method", season.methods[method].name), arg("baseline", season.baseline));
    html.leaf("figcaption", caption);
    draw_differences(html, telling,
                     {"steps-chart-" + std::to_string(index + 1) + "-" + std::to_string(method + 1), caption,
                      differences_in_words(telling, rows)},
                     rows);
}

// Method means before and after every step, so that one sees which step moved the difference.
Table steps_table(const Telling& telling, std::size_t index) {
    const auto& words = telling.words.page;
    const auto& w = telling.words.sheets;
    const auto& methods = telling.season().methods;
    Table table{"steps-" + std::to_string(index + 1),
                fill(words.cleaning_steps_table, arg("field", field_name(telling, index))),
                {words.step, words.kept_before, words.kept_after, words.spread_before, words.spread_after},
                {}};
    for (const auto& method : methods)
        table.headings.push_back(method.name + w.mean_before + telling.figures.unit() + ")");
    for (const auto& method : methods)
        table.headings.push_back(method.name + w.mean_after + telling.figures.unit() + ")");
    for (const auto& step : telling.results.cleaned.fields[index].steps) {
        std::vector<std::string> row = {step.on ? step_text(step.step) : step_text(step.step) + " (" + words.off + ")",
                                        count(step.records_before), count(step.records_after),
                                        fixed(step.cv_before_pct, 1), fixed(step.cv_after_pct, 1)};
        for (const auto* means : {&step.mean_before_t_ha, &step.mean_after_t_ha}) {
            for (std::size_t m = 0; m < methods.size(); ++m) {
                const bool known = m < means->size() && std::isfinite((*means)[m]);
                row.push_back(known ? telling.figures.cells((*means)[m]).front() : "");
            }
        }
        table.rows.push_back(row);
    }
    return table;
}

void write_steps(Html& html, const Telling& telling, std::size_t index) {
    if (telling.results.cleaned.fields[index].steps.empty() || !telling.draws_each_field()) return;
    const Table table = steps_table(telling, index);
    const Table in_si = steps_table(telling.in_si(), index);
    const auto details = html.in("details");
    html.leaf("summary", table.caption);
    for (std::size_t m = 0; m < telling.season().methods.size(); ++m)
        draw_step_differences(html, telling, index, m);
    write_table(html, table, &in_si);
}

void write_lags(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto& w = telling.words.sheets;
    Table table{
        "delays", words.lag_table, {w.field, w.machine, words.method, w.lag_outcome, w.lag_delay, w.lag_range}, {}, 4};
    for (std::size_t i = 0; i < telling.results.cleaned.fields.size(); ++i) {
        for (const auto& lag : telling.results.cleaned.fields[i].lag) {
            const bool known = std::isfinite(lag.low_s) && std::isfinite(lag.high_s);
            table.rows.push_back({field_name(telling, i), lag.machine, lag.method,
                                  std::string(lag.applied ? w.lag_applied : w.lag_not_applied) + lag.why,
                                  fixed(lag.lag_s, 1),
                                  known ? range_or_unknown(Interval{lag.low_s, lag.high_s}, 1) : ""});
        }
    }
    if (!table.rows.empty()) write_folded_table(html, table.caption, table);
}

void write_calibration(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto& w = telling.words.sheets;
    Table table{"calibration",
                words.calibration_table,
                {w.machine, words.method, w.calibration_from, w.calibration_loads, w.calibration_factor,
                 w.calibration_uncertainty},
                {},
                3};
    for (const auto& used : telling.results.cleaned.calibration) {
        table.rows.push_back({used.machine, used.method, calibration_text(used.source), std::to_string(used.loads),
                              fixed(used.factor, 4), fixed(100.0 * used.u_rel, 2)});
    }
    if (!table.rows.empty()) write_folded_table(html, table.caption, table);
}

} // namespace

void write_cleaning(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "cleaning"}, {"aria-labelledby", "cleaning-heading"}});
    html.leaf("h2", words.cleaning, {{"id", "cleaning-heading"}});
    html.leaf("p", words.cleaning_note);
    write_share_chart(html, telling);
    write_table(html, removed_table(telling));
    const auto& fields = telling.results.cleaned.fields;
    if (std::any_of(fields.begin(), fields.end(), [](const auto& field) { return !field.steps.empty(); }))
        html.leaf("p", words.steps_chart_note, {{"class", "note"}});
    for (std::size_t i = 0; i < fields.size(); ++i)
        write_steps(html, telling, i);
    write_lags(html, telling);
    write_calibration(html, telling);
}

} // namespace quartercut::report
