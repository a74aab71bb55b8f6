// SPDX-License-Identifier: MIT
// Segments -> the cells a spatial model is fitted to, at most so many that the fit is exact and quick.
#pragma once

#include "compare/spatial_model.hpp"

#include "quartercut/compare.hpp"

namespace quartercut::contrast {

/// Which segments, seen in which direction.
struct SegmentSet {
    const ZonedField& zoned;
    std::vector<int> segments;
    double direction_rad = 0.0; ///< of the passes, counter-clockwise from east
};

struct CellSet {
    Cells cells;             ///< x is left empty
    std::vector<int> method; ///< per cell
    int passes = 0;
    int merged = 1;        ///< segments per cell, at most
    double width_m = 0.0;  ///< sum of land / sum of length
    double length_m = 0.0; ///< mean length of a cell
};

/// Mean direction of the passes, weighted by length; `fallback_rad` without passes.
[[nodiscard]] double pass_direction(const CleanedField& cleaned, double fallback_rad);

/// Neighbouring segments of one pass and zone are merged until there are about `most` cells.
[[nodiscard]] CellSet make_cells(const SegmentSet& set, std::size_t most);

/// The segments that do not lie beside a segment of another method (nearer than one and a half passes).
[[nodiscard]] std::vector<int> away_from_other_methods(const SegmentSet& set);

} // namespace quartercut::contrast
