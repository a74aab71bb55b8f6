// SPDX-License-Identifier: MIT
// Coordinates of a layer -> WGS 84 longitude/latitude, or left alone where all layers are in local metres.
//
// A coordinate system is never assumed. The file says it, or the season file says it; the one exception are columns
// that call themselves longitude and latitude and hold such numbers, and that is told in a note.
#pragma once

#include "read/context.hpp"

#include <memory>
#include <ogr_spatialref.h>

namespace quartercut::reading {

/// What is known about a layer's coordinates before they are turned.
struct CrsFacts {
    std::string shown;      ///< file and layer, for messages
    std::string role;       ///< table of the season file: "fields", "points" ...
    std::string season_crs; ///< `crs` there; empty: not given
    TextPlace place;
    const OGRSpatialReference* file_crs = nullptr;
    bool by_definition = false; ///< the format itself means WGS 84 (GeoJSON)
    bool named_lon_lat = false; ///< columns are called longitude and latitude
    Box extent;                 ///< of the numbers as they stand
};

/// A bounding box grown one point at a time; NaN is passed over.
void grow(Box& box, double x, double y);

class ToLonLat {
public:
    /// \throws InputError  no coordinate system known, unknown definition, local metres here but not elsewhere, numbers
    ///                     that cannot be what the coordinate system says, swapped axes
    ToLonLat(Context& context, const CrsFacts& facts);
    [[nodiscard]] bool changes_nothing() const { return !transform_; }
    /// In place; a point that cannot be turned becomes NaN. \returns how many of them
    std::size_t apply(std::vector<double>& x, std::vector<double>& y) const;
    [[nodiscard]] OGRCoordinateTransformation* transform() const { return transform_.get(); }

private:
    struct Destroy {
        void operator()(OGRCoordinateTransformation* t) const { OGRCoordinateTransformation::DestroyCT(t); }
    };
    void use(Context& context, const CrsFacts& facts, const OGRSpatialReference& source);
    std::unique_ptr<OGRCoordinateTransformation, Destroy> transform_;
};

} // namespace quartercut::reading
