// SPDX-License-Identifier: MIT
// What every figure needs: coordinates as text, round axis ticks, the look of a method, captions for screen readers.
//
// Figures are SVG drawn here, at run time, without a script library: they print as vectors, read without scripts, weigh
// a few kilobytes, and the build needs no package manager of another language. Measured against a map and a chart
// library inlined in the page: 12 kB against 229 kB, and the library's map came out off-centre and its chart as a
// bitmap when printed.
#pragma once

#include "report/html.hpp"
#include "report/telling.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quartercut::report {

/// A coordinate with one decimal, no trailing ".0".
[[nodiscard]] std::string coordinate(double value);
/// Shortest text that gives the same double back, for data attributes that checks read.
[[nodiscard]] std::string exact(double value);
/// The first `limit` characters, with an ellipsis where some were cut off. Counts characters, not bytes.
[[nodiscard]] std::string shortened(const std::string& text, std::size_t limit);

/// A straight axis from values to drawing units with round ticks; `low` < `high` even when all values agree.
struct Axis {
    double low = 0.0, high = 1.0;  ///< values at the ends
    double start = 0.0, end = 1.0; ///< drawing units at the ends
    std::vector<double> ticks;
    int decimals = 0; ///< decimals the ticks need
    [[nodiscard]] double at(double value) const { return start + (value - low) / (high - low) * (end - start); }
};
[[nodiscard]] Axis axis_over(std::vector<double> values, double start, double end, bool with_zero);

/// Draws ticks, their labels and the axis title under a plot that spans `top`..`bottom`.
struct AxisPlace {
    double top = 0.0, bottom = 0.0;
    std::string title;
    std::optional<double> t_ha_per_unit = std::nullopt; ///< of an axis of yields: its ticks can be read in t/ha too
};
void draw_axis(Html& html, const Axis& axis, const AxisPlace& place);
/// The place of an axis of yields in the report unit.
[[nodiscard]] AxisPlace yield_axis(const Telling& telling, double top, double bottom);

/// Class of a method's colour: "m0" .. "m6", by its place in the season file.
[[nodiscard]] std::string method_class(int method);
/// Shape that marks a method, so that colour is never its only sign: circle, square, diamond, triangle, ...
void draw_marker(Html& html, int method, Point at, const Attributes& extra = {});
/// Path of such a shape around the origin-free point.
[[nodiscard]] std::string marker_path(int shape, Point at, double radius);

/// A figure with its caption; the SVG inside carries a title and a description for screen readers.
struct FigureText {
    std::string id, caption, description;
};
/// Opens <svg> as one image with a title and description. Units: `width` x `height`.
[[nodiscard]] Html::Scope open_image(Html& html, const FigureText& text, double width, double height);

/// Hatch patterns of the methods, once a page.
void write_hatches(Html& html, std::size_t methods);

/// The shortest beginning of each method's name that no other name shares, up to three characters: what stands on a
/// zone. Names of four characters or fewer stand whole. A letter by place where names begin alike for longer.
[[nodiscard]] std::vector<std::string> method_marks(const Season& season);

/// One legend entry with the method's hatch, marker and label.
void write_method_key(Html& html, const Telling& telling);

inline constexpr double drawing_width = 400.0; ///< of every figure: readable at 390 px, not huge on a desk
inline constexpr int hatch_count = 7;

} // namespace quartercut::report
