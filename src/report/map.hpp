// SPDX-License-Identifier: MIT
// Maps: each field by method and by yield, and the season's fields in their places.
#pragma once

#include "report/draw.hpp"

#include <cstddef>

namespace quartercut::report {

/// From a field's metres (north up) to drawing units.
struct MapFrame {
    double min_x_m = 0.0, max_y_m = 0.0;
    double units_per_m = 1.0;
    double margin = 10.0;
    double height = 0.0; ///< of the land; the scale bar stands below
    [[nodiscard]] Point at(Point metres) const {
        return {margin + (metres.x - min_x_m) * units_per_m, margin + (max_y_m - metres.y) * units_per_m};
    }
};
[[nodiscard]] MapFrame map_frame(const Box& box);
[[nodiscard]] double drawing_height(const MapFrame& frame);

/// Path of a shape with its holes, for fill-rule evenodd; vertices nearer than half a unit are left out.
[[nodiscard]] std::string shape_path(const MultiPolygon& shape_m, const MapFrame& frame);

/// A point inside the shape with much room to its left and right, that room, and the height that a label centred there
/// has, in metres.
struct LabelSpot {
    Point at;
    double room_m = 0.0;
    double height_m = 0.0;
};
[[nodiscard]] LabelSpot label_spot(const MultiPolygon& shape_m);

void draw_north_and_scale(Html& html, const Telling& telling, const MapFrame& frame);

/// Upper bounds of the five classes of equal count of the segments' yields (report unit, rounded as the legend shows
/// them): four inner bounds between the least and the greatest. Empty without segments.
struct YieldClasses {
    std::vector<double> bounds; ///< six: least, four inner, greatest
    [[nodiscard]] int class_of(double yield) const;
};
[[nodiscard]] YieldClasses yield_classes(const Telling& telling, const ZonedField& zoned);

/// How many marks a field's map may draw of each kind. The whole page has one budget, shared by its fields: small ones
/// are drawn whole, the large ones share what these leave.
struct Marks {
    std::size_t stretches = 0, removed = 0;
};
[[nodiscard]] Marks marks_of_each_field(const Telling& telling);

/// The greatest share for which the sum of all sizes, each cut to the share, stays within the budget; at least 1.
[[nodiscard]] std::size_t fair_share(std::vector<std::size_t> sizes, std::size_t budget);

/// Two maps of one field side by side: how it was cut, what it yielded.
void write_field_maps(Html& html, const Telling& telling, std::size_t field, const Marks& limit);

void write_season_map(Html& html, const Telling& telling);

} // namespace quartercut::report
