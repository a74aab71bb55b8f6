// SPDX-License-Identifier: MIT
// Where the invented farm lies: metres on the field -> longitude and latitude.
//
// The sinusoidal projection of the WGS 84 ellipsoid, centred on each field: it keeps areas exactly and, within 600 m of
// its centre, lengths to 1e-4. It is written out here on purpose: the simulator must not share a projection, and so an
// error, with the program it is meant to test.
#pragma once

#include "quartercut/geometry.hpp"

namespace quartercut::demo {

/// The farm's origin lies in the open water of the northern basin of Lake Winnipeg: nobody's field.
inline constexpr Point farm_origin_deg{-98.40, 53.05};

class Place {
public:
    /// \param centre_deg  longitude and latitude of the frame's origin (degrees)
    explicit Place(Point centre_deg) : centre_(centre_deg) {}
    /// \param metres  x east, y north of the centre (m)
    [[nodiscard]] Point to_degrees(Point metres) const;

private:
    Point centre_;
};

} // namespace quartercut::demo
