// SPDX-License-Identifier: MIT
// A raster -> its cells over the fields, in longitude and latitude: as numbers, or as polygons of classes.
#pragma once

#include "read/areas.hpp"

namespace quartercut::reading {

struct RasterWish {
    LayerInput input;
    int band = 1;
    int classes = 0; ///< as polygons: classes of equal count; 0: every value is a class
    std::size_t table = 0;
};

/// Numbers at the middles of the cells around the fields. \throws InputError
[[nodiscard]] RawNumbers raster_numbers(Context& context, const RasterWish& wish);

/// Outlines of the classes around the fields, along the cells' edges, named by value or by class.
/// \throws InputError  too many values to be classes, no number in any field
[[nodiscard]] std::vector<RawArea> raster_areas(Context& context, const RasterWish& wish);

} // namespace quartercut::reading
