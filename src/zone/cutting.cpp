// SPDX-License-Identifier: MIT
// Edges of boundary, method areas and strata -> noded lines -> faces, each asked which shapes hold it.
#include "zone/cutting.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::zone_room {

namespace {

/// An arm counts as one when it is at least this many times longer than the stated width: a sharp corner is none.
constexpr double arm_length_widths = 20.0;
/// Room around the field within which edges of other shapes are kept (m).
constexpr double margin_m = 10.0;

/// Shapes of a layer that meet the field, ready for questions.
struct Layer {
    std::vector<int> index;
    std::vector<PointLocator> locators;
};

Layer layer_of(const std::vector<MultiPolygon>& shapes, const Box& field) {
    Layer layer;
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        if (!bounding_box(shapes[i]).overlaps(field)) continue;
        layer.index.push_back(static_cast<int>(i));
        layer.locators.emplace_back(shapes[i]);
    }
    return layer;
}

std::vector<int> holders(const Layer& layer, Point place) {
    std::vector<int> found;
    for (std::size_t i = 0; i < layer.locators.size(); ++i)
        if (layer.locators[i].contains(place)) found.push_back(layer.index[i]);
    return found;
}

/// Rings as lines; those that run far outside the field are cut off there.
void add_lines(const Engine& engine, const MultiPolygon& shape, const Box& field, std::vector<Shape>& lines) {
    const Box own = bounding_box(shape);
    if (!own.overlaps(field)) return;
    const Box keep{field.min_x - margin_m, field.min_y - margin_m, field.max_x + margin_m, field.max_y + margin_m};
    Shape rings = engine.lines_from(shape);
    const bool fits = keep.contains({own.min_x, own.min_y}) && keep.contains({own.max_x, own.max_y});
    if (!fits)
        rings =
            engine.own(GEOSClipByRect_r(engine.handle(), rings.get(), keep.min_x, keep.min_y, keep.max_x, keep.max_y),
                       "cutting off edges outside the field");
    if (GEOSisEmpty_r(engine.handle(), rings.get()) != 1) lines.push_back(std::move(rings));
}

MultiPolygon faces_of_lines(const Engine& engine, std::vector<Shape> lines) {
    const Shape all = engine.collect(GEOS_GEOMETRYCOLLECTION, std::move(lines));
    const Shape noded = engine.own(GEOSUnaryUnionPrec_r(engine.handle(), all.get(), grid_m), "noding");
    const GEOSGeometry* input = noded.get();
    return engine.polygons_of(engine.own(GEOSPolygonize_r(engine.handle(), &input, 1), "making faces").get());
}

double perimeter_m(const Polygon& shape) {
    double sum_m = 0.0;
    const auto add = [&](const Ring& ring) {
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
            sum_m += std::hypot(ring[i].x - ring[j].x, ring[i].y - ring[j].y);
    };
    add(shape.shell);
    for (const Ring& hole : shape.holes)
        add(hole);
    return sum_m;
}

/// Twice area over perimeter never exceeds the width of the widest place, so most faces need no closer look.
bool is_narrow(const Engine& engine, const Polygon& shape, double width_m) {
    if (2.0 * planar_area(shape) >= width_m * perimeter_m(shape)) return false;
    return engine.grown({shape}, -0.5 * width_m).empty();
}

bool is_convex(const Polygon& shape) {
    if (!shape.holes.empty()) return false;
    const Ring& ring = shape.shell;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i], b = ring[(i + 1) % ring.size()], c = ring[(i + 2) % ring.size()];
        const double turn = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
        const double scale = std::hypot(b.x - a.x, b.y - a.y) * std::hypot(c.x - b.x, c.y - b.y);
        if (turn < -1e-6 * scale) return false;
    }
    return true;
}

/// The place `along_m` further on a ring, from corner `start` forwards (step 1) or backwards (step -1).
Point walked(const Ring& ring, std::size_t start, bool forwards, double along_m) {
    const std::size_t step = forwards ? 1 : ring.size() - 1;
    Point here = ring[start];
    for (std::size_t k = 0, at = start; k < ring.size(); ++k) {
        at = (at + step) % ring.size();
        const Point next = ring[at];
        const double edge_m = std::hypot(next.x - here.x, next.y - here.y);
        if (edge_m >= along_m) {
            const double part = edge_m > 0.0 ? along_m / edge_m : 0.0;
            return {here.x + part * (next.x - here.x), here.y + part * (next.y - here.y)};
        }
        along_m -= edge_m;
        here = next;
    }
    return here;
}

/// Has a convex face a long thin end, like a wedge between a strip and a boundary that nearly runs along it? Half an
/// arm's length from its tip both sides are at most its width apart, and its end moves them by one width more.
bool has_thin_end(const Polygon& shape, double width_m) {
    const double along_m = 0.5 * arm_length_widths * width_m;
    const Ring& ring = shape.shell;
    for (std::size_t corner = 0; corner < ring.size(); ++corner) {
        const Point a = walked(ring, corner, true, along_m), b = walked(ring, corner, false, along_m);
        if (std::hypot(b.x - a.x, b.y - a.y) < 3.0 * width_m) return true;
    }
    return false;
}

/// Long arms of a face that are narrower than the stated width: what is lost when it is shrunk and grown back.
MultiPolygon narrow_arms(const Engine& engine, const Polygon& shape, double width_m) {
    if (is_convex(shape) && !has_thin_end(shape, width_m)) return {};
    const MultiPolygon core = engine.grown({shape}, -0.5 * width_m);
    const MultiPolygon lost = engine.difference({shape}, engine.grown(core, 0.51 * width_m));
    MultiPolygon arms;
    for (const Polygon& part : lost) {
        if (0.5 * perimeter_m(part) < arm_length_widths * width_m) continue;
        if (is_narrow(engine, part, 1.02 * width_m)) arms.push_back(part);
    }
    return arms;
}

class Cutter {
public:
    Cutter(const Engine& engine, const Cut& cut)
        : engine_(engine), cut_(cut), box_(bounding_box(*cut.boundary)), boundary_(*cut.boundary),
          areas_(layer_of(cut.areas, box_)), strata_(layer_of(cut.strata, box_)) {}

    [[nodiscard]] std::vector<Face> run() const {
        std::vector<Face> faces = faces_with({}, {});
        MultiPolygon arms;
        for (const Face& face : faces) {
            if (face.sliver) continue;
            const MultiPolygon found = narrow_arms(engine_, face.shape, cut_.sliver_m);
            arms.insert(arms.end(), found.begin(), found.end());
        }
        if (!arms.empty()) faces = faces_with(arms, {});
        std::vector<Shape> spokes = spokes_across_slivers(engine_, cut_, faces);
        return spokes.empty() ? faces : faces_with(arms, std::move(spokes));
    }

private:
    [[nodiscard]] std::vector<Face> faces_with(const MultiPolygon& arms, std::vector<Shape> lines) const {
        add_lines(engine_, *cut_.boundary, box_, lines);
        for (const MultiPolygon& area : cut_.areas)
            add_lines(engine_, area, box_, lines);
        for (const MultiPolygon& stratum : cut_.strata)
            add_lines(engine_, stratum, box_, lines);
        add_lines(engine_, arms, box_, lines);
        const PointLocator in_arms(arms);
        std::vector<Face> faces;
        for (Polygon& shape : faces_of_lines(engine_, std::move(lines))) {
            const Point inside = engine_.point_inside(shape);
            if (!boundary_.contains(inside)) continue;
            Face face{std::move(shape), inside, holders(areas_, inside), holders(strata_, inside)};
            if (!face.areas.empty()) face.area = face.areas.front();
            if (!face.strata.empty()) face.stratum = face.strata.front();
            face.sliver = (!arms.empty() && in_arms.contains(inside)) || is_narrow(engine_, face.shape, cut_.sliver_m);
            faces.push_back(std::move(face));
        }
        return faces;
    }

    const Engine& engine_;
    const Cut& cut_;
    Box box_;
    PointLocator boundary_;
    Layer areas_, strata_;
};

} // namespace

std::vector<Face> cut_into_faces(const Engine& engine, const Cut& cut) { return Cutter(engine, cut).run(); }

} // namespace quartercut::zone_room
