// SPDX-License-Identifier: MIT
// A layer's columns by GDAL's columnar interface (Arrow stream, GDAL 3.6), where its driver has one of its own: several
// times faster than feature by feature (tests/bench/read_bench.cpp).
#pragma once

#include "read/gdal_access.hpp"
#include "read/record_source.hpp"

#include <functional>

namespace quartercut::reading {

/// Called with a geometry that is not a plain point, for the same treatment as feature by feature.
using OddGeometry = std::function<void(const OGRGeometry& geometry)>;

/// Loads the wanted columns and the places of all rows.
/// \param odd_geometry  must append to out.x and out.y
/// \returns false, with nothing loaded, where a column is of a kind this cannot read; the caller then goes by features
[[nodiscard]] bool load_by_arrow(const OpenLayer& open, const std::vector<Wanted>& wanted,
                                 const std::vector<SourceColumn>& columns, Loaded& out,
                                 const OddGeometry& odd_geometry);

} // namespace quartercut::reading
