// SPDX-License-Identifier: MIT
// The sheet for the cab, and the counting sheet: made to be printed.
#include "quartercut/report_plan.hpp"
#include "report/plan_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace quartercut {
namespace report {
namespace {

std::string feet(double m) { return fmt::format("{:.0f} ft ({:.1f} m)", m / m_per_foot, m); }

std::string label(const Season& season, const std::string& method) {
    const int code = season.method_code(method);
    return code < 0 ? method : season.methods[static_cast<std::size_t>(code)].label;
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
    html.leaf("figcaption", fmt::format("North is up. The numbers are the strips; blue: {}; orange: {}.",
                                        label(season, layout.wish.method), label(season, layout.wish.baseline)));
    const auto svg = html.in("svg", {{"viewBox", fmt::format("-10 -10 {:.0f} {:.0f}", box.max_x - box.min_x + 20.0,
                                                             box.max_y - box.min_y + 20.0)},
                                     {"role", "img"},
                                     {"aria-label", "Map of the strips"}});
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
    Table table{
        "strips",
        "Strips in order across the field",
        {"Strip", "Pair", "Cut it", "Passes", "Done (day, time)", "Combine", "Scale ticket", "Moisture", "Remarks"},
        {},
        9};
    for (const TrialStrip& strip : layout.strips)
        table.rows.push_back({std::to_string(strip.order), std::to_string(strip.pair), label(season, strip.method),
                              strip.guards > 0 ? fmt::format("{} + {} guard each side", strip.passes, strip.guards)
                                               : std::to_string(strip.passes),
                              "", "", "", "", ""});
    return table;
}

Table designs_table(const TrialLayout& layout, const Season& season) {
    const Figures figures(season);
    Table table{"designs", "Designs tried, cheapest first", {"Design"}, {}, 1};
    for (const std::string& heading :
         {fmt::format("Land ({}s)", land_word(season)), std::string("Extra time (min)"),
          std::string("Finds it, of 100"), std::string("of 100, weighed strip by strip"),
          std::string("Finds one where there is none, of 100"), fmt::format("Can show ({})", figures.unit())})
        table.headings.push_back(heading);
    for (std::size_t i = 0; i < layout.designs.size(); ++i) {
        const DesignResult& d = layout.designs[i];
        const std::string name = fmt::format("{} pairs of {} + {} passes{}", d.pairs, d.passes, d.baseline_passes,
                                             static_cast<int>(i) == layout.chosen ? " (proposed)" : "");
        if (!d.why_not.empty()) {
            table.rows.push_back({name, "does not fit", "", "", "", "", ""});
            continue;
        }
        table.rows.push_back({name, fixed(land_areas(season, d.area_ha), 1),
                              d.minutes ? fixed(*d.minutes, 0) : "not known", fixed(100.0 * d.power, 0),
                              fixed(100.0 * d.power_weighed, 0), fixed(100.0 * d.false_finding, 1),
                              fixed(figures.in_unit(d.detectable_t_ha), 1)});
    }
    return table;
}

void write_cab(Html& html, const TrialLayout& layout, const Season& season) {
    if (layout.strips.empty()) return;
    write_map(html, layout, season);
    write_table(html, strips_table(layout, season));
    html.leaf("h2", "In the cab");
    const TrialStrip& first = layout.strips.front();
    write_list(
        html,
        {fmt::format("Drive along {:.0f} degrees from north (or straight back), on the guidance lines of "
                     "strips.gpkg, strips.kml or guidance.shp.",
                     layout.direction_deg),
         fmt::format("Strips are whole passes wide; the first is {} wide. Keep the order: a coin put it so.",
                     feet(first.width_m)),
         "Leave the headlands and the land between pairs for before or after; do not open a strip across.",
         "Empty the combine before a strip and weigh each strip by itself on one scale, or note the load of every "
         "ticket. Take a moisture sample from each.",
         "Write down machine, header, operator, day and time for every strip. Change no monitor setting between "
         "the two strips of a pair; log the real cut width.",
         "Same variety, same inputs, same machine in both strips of a pair."});
    html.leaf("h2", "Cautions");
    write_list(html, {label_caution, pan_caution}, "cautions");
}

} // namespace
} // namespace report

std::string layout_html(const TrialLayout& layout, const Season& season) {
    using namespace report;
    return plain_page(fmt::format("Trial strips: {}", layout.field), season.title, [&](Html& html) {
        html.leaf("p", layout.answer, {{"class", "answer"}});
        html.leaf("p",
                  fmt::format("Direction {}; judged on {}; {} trials played for each design; seed {}.",
                              layout.direction_from, layout.simulated_on, layout.wish.simulations,
                              layout.wish.choice.seed),
                  {{"class", "note"}});
        write_list(html, layout.notes);
        write_cab(html, layout, season);
        write_table(html, designs_table(layout, season));
    });
}

std::string counting_sheet_html(const Season& season, const std::vector<std::string>& fields) {
    using namespace report;
    return plain_page("Counting lost seed", season.title, [&](Html& html) {
        html.leaf("h2", "Before you start");
        write_list(html, {pan_caution}, "cautions");
        write_list(
            html,
            {"Before cutting: trays on the ground through ripening and curing catch shatter and pods that drop.",
             "Behind the header: stop, back up, lay the tray where the header has been and the discharge has not. "
             "On bare ground, what fell earlier is counted too; use a tray.",
             "Out of the machine: spreader and chopper off, a pan under the discharge. Note the cut width (of the "
             "swather in a swathed crop, not the pick-up) and the width the discharge falls in.",
             "At least four places for each way and field; places are what counts, not trays at one place.",
             "An empty tray is a count of 0, and is written down. Weigh 1000 seeds of each way."});
        for (const std::string& field : fields)
            for (const Method& method : season.methods) {
                Table table{
                    fmt::format("count-{}-{}", slug(field), slug(method.name)),
                    fmt::format("{}: {}", field, method.label),
                    {"Place", "When", "Seeds", "Grams", "Tray area", "1000 seeds (g)", "Cut width", "Discharge"},
                    {},
                    8};
                for (int place = 1; place <= 4; ++place)
                    for (const char* when : {"before", "header", "machine"})
                        table.rows.push_back({std::to_string(place), when, "", "", "", "", "", ""});
                write_table(html, table);
            }
    });
}

} // namespace quartercut
