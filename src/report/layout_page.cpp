// SPDX-License-Identifier: MIT
// The sheet for the cab, and the counting sheet: made to be printed.
#include "quartercut/report_plan.hpp"
#include "report/plan_parts.hpp"
#include "report/telling.hpp"

#include <algorithm>

namespace quartercut {
namespace report {
namespace {

using fmt::arg;

std::string feet(double m) {
    return fill(spoken().cab.feet, arg("ft", fixed(m / m_per_foot, 0)), arg("m", fixed(m, 1)));
}

std::string points_of(const Ring& ring, const Box& box) {
    std::string text;
    for (const Point p : ring)
        text += fmt::format("{:.1f},{:.1f} ", p.x - box.min_x, box.max_y - p.y);
    return text;
}

void write_map(Html& html, const TrialLayout& layout, const Season& season) {
    const Box box = bounding_box(layout.boundary_m);
    const auto figure = html.in("figure");
    html.leaf("figcaption", fill(spoken().cab.map_note, arg("method", label_of(season, layout.wish.method)),
                                 arg("baseline", label_of(season, layout.wish.baseline))));
    const auto svg = html.in("svg", {{"viewBox", fmt::format("-10 -10 {:.0f} {:.0f}", box.max_x - box.min_x + 20.0,
                                                             box.max_y - box.min_y + 20.0)},
                                     {"role", "img"},
                                     {"aria-label", spoken().cab.map}});
    for (const Polygon& polygon : layout.boundary_m) {
        html.empty("polygon", {{"points", points_of(polygon.shell, box)},
                               {"fill", "none"},
                               {"stroke", "#333333"},
                               {"stroke-width", "2"}});
        for (const Ring& hole : polygon.holes)
            html.empty("polygon", {{"points", points_of(hole, box)}, {"fill", "#cccccc"}, {"stroke", "#333333"}});
    }
    for (const TrialStrip& strip : layout.strips) {
        const std::string colour = strip.method == layout.wish.method ? "#56B4E9" : "#E69F00";
        for (const Polygon& part : strip.shape_m)
            html.empty("polygon", {{"points", points_of(part.shell, box)}, {"fill", colour}, {"stroke", "#333333"}});
        const Box place = bounding_box(strip.shape_m);
        html.leaf("text", std::to_string(strip.order),
                  {{"x", fmt::format("{:.0f}", 0.5 * (place.min_x + place.max_x) - box.min_x)},
                   {"y", fmt::format("{:.0f}", box.max_y - 0.5 * (place.min_y + place.max_y))},
                   {"font-size", fmt::format("{:.0f}", (box.max_x - box.min_x) / 40.0)},
                   {"text-anchor", "middle"}});
    }
}

Table strips_table(const TrialLayout& layout, const Season& season) {
    const auto& w = spoken().cab;
    Table table{"strips",
                w.strips,
                {w.strip, w.pair, w.cut_it, w.passes, w.done, w.combine, w.ticket, w.moisture, w.remarks},
                {},
                9};
    for (const TrialStrip& strip : layout.strips)
        table.rows.push_back({std::to_string(strip.order), std::to_string(strip.pair), label_of(season, strip.method),
                              strip.guards > 0
                                  ? fill(w.guards, arg("passes", strip.passes), arg("guards", strip.guards))
                                  : std::to_string(strip.passes),
                              "", "", "", "", ""});
    return table;
}

std::vector<std::string> design_row(const DesignResult& d, const Season& season, bool chosen) {
    const auto& words = spoken().cab;
    const Figures figures(season);
    std::string name = fill(words.design_row, arg("pairs", d.pairs), arg("passes", d.passes),
                            arg("baseline_passes", d.baseline_passes));
    if (chosen) name += words.proposed;
    if (!d.why_not.empty()) return {name, words.does_not_fit, "", "", "", "", ""};
    return {name,
            fixed(land_areas(season, d.area_ha), 1),
            or_unknown(d.minutes, 0),
            fixed(100.0 * d.power, 0),
            fixed(100.0 * d.power_weighed, 0),
            fixed(100.0 * d.false_finding, 1),
            fixed(figures.in_unit(d.detectable_t_ha), 1)};
}

Table designs_table(const TrialLayout& layout, const Season& season) {
    const auto& words = spoken().cab;
    Table table{"designs", words.designs, {words.design}, {}, 1};
    append(table.headings,
           {fill(words.land, arg("lands", lands_word(season))), words.extra_time, words.finds, words.finds_weighed,
            words.finds_nothing, fill(words.can_show, arg("unit", Figures(season).unit()))});
    for (std::size_t i = 0; i < layout.designs.size(); ++i)
        table.rows.push_back(design_row(layout.designs[i], season, static_cast<int>(i) == layout.chosen));
    return table;
}

void write_cab(Html& html, const TrialLayout& layout, const Season& season) {
    if (layout.strips.empty()) return;
    const auto& words = spoken().cab;
    write_map(html, layout, season);
    write_table(html, strips_table(layout, season));
    html.leaf("h2", words.in_the_cab);
    write_list(html, {fill(words.drive, arg("degrees", fixed(layout.direction_deg, 0))),
                      fill(words.order, arg("width", feet(layout.strips.front().width_m))), words.headlands,
                      words.weigh, words.write_down, words.same});
    html.leaf("h2", spoken().choice.cautions);
    write_list(html, {spoken().plan.label_caution, spoken().plan.pan_caution}, "cautions");
}

Table counting_table(const std::string& field, const Method& method) {
    const auto& w = spoken().counting;
    const std::string caption =
        fill(spoken().plan.label, arg("what", field), arg("text", method.label.empty() ? method.name : method.label));
    Table table{fmt::format("count-{}-{}", slug(field), slug(method.name)),
                caption,
                {w.place, w.when, w.seeds, w.grams, w.tray, w.thousand, w.cut_width, w.discharge},
                {},
                8};
    for (int place = 1; place <= 4; ++place)
        for (const char* when : {w.at_before, w.at_header, w.at_machine})
            table.rows.push_back({std::to_string(place), when, "", "", "", "", "", ""});
    return table;
}

} // namespace
} // namespace report

std::string layout_html(const TrialLayout& layout, const Season& season) {
    using namespace report;
    const auto& words = spoken().cab;
    return plain_page(fill(words.title, arg("field", layout.field)), season.title, [&](Html& html) {
        html.leaf("p", layout.answer, {{"class", "answer"}});
        html.leaf("p",
                  fill(words.judged, arg("direction", layout.direction_from), arg("judged", layout.simulated_on),
                       arg("trials", layout.wish.simulations), arg("seed", layout.wish.choice.seed)),
                  {{"class", "note"}});
        write_list(html, layout.notes);
        write_cab(html, layout, season);
        write_table(html, designs_table(layout, season));
    });
}

std::string counting_sheet_html(const Season& season, const std::vector<std::string>& fields) {
    using namespace report;
    const auto& words = spoken().counting;
    return plain_page(words.title, season.title, [&](Html& html) {
        html.leaf("h2", words.before_start);
        write_list(html, {spoken().plan.pan_caution}, "cautions");
        write_list(html, {words.shatter, words.header, words.machine, words.places, words.empty_tray});
        for (const std::string& field : fields)
            for (const Method& method : season.methods)
                write_table(html, counting_table(field, method));
    });
}

} // namespace quartercut
