// SPDX-License-Identifier: MIT
// Mending of outlines: what is kept, what is mended, what is refused.
#include "read/polygon_repair.hpp"

#include "quartercut/error.hpp"

#include <gmock/gmock.h>
#include <memory>
#include <ogr_geometry.h>

namespace quartercut::reading {
namespace {

RepairedShape repaired(const char* wkt) {
    OGRGeometry* geometry = nullptr;
    EXPECT_EQ(OGRGeometryFactory::createFromWkt(wkt, nullptr, &geometry), OGRERR_NONE);
    const std::unique_ptr<OGRGeometry> owned(geometry);
    return repaired_shape(*owned, "here");
}

std::string refusal(const char* wkt) {
    try {
        (void)repaired(wkt);
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

constexpr double exact = 1e-12;

TEST(Repair, LeavesAGoodOutlineAlone) {
    const RepairedShape out = repaired("POLYGON((0 0,10 0,10 10,0 10,0 0),(2 2,4 2,4 4,2 4,2 2))");
    EXPECT_EQ(out.repair, "");
    EXPECT_NEAR(planar_area(out.shape), 100.0 - 4.0, exact);
}

TEST(Repair, RefusesABowTieWithThePlace) {
    EXPECT_THAT(refusal("POLYGON((0 0,10 10,10 0,0 10,0 0))"),
                testing::HasSubstr("crosses itself at 5.000000, 5.000000"));
}

TEST(Repair, MendsASpike) {
    // A spike without width: the area stays 100.
    const RepairedShape out = repaired("POLYGON((0 0,10 0,10 5,15 5,10 5,10 10,0 10,0 0))");
    EXPECT_NEAR(planar_area(out.shape), 100.0, exact);
    EXPECT_NE(out.repair, "");
}

TEST(Repair, JoinsPartsThatShareAnEdge) {
    const RepairedShape out = repaired("MULTIPOLYGON(((0 0,5 0,5 10,0 10,0 0)),((5 0,10 0,10 10,5 10,5 0)))");
    EXPECT_NEAR(planar_area(out.shape), 100.0, exact);
}

TEST(Repair, RefusesPartsThatOverlapByMuch) {
    EXPECT_NE(refusal("MULTIPOLYGON(((0 0,6 0,6 10,0 10,0 0)),((4 0,10 0,10 10,4 10,4 0)))"), "");
}

TEST(Repair, DropsCrumbs) {
    const RepairedShape out =
        repaired("MULTIPOLYGON(((0 0,1000 0,1000 1000,0 1000,0 0)),((2000 0,2000.1 0,2000.1 0.1,2000 0)))");
    EXPECT_EQ(out.shape.size(), 1U);
    EXPECT_THAT(out.repair, testing::HasSubstr("1 part too small"));
}

TEST(Repair, TakesRepeatedVerticesAndCollections) {
    const RepairedShape out = repaired("GEOMETRYCOLLECTION(POLYGON((0 0,0 0,10 0,10 10,10 10,0 10,0 0)))");
    EXPECT_EQ(out.shape.at(0).shell.size(), 4U);
}

TEST(Repair, RefusesOtherShapes) {
    EXPECT_THAT(refusal("POINT(1 1)"), testing::HasSubstr("a polygon is wanted"));
    EXPECT_NE(refusal("GEOMETRYCOLLECTION(POINT(1 1),POLYGON((0 0,1 0,1 1,0 0)))"), "");
    EXPECT_NE(refusal("POLYGON((0 0,1 1,2 2,0 0))"), "");
    EXPECT_NE(refusal("POLYGON EMPTY"), "");
}

TEST(CommonArea, IsThatOfTheOverlap) {
    const MultiPolygon a = repaired("POLYGON((0 0,10 0,10 10,0 10,0 0))").shape;
    const MultiPolygon b = repaired("POLYGON((8 8,20 8,20 20,8 20,8 8))").shape;
    EXPECT_NEAR(common_area(a, b), 4.0, exact);
    EXPECT_NEAR(common_area(a, repaired("POLYGON((10 0,20 0,20 10,10 10,10 0))").shape), 0.0, exact);
}

// Against the geodesic area of the same corners.
TEST(RoughArea, IsGoodToOnePercent) {
    const MultiPolygon shape = repaired("POLYGON((-112 52,-111.99 52,-111.99 52.01,-112 52.01,-112 52))").shape;
    // PROJ 9.1 geod_polygonarea on the same four corners, WGS 84: 764 077.6 m2.
    EXPECT_NEAR(rough_area_m2(shape) / 764077.6, 1.0, 0.01);
}

} // namespace
} // namespace quartercut::reading
