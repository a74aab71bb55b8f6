// SPDX-License-Identifier: MIT
// GEOS behind values: conversions, and the few operations this room needs.
#include "zone/engine.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace quartercut::zone_room {

namespace {

void keep_message(const char* message, void* text) { *static_cast<std::string*>(text) = message; }

constexpr double mitre_limit = 5.0;
constexpr int circle_segments = 8;

} // namespace

Engine::Engine() : handle_(GEOS_init_r()) { GEOSContext_setErrorMessageHandler_r(handle_, keep_message, &last_error_); }

Engine::~Engine() { GEOS_finish_r(handle_); }

Shape Engine::own(GEOSGeometry* shape, const char* step) const {
    if (shape == nullptr) throw InternalError(fmt::format("The geometry engine failed at {}: {}", step, last_error_));
    return {shape, ShapeDeleter{handle_}};
}

GEOSCoordSequence* Engine::sequence_from(const std::vector<Point>& vertices, bool close) const {
    std::vector<double> flat;
    flat.reserve(2 * vertices.size() + 2);
    for (const Point& vertex : vertices) {
        flat.push_back(vertex.x);
        flat.push_back(vertex.y);
    }
    if (close && !vertices.empty()) {
        flat.push_back(vertices.front().x);
        flat.push_back(vertices.front().y);
    }
    return GEOSCoordSeq_copyFromBuffer_r(handle_, flat.data(), static_cast<unsigned>(flat.size() / 2), 0, 0);
}

GEOSGeometry* Engine::ring_from(const Ring& ring) const {
    return own(GEOSGeom_createLinearRing_r(handle_, sequence_from(ring, true)), "making a ring").release();
}

Shape Engine::from(const Polygon& polygon) const {
    std::vector<GEOSGeometry*> holes;
    for (const Ring& hole : polygon.holes)
        if (hole.size() >= 3) holes.push_back(ring_from(hole));
    return own(
        GEOSGeom_createPolygon_r(handle_, ring_from(polygon.shell), holes.data(), static_cast<unsigned>(holes.size())),
        "making a polygon");
}

Shape Engine::collect(int geos_type, std::vector<Shape> parts) const {
    std::vector<GEOSGeometry*> released;
    released.reserve(parts.size());
    for (Shape& part : parts)
        released.push_back(part.release());
    return own(GEOSGeom_createCollection_r(handle_, geos_type, released.data(), static_cast<unsigned>(released.size())),
               "gathering parts");
}

Shape Engine::from(const MultiPolygon& shape) const {
    std::vector<Shape> parts;
    for (const Polygon& polygon : shape)
        if (polygon.shell.size() >= 3) parts.push_back(from(polygon));
    return collect(GEOS_MULTIPOLYGON, std::move(parts));
}

Shape Engine::lines_from(const MultiPolygon& shape) const {
    std::vector<Shape> lines;
    const auto add = [&](const Ring& ring) {
        if (ring.size() < 3) return;
        lines.push_back(own(GEOSGeom_createLineString_r(handle_, sequence_from(ring, true)), "making a line"));
    };
    for (const Polygon& polygon : shape) {
        add(polygon.shell);
        for (const Ring& hole : polygon.holes)
            add(hole);
    }
    return collect(GEOS_MULTILINESTRING, std::move(lines));
}

Shape Engine::line_from(const std::vector<Point>& vertices) const {
    return own(GEOSGeom_createLineString_r(handle_, sequence_from(vertices, false)), "making a line");
}

Shape Engine::points_from(const std::vector<Point>& points) const {
    std::vector<Shape> parts;
    parts.reserve(points.size());
    for (const Point& point : points)
        parts.push_back(own(GEOSGeom_createPointFromXY_r(handle_, point.x, point.y), "making a point"));
    return collect(GEOS_MULTIPOINT, std::move(parts));
}

Ring Engine::ring_of(const GEOSGeometry* ring, bool counter_clockwise) const {
    const GEOSCoordSequence* sequence = GEOSGeom_getCoordSeq_r(handle_, ring);
    unsigned count = 0;
    GEOSCoordSeq_getSize_r(handle_, sequence, &count);
    std::vector<double> flat(2 * static_cast<std::size_t>(count));
    GEOSCoordSeq_copyToBuffer_r(handle_, sequence, flat.data(), 0, 0);
    Ring result;
    for (std::size_t i = 0; i + 1 < count; ++i) // the last repeats the first
        result.push_back({flat[2 * i], flat[2 * i + 1]});
    if ((signed_area(result) > 0.0) != counter_clockwise) std::reverse(result.begin(), result.end());
    const auto lowest = std::min_element(result.begin(), result.end(),
                                         [](Point a, Point b) { return std::pair(a.y, a.x) < std::pair(b.y, b.x); });
    std::rotate(result.begin(), lowest, result.end());
    return result;
}

void Engine::gather_polygons(const GEOSGeometry* shape, MultiPolygon& polygons) const {
    const int type = GEOSGeomTypeId_r(handle_, shape);
    if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION) {
        const int count = GEOSGetNumGeometries_r(handle_, shape);
        for (int i = 0; i < count; ++i)
            gather_polygons(GEOSGetGeometryN_r(handle_, shape, i), polygons);
        return;
    }
    if (type != GEOS_POLYGON || GEOSisEmpty_r(handle_, shape) == 1) return;
    Polygon polygon{ring_of(GEOSGetExteriorRing_r(handle_, shape), true), {}};
    const int holes = GEOSGetNumInteriorRings_r(handle_, shape);
    for (int i = 0; i < holes; ++i)
        polygon.holes.push_back(ring_of(GEOSGetInteriorRingN_r(handle_, shape, i), false));
    polygons.push_back(std::move(polygon));
}

MultiPolygon Engine::polygons_of(const GEOSGeometry* shape) const {
    MultiPolygon polygons;
    gather_polygons(shape, polygons);
    const auto lower = [](const Ring& a, const Ring& b) {
        return std::pair(a.front().y, a.front().x) < std::pair(b.front().y, b.front().x);
    };
    for (Polygon& polygon : polygons)
        std::stable_sort(polygon.holes.begin(), polygon.holes.end(), lower);
    std::stable_sort(polygons.begin(), polygons.end(),
                     [&](const Polygon& a, const Polygon& b) { return lower(a.shell, b.shell); });
    return polygons;
}

bool Engine::is_valid(const MultiPolygon& shape) const {
    const Shape made = from(shape);
    return GEOSisValid_r(handle_, made.get()) == 1;
}

MultiPolygon Engine::made_valid(const MultiPolygon& shape) const {
    // "Structure" fixes shells and holes each for themselves and then takes the holes off. The other way, sorting all
    // lines into areas, was seen to fill a hole that reached past the shell by less than a nanometre.
    const Shape made = from(shape);
    GEOSMakeValidParams* params = GEOSMakeValidParams_create_r(handle_);
    GEOSMakeValidParams_setMethod_r(handle_, params, GEOS_MAKE_VALID_STRUCTURE);
    GEOSGeometry* repaired = GEOSMakeValidWithParams_r(handle_, made.get(), params);
    GEOSMakeValidParams_destroy_r(handle_, params);
    return polygons_of(own(repaired, "repairing a polygon").get());
}

/// A buffer of a needle has been seen to cross itself by the last digit; then both shapes are repaired first.
MultiPolygon Engine::overlay(Overlay how, const MultiPolygon& a, const MultiPolygon& b, const char* step) const {
    const Shape left = from(a), right = from(b);
    if (GEOSGeometry* plain = how(handle_, left.get(), right.get())) return polygons_of(own(plain, step).get());
    const Shape repaired_left = from(made_valid(a)), repaired_right = from(made_valid(b));
    return polygons_of(own(how(handle_, repaired_left.get(), repaired_right.get()), step).get());
}

MultiPolygon Engine::intersection(const MultiPolygon& a, const MultiPolygon& b) const {
    return overlay(GEOSIntersection_r, a, b, "an intersection");
}

MultiPolygon Engine::difference(const MultiPolygon& a, const MultiPolygon& b) const {
    return overlay(GEOSDifference_r, a, b, "a difference");
}

MultiPolygon Engine::union_of(const std::vector<MultiPolygon>& shapes) const {
    std::vector<Shape> parts;
    for (const MultiPolygon& shape : shapes)
        parts.push_back(from(shape));
    const Shape all = collect(GEOS_GEOMETRYCOLLECTION, std::move(parts));
    return polygons_of(own(GEOSUnaryUnion_r(handle_, all.get()), "a union").get());
}

MultiPolygon Engine::grown(const MultiPolygon& shape, double by_m) const {
    const Shape made = from(shape);
    return polygons_of(own(GEOSBufferWithStyle_r(handle_, made.get(), by_m, circle_segments, GEOSBUF_CAP_FLAT,
                                                 GEOSBUF_JOIN_MITRE, mitre_limit),
                           "growing a polygon")
                           .get());
}

MultiPolygon Engine::dissolved(const std::vector<const Polygon*>& polygons) const {
    std::vector<Shape> parts;
    for (const Polygon* polygon : polygons)
        parts.push_back(from(*polygon));
    const Shape all = collect(GEOS_MULTIPOLYGON, std::move(parts));
    if (polygons.size() == 1) return polygons_of(all.get());
    return polygons_of(own(GEOSCoverageUnion_r(handle_, all.get()), "dissolving faces").get());
}

Point Engine::point_inside(const Polygon& polygon) const {
    const Shape made = from(polygon);
    const Shape point = own(GEOSPointOnSurface_r(handle_, made.get()), "finding a point inside");
    Point inside;
    GEOSGeomGetX_r(handle_, point.get(), &inside.x);
    GEOSGeomGetY_r(handle_, point.get(), &inside.y);
    return inside;
}

} // namespace quartercut::zone_room
