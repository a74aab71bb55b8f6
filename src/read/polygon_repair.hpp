// SPDX-License-Identifier: MIT
// A polygon as a file holds it -> plain shape with tidy rings; broken ones mended when nothing is lost, or refused.
//
// Rule: a repair that changes the area by more than 1 % is a guess about what was meant, and is refused with the place
// where the outline crosses itself. A bow-tie therefore is refused: its two halves cancel in the area as drawn.
#pragma once

#include "read/context.hpp"

#include <ogr_geometry.h>
#include <optional>

namespace quartercut::reading {

struct RepairedShape {
    MultiPolygon shape;
    std::string repair; ///< what was wrong and mended, empty when nothing was
};

/// Largest change of area, relative, that a repair may bring.
inline constexpr double largest_repair = 0.01;

/// \param geometry  polygon, multi-polygon or a collection of them, flat or with heights, in the frame of the result
/// \throws InputError  another kind of geometry, an outline that encloses nothing, or crosses itself beyond repair;
///                     `where` opens the message
[[nodiscard]] RepairedShape repaired_shape(const OGRGeometry& geometry, const std::string& where);

/// Area two shapes have in common, in the square of their unit.
[[nodiscard]] double common_area(const MultiPolygon& a, const MultiPolygon& b);

/// What two shapes have in common, and a place in the middle of the largest piece of it.
struct Overlap {
    double area = 0.0; ///< in the square of their unit
    Point place;
};
[[nodiscard]] Overlap overlap_of(const MultiPolygon& a, const MultiPolygon& b);

/// All shapes as one, edges between them dissolved.
[[nodiscard]] MultiPolygon dissolved(const std::vector<const MultiPolygon*>& shapes, const std::string& where);

/// Rough area on the ground (m2) of a shape in degrees, good to 1 %: for telling slivers and impossible quarters.
[[nodiscard]] double rough_area_m2(const MultiPolygon& shape_deg);

} // namespace quartercut::reading
