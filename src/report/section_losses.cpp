// SPDX-License-Identifier: MIT
// Losses counted, grain samples, and the weather while each crop was out.
#include "report/plan_parts.hpp"
#include "report/telling.hpp"

#include <fmt/ranges.h>

namespace quartercut::report {
namespace {

const char* stage_text(LossStage stage) {
    switch (stage) {
    case LossStage::before_cutting:
        return "before cutting (shatter and pod drop)";
    case LossStage::behind_header:
        return "behind the header";
    case LossStage::behind_machine:
        return "out of the machine";
    }
    return "";
}

void add_row(Table& table, const Telling& telling, const std::string& way, const std::string& what, double kg_ha,
             const std::optional<Interval>& ci, const std::string& places) {
    std::vector<std::string> row{way, what, places, fixed(kg_ha, 1)};
    append(row, telling.figures.cells(std::optional(kg_ha / kg_per_tonne)));
    row.push_back(ci ? fmt::format("{} to {}", fixed((*ci)[0], 1), fixed((*ci)[1], 1)) : "not known");
    table.rows.push_back(std::move(row));
}

Table losses_table(const Telling& telling, const LossResult& losses) {
    Table table{"losses-table", "Grain left on the land", {"Way", "When", "Places (trays)", "kg/ha"}, {}, 3};
    append(table.headings, telling.figures.headings("Loss"));
    table.headings.emplace_back("95 % (kg/ha)");
    for (const MethodLoss& loss : losses.methods) {
        const std::string way = label_of(telling.season(), loss.method);
        for (const StageLoss& stage : loss.stages)
            add_row(table, telling, way, stage_text(stage.stage), stage.loss_kg_ha, stage.ci95_kg_ha,
                    fmt::format("{} ({}); {}", stage.places, stage.trays, stage.interval_from));
        add_row(table, telling, way, "together", loss.total_kg_ha, loss.ci95_kg_ha, "");
    }
    return table;
}

void write_loss_sentences(Html& html, const Telling& telling, const LossResult& losses) {
    for (const MethodLoss& loss : losses.methods) {
        if (loss.crop_had_t_ha)
            html.leaf("p", fmt::format("{}: {} in the bin and {} kg/ha lost: the crop had {}. The loss is {} % of the "
                                       "yield, {} % of what the crop had.",
                                       label_of(telling.season(), loss.method), telling.figures.both(*loss.yield_t_ha),
                                       fixed(loss.total_kg_ha, 0), telling.figures.both(*loss.crop_had_t_ha),
                                       fixed(*loss.loss_of_yield_pct, 1), fixed(*loss.loss_of_crop_pct, 1)));
        if (!loss.not_counted.empty())
            html.leaf("p",
                      fmt::format("{}: not counted: {}; the total is without it.",
                                  label_of(telling.season(), loss.method), fmt::join(loss.not_counted, ", ")),
                      {{"class", "note"}});
    }
    for (const LossDifference& d : losses.differences) {
        const std::string range = d.ci95_kg_ha ? fmt::format(", 95 % from {} to {}", fixed((*d.ci95_kg_ha)[0], 1),
                                                             fixed((*d.ci95_kg_ha)[1], 1))
                                               : std::string(", how sure is not known");
        html.leaf("p",
                  fmt::format("{} lost {} kg/ha against {} ({}){}.", label_of(telling.season(), d.method),
                              with_sign(d.difference_kg_ha, 1), label_of(telling.season(), d.baseline), d.over, range));
    }
}

Table samples_table(const Telling& telling, const std::vector<SampleDifference>& samples) {
    Table table{"samples-table", "Grain samples", {"Property", "Way", "Compared in"}, {}, 3};
    for (const char* heading : {"Mean", "Baseline", "Difference", "95 %"})
        table.headings.emplace_back(heading);
    for (const SampleDifference& s : samples)
        table.rows.push_back(
            {s.property, label_of(telling.season(), s.method), fmt::format("{} {}", s.units, s.how), fixed(s.mean, 2),
             fixed(s.baseline_mean, 2), with_sign(s.difference, 2),
             s.ci95 ? fmt::format("{} to {}", with_sign((*s.ci95)[0], 2), with_sign((*s.ci95)[1], 2)) : "not known"});
    return table;
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
        html.leaf("p", pan_caution, {{"class", "note"}});
    }
    if (!plan.samples.empty()) write_table(html, samples_table(telling, plan.samples));
}

void write_weather(Html& html, const Telling& telling) {
    const auto& weather = telling.results.plan.weather;
    if (!weather) return;
    const auto section = html.in("section", {{"id", "weather"}, {"aria-labelledby", "weather-heading"}});
    html.leaf("h2", telling.words.plan.weather, {{"id", "weather-heading"}});
    html.leaf("p",
              "What fell and blew while each crop was out. It is listed beside the result; no yield was changed for "
              "it, and no gust is called too strong: no threshold has been published.");
    Table table{"weather-table", "While the crop was out", {"Field", "Way", "State", "From", "To"}, {}, 5};
    for (const char* heading : {"Days on record", "Rain (mm)", "Days with rain", "Highest gust (km/h)"})
        table.headings.emplace_back(heading);
    for (const WeatherWindow& w : weather->windows)
        table.rows.push_back(
            {w.field, label_of(telling.season(), w.method), w.state, day_text(w.first_day), day_text(w.last_day),
             std::to_string(w.days_known), fixed(w.rain_mm, 1), std::to_string(w.rain_days),
             w.gust_km_h ? fmt::format("{} on {}", fixed(*w.gust_km_h, 0), day_text(w.gust_day)) : "not known"});
    write_table(html, table);
    for (const WeatherWindow& w : weather->windows) {
        Table days{fmt::format("weather-{}-{}", slug(w.field), slug(w.method)),
                   fmt::format("{}, {}: day by day", w.field, label_of(telling.season(), w.method)),
                   {"Day", "Rain (mm)", "Gust (km/h)"},
                   {},
                   1};
        for (const WeatherDay& day : w.days)
            days.rows.push_back({day_text(day.day), day.rain_mm ? fixed(*day.rain_mm, 1) : "not known",
                                 day.gust_km_h ? fixed(*day.gust_km_h, 0) : "not known"});
        if (!days.rows.empty()) write_folded_table(html, days.caption, days);
    }
    write_list(html, weather->gaps);
}

} // namespace quartercut::report
