// SPDX-License-Identifier: MIT
// Where on Earth the results lie, and what cannot be written when the records came in local metres.
#pragma once

#include "quartercut/results.hpp"

#include <ogr_spatialref.h>

#include <string>
#include <vector>

namespace quartercut::write {

/// True when the season's coordinates are local metres without a place on Earth.
[[nodiscard]] bool is_local(const Results& results);

/// Shape of a field's frame in the map layers' coordinates: longitude and latitude, or local metres.
[[nodiscard]] MultiPolygon to_map(const Frame& frame, const MultiPolygon& shape_m);

/// The coordinate system of the map layers: WGS 84, or an engineering system in metres.
[[nodiscard]] OGRSpatialReference map_crs(const Results& results);

/// Files whose format asks for longitude and latitude (RFC 7946, KML 2.2) that local metres cannot give; with the reason.
[[nodiscard]] std::vector<std::string> unplaceable_files(const Results& results);

} // namespace quartercut::write
