// SPDX-License-Identifier: MIT
// One field cut by two layers of shapes into faces: the arrangement of all their edges at once.
//
// All edges are noded together on a fixed grid (snap rounding), turned into faces, and each face is asked where it lies.
// So neighbours share every vertex, nothing overlaps and nothing is left out, by construction; verify.cpp checks it all
// the same.
#pragma once

#include "zone/engine.hpp"

#include <cstdint>
#include <vector>

namespace quartercut::zone_room {

/// Grid of the noding: 2^-23 m, an exact binary fraction far below any survey and far above rounding.
inline constexpr double grid_m = 0x1.0p-23;

struct Face {
    Polygon shape;
    Point inside;            ///< a point within
    std::vector<int> areas;  ///< method areas that hold it, lowest index first
    std::vector<int> strata; ///< the same for strata
    int area = -1;           ///< the one it counts to; after merging, its neighbour's
    int stratum = -1;
    bool sliver = false; ///< narrower than the stated width
};

struct Cut {
    const MultiPolygon* boundary = nullptr; ///< valid
    std::vector<MultiPolygon> areas;        ///< valid; index = Face::area
    std::vector<MultiPolygon> strata;       ///< valid; index = Face::stratum
    double sliver_m = 1.0;
};

/// Lines from the corners of sliver faces to their foot on the boundary.
[[nodiscard]] std::vector<Shape> spokes_across_slivers(const Engine& engine, const Cut& cut,
                                                       const std::vector<Face>& faces);

/// The faces of the field, slivers and narrow arms marked but not yet merged.
[[nodiscard]] std::vector<Face> cut_into_faces(const Engine& engine, const Cut& cut);

/// Gives each sliver the label of the neighbour with the longest shared edge, of its own method area where there is
/// one. A sliver without neighbours keeps its label.
void merge_slivers(std::vector<Face>& faces, const std::vector<int>& method_of_area);

/// Checks that the shapes are a partition of the boundary: every edge is shared with exactly one other shape or lies on
/// the outline, and the areas add up. \throws InternalError naming the field and the place
void verify_partition(const std::vector<const MultiPolygon*>& shapes, const MultiPolygon& boundary,
                      const std::string& field);

} // namespace quartercut::zone_room
