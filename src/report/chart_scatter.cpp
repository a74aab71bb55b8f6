// SPDX-License-Identifier: MIT
// Points with the mark of their method: monitor against scale, moisture against the day of cutting.
#include "report/chart.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::report {
namespace {

constexpr double left = 48.0;
constexpr double right = drawing_width - 24.0; // room for half a date
constexpr double top = 14.0;
constexpr double bottom = 256.0;
constexpr double seconds_per_day = 86400.0;

// Day ticks start at midnight of the zone; never more than six of them.
Axis date_axis(const std::vector<double>& values, const std::string& zone) {
    const double offset = zone_offset_s(zone);
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    const double first = std::floor((*least + offset) / seconds_per_day);
    const double last = std::floor((*most + offset) / seconds_per_day) + 1.0;
    const double step = std::max(1.0, std::ceil((last - first) / 5.0));
    Axis axis{first * seconds_per_day - offset, last * seconds_per_day - offset, left, right, {}, 0};
    for (double day = first; day <= last; day += step)
        axis.ticks.push_back(day * seconds_per_day - offset);
    return axis;
}

std::string day_month(double time_s, const std::string& zone) {
    const std::string text = date(time_s, zone);
    return text.size() > 5 ? text.substr(0, text.size() - 5) : text;
}

void draw_x_axis(Html& html, const ScatterText& text, const Axis& axis) {
    if (!text.x_is_date) return draw_axis(html, axis, {top, bottom, text.x_title});
    for (const double tick : axis.ticks) {
        html.empty("path", {{"class", "grid"},
                            {"d", "M" + coordinate(axis.at(tick)) + " " + coordinate(top) + "V" + coordinate(bottom)}});
        html.leaf("text", day_month(tick, text.zone),
                  {{"class", "tick"},
                   {"x", coordinate(axis.at(tick))},
                   {"y", coordinate(bottom + 14)},
                   {"text-anchor", "middle"}});
    }
    html.leaf("text", text.x_title,
              {{"class", "tick"},
               {"x", coordinate((left + right) / 2)},
               {"y", coordinate(bottom + 29)},
               {"text-anchor", "middle"}});
}

void draw_y_axis(Html& html, const ScatterText& text, const Axis& axis) {
    for (const double tick : axis.ticks) {
        const std::string y = coordinate(axis.at(tick));
        html.empty("path", {{"class", "grid"}, {"d", "M" + coordinate(left) + " " + y + "H" + coordinate(right)}});
        html.leaf("text", fixed(tick, axis.decimals),
                  {{"class", "tick"},
                   {"x", coordinate(left - 5)},
                   {"y", coordinate(axis.at(tick) + 4)},
                   {"text-anchor", "end"}});
    }
    html.leaf("text", text.y_title,
              {{"class", "tick"},
               {"transform", "translate(12 " + coordinate((top + bottom) / 2) + ") rotate(-90)"},
               {"text-anchor", "middle"}});
}

} // namespace

void draw_scatter(Html& html, const ScatterText& text, const std::vector<Mark>& marks) {
    std::vector<double> xs;
    std::vector<double> ys;
    for (const auto& mark : marks) {
        if (!std::isfinite(mark.x) || !std::isfinite(mark.y)) continue;
        xs.push_back(mark.x);
        ys.push_back(mark.y);
    }
    if (xs.empty()) return;
    std::vector<double> both = xs;
    both.insert(both.end(), ys.begin(), ys.end());
    const Axis x =
        text.x_is_date ? date_axis(xs, text.zone) : axis_over(text.equal_line ? both : xs, left, right, false);
    const Axis y = axis_over(text.equal_line ? both : ys, bottom, top, false);
    const auto svg = open_image(html, text.figure, drawing_width, bottom + 36);
    draw_x_axis(html, text, x);
    draw_y_axis(html, text, y);
    if (text.equal_line) {
        html.empty("path", {{"class", "zero"},
                            {"d", "M" + coordinate(x.at(x.low)) + " " + coordinate(y.at(x.low)) + "L" +
                                      coordinate(x.at(x.high)) + " " + coordinate(y.at(x.high))}});
    }
    for (const auto& mark : marks) {
        if (!std::isfinite(mark.x) || !std::isfinite(mark.y)) continue;
        const auto point = html.in("g");
        draw_marker(html, mark.method, {x.at(mark.x), y.at(mark.y)},
                    {{"data-x", exact(mark.x)}, {"data-y", exact(mark.y)}});
        html.leaf("title", mark.text);
    }
}

} // namespace quartercut::report
