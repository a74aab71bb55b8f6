// SPDX-License-Identifier: MIT
// Axes, markers, hatches (draw.hpp).
#include "report/draw.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace quartercut::report {

std::string coordinate(double value) {
    if (!std::isfinite(value)) return fixed(value, 1);
    const double at = std::round(value * 10.0) / 10.0; // a point in every language: SVG knows no other
    std::string text = fmt::format("{:.1f}", at == 0.0 ? 0.0 : at);
    if (text.size() > 2 && text.compare(text.size() - 2, 2, ".0") == 0) text.resize(text.size() - 2);
    return text;
}

std::string exact(double value) { return std::isfinite(value) ? fmt::format("{}", value) : std::string{}; }

namespace {

// The first characters (not bytes) of a text.
std::string beginning(const std::string& text, std::size_t length) {
    std::size_t seen = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool starts = (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U;
        if (starts && seen++ == length) return text.substr(0, i);
    }
    return text;
}

} // namespace

std::string shortened(const std::string& text, std::size_t limit) {
    const std::string kept = beginning(text, limit);
    return kept.size() == text.size() ? text : kept + "…";
}

namespace {

double round_step(double span, int wanted) {
    const double raw = span / wanted;
    const double power = std::pow(10.0, std::floor(std::log10(raw)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (factor * power >= raw * (1.0 - 1e-9)) return factor * power;
    }
    return 10.0 * power;
}

} // namespace

Axis axis_over(std::vector<double> values, double start, double end, bool with_zero) {
    values.erase(std::remove_if(values.begin(), values.end(), [](double v) { return !std::isfinite(v); }),
                 values.end());
    if (with_zero || values.empty()) values.push_back(0.0);
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    double low = *least;
    double high = *most;
    const double room = high > low ? 0.06 * (high - low) : std::max(0.1, 0.1 * std::abs(low));
    low -= room;
    high += room;
    const double step = round_step(high - low, 5);
    Axis axis{low, high, start, end, {}, std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)))};
    const auto first = static_cast<long>(std::ceil(low / step - 1e-9));
    const auto last = static_cast<long>(std::floor(high / step + 1e-9));
    for (long k = first; k <= last; ++k)
        axis.ticks.push_back(static_cast<double>(k) * step);
    return axis;
}

namespace {

// The text of an axis in the report unit, and in t/ha for the switch.
Attributes axis_text(Point at, const AxisPlace& place, const std::string& in_si) {
    Attributes attributes = {
        {"class", "tick"}, {"x", coordinate(at.x)}, {"y", coordinate(at.y)}, {"text-anchor", "middle"}};
    if (place.t_ha_per_unit) attributes.push_back({"data-si", in_si});
    return attributes;
}

} // namespace

AxisPlace yield_axis(const Telling& telling, double top, double bottom) {
    const auto& figures = telling.figures;
    AxisPlace place{top, bottom, figures.unit()};
    if (!figures.speaks_si()) place.t_ha_per_unit = 1.0 / figures.in_unit(1.0);
    return place;
}

void draw_axis(Html& html, const Axis& axis, const AxisPlace& place) {
    for (const double tick : axis.ticks) {
        const std::string x = coordinate(axis.at(tick));
        html.empty("path", {{"class", tick == 0.0 ? "zero" : "grid"},
                            {"d", "M" + x + " " + coordinate(place.top) + "V" + coordinate(place.bottom)}});
        html.leaf(
            "text", fixed(tick, axis.decimals),
            axis_text({axis.at(tick), place.bottom + 14}, place, fixed(tick * place.t_ha_per_unit.value_or(1.0), 2)));
    }
    html.leaf("text", place.title,
              axis_text({(axis.start + axis.end) / 2, place.bottom + 29}, place, yield_unit_word(YieldUnit::t_ha)));
}

std::string method_class(int method) { return method < 0 ? "no-method" : "m" + std::to_string(method % hatch_count); }

std::string marker_path(int shape, Point at, double radius) {
    const auto c = [](double v) { return coordinate(v); };
    const std::string x = c(at.x);
    const std::string r = c(radius);
    const std::string d = c(2 * radius);
    switch (shape % 5) {
    case 0:
        return "M" + c(at.x - radius) + " " + c(at.y) + "a" + r + " " + r + " 0 1 0 " + d + " 0a" + r + " " + r +
               " 0 1 0 -" + d + " 0z";
    case 1:
        return "M" + c(at.x - radius) + " " + c(at.y - radius) + "h" + d + "v" + d + "h-" + d + "z";
    case 2:
        return "M" + x + " " + c(at.y - 1.3 * radius) + "L" + c(at.x + 1.3 * radius) + " " + c(at.y) + "L" + x + " " +
               c(at.y + 1.3 * radius) + "L" + c(at.x - 1.3 * radius) + " " + c(at.y) + "z";
    case 3:
        return "M" + x + " " + c(at.y - 1.2 * radius) + "L" + c(at.x + 1.2 * radius) + " " + c(at.y + radius) + "H" +
               c(at.x - 1.2 * radius) + "z";
    default:
        return "M" + x + " " + c(at.y + 1.2 * radius) + "L" + c(at.x + 1.2 * radius) + " " + c(at.y - radius) + "H" +
               c(at.x - 1.2 * radius) + "z";
    }
}

void draw_marker(Html& html, int method, Point at, const Attributes& extra) {
    Attributes attributes = {{"class", "marker " + method_class(method)},
                             {"d", marker_path(std::max(method, 0), at, 4.5)}};
    attributes.insert(attributes.end(), extra.begin(), extra.end());
    html.empty("path", attributes);
}

Html::Scope open_image(Html& html, const FigureText& text, double width, double height) {
    auto scope = html.in("svg", {{"id", text.id},
                                 {"viewBox", "0 0 " + coordinate(width) + " " + coordinate(height)},
                                 {"role", "img"},
                                 {"aria-labelledby", text.id + "-title " + text.id + "-text"}});
    html.leaf("title", text.caption, {{"id", text.id + "-title"}});
    html.leaf("desc", text.description, {{"id", text.id + "-text"}});
    return scope;
}

void write_hatches(Html& html, std::size_t methods) {
    // Lines at different angles and gaps, dots and crosses: told apart in grey print and without colour vision.
    constexpr std::array<const char*, hatch_count> lines = {
        "M0 6L6 0M-1 1L1 -1M5 7L7 5", "M0 3H6",  "M3 0V6",          "M0 0L6 6M-1 5L1 7M5 -1L7 1",
        "M1.5 3h3M3 1.5v3",           "M3 3h.1", "M0 0L6 6M0 6L6 0"};
    const auto svg = html.in("svg", {{"class", "hatches"}, {"width", "0"}, {"height", "0"}, {"aria-hidden", "true"}});
    const auto defs = html.in("defs");
    {
        const auto shared = html.in(
            "pattern", {{"id", "shared-bar"}, {"width", "5"}, {"height", "5"}, {"patternUnits", "userSpaceOnUse"}});
        html.empty("rect", {{"class", "bar"}, {"width", "5"}, {"height", "5"}, {"fill-opacity", "0.35"}});
        html.empty("path", {{"class", "hatch"}, {"d", "M0 5L5 0"}});
    }
    for (std::size_t i = 0; i < std::min(methods, lines.size()); ++i) {
        const std::string n = std::to_string(i);
        const auto pattern = html.in(
            "pattern", {{"id", "hatch-" + n}, {"width", "6"}, {"height", "6"}, {"patternUnits", "userSpaceOnUse"}});
        html.empty("rect", {{"class", "tint m" + n}, {"width", "6"}, {"height", "6"}});
        html.empty("path", {{"class", "hatch"}, {"d", lines[i]}});
    }
}

std::vector<std::string> method_marks(const Season& season) {
    constexpr std::size_t longest = 3;
    std::vector<std::string> marks;
    for (std::size_t m = 0; m < season.methods.size(); ++m) {
        std::string mark(1, static_cast<char>('A' + m % 26));
        for (std::size_t length = longest; length > 0; --length) {
            const auto begins = [&](const Method& other) { return beginning(other.name, length); };
            const std::string here = begins(season.methods[m]);
            const bool shared = std::any_of(season.methods.begin(), season.methods.end(), [&](const Method& other) {
                return &other != &season.methods[m] && begins(other) == here;
            });
            if (!shared && !here.empty()) mark = here;
        }
        // A short name stands whole: half of a number would read as another number.
        if (!season.methods[m].name.empty() && season.methods[m].name.size() <= 4) mark = season.methods[m].name;
        marks.push_back(mark);
    }
    return marks;
}

void write_method_key(Html& html, const Telling& telling) {
    const auto list = html.in("ul", {{"class", "key"}});
    const auto& methods = telling.season().methods;
    for (std::size_t i = 0; i < methods.size(); ++i) {
        const int code = static_cast<int>(i);
        const auto item = html.in("li");
        {
            const auto svg = html.in("svg", {{"viewBox", "0 0 44 16"}, {"class", "swatch"}, {"aria-hidden", "true"}});
            html.empty("rect", {{"class", "swatch-box"},
                                {"x", "1"},
                                {"y", "1"},
                                {"width", "22"},
                                {"height", "14"},
                                {"fill", "url(#hatch-" + std::to_string(code % hatch_count) + ")"}});
            draw_marker(html, code, {34, 8});
        }
        const auto& method = methods[i];
        html.text(method.label.empty() || method.label == method.name ? method.name
                                                                      : method.name + ": " + method.label);
    }
}

} // namespace quartercut::report
