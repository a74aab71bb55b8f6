// SPDX-License-Identifier: MIT
// Monitor against the scale, and when and how wet each method was cut: what could explain a difference away.
#include "report/chart.hpp"
#include "report/crossing.hpp"
#include "report/meanings.hpp"
#include "report/sections.hpp"
#include "report/table.hpp"

#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

std::string tonnes(double kg) { return fixed(kg / kg_per_tonne, 3); }

struct ZonePlace {
    const std::string& field;
    const Zone& zone;
};

std::vector<ZonePlace> zones_with_records(const Telling& telling) {
    std::vector<ZonePlace> out;
    for (std::size_t i = 0; i < telling.results.zoned.size(); ++i) {
        for (const auto& zone : telling.results.zoned[i].zones) {
            if (zone.method >= 0 && zone.records > 0)
                out.push_back({telling.results.standardised.fields[i].name, zone});
        }
    }
    return out;
}

std::string method_name(const Telling& telling, int method) {
    return telling.season().methods[static_cast<std::size_t>(method)].name;
}

std::string day_of(const Telling& telling, double time_s) { return date(time_s, telling.season().points.time_zone); }

Table moisture_table(const Telling& telling, const std::vector<ZonePlace>& zones) {
    const auto& words = telling.words.page;
    Table table{"moisture-table",
                words.moisture_date_table,
                {words.zone, words.method, words.first, words.last, words.moisture},
                {},
                4};
    for (const auto& [field, zone] : zones) {
        table.rows.push_back({zone.id, method_name(telling, zone.method), day_of(telling, zone.first_s),
                              day_of(telling, zone.last_s),
                              std::isfinite(zone.moisture_pct) ? fixed(zone.moisture_pct, 1) : ""});
    }
    return table;
}

void write_moisture_chart(Html& html, const Telling& telling, const std::vector<ZonePlace>& zones) {
    const auto& words = telling.words.page;
    std::vector<Mark> marks;
    std::vector<std::string> said;
    for (const auto& [field, zone] : zones) {
        const double middle_s = (zone.first_s + zone.last_s) / 2.0;
        if (!std::isfinite(middle_s) || !std::isfinite(zone.moisture_pct)) continue;
        const std::string text = zone.id + ": " + fixed(zone.moisture_pct, 1) + " %, " + day_of(telling, middle_s);
        marks.push_back({middle_s, zone.moisture_pct, zone.method, text});
        if (said.size() < 20) said.push_back(text);
    }
    if (marks.empty()) return;
    const auto figure = html.in("figure");
    html.leaf("figcaption", words.moisture_caption);
    write_method_key(html, telling);
    ScatterText text;
    text.figure = {"moisture-by-day", words.moisture_caption,
                   fill(words.moisture_date_text, arg("rows", fmt::format("{}", fmt::join(said, "; "))))};
    text.x_title = words.day;
    text.y_title = words.moisture;
    text.x_is_date = true;
    text.zone = telling.season().points.time_zone;
    draw_scatter(html, text, marks);
}

} // namespace

void write_tickets(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "tickets"}, {"aria-labelledby", "tickets-heading"}});
    html.leaf("h2", words.tickets, {{"id", "tickets-heading"}});
    write_meant(html, telling, {Term::ticket});
    const auto& loads = telling.results.cleaned.loads;
    if (loads.empty()) {
        html.leaf("p", words.tickets_none);
        return;
    }
    const auto& w = telling.words.sheets;
    Table table{"tickets-table",
                words.tickets_table,
                {w.load, w.field, w.machine, words.method, std::string(words.scale) + " (t)",
                 std::string(words.monitor) + " (t)", w.flow},
                {},
                4};
    std::vector<Mark> marks;
    std::vector<std::string> said;
    for (const auto& load : loads) {
        table.rows.push_back({load.ticket, load.field, load.machine, load.method, tonnes(load.ticket_basis_kg),
                              tonnes(load.monitor_basis_kg), fixed(load.flow_kg_s, 2)});
        const std::string text = load.ticket + ": " + words.scale + " " + tonnes(load.ticket_basis_kg) + " t, " +
                                 words.monitor + " " + tonnes(load.monitor_basis_kg) + " t";
        marks.push_back({load.ticket_basis_kg / kg_per_tonne, load.monitor_basis_kg / kg_per_tonne,
                         telling.season().method_code(load.method), text});
        if (said.size() < 20) said.push_back(text);
    }
    {
        const auto figure = html.in("figure");
        html.leaf("figcaption", words.tickets_caption);
        write_method_key(html, telling);
        ScatterText text;
        text.figure = {"tickets-chart", words.tickets_caption,
                       fill(words.tickets_text, arg("rows", fmt::format("{}", fmt::join(said, "; "))))};
        text.x_title = std::string(words.scale) + " (t)";
        text.y_title = std::string(words.monitor) + " (t)";
        text.equal_line = true;
        draw_scatter(html, text, marks);
        html.leaf("p", words.tickets_note, {{"class", "note"}});
    }
    write_folded_table(html, words.as_table, table);
}

void write_moisture(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "moisture"}, {"aria-labelledby", "moisture-heading"}});
    html.leaf("h2", words.moisture_date, {{"id", "moisture-heading"}});
    html.leaf("p", words.moisture_date_note);
    const auto zones = zones_with_records(telling);
    write_moisture_chart(html, telling, zones);
    if (!zones.empty()) write_folded_table(html, words.as_table, moisture_table(telling, zones));
    const auto& crossings = telling.results.comparison.crossings;
    for (std::size_t k = 0; k < crossings.size(); ++k) {
        write_crossing(html, telling, crossings[k],
                       {"season-crossing-" + std::to_string(k + 1),
                        capital(fill(words.season_crossing_table, arg("what", crossing_word(crossings[k].what))))});
    }
}

} // namespace quartercut::report
