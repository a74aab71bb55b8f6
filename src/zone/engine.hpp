// SPDX-License-Identifier: MIT
// The door to GEOS: its C interface behind values that free themselves and failures that throw.
//
// One Engine is one GEOS context; it may not be shared between threads, so every call of `zone` makes its own.
#pragma once

#include "quartercut/geometry.hpp"

#include <geos_c.h>

#include <memory>
#include <string>
#include <vector>

namespace quartercut::zone_room {

struct ShapeDeleter {
    GEOSContextHandle_t handle = nullptr;
    void operator()(GEOSGeometry* shape) const { GEOSGeom_destroy_r(handle, shape); }
};
using Shape = std::unique_ptr<GEOSGeometry, ShapeDeleter>;

class Engine {
public:
    Engine();
    ~Engine();
    Engine(const Engine&) = delete;
    Engine& operator=(const Engine&) = delete;

    [[nodiscard]] Shape from(const MultiPolygon& shape) const;
    [[nodiscard]] Shape from(const Polygon& polygon) const;
    /// All rings as lines.
    [[nodiscard]] Shape lines_from(const MultiPolygon& shape) const;
    [[nodiscard]] Shape line_from(const std::vector<Point>& vertices) const;
    [[nodiscard]] Shape points_from(const std::vector<Point>& points) const;
    [[nodiscard]] Shape collect(int geos_type, std::vector<Shape> parts) const;
    /// The polygons of a geometry of any kind; rings start at their lowest vertex, shells run counter-clockwise.
    [[nodiscard]] MultiPolygon polygons_of(const GEOSGeometry* shape) const;

    [[nodiscard]] bool is_valid(const MultiPolygon& shape) const;
    [[nodiscard]] MultiPolygon made_valid(const MultiPolygon& shape) const;
    [[nodiscard]] MultiPolygon intersection(const MultiPolygon& a, const MultiPolygon& b) const;
    [[nodiscard]] MultiPolygon difference(const MultiPolygon& a, const MultiPolygon& b) const;
    [[nodiscard]] MultiPolygon union_of(const std::vector<MultiPolygon>& shapes) const;
    /// Grown (or shrunk, negative) with mitred corners.
    [[nodiscard]] MultiPolygon grown(const MultiPolygon& shape, double by_m) const;
    /// Polygons that share edges vertex for vertex, dissolved; no vertex is moved, made or lost on the outline.
    [[nodiscard]] MultiPolygon dissolved(const std::vector<const Polygon*>& polygons) const;
    [[nodiscard]] Point point_inside(const Polygon& polygon) const;

    /// Takes over a result of the C interface. \throws InternalError it is null; says at which step
    [[nodiscard]] Shape own(GEOSGeometry* shape, const char* step) const;
    [[nodiscard]] GEOSContextHandle_t handle() const { return handle_; }

private:
    using Overlay = GEOSGeometry* (*)(GEOSContextHandle_t, const GEOSGeometry*, const GEOSGeometry*);
    [[nodiscard]] MultiPolygon overlay(Overlay how, const MultiPolygon& a, const MultiPolygon& b,
                                       const char* step) const;
    [[nodiscard]] GEOSGeometry* ring_from(const Ring& ring) const;
    [[nodiscard]] GEOSCoordSequence* sequence_from(const std::vector<Point>& vertices, bool close) const;
    [[nodiscard]] Ring ring_of(const GEOSGeometry* ring, bool counter_clockwise) const;
    void gather_polygons(const GEOSGeometry* shape, MultiPolygon& polygons) const;

    GEOSContextHandle_t handle_;
    std::string last_error_;
};

} // namespace quartercut::zone_room
