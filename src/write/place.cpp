// SPDX-License-Identifier: MIT
// Frame metres -> map coordinates. Every vertex goes through the same function, so shared edges stay shared.
#include "write/place.hpp"

#include "write/gdal_session.hpp"

namespace quartercut::write {

namespace {

Ring ring_to_map(const Frame& frame, const Ring& ring) {
    Ring out;
    out.reserve(ring.size());
    for (const Point& p : ring)
        out.push_back(frame.to_degrees(p));
    return out;
}

} // namespace

bool is_local(const Results& results) {
    return !results.standardised.fields.empty() && results.standardised.fields.front().frame.is_local();
}

MultiPolygon to_map(const Frame& frame, const MultiPolygon& shape_m) {
    MultiPolygon out;
    out.reserve(shape_m.size());
    for (const Polygon& polygon : shape_m) {
        Polygon part{ring_to_map(frame, polygon.shell), {}};
        for (const Ring& hole : polygon.holes)
            part.holes.push_back(ring_to_map(frame, hole));
        out.push_back(std::move(part));
    }
    return out;
}

OGRSpatialReference map_crs(const Results& results) {
    if (!is_local(results)) return wgs84();
    OGRSpatialReference crs;
    crs.SetLocalCS("Local metres");
    crs.SetLinearUnits("metre", 1.0);
    return crs;
}

std::vector<std::string> unplaceable_files(const Results& results) {
    if (!is_local(results)) return {};
    const std::string why = ": the records are in local metres, this format needs longitude and latitude";
    return {"zones.geojson" + why, "zones.kml" + why};
}

} // namespace quartercut::write
