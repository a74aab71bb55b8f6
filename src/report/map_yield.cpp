// SPDX-License-Identifier: MIT
// The yield of one field: stretches of passes in five classes, zone lines, and the records that were not used.
//
// Marks are thinned in a fixed way (every n-th) to keep the page small; legends and tables hold the full numbers.
#include "report/map_parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quartercut::report {
namespace {

using fmt::arg;

// Of all fields together. A stretch takes some 36 bytes of the page and a removed record 16: 1.7 MB of the 3 MB that a
// season of ten fields may weigh; what the page says in numbers is never thinned.
constexpr Marks page_marks = {36000, 24000};
constexpr std::size_t field_removed = 4000; // more hide the map

std::size_t count_removed(const CleanedField& cleaned) {
    return static_cast<std::size_t>(std::count_if(cleaned.removal.begin(), cleaned.removal.end(),
                                                  [](const Removal why) { return why != Removal::kept; }));
}

// How far and which way a stretch runs: along the line between its neighbours in the pass, else the pass's heading.
Point direction_of(const CleanedField& cleaned, const std::vector<Segment>& segments, std::size_t i) {
    const auto& here = segments[i];
    const auto same_pass = [&](std::size_t k) {
        return k < segments.size() && segments[k].pass == here.pass &&
               std::hypot(segments[k].x_m - here.x_m, segments[k].y_m - here.y_m) < 3.0 * std::max(here.length_m, 1.0);
    };
    const auto& before = i > 0 && same_pass(i - 1) ? segments[i - 1] : here;
    const auto& after = same_pass(i + 1) ? segments[i + 1] : here;
    const double length = std::hypot(after.x_m - before.x_m, after.y_m - before.y_m);
    if (length > 0.0) return {(after.x_m - before.x_m) / length, (after.y_m - before.y_m) / length};
    if (here.pass < 0 || static_cast<std::size_t>(here.pass) >= cleaned.passes.size()) return {0.0, 1.0};
    const double heading = cleaned.passes[static_cast<std::size_t>(here.pass)].heading_deg * 0.017453292519943295;
    return std::isfinite(heading) ? Point{std::sin(heading), std::cos(heading)} : Point{0.0, 1.0};
}

struct Stretches {
    std::array<std::string, 5> paths;
    std::string values;    // "x,y,yield;..." for the pointer readout
    double width_m = 10.0; // median cut
    std::size_t every = 1; // of how many stretches one is drawn
};

double median_width_m(const std::vector<Segment>& segments) {
    std::vector<double> widths;
    for (const auto& segment : segments) {
        if (segment.length_m > 0.0 && segment.area_m2 > 0.0) widths.push_back(segment.area_m2 / segment.length_m);
    }
    if (widths.empty()) return 10.0;
    const auto middle = widths.begin() + static_cast<std::ptrdiff_t>(widths.size() / 2);
    std::nth_element(widths.begin(), middle, widths.end());
    return *middle;
}

Stretches stretches_of(const Telling& telling, const MapPlace& place, const YieldClasses& classes) {
    const auto& [field, frame, limit] = place;
    const auto& segments = telling.results.zoned[field].segments;
    Stretches out;
    out.every = one_in(segments.size(), limit.stretches);
    out.width_m = median_width_m(segments);
    for (std::size_t i = 0; i < segments.size(); i += out.every) {
        const auto& segment = segments[i];
        const double yield = telling.figures.in_unit(segment.yield_t_ha());
        if (!std::isfinite(yield) || !std::isfinite(segment.x_m) || !std::isfinite(segment.y_m)) continue;
        const Point way = direction_of(telling.results.cleaned.fields[field], segments, i);
        // A little longer than the stretch, so that rounding leaves no gaps in the surface.
        const double half = 0.51 * std::max(segment.length_m, 5.0) * static_cast<double>(out.every);
        const Point from = frame.at({segment.x_m - half * way.x, segment.y_m - half * way.y});
        const Point to = frame.at({segment.x_m + half * way.x, segment.y_m + half * way.y});
        auto& path = out.paths[static_cast<std::size_t>(classes.class_of(yield))];
        path += "M" + coordinate(from.x) + " " + coordinate(from.y) + "L" + coordinate(to.x) + " " + coordinate(to.y);
        const Point at = frame.at({segment.x_m, segment.y_m});
        out.values += fixed(at.x, 0) + "," + fixed(at.y, 0) + "," + telling.figures.axis(yield) + ";";
    }
    return out;
}

void draw_stretches(Html& html, const Stretches& stretches, const MapFrame& frame) {
    const auto group =
        html.in("g", {{"class", "layer-yield"},
                      {"fill", "none"},
                      {"stroke-width", coordinate(std::max(1.0, stretches.width_m * 1.03 * frame.units_per_m))}});
    for (std::size_t k = 0; k < stretches.paths.size(); ++k) {
        if (stretches.paths[k].empty()) continue;
        html.empty("path", {{"class", "yield-" + std::to_string(k + 1)}, {"d", stretches.paths[k]}});
    }
}

// Five families of reasons, each with a mark of its own.
int family_of(Removal removal) {
    switch (removal) {
    case Removal::kept:
        return -1;
    case Removal::off_field:
    case Removal::no_method:
        return 0;
    case Removal::header_up:
    case Removal::no_flow:
    case Removal::no_travel:
    case Removal::impossible_moisture:
    case Removal::merged:
        return 1;
    case Removal::position_jump:
    case Removal::speed:
    case Removal::turn:
    case Removal::pass_start:
    case Removal::pass_end:
        return 2;
    case Removal::covered_before:
    case Removal::short_pass:
        return 3;
    case Removal::yield_limits:
    case Removal::far_from_method_area:
    case Removal::far_from_neighbours:
        return 4;
    }
    return -1;
}

std::string dot_path(int family, Point at) {
    const std::string start = "M" + coordinate(at.x) + " " + coordinate(at.y);
    switch (family) {
    case 0:
        return start + "m-1.5 0h3";
    case 1:
        return start + "h.1";
    case 2:
        return start + "m-1.3 -1.3l2.6 2.6m0 -2.6l-2.6 2.6";
    case 3:
        return start + "m-1.3 -1.3h2.6v2.6h-2.6z";
    default:
        return start + "m-1.5 0h3m-1.5 -1.5v3";
    }
}

} // namespace

std::size_t fair_share(std::vector<std::size_t> sizes, std::size_t budget) {
    std::sort(sizes.begin(), sizes.end());
    std::size_t share = 0;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        share = budget / (sizes.size() - i);
        if (sizes[i] > share) return std::max<std::size_t>(1, share);
        budget -= sizes[i];
    }
    return std::max<std::size_t>(1, sizes.empty() ? 1 : sizes.back());
}

Marks marks_of_each_field(const Telling& telling) {
    std::vector<std::size_t> stretches;
    std::vector<std::size_t> removed;
    for (const auto& zoned : telling.results.zoned)
        stretches.push_back(zoned.segments.size());
    for (const auto& cleaned : telling.results.cleaned.fields)
        removed.push_back(std::min(count_removed(cleaned), field_removed));
    return {fair_share(stretches, page_marks.stretches),
            std::min(field_removed, fair_share(removed, page_marks.removed))};
}

std::size_t one_in(std::size_t marks, std::size_t limit) {
    return std::max<std::size_t>(1, (marks + limit - 1) / limit);
}

RemovedRecords removed_records(const Telling& telling, std::size_t field) {
    RemovedRecords out;
    for (const Removal removal : telling.results.cleaned.fields[field].removal) {
        if (removal != Removal::kept) ++out.counts[static_cast<std::size_t>(removal)];
        if (removal != Removal::kept) ++out.total;
    }
    return out;
}

std::string removal_mark(Removal removal, Point at) { return dot_path(family_of(removal), at); }
std::string removal_class(Removal removal) { return "gone gone-" + std::to_string(family_of(removal)); }

namespace {

void draw_removed(Html& html, const Telling& telling, const MapPlace& place, const RemovedRecords& summary) {
    const auto& [field, frame, limit] = place;
    const auto& removal = telling.results.cleaned.fields[field].removal;
    const auto& records = telling.results.standardised.fields[field].records;
    std::array<std::string, removal_count> paths;
    const std::size_t every = one_in(summary.total, limit.removed);
    std::size_t seen = 0;
    for (std::size_t i = 0; i < removal.size() && i < records.size(); ++i) {
        if (removal[i] == Removal::kept || seen++ % every != 0) continue;
        const Point at = frame.at({records.x_m[i], records.y_m[i]});
        if (std::isfinite(at.x) && std::isfinite(at.y)) {
            paths[static_cast<std::size_t>(removal[i])] += removal_mark(removal[i], at);
        }
    }
    const auto group = html.in("g", {{"class", "layer-removed"}});
    for (std::size_t k = 1; k < removal_count; ++k) {
        if (paths[k].empty()) continue;
        const auto reason = static_cast<Removal>(k);
        const auto path =
            html.in("path", {{"class", removal_class(reason)}, {"data-reason", removal_word(reason)}, {"d", paths[k]}});
        html.leaf("title", removal_text(reason) + ": " + count(summary.counts[k]));
    }
}

void draw_zone_lines(Html& html, const Telling& telling, std::size_t field, const MapFrame& frame) {
    const auto group = html.in("g", {{"class", "layer-zones"}});
    std::string path;
    for (const auto& zone : telling.results.zoned[field].zones)
        path += shape_path(zone.shape_m, frame);
    html.empty("path", {{"class", "zone-line-under"}, {"d", path}});
    html.empty("path", {{"class", "zone-line"}, {"d", path}});
}

void write_layer_switch(Html& html, const Telling& telling, std::size_t field) {
    const auto& words = telling.words.page;
    const auto set = html.in("fieldset", {{"class", "layers"}});
    html.leaf("legend", words.layers);
    const std::array<std::array<const char*, 3>, 3> layers = {
        {{"yield", words.layer_yield, "on"}, {"zones", words.layer_zones, "on"}, {"removed", words.layer_removed, ""}}};
    for (const auto& [key, label, on] : layers) {
        const std::string id = "layer-" + std::string(key) + "-" + std::to_string(field + 1);
        const auto box = html.in("label", {{"for", id}});
        Attributes attributes = {{"type", "checkbox"}, {"id", id}, {"class", "show-" + std::string(key)}};
        if (*on != '\0') attributes.push_back({"checked", ""});
        html.empty("input", attributes);
        html.text(" " + std::string(label));
    }
}

void write_yield_legend(Html& html, const Telling& telling, const YieldClasses& classes) {
    const auto& words = telling.words.page;
    const auto title = [&](const Telling& in) {
        return fill(words.yield_legend, arg("unit", in.figures.unit())) + ". " + words.yield_legend_note;
    };
    leaf_in_both(html, "p", telling, title, {{"class", "legend-title"}});
    const double per_t_ha = telling.figures.in_unit(1.0);
    const auto list = html.in("ul", {{"class", "key classes"}});
    for (std::size_t k = 0; k < 5; ++k) {
        const auto item = html.in("li");
        {
            const auto svg = html.in("svg", {{"viewBox", "0 0 24 16"}, {"class", "swatch"}, {"aria-hidden", "true"}});
            html.empty("path", {{"class", "yield-" + std::to_string(k + 1)}, {"d", "M1 8h22"}, {"stroke-width", "14"}});
        }
        leaf_in_both(html, "span", telling, [&](const Telling& in) {
            const auto bound = [&](double of) { return in.figures.axis(in.figures.in_unit(of / per_t_ha)); };
            return bound(classes.bounds[k]) + " – " + bound(classes.bounds[k + 1]);
        });
    }
}

void write_removed_legend(Html& html, const Telling& telling, const RemovedRecords& summary, std::size_t limit) {
    if (summary.total == 0) return;
    const auto& words = telling.words.page;
    const auto details = html.in("details", {{"class", "removed-key"}});
    html.leaf("summary", std::string(words.removed_list) + " (" + count(summary.total) + ")");
    const auto list = html.in("ul", {{"class", "key"}});
    for (std::size_t k = 1; k < removal_count; ++k) {
        if (summary.counts[k] == 0) continue;
        const auto reason = static_cast<Removal>(k);
        const auto item = html.in("li");
        {
            const auto svg = html.in("svg", {{"viewBox", "0 0 8 8"}, {"class", "swatch dot"}, {"aria-hidden", "true"}});
            html.empty("path", {{"class", removal_class(reason)}, {"d", removal_mark(reason, {4, 4})}});
        }
        html.text(removal_text(reason) + ": " + count(summary.counts[k]));
    }
    const std::size_t every = one_in(summary.total, limit);
    if (every > 1) html.leaf("li", fill(words.dots_thinned, arg("n", count(every))));
}

} // namespace

YieldClasses yield_classes(const Telling& telling, const ZonedField& zoned) {
    std::vector<double> yields;
    for (const auto& segment : zoned.segments) {
        const double yield = telling.figures.in_unit(segment.yield_t_ha());
        if (std::isfinite(yield)) yields.push_back(yield);
    }
    YieldClasses classes;
    if (yields.empty()) return classes;
    std::sort(yields.begin(), yields.end());
    for (std::size_t k = 0; k <= 5; ++k) {
        const std::size_t at = std::min(yields.size() - 1, k * yields.size() / 5);
        // Rounded as the legend writes them, so that a stretch lies in the class its legend says.
        classes.bounds.push_back(std::stod(telling.figures.axis(yields[at])));
    }
    return classes;
}

int YieldClasses::class_of(double yield) const {
    int found = 0;
    while (found < 4 && yield >= bounds[static_cast<std::size_t>(found) + 1])
        ++found;
    return found;
}

void write_yield_map(Html& html, const Telling& telling, const MapPlace& place) {
    const auto& [field, frame, limit] = place;
    const auto& words = telling.words.page;
    const auto& standard = telling.results.standardised.fields[field];
    const auto classes = yield_classes(telling, telling.results.zoned[field]);
    const auto figure = html.in("figure", {{"class", "map yield-map"}});
    html.leaf("figcaption", words.map_yield);
    if (classes.bounds.empty()) {
        html.leaf("p", words.no_segments);
        return;
    }
    const auto stretches = stretches_of(telling, place, classes);
    const auto removed = removed_records(telling, field);
    const std::string text =
        fill(words.map_yield_text, arg("field", standard.name), arg("basis", fixed(telling.season().basis_pct, 1)),
             arg("low", telling.figures.axis(classes.bounds.front())),
             arg("high", telling.figures.axis(classes.bounds.back())), arg("unit", telling.figures.unit()));
    {
        const auto svg = open_image(html, {"yield-map-" + std::to_string(field + 1), words.map_yield, text},
                                    drawing_width, drawing_height(frame));
        html.empty("path",
                   {{"class", "land"}, {"fill-rule", "evenodd"}, {"d", shape_path(standard.boundary_m, frame)}});
        draw_stretches(html, stretches, frame);
        draw_zone_lines(html, telling, field, frame);
        draw_removed(html, telling, place, removed);
        html.empty("path", {{"class", "boundary"}, {"d", shape_path(standard.boundary_m, frame)}});
        html.empty("path", {{"class", "stretch-values"}, {"data-values", stretches.values}});
        draw_north_and_scale(html, telling, frame);
    }
    Attributes readout = {{"class", "readout"}, {"role", "status"}, {"data-unit", telling.figures.unit()}};
    if (!telling.figures.speaks_si()) {
        readout.push_back({"data-t-ha-per-unit", exact(1.0 / telling.figures.in_unit(1.0))});
    }
    html.leaf("p", "", readout);
    write_yield_legend(html, telling, classes);
    if (stretches.every > 1) html.leaf("p", fill(words.map_yield_thinned, arg("n", count(stretches.every))));
    write_layer_switch(html, telling, field);
    write_removed_legend(html, telling, removed, limit.removed);
}

} // namespace quartercut::report
