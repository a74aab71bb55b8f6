// SPDX-License-Identifier: MIT
// Metres on the field -> longitude and latitude. See place.hpp.
#include "demo/place.hpp"

#include <cmath>
#include <numbers>

namespace quartercut::demo {

namespace {

constexpr double semi_major_m = 6378137.0; // WGS 84
constexpr double flattening = 1.0 / 298.257223563;
constexpr double eccentricity2 = flattening * (2.0 - flattening);
constexpr double rad_per_deg = std::numbers::pi / 180.0;

double radius_term(double lat_rad) {
    const double s = std::sin(lat_rad);
    return 1.0 - eccentricity2 * s * s;
}

double meridian_radius_m(double lat_rad) {
    return semi_major_m * (1.0 - eccentricity2) / std::pow(radius_term(lat_rad), 1.5);
}

double parallel_radius_m(double lat_rad) { return semi_major_m / std::sqrt(radius_term(lat_rad)) * std::cos(lat_rad); }

} // namespace

Point Place::to_degrees(Point metres) const {
    const double lat0 = centre_.y * rad_per_deg;
    // Radius at the middle of the arc: the error is of third order in the arc, under a micrometre here.
    const double halfway = lat0 + 0.5 * metres.y / meridian_radius_m(lat0);
    const double lat = lat0 + metres.y / meridian_radius_m(halfway);
    return {centre_.x + metres.x / parallel_radius_m(lat) / rad_per_deg, lat / rad_per_deg};
}

} // namespace quartercut::demo
