// SPDX-License-Identifier: MIT
// Losses counted, grain samples, and the weather while each crop was out.
#include "report/plan_parts.hpp"
#include "report/telling.hpp"
#include "report/tokens.hpp"

#include <fmt/ranges.h>

#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

std::vector<std::string> stages_said(const std::vector<std::string>& tokens) {
    std::vector<std::string> out;
    for (const std::string& token : tokens)
        out.push_back(stage_token_text(token));
    return out;
}

const char* stage_text(const LossWords& words, LossStage stage) {
    switch (stage) {
    case LossStage::before_cutting:
        return words.before_cutting;
    case LossStage::behind_header:
        return words.behind_header;
    case LossStage::behind_machine:
        return words.behind_machine;
    }
    return "";
}

struct LossRow {
    std::string way, what;
    double kg_ha;
    const std::optional<Interval>& ci95_kg_ha;
    std::string places;
};

void add_row(Table& table, const Telling& telling, const LossRow& loss) {
    std::vector<std::string> row{loss.way, loss.what, loss.places, fixed(loss.kg_ha, 1)};
    append(row, telling.figures.cells(std::optional(loss.kg_ha / kg_per_tonne)));
    row.push_back(range_or_unknown(loss.ci95_kg_ha, 1));
    table.rows.push_back(std::move(row));
}

Table losses_table(const Telling& telling, const LossResult& losses) {
    const auto& words = telling.words.losses;
    Table table{"losses-table", words.table, {words.way, words.when, words.places, words.kg_ha}, {}, 3};
    append(table.headings, telling.figures.headings(words.loss));
    table.headings.emplace_back(words.range_kg_ha);
    for (const MethodLoss& loss : losses.methods) {
        const std::string way = label_of(telling.season(), loss.method);
        for (const StageLoss& stage : loss.stages)
            add_row(table, telling,
                    {way, stage_text(words, stage.stage), stage.loss_kg_ha, stage.ci95_kg_ha,
                     fill(words.places_cell, arg("places", stage.places), arg("trays", stage.trays),
                          arg("from", stage.interval_from))});
        add_row(table, telling, {way, words.together, loss.total_kg_ha, loss.ci95_kg_ha, ""});
    }
    return table;
}

void write_method_loss(Html& html, const Telling& telling, const MethodLoss& loss) {
    const auto& words = telling.words.losses;
    const std::string way = label_of(telling.season(), loss.method);
    if (loss.crop_had_t_ha)
        html.leaf("p",
                  fill(words.crop_had, arg("way", way), arg("yield", telling.figures.both(*loss.yield_t_ha)),
                       arg("loss", fixed(loss.total_kg_ha, 0)), arg("crop", telling.figures.both(*loss.crop_had_t_ha)),
                       arg("of_yield", fixed(*loss.loss_of_yield_pct, 1)),
                       arg("of_crop", fixed(*loss.loss_of_crop_pct, 1))));
    if (!loss.not_counted.empty())
        html.leaf("p",
                  fill(words.not_counted, arg("way", way),
                       arg("stages", fmt::format("{}", fmt::join(stages_said(loss.not_counted), ", ")))),
                  {{"class", "note"}});
}

void write_loss_sentences(Html& html, const Telling& telling, const LossResult& losses) {
    const auto& words = telling.words.losses;
    for (const LossDifference& d : losses.differences) {
        const std::string range = d.ci95_kg_ha ? fill(words.range, arg("low", with_sign((*d.ci95_kg_ha)[0], 1)),
                                                      arg("high", with_sign((*d.ci95_kg_ha)[1], 1)))
                                               : std::string(words.range_unknown);
        html.leaf(
            "p",
            fill(d.difference_kg_ha < 0.0 ? words.less : words.more, arg("way", label_of(telling.season(), d.method)),
                 arg("size", fixed(std::abs(d.difference_kg_ha), 1)),
                 arg("baseline", label_of(telling.season(), d.baseline)), arg("over", d.over), arg("range", range)),
            {{"class", "said"}});
    }
    for (const MethodLoss& loss : losses.methods)
        write_method_loss(html, telling, loss);
}

Table samples_table(const Telling& telling, const std::vector<SampleDifference>& samples) {
    const auto& words = telling.words.losses;
    Table table{"samples-table", words.samples_table, {words.property, words.way, words.compared_in}, {}, 3};
    append(table.headings, {words.mean, words.baseline, words.difference, words.range_heading});
    for (const SampleDifference& s : samples)
        table.rows.push_back({s.property, label_of(telling.season(), s.method), units_text(s.units, s.how),
                              fixed(s.mean, 2), fixed(s.baseline_mean, 2), with_sign(s.difference, 2),
                              range_or_unknown(s.ci95, 2, true)});
    return table;
}

std::string gust_cell(const Telling& telling, const WeatherWindow& w) {
    if (!w.gust_km_h) return or_unknown(w.gust_km_h, 0);
    return fill(telling.words.weather.gust_on, arg("gust", fixed(*w.gust_km_h, 0)), arg("day", date_of(w.gust_day)));
}

Table windows_table(const Telling& telling, const WeatherResult& weather) {
    const auto& words = telling.words.weather;
    Table table{"weather-table", words.table, {words.field, words.way, words.state, words.from, words.to}, {}, 5};
    append(table.headings, {words.days_known, words.rain, words.rain_days, words.highest_gust});
    for (const WeatherWindow& w : weather.windows)
        table.rows.push_back({w.field, label_of(telling.season(), w.method), w.state, date_of(w.first_day),
                              date_of(w.last_day), std::to_string(w.days_known), fixed(w.rain_mm, 1),
                              std::to_string(w.rain_days), gust_cell(telling, w)});
    return table;
}

void write_days(Html& html, const Telling& telling, const WeatherWindow& w, std::size_t number) {
    const auto& words = telling.words.weather;
    Table days{fmt::format("weather-{}", number),
               fill(words.by_day, arg("field", w.field), arg("way", label_of(telling.season(), w.method))),
               {words.day, words.rain, words.gust},
               {},
               1};
    for (const WeatherDay& day : w.days)
        days.rows.push_back({date_of(day.day), or_unknown(day.rain_mm, 1), or_unknown(day.gust_km_h, 0)});
    if (!days.rows.empty()) write_folded_table(html, days.caption, days);
}

} // namespace

void write_losses(Html& html, const Telling& telling) {
    const PlanResults& plan = telling.results.plan;
    if (!plan.losses && plan.samples.empty()) return;
    const auto section = html.in("section", {{"id", "losses"}, {"aria-labelledby", "losses-heading"}});
    html.leaf("h2", telling.words.plan.losses, {{"id", "losses-heading"}});
    if (plan.losses) {
        write_loss_sentences(html, telling, *plan.losses);
        write_table(html, losses_table(telling, *plan.losses));
        html.leaf("p", telling.words.plan.pan_caution, {{"class", "note"}});
    }
    if (!plan.samples.empty()) write_table(html, samples_table(telling, plan.samples));
}

void write_weather(Html& html, const Telling& telling) {
    const auto& weather = telling.results.plan.weather;
    if (!weather) return;
    const auto section = html.in("section", {{"id", "weather"}, {"aria-labelledby", "weather-heading"}});
    html.leaf("h2", telling.words.plan.weather, {{"id", "weather-heading"}});
    html.leaf("p", telling.words.weather.note);
    write_table(html, windows_table(telling, *weather));
    for (std::size_t i = 0; i < weather->windows.size(); ++i)
        write_days(html, telling, weather->windows[i], i + 1);
    write_list(html, weather->gaps);
}

} // namespace quartercut::report
