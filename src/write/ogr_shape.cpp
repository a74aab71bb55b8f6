// SPDX-License-Identifier: MIT
// Our geometry values -> OGR's: rings are closed by repeating the first vertex.
#include "write/ogr_shape.hpp"

namespace quartercut::write {

namespace {

OGRLinearRing to_ring(const Ring& ring) {
    OGRLinearRing out;
    for (const Point& p : ring)
        out.addPoint(p.x, p.y);
    out.closeRings();
    return out;
}

} // namespace

OGRMultiPolygon to_ogr(const MultiPolygon& shape) {
    OGRMultiPolygon out;
    for (const Polygon& polygon : shape) {
        OGRPolygon part;
        OGRLinearRing shell = to_ring(polygon.shell);
        part.addRing(&shell);
        for (const Ring& hole : polygon.holes) {
            OGRLinearRing ring = to_ring(hole);
            part.addRing(&ring);
        }
        out.addGeometry(&part);
    }
    return out;
}

} // namespace quartercut::write
