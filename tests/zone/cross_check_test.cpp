// SPDX-License-Identifier: MIT
// Zones are cut by GEOS; here Boost.Geometry, an engine written independently, measures and asks the same questions.
// Boost 1.74 would round coordinates to a grid of a ten-millionth of the extent; it is told not to.
#define BOOST_GEOMETRY_NO_ROBUSTNESS

#include "field_by_hand.hpp"

#include "zone/engine.hpp"

#include "base/random.hpp"

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/geometries.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <gtest/gtest.h>

#include <limits>
#include <memory>
#include <numbers>

namespace quartercut {
namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using BoostPolygon = bg::model::polygon<BoostPoint, false, false>; // counter-clockwise, open
using BoostShape = bg::model::multi_polygon<BoostPolygon>;

BoostShape boost_shape(const MultiPolygon& shape) {
    BoostShape made;
    for (const Polygon& polygon : shape) {
        BoostPolygon part;
        for (const Point& p : polygon.shell)
            part.outer().push_back({p.x, p.y});
        for (const Ring& hole : polygon.holes) {
            part.inners().emplace_back();
            for (const Point& p : hole)
                part.inners().back().push_back({p.x, p.y});
        }
        made.push_back(part);
    }
    bg::correct(made);
    return made;
}

Ring wandering_ring(Point centre, double low_m, double high_m, int vertices, Random& random) {
    Ring ring;
    for (int i = 0; i < vertices; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / vertices, r = random.uniform(low_m, high_m);
        ring.push_back({centre.x + r * std::cos(angle), centre.y + r * std::sin(angle)});
    }
    return ring;
}

/// Counts of what was compared, so that the test can show it asked often enough.
struct Tally {
    std::size_t areas = 0, places = 0;
};

/// A zone in GEOS, prepared for questions.
class GeosZone {
public:
    GeosZone(const zone_room::Engine& engine, const MultiPolygon& shape)
        : engine_(engine), shape_(engine.from(shape)), prepared_(GEOSPrepare_r(engine.handle(), shape_.get())) {}
    ~GeosZone() { GEOSPreparedGeom_destroy_r(engine_.handle(), prepared_); }
    GeosZone(const GeosZone&) = delete;
    GeosZone& operator=(const GeosZone&) = delete;
    [[nodiscard]] double area_m2() const {
        double area_m2 = 0.0;
        GEOSArea_r(engine_.handle(), shape_.get(), &area_m2);
        return area_m2;
    }
    [[nodiscard]] bool holds(Point place) const {
        const zone_room::Shape point(GEOSGeom_createPointFromXY_r(engine_.handle(), place.x, place.y),
                                     zone_room::ShapeDeleter{engine_.handle()});
        return GEOSPreparedContains_r(engine_.handle(), prepared_, point.get()) == 1;
    }

private:
    const zone_room::Engine& engine_;
    zone_room::Shape shape_;
    const GEOSPreparedGeometry* prepared_;
};

/// From a place to the nearest edge, inside or outside.
double distance_to_edge_m(const BoostPoint& place, const BoostShape& shape) {
    double nearest_m = std::numeric_limits<double>::infinity();
    const auto ask = [&](const auto& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i)
            nearest_m = std::min(
                nearest_m, bg::distance(place, bg::model::segment<BoostPoint>(ring[i], ring[(i + 1) % ring.size()])));
    };
    for (const BoostPolygon& polygon : shape) {
        ask(polygon.outer());
        for (const auto& inner : polygon.inners())
            ask(inner);
    }
    return nearest_m;
}

/// Both engines agree on every zone's area, and on who holds random places and places on vertices and edges.
void compare_engines(const StandardField& field, const std::vector<Zone>& zones, Random& random, Tally& tally) {
    const zone_room::Engine engine;
    std::vector<BoostShape> shapes;
    std::vector<std::unique_ptr<GeosZone>> geos;
    std::vector<PointLocator> locators;
    const double scale = field.area_m2 / planar_area(field.boundary_m);
    for (const Zone& zone : zones) {
        shapes.push_back(boost_shape(zone.shape_m));
        locators.emplace_back(zone.shape_m);
        geos.push_back(std::make_unique<GeosZone>(engine, zone.shape_m));
        EXPECT_NEAR(bg::area(shapes.back()), geos.back()->area_m2(), 1e-4 + 1e-9 * zone.area_m2);
        // A step of the noding grid (2^-23 m) along a thousand metres of outline holds 1e-4 m2.
        EXPECT_NEAR(bg::area(shapes.back()) * scale, zone.area_m2, 1e-4 + 1e-9 * zone.area_m2);
        EXPECT_TRUE(bg::is_valid(shapes.back())) << zone.id;
        ++tally.areas;
    }
    const Box box = bounding_box(field.boundary_m);
    std::vector<Point> places;
    for (int i = 0; i < 6; ++i)
        places.push_back({random.uniform(box.min_x, box.max_x), random.uniform(box.min_y, box.max_y)});
    for (const Zone& zone : zones) {
        const Ring& ring = zone.shape_m.front().shell;
        const std::size_t k = random.below(ring.size());
        places.push_back(ring[k]);
        places.push_back(
            {0.5 * (ring[k].x + ring[(k + 1) % ring.size()].x), 0.5 * (ring[k].y + ring[(k + 1) % ring.size()].y)});
    }
    for (const Point& place : places)
        for (std::size_t z = 0; z < zones.size(); ++z) {
            const BoostPoint p{place.x, place.y};
            ++tally.places;
            const bool inside = bg::within(p, shapes[z]), clearly_outside = bg::distance(p, shapes[z]) > 1e-6;
            const bool agree = inside == geos[z]->holds(place); // a place on an edge is a matter of the last digit
            EXPECT_TRUE(agree || distance_to_edge_m(p, shapes[z]) < 1e-6) << zones[z].id;
            EXPECT_TRUE(!inside || locators[z].contains(place)) << zones[z].id;
            EXPECT_FALSE(clearly_outside && locators[z].contains(place)) << zones[z].id;
        }
}

StandardField random_field(Random& random) {
    const double low_m = random.uniform(20.0, 400.0);
    Polygon boundary{wandering_ring({0, 0}, low_m, 400.0, 5 + static_cast<int>(random.below(25)), random), {}};
    StandardField field = by_hand::field({boundary});
    const double angle = random.uniform(0.0, 3.2);
    int method = 0;
    for (double x = -420.0; x < 420.0;) {
        const double width_m = random.uniform(40.0, 250.0);
        by_hand::add_area(field, method++ % 2,
                          by_hand::turned({by_hand::rectangle(x, -450, x + width_m, 450)}, angle, {0, 0}));
        x += width_m;
    }
    return field;
}

TEST(TwoEngines, AgreeOnRandomFields) {
    Random random(42);
    Tally tally;
    for (int i = 0; i < 300; ++i) {
        const StandardField field = random_field(random);
        compare_engines(field, by_hand::zones_of(by_hand::season(), field), random, tally);
    }
    EXPECT_GT(tally.areas, 1000u);
    EXPECT_GT(tally.places, 10000u);
}

/// Area of boundary and strip by Boost alone, with no zone made before it.
TEST(TwoEngines, AgreeOnTheLandOfEveryStrip) {
    Random random(43);
    std::size_t compared = 0;
    for (int i = 0; i < 300; ++i) {
        const StandardField field = random_field(random);
        const BoostShape boundary = boost_shape(field.boundary_m);
        const ZoneOptions no_slivers{30.0, 1e-6};
        for (const Zone& zone : zone(by_hand::season(), field, CleanedField{}, no_slivers).zones) {
            if (zone.area_index < 0) continue;
            BoostShape land;
            bg::intersection(boundary,
                             boost_shape(field.method_areas[static_cast<std::size_t>(zone.area_index)].shape_m), land);
            EXPECT_NEAR(zone.area_m2, bg::area(land), 1e-3) << i << " " << zone.id;
            ++compared;
        }
    }
    EXPECT_GT(compared, 1000u);
}

/// Shapes chosen to hurt: each is compared as it stands, turned, and ten thousand kilometres from the origin.
std::vector<StandardField> adversarial_fields() {
    std::vector<StandardField> fields;
    Polygon touching = by_hand::rectangle(0, 0, 200, 200);
    touching.holes = {
        {{0, 100}, {30, 120}, {30, 80}}, {{200, 100}, {170, 80}, {170, 120}}, {{100, 80}, {80, 100}, {100, 120}}};
    fields.push_back(by_hand::field({touching}));
    const Polygon needle{{{0, 0}, {800, 0.0}, {0.0, 2.5}}, {}};
    fields.push_back(by_hand::field({needle}));
    Polygon comb{{}, {}};
    for (int tooth = 0; tooth < 12; ++tooth)
        comb.shell.insert(comb.shell.end(), {{20.0 * tooth, 0.0}, {20.0 * tooth + 10.0, 150.0}});
    comb.shell.insert(comb.shell.end(), {{240.0, 0.0}, {240.0, -40.0}, {0.0, -40.0}});
    fields.push_back(by_hand::field({comb}));
    Ring doubled;
    for (const Point& p : by_hand::rectangle(0, 0, 160, 160).shell)
        doubled.insert(doubled.end(), {p, p});
    fields.push_back(by_hand::field({{doubled, {}}}));
    fields.push_back(by_hand::field({by_hand::rectangle(0, 0, 100, 100), by_hand::rectangle(100, 100, 200, 200)}));
    return fields;
}

TEST(TwoEngines, AgreeOnShapesChosenToHurt) {
    Random random(44);
    Tally tally;
    for (const StandardField& drawn : adversarial_fields())
        for (int turn = 0; turn < 60; ++turn) {
            const double angle = 0.17 * turn;
            const Point by = turn % 2 == 0 ? Point{0, 0} : Point{1e7, 1e7};
            StandardField field = by_hand::field(by_hand::turned(drawn.boundary_m, angle, by));
            for (int strip = 0; strip < 10; ++strip) // edges of strips meet corners of the shapes
                by_hand::add_area(
                    field, strip % 2,
                    by_hand::turned({by_hand::rectangle(100.0 * strip, -60, 100.0 * strip + 100.0, 260)}, angle, by));
            compare_engines(field, by_hand::zones_of(by_hand::season(), field), random, tally);
        }
    EXPECT_GT(tally.areas, 400u);
    EXPECT_GT(tally.places, 10000u);
}

} // namespace
} // namespace quartercut
