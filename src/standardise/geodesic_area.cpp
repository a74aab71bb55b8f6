// SPDX-License-Identifier: MIT
// Area on the ellipsoid, by the geodesic routines that come with PROJ (Karney 2013, J. Geod. 87, 43-55).
#include "quartercut/standardise.hpp"

#include "base/sum.hpp"

#include <geodesic.h>

#include <cmath>

namespace quartercut {

namespace {

// WGS 84: NGA.STND.0036, table 3.1.
constexpr double wgs84_equatorial_radius_m = 6378137.0;
constexpr double wgs84_flattening = 1.0 / 298.257223563;

double ring_area_m2(const geod_geodesic& ellipsoid, const Ring& ring) {
    geod_polygon polygon{};
    geod_polygon_init(&polygon, 0);
    for (const Point& vertex : ring)
        geod_polygon_addpoint(&ellipsoid, &polygon, vertex.y, vertex.x);
    double area_m2 = 0.0;
    geod_polygon_compute(&ellipsoid, &polygon, 0, 1, &area_m2, nullptr);
    return std::abs(area_m2);
}

} // namespace

double geodesic_area_m2(const MultiPolygon& shape_deg) {
    geod_geodesic ellipsoid{};
    geod_init(&ellipsoid, wgs84_equatorial_radius_m, wgs84_flattening);
    Sum area_m2;
    for (const Polygon& polygon : shape_deg) {
        area_m2 += ring_area_m2(ellipsoid, polygon.shell);
        for (const Ring& hole : polygon.holes)
            area_m2 -= ring_area_m2(ellipsoid, hole);
    }
    return area_m2.value();
}

} // namespace quartercut
