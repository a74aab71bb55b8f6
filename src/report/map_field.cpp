// SPDX-License-Identifier: MIT
// How a field was cut: its zones with colour, hatch and letter, each reachable by keyboard, and the pair of maps.
#include "report/map_parts.hpp"
#include "report/tokens.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

// More zones than this would make hundreds of tab stops; the table of zones serves those readers better.
constexpr std::size_t focusable_zones = 40;

std::string method_name(const Telling& telling, const Zone& zone) {
    if (zone.method < 0) return zone_reason_text(zone.reason);
    return telling.season().methods[static_cast<std::size_t>(zone.method)].name;
}

std::string zone_text(const Telling& telling, const Zone& zone) {
    std::string text = method_name(telling, zone);
    if (zone.stratum) text += ", " + *zone.stratum;
    if (!zone.block.empty()) text += ", " + std::string(telling.words.page.block) + " " + zone.block;
    text += fill(telling.words.page.zone_area, arg("ha", fixed(zone.area_m2 / m2_per_hectare, 2)));
    const double yield = zone.yield_t_ha();
    if (std::isfinite(yield)) text += ", " + telling.figures.both(yield);
    if (std::isfinite(zone.moisture_pct))
        text += ", " + fill(telling.words.page.at_moisture, arg("pct", fixed(zone.moisture_pct, 1)));
    return text;
}

void draw_zone(Html& html, const Telling& telling, const Zone& zone, const MapFrame& frame, bool focusable) {
    const std::string fill_value =
        zone.method < 0 ? "none" : "url(#hatch-" + std::to_string(zone.method % hatch_count) + ")";
    Attributes attributes = {{"class", "zone " + method_class(zone.method)},
                             {"fill", fill_value},
                             {"fill-rule", "evenodd"},
                             {"d", shape_path(zone.shape_m, frame)},
                             {"data-zone", zone.id}};
    if (std::isfinite(zone.yield_t_ha())) attributes.push_back({"data-yield-t-ha", exact(zone.yield_t_ha())});
    const std::string text = zone_text(telling, zone);
    if (focusable) {
        attributes.push_back({"role", "listitem"});
        attributes.push_back({"tabindex", "0"});
        attributes.push_back({"aria-label", text});
    }
    const auto path = html.in("path", attributes);
    html.leaf("title", text);
}

// The mark where the zone has room for it: the third sign of a method beside colour and hatch.
void draw_zone_mark(Html& html, const Zone& zone, const std::string& mark, const MapFrame& frame) {
    const auto spot = label_spot(zone.shape_m);
    const double characters = static_cast<double>(std::min<std::size_t>(mark.size(), 3));
    if (spot.room_m * frame.units_per_m < 7.5 * characters || spot.height_m * frame.units_per_m < 10.0) return;
    const Point at = frame.at(spot.at);
    html.leaf("text", mark,
              {{"class", "zone-letter long-" + std::to_string(static_cast<int>(characters))},
               {"x", coordinate(at.x)},
               {"y", coordinate(at.y + 4)},
               {"text-anchor", "middle"},
               {"aria-hidden", "true"}});
}

std::string zones_in_words(const Telling& telling, std::size_t field) {
    std::vector<std::string> parts;
    const auto& methods = telling.season().methods;
    for (std::size_t m = 0; m < methods.size(); ++m) {
        std::size_t zones = 0;
        for (const auto& zone : telling.results.zoned[field].zones)
            zones += zone.method == static_cast<int>(m) ? 1 : 0;
        if (zones > 0) parts.push_back(methods[m].name + ": " + count(zones));
    }
    return fmt::format("{}", fmt::join(parts, "; "));
}

void write_mark_key(Html& html, const Telling& telling, std::size_t field) {
    const auto list = html.in("ul", {{"class", "key"}});
    const auto& methods = telling.season().methods;
    const auto& zones = telling.results.zoned[field].zones;
    const auto marks = method_marks(telling.season());
    for (std::size_t m = 0; m < methods.size(); ++m) {
        const int code = static_cast<int>(m);
        if (std::none_of(zones.begin(), zones.end(), [code](const Zone& zone) { return zone.method == code; }))
            continue;
        const auto item = html.in("li");
        {
            const auto svg = html.in("svg", {{"viewBox", "0 0 34 16"}, {"class", "swatch"}, {"aria-hidden", "true"}});
            html.empty("rect", {{"class", "swatch-box"},
                                {"x", "1"},
                                {"y", "1"},
                                {"width", "32"},
                                {"height", "14"},
                                {"fill", "url(#hatch-" + std::to_string(code % hatch_count) + ")"}});
            html.leaf("text", marks[m],
                      {{"class", "zone-letter"}, {"x", "17"}, {"y", "13"}, {"text-anchor", "middle"}});
        }
        html.text(label_of(telling.season(), methods[m].name));
    }
}

} // namespace

void write_method_map(Html& html, const Telling& telling, std::size_t field, const MapFrame& frame) {
    const auto& words = telling.words.page;
    const auto& standard = telling.results.standardised.fields[field];
    const auto& zones = telling.results.zoned[field].zones;
    const std::string id = "method-map-" + std::to_string(field + 1);
    const auto figure = html.in("figure", {{"class", "map method-map"}});
    html.leaf("figcaption", words.map_methods);
    const std::string text =
        fill(words.map_methods_text, arg("field", standard.name), arg("zones", zones_in_words(telling, field)));
    {
        // A focusable part may not stand inside role="img": the drawing is a group that holds a list of zones.
        const auto svg = html.in("svg", {{"id", id},
                                         {"viewBox", "0 0 400 " + coordinate(drawing_height(frame))},
                                         {"role", "group"},
                                         {"aria-label", text}});
        html.empty("path",
                   {{"class", "land"}, {"fill-rule", "evenodd"}, {"d", shape_path(standard.boundary_m, frame)}});
        const bool focusable = !zones.empty() && zones.size() <= focusable_zones;
        {
            const auto list = focusable ? html.in("g", {{"role", "list"}}) : html.in("g", {{"aria-hidden", "true"}});
            for (const auto& zone : zones)
                draw_zone(html, telling, zone, frame, focusable);
        }
        const auto marks = method_marks(telling.season());
        for (const auto& zone : zones)
            if (zone.method >= 0) draw_zone_mark(html, zone, marks[static_cast<std::size_t>(zone.method)], frame);
        html.empty("path", {{"class", "boundary"}, {"d", shape_path(standard.boundary_m, frame)}});
        draw_north_and_scale(html, telling, frame);
    }
    html.leaf("p", "", {{"class", "readout"}});
    write_mark_key(html, telling, field);
}

std::string removal_text(Removal removal) {
    const auto& words = spoken().kinds.removed;
    static_assert(std::size(decltype(KindWords::removed){}) == removal_count);
    return words[static_cast<std::size_t>(removal)];
}

void write_field_maps(Html& html, const Telling& telling, std::size_t field, const Marks& limit) {
    const auto frame = map_frame(bounding_box(telling.results.standardised.fields[field].boundary_m));
    const auto maps = html.in("div", {{"class", "maps"}});
    write_method_map(html, telling, field, frame);
    write_yield_map(html, telling, {field, frame, limit});
}

} // namespace quartercut::report
