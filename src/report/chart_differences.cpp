// SPDX-License-Identifier: MIT
// Differences with their ranges, row by row: fields and farm, or one difference under changed assumptions.
#include "report/chart.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::report {
namespace {

constexpr double full_row = 38.0;
constexpr double bare_row = 31.0; // nothing below the range
constexpr double left = 12.0;
constexpr double right = drawing_width - 12.0;
constexpr std::size_t label_characters = 40;

bool is_known(const std::optional<Interval>& range) {
    return range && std::isfinite((*range)[0]) && std::isfinite((*range)[1]);
}

void collect(std::vector<double>& values, const Telling& telling, const std::optional<Interval>& range) {
    if (!is_known(range)) return;
    values.push_back(telling.figures.in_unit((*range)[0]));
    values.push_back(telling.figures.in_unit((*range)[1]));
}

double row_height(const std::vector<DifferenceRow>& rows) {
    const bool full =
        std::any_of(rows.begin(), rows.end(), [](const auto& row) { return is_known(row.prediction_t_ha); });
    return full ? full_row : bare_row;
}

std::vector<double> all_values(const Telling& telling, const std::vector<DifferenceRow>& rows) {
    std::vector<double> values;
    for (const auto& row : rows) {
        if (row.gain_t_ha && std::isfinite(*row.gain_t_ha)) values.push_back(telling.figures.in_unit(*row.gain_t_ha));
        collect(values, telling, row.range_t_ha);
        collect(values, telling, row.prediction_t_ha);
    }
    return values;
}

std::string numbers_of(const Telling& telling, const DifferenceRow& row) {
    if (!row.gain_t_ha || !std::isfinite(*row.gain_t_ha)) return telling.words.numbers.unknown;
    const auto gain = telling.figures.cells(row.gain_t_ha, true);
    if (!is_known(row.range_t_ha)) return gain.front();
    return gain.front() + " (" + telling.figures.cells(row.range_t_ha).front() + ")";
}

void draw_span(Html& html, const Axis& axis, const Interval& range, double y, const std::string& style) {
    html.empty("path", {{"class", style},
                        {"d", "M" + coordinate(axis.at(range[0])) + " " + coordinate(y) + "H" +
                                  coordinate(axis.at(range[1]))}});
}

Interval in_unit(const Telling& telling, const Interval& t_ha) {
    return {telling.figures.in_unit(t_ha[0]), telling.figures.in_unit(t_ha[1])};
}

// How far from zero the picture reaches: all ranges, unless one reaches more than four times as far as the middle one.
std::optional<double> reach_limit(const Telling& telling, const std::vector<DifferenceRow>& rows) {
    std::vector<double> reaches;
    double farthest_gain = 0.0;
    for (const auto& row : rows) {
        if (!row.gain_t_ha || !std::isfinite(*row.gain_t_ha)) continue;
        farthest_gain = std::max(farthest_gain, std::abs(telling.figures.in_unit(*row.gain_t_ha)));
        if (!is_known(row.range_t_ha)) continue;
        const Interval range = in_unit(telling, *row.range_t_ha);
        reaches.push_back(std::max(std::abs(range[0]), std::abs(range[1])));
    }
    if (reaches.size() < 3) return std::nullopt;
    std::sort(reaches.begin(), reaches.end());
    const double middle = reaches[reaches.size() / 2];
    if (reaches.back() <= 4.0 * middle) return std::nullopt;
    return std::max(2.0 * middle, 1.2 * farthest_gain);
}

// A range with arrows where it runs out of the picture.
void draw_range(Html& html, const Axis& axis, const Interval& range, double y, const std::string& style) {
    const Interval shown = {std::max(range[0], axis.low), std::min(range[1], axis.high)};
    draw_span(html, axis, shown, y, "range " + style);
    const auto arrow = [&](double x, double way) {
        html.empty("path", {{"class", "beyond"},
                            {"d", "M" + coordinate(x) + " " + coordinate(y) + "l" + coordinate(-8 * way) + " -6v12z"}});
    };
    if (range[0] < axis.low) arrow(axis.start - 4, -1);
    if (range[1] > axis.high) arrow(axis.end + 4, 1);
}

// Below the range, with ends, so that it shows also where it is no longer than the range.
void draw_prediction(Html& html, const Axis& axis, const Interval& range, double y) {
    const Interval shown = {std::max(range[0], axis.low), std::min(range[1], axis.high)};
    draw_span(html, axis, shown, y, "prediction");
    for (const double end : shown)
        html.empty("path", {{"class", "prediction-end"},
                            {"d", "M" + coordinate(axis.at(end)) + " " + coordinate(y - 3) + "v6"}});
}

void draw_row(Html& html, const Telling& telling, const Axis& axis, const DifferenceRow& row, double top) {
    const double y = top + 25;
    html.leaf("text", shortened(row.label, label_characters),
              {{"class", row.sum ? "label strong" : "label"}, {"x", coordinate(left)}, {"y", coordinate(top + 15)}});
    leaf_in_both(html, "text", telling, [&](const Telling& in) { return numbers_of(in, row); },
                 {{"class", "label"}, {"x", coordinate(right)}, {"y", coordinate(top + 15)}, {"text-anchor", "end"}});
    if (!row.gain_t_ha || !std::isfinite(*row.gain_t_ha)) return;
    if (is_known(row.prediction_t_ha)) draw_prediction(html, axis, in_unit(telling, *row.prediction_t_ha), y + 9);
    if (is_known(row.range_t_ha)) draw_range(html, axis, in_unit(telling, *row.range_t_ha), y, row.style);
    html.empty("path", {{"class", "best " + row.style},
                        {"d", marker_path(row.sum ? 2 : 0, {axis.at(telling.figures.in_unit(*row.gain_t_ha)), y}, 5)},
                        {"data-gain-t-ha", exact(*row.gain_t_ha)},
                        {"data-low-t-ha", is_known(row.range_t_ha) ? exact((*row.range_t_ha)[0]) : ""},
                        {"data-high-t-ha", is_known(row.range_t_ha) ? exact((*row.range_t_ha)[1]) : ""}});
}

} // namespace

bool runs_beyond(const Telling& telling, const std::vector<DifferenceRow>& rows) {
    return reach_limit(telling, rows).has_value();
}

void draw_differences(Html& html, const Telling& telling, const FigureText& text,
                      const std::vector<DifferenceRow>& rows) {
    auto values = all_values(telling, rows);
    if (values.empty()) return;
    if (const auto limit = reach_limit(telling, rows)) {
        for (double& value : values)
            value = std::clamp(value, -*limit, *limit);
    }
    const Axis axis = axis_over(values, left + 6, right - 6, true);
    const double height = row_height(rows);
    const double bottom = height * static_cast<double>(rows.size()) + 6;
    const auto svg = open_image(html, text, drawing_width, bottom + 36);
    draw_axis(html, axis, yield_axis(telling, 4, bottom));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        draw_row(html, telling, axis, rows[i], height * static_cast<double>(i));
    }
}

std::string differences_in_words(const Telling& telling, const std::vector<DifferenceRow>& rows) {
    std::vector<std::string> parts;
    for (const auto& row : rows)
        parts.push_back(row.label + " " + numbers_of(telling, row));
    return fmt::format("{} {}", fmt::join(parts, "; "), telling.figures.unit());
}

} // namespace quartercut::report
