// SPDX-License-Identifier: MIT
// Our geometry values -> OGR's.
#pragma once

#include "quartercut/geometry.hpp"

#include <ogr_geometry.h>

namespace quartercut::write {

/// A multipolygon with closed rings, shells and holes in the order given.
[[nodiscard]] OGRMultiPolygon to_ogr(const MultiPolygon& shape);

} // namespace quartercut::write
