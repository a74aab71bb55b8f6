// SPDX-License-Identifier: MIT
// Short lines across slivers, from their corners to the field boundary.
//
// A straight boundary and strips drawn along it seldom meet exactly: a sliver a millimetre wide then runs past all the
// strips, and would hang as one long hair on whichever strip it joined. Spokes cut it at every strip's corner, so that
// each strip gets its own bit. Where there is no sliver there is no spoke: zones cut again stay as they are.
#include "zone/cutting.hpp"

namespace quartercut::zone_room {

namespace {

struct PreparedDeleter {
    GEOSContextHandle_t handle = nullptr;
    void operator()(const GEOSPreparedGeometry* prepared) const { GEOSPreparedGeom_destroy_r(handle, prepared); }
};

class SpokeFinder {
public:
    SpokeFinder(const Engine& engine, const MultiPolygon& boundary, double reach_m)
        : engine_(engine), lines_(engine.lines_from(boundary)),
          prepared_(GEOSPrepare_r(engine.handle(), lines_.get()), PreparedDeleter{engine.handle()}), reach_m_(reach_m) {
    }

    void add(const Polygon& polygon, std::vector<Shape>& spokes) const {
        add(polygon.shell, spokes);
        for (const Ring& hole : polygon.holes)
            add(hole, spokes);
    }

private:
    void add(const Ring& ring, std::vector<Shape>& spokes) const {
        for (const Point& corner : ring) {
            const Shape place = engine_.points_from({corner});
            if (GEOSPreparedDistanceWithin_r(engine_.handle(), prepared_.get(), place.get(), reach_m_) != 1) continue;
            const Point foot = nearest_on_boundary(place.get());
            if (foot.x != corner.x || foot.y != corner.y) spokes.push_back(engine_.line_from({corner, foot}));
        }
    }

    [[nodiscard]] Point nearest_on_boundary(const GEOSGeometry* place) const {
        GEOSCoordSequence* pair = GEOSPreparedNearestPoints_r(engine_.handle(), prepared_.get(), place);
        Point foot;
        GEOSCoordSeq_getXY_r(engine_.handle(), pair, 0, &foot.x, &foot.y);
        GEOSCoordSeq_destroy_r(engine_.handle(), pair);
        return foot;
    }

    const Engine& engine_;
    Shape lines_;
    std::unique_ptr<const GEOSPreparedGeometry, PreparedDeleter> prepared_;
    double reach_m_;
};

} // namespace

std::vector<Shape> spokes_across_slivers(const Engine& engine, const Cut& cut, const std::vector<Face>& faces) {
    const SpokeFinder finder(engine, *cut.boundary, cut.sliver_m);
    std::vector<Shape> spokes;
    for (const Face& face : faces)
        if (face.sliver) finder.add(face.shape, spokes);
    return spokes;
}

} // namespace quartercut::zone_room
