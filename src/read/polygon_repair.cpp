// SPDX-License-Identifier: MIT
// Mending polygons through OGR (which uses GEOS), and giving them tidy rings.
#include "read/polygon_repair.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "read/gdal_access.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <memory>
#include <numbers>

namespace quartercut::reading {
namespace {

using Geometry = std::unique_ptr<OGRGeometry>;

Ring tidy_ring(const OGRLinearRing& ring, bool shell) {
    Ring out;
    for (int i = 0; i < ring.getNumPoints(); ++i) {
        const Point p{ring.getX(i), ring.getY(i)};
        if (out.empty() || !(out.back() == p)) out.push_back(p);
    }
    while (out.size() > 1 && out.front() == out.back())
        out.pop_back();
    if ((signed_area(out) > 0.0) != shell) std::reverse(out.begin(), out.end());
    return out;
}

void append_polygon(MultiPolygon& out, const OGRPolygon& polygon) {
    const OGRLinearRing* const shell = polygon.getExteriorRing();
    if (shell == nullptr) return;
    Polygon tidy;
    tidy.shell = tidy_ring(*shell, true);
    if (tidy.shell.size() < 3) return;
    for (int i = 0; i < polygon.getNumInteriorRings(); ++i) {
        Ring hole = tidy_ring(*polygon.getInteriorRing(i), false);
        if (hole.size() >= 3) tidy.holes.push_back(std::move(hole));
    }
    out.push_back(std::move(tidy));
}

/// Polygons of a geometry; false when it holds points or lines.
bool collect(MultiPolygon& out, const OGRGeometry& geometry) {
    const OGRwkbGeometryType type = wkbFlatten(geometry.getGeometryType());
    if (type == wkbPolygon) {
        append_polygon(out, *geometry.toPolygon());
        return true;
    }
    if (OGR_GT_IsSubClassOf(type, wkbGeometryCollection) == 0) return false;
    bool all = true;
    for (const OGRGeometry* part : *geometry.toGeometryCollection())
        all = collect(out, *part) && all;
    return all;
}

/// Straight edges, no heights, rings closed.
Geometry flat_copy(const OGRGeometry& geometry) {
    Geometry flat(geometry.hasCurveGeometry() != 0 ? geometry.getLinearGeometry() : geometry.clone());
    if (!flat) return flat;
    flat->flattenTo2D();
    flat->closeRings();
    return flat;
}

Geometry to_ogr(const MultiPolygon& shape) {
    auto out = std::make_unique<OGRMultiPolygon>();
    const auto ring_of = [](const Ring& ring) {
        auto made = std::make_unique<OGRLinearRing>();
        for (const Point p : ring)
            made->addPoint(p.x, p.y);
        made->closeRings();
        return made;
    };
    for (const Polygon& polygon : shape) {
        auto part = std::make_unique<OGRPolygon>();
        part->addRingDirectly(ring_of(polygon.shell).release());
        for (const Ring& hole : polygon.holes)
            part->addRingDirectly(ring_of(hole).release());
        out->addGeometryDirectly(part.release());
    }
    return out;
}

/// "-112.12345, 53.20001" out of "Self-intersection at or near point -112.12345 53.20001".
std::string place_in(const std::string& words) {
    const std::size_t at = words.find("point ");
    if (at == std::string::npos) return {};
    const std::vector<std::string> numbers = split(std::string_view(words).substr(at + 6), ' ');
    if (numbers.size() < 2) return {};
    const auto x = parse_number(numbers[0]), y = parse_number(numbers[1]);
    if (!x || !y) return {};
    const int decimals = std::abs(*x) <= 180.0 && std::abs(*y) <= 90.0 ? 6 : 2;
    return fmt::format("{}, {}", format_fixed(*x, decimals), format_fixed(*y, decimals));
}

/// What GEOS finds wrong, in our words with the place; empty when the geometry is valid.
std::string trouble(const OGRGeometry& geometry) {
    const GdalWords words;
    if (geometry.IsValid() != 0) return {};
    const std::string said = words.last("");
    const std::string place = place_in(said);
    const auto& own = spoken().read;
    const char* what = own.is_broken;
    if (said.find("Self-intersection") != std::string::npos) what = own.crosses_itself;
    if (said.find("Hole") != std::string::npos || said.find("hole") != std::string::npos) what = own.hole_outside;
    if (said.find("Nested") != std::string::npos || said.find("nested") != std::string::npos)
        what = own.parts_within_parts;
    return place.empty() ? what : fill(own.at_place, fmt::arg("what", what), fmt::arg("place", place));
}

Geometry made_valid(const OGRGeometry& geometry) {
    const GdalWords words;
    char* method[] = {const_cast<char*>("METHOD=STRUCTURE"), nullptr}; // NOLINT: the C interface wants it so
    return Geometry(geometry.MakeValid(method));
}

double area_as_drawn(const OGRGeometry& geometry) {
    MultiPolygon drawn;
    (void)collect(drawn, geometry);
    double sum = 0.0;
    for (const Polygon& polygon : drawn) {
        sum += std::abs(signed_area(polygon.shell));
        for (const Ring& hole : polygon.holes)
            sum -= std::abs(signed_area(hole));
    }
    return sum;
}

/// Parts smaller than a millionth of the whole: crumbs of digitising. \returns how many were dropped
std::size_t drop_crumbs(MultiPolygon& shape) {
    const double whole = planar_area(shape);
    return static_cast<std::size_t>(
        std::erase_if(shape, [whole](const Polygon& part) { return planar_area(part) < whole * 1e-6; }));
}

} // namespace

RepairedShape repaired_shape(const OGRGeometry& geometry, const std::string& where) {
    Geometry flat = flat_copy(geometry);
    RepairedShape out;
    if (!flat || !collect(out.shape, *flat))
        throw InputError(fmt::format("{}: a polygon is wanted, but the row holds a {}.", where,
                                     lower(OGRGeometryTypeToName(geometry.getGeometryType()))));
    const double before = area_as_drawn(*flat);
    const std::string wrong = trouble(*flat);
    if (!wrong.empty()) {
        const Geometry mended = made_valid(*flat);
        out.shape.clear();
        if (mended) (void)collect(out.shape, *mended);
        const double after = planar_area(out.shape);
        const double change = before > 0.0 ? std::abs(after - before) / before : 1.0;
        if (out.shape.empty() || !(change <= largest_repair))
            throw InputError(fmt::format(
                "{}: the outline {}. Mending it would change its area by {}; draw it anew there.", where, wrong,
                before > 0.0 && change < 10.0 ? format_fixed(100.0 * change, 1) + " %" : "more than itself"));
        out.repair =
            fill(spoken().read.mended, fmt::arg("what", wrong), fmt::arg("pct", format_fixed(100.0 * change, 3)));
    }
    const std::size_t crumbs = drop_crumbs(out.shape);
    if (crumbs > 0)
        out.repair += (out.repair.empty() ? "" : " ") +
                      fill(spoken().read.crumbs,
                           fmt::arg("parts", counted(crumbs, spoken().read.part_one, spoken().read.part_many)));
    if (out.shape.empty() || !(planar_area(out.shape) > 0.0))
        throw InputError(fmt::format("{}: the outline encloses no area.", where));
    return out;
}

Overlap overlap_of(const MultiPolygon& a, const MultiPolygon& b) {
    Overlap out;
    if (!bounding_box(a).overlaps(bounding_box(b))) return out;
    const GdalWords words;
    const Geometry common(to_ogr(a)->Intersection(to_ogr(b).get()));
    MultiPolygon shape;
    if (common) (void)collect(shape, *common);
    out.area = planar_area(shape);
    double largest = 0.0;
    for (const Polygon& part : shape) {
        if (!(planar_area(part) > largest)) continue;
        largest = planar_area(part);
        const Box box = bounding_box(MultiPolygon{part});
        out.place = {0.5 * (box.min_x + box.max_x), 0.5 * (box.min_y + box.max_y)};
    }
    return out;
}

double common_area(const MultiPolygon& a, const MultiPolygon& b) { return overlap_of(a, b).area; }

MultiPolygon dissolved(const std::vector<const MultiPolygon*>& shapes, const std::string& where) {
    const GdalWords words;
    MultiPolygon parts;
    for (const MultiPolygon* shape : shapes)
        parts.insert(parts.end(), shape->begin(), shape->end());
    const Geometry whole(to_ogr(parts)->UnionCascaded());
    MultiPolygon out;
    if (whole) (void)collect(out, *whole);
    if (out.empty())
        throw InputError(fmt::format("{}: its parts cannot be joined: {}", where, words.last("unknown cause")));
    return out;
}

double rough_area_m2(const MultiPolygon& shape_deg) {
    const Box box = bounding_box(shape_deg);
    const double middle = 0.5 * (box.min_y + box.max_y) * std::numbers::pi / 180.0;
    const double m_per_deg = 111320.0; // mean over latitudes, 0.5 % off at most
    return planar_area(shape_deg) * m_per_deg * m_per_deg * std::cos(middle);
}

} // namespace quartercut::reading
