// SPDX-License-Identifier: MIT
// Areas by hand, and the point-in-shape answer: by hand, against a slow exact answer, and as a partition.
#include "quartercut/geometry.hpp"

#include "base/random.hpp"
#include "quartercut/error.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <numbers>

namespace quartercut {
namespace {

Ring square(double x, double y, double side) { return {{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}}; }
Ring reversed(Ring ring) { return {ring.rbegin(), ring.rend()}; }
MultiPolygon shape_of(Ring shell, std::vector<Ring> holes = {}) {
    return {Polygon{std::move(shell), std::move(holes)}};
}

MultiPolygon moved(MultiPolygon shape, double by) {
    const auto move_ring = [by](Ring& ring) {
        for (Point& p : ring)
            p = {p.x + by, p.y + by};
    };
    for (Polygon& polygon : shape) {
        move_ring(polygon.shell);
        for (Ring& hole : polygon.holes)
            move_ring(hole);
    }
    return shape;
}

/// A round shape with a rough edge: star-shaped about (cx, cy), so that its area and inside are easy to know.
Ring rough_circle(Point centre, double radius, std::size_t corners, std::uint64_t seed) {
    Random random(seed);
    Ring ring;
    for (std::size_t i = 0; i < corners; ++i) {
        const double angle = 2.0 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(corners);
        const double r = radius * random.uniform(0.8, 1.2);
        ring.push_back({centre.x + r * std::cos(angle), centre.y + r * std::sin(angle)});
    }
    return ring;
}

TEST(Areas, OfRingsAreSignedByTheirTurn) {
    EXPECT_EQ(signed_area(square(0, 0, 10)), 100.0);
    EXPECT_EQ(signed_area(reversed(square(0, 0, 10))), -100.0);
    EXPECT_EQ(signed_area({{0, 0}, {4, 0}, {0, 3}}), 6.0);
}

TEST(Areas, TakeHolesOffWhateverWayTheyTurn) {
    EXPECT_EQ(planar_area(shape_of(square(0, 0, 10), {square(2, 2, 3)})), 91.0);
    EXPECT_EQ(planar_area(shape_of(reversed(square(0, 0, 10)), {reversed(square(2, 2, 3)), square(6, 6, 1)})), 90.0);
    EXPECT_EQ(planar_area(MultiPolygon{{square(0, 0, 10), {}}, {square(20, 0, 5), {}}}), 125.0);
}

TEST(Areas, OfDegenerateShapesAreZero) {
    EXPECT_EQ(planar_area(MultiPolygon{}), 0.0);
    EXPECT_EQ(planar_area(MultiPolygon{Polygon{}}), 0.0);
    EXPECT_EQ(signed_area({}), 0.0);
    EXPECT_EQ(signed_area({{1, 1}}), 0.0);
    EXPECT_EQ(signed_area({{1, 1}, {5, 5}}), 0.0);
    EXPECT_EQ(signed_area({{0, 0}, {1, 1}, {2, 2}}), 0.0);
}

// A quarter section in projected coordinates: at a northing of 1e7 the plain shoelace loses seven of its digits.
TEST(Areas, KeepTheirDigitsAtLargeOffsets) {
    const double side = 804.672;
    EXPECT_NEAR(planar_area(moved(shape_of(square(0, 0, side)), 1e7)), side * side, 1e-2);
    EXPECT_EQ(planar_area(moved(shape_of(square(0, 0, 800)), 1e7)), 640000.0);
    EXPECT_EQ(planar_area(moved(shape_of(square(0, 0, 1)), 1e9)), 1.0);
}

TEST(Boxes, HoldTheWholeShape) {
    const Box box = bounding_box(MultiPolygon{{square(0, 0, 10), {}}, {square(20, -5, 5), {}}});
    EXPECT_EQ(box.min_x, 0.0);
    EXPECT_EQ(box.min_y, -5.0);
    EXPECT_EQ(box.max_x, 25.0);
    EXPECT_EQ(box.max_y, 10.0);
}

TEST(Boxes, OfNothingAreEmptyAndOverlapNothing) {
    const Box nothing = bounding_box({});
    EXPECT_TRUE(nothing.empty());
    EXPECT_FALSE(nothing.contains({0, 0}));
    EXPECT_FALSE(nothing.overlaps({-10, -10, 10, 10}));
    EXPECT_FALSE((Box{-10, -10, 10, 10}.overlaps(nothing)));
    EXPECT_TRUE((Box{0, 0, 1, 1}.overlaps({1, 1, 2, 2})));
    EXPECT_FALSE((Box{0, 0, 1, 1}.overlaps({1.1, 0, 2, 2})));
}

TEST(PointLocators, AnswerByHand) {
    const PointLocator ring(shape_of(square(0, 0, 10), {square(2, 2, 3)}));
    EXPECT_TRUE(ring.contains({1, 1}));
    EXPECT_TRUE(ring.contains({9.999, 9.999}));
    EXPECT_TRUE(ring.contains({5.5, 3}));
    EXPECT_FALSE(ring.contains({3, 3}));
    EXPECT_FALSE(ring.contains({-1, 5}));
    EXPECT_FALSE(ring.contains({5, 11}));
    const PointLocator notched(shape_of({{0, 0}, {10, 0}, {10, 10}, {5, 5}, {0, 10}}));
    EXPECT_TRUE(notched.contains({1, 8}));
    EXPECT_FALSE(notched.contains({5, 8}));
    EXPECT_TRUE(notched.contains({9, 8}));
    EXPECT_TRUE(notched.contains({5, 4}));
}

// Half-open: the left and lower edges belong to the shape, the right and upper ones to its neighbour.
TEST(PointLocators, OwnTheirLeftAndLowerEdges) {
    const PointLocator locator(shape_of(square(0, 0, 10)));
    EXPECT_TRUE(locator.contains({0, 5}));
    EXPECT_TRUE(locator.contains({5, 0}));
    EXPECT_TRUE(locator.contains({0, 0}));
    EXPECT_FALSE(locator.contains({10, 5}));
    EXPECT_FALSE(locator.contains({5, 10}));
    EXPECT_FALSE(locator.contains({10, 10}));
}

TEST(PointLocators, DoNotCareWhichWayARingTurns) {
    const PointLocator one(shape_of(square(0, 0, 10), {square(2, 2, 3)}));
    const PointLocator other(shape_of(reversed(square(0, 0, 10)), {reversed(square(2, 2, 3))}));
    for (double x = -1; x <= 11; x += 0.5)
        for (double y = -1; y <= 11; y += 0.5)
            EXPECT_EQ(one.contains({x, y}), other.contains({x, y})) << x << ' ' << y;
}

TEST(PointLocators, OfNothingContainNothing) {
    EXPECT_FALSE(PointLocator().contains({0, 0}));
    EXPECT_FALSE(PointLocator(MultiPolygon{}).contains({0, 0}));
    EXPECT_FALSE(PointLocator(MultiPolygon{Polygon{}}).contains({0, 0}));
    EXPECT_FALSE(PointLocator(shape_of({{1, 1}})).contains({1, 1}));
    EXPECT_FALSE(PointLocator(shape_of({{0, 0}, {5, 5}})).contains({2, 2}));
    EXPECT_FALSE(PointLocator(shape_of({{0, 1}, {5, 1}, {9, 1}})).contains({2, 1}));
    EXPECT_FALSE(PointLocator(shape_of({{3, 3}, {3, 3}, {3, 3}})).contains({3, 3}));
}

TEST(PointLocators, RefuseCornersThatAreNotNumbersAndPointsThatAreNotAnywhere) {
    const double nan = std::numeric_limits<double>::quiet_NaN(), infinity = std::numeric_limits<double>::infinity();
    EXPECT_THROW(PointLocator(shape_of({{0, 0}, {nan, 0}, {1, 1}})), InternalError);
    EXPECT_THROW(PointLocator(shape_of({{0, 0}, {1, infinity}, {1, 1}})), InternalError);
    const PointLocator locator(shape_of(square(0, 0, 10)));
    EXPECT_FALSE(locator.contains({nan, 5}));
    EXPECT_FALSE(locator.contains({5, nan}));
    EXPECT_FALSE(locator.contains({infinity, 5}));
}

// The inside of a star-shaped ring is known from its two corners on either side of a point's direction.
TEST(PointLocators, AgreeWithTheRadiusOfARoughCircleOfTenThousandCorners) {
    const std::size_t corners = 10000;
    const Ring ring = rough_circle({500, 500}, 400, corners, 1);
    const PointLocator locator(shape_of(ring));
    Random random(2);
    for (int i = 0; i < 50000; ++i) {
        const Point p{random.uniform(0, 1000), random.uniform(0, 1000)};
        const double dx = p.x - 500, dy = p.y - 500;
        const double turn = std::fmod(std::atan2(dy, dx) / (2.0 * std::numbers::pi) + 1.0, 1.0);
        const auto k = static_cast<std::size_t>(turn * static_cast<double>(corners)) % corners;
        const Point a = ring[k], b = ring[(k + 1) % corners];
        const double side = (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
        EXPECT_EQ(locator.contains(p), side > 0) << p.x << ' ' << p.y;
    }
}

/// Strips of a field cut by slanted lines that shift from corner to corner: neighbours share their edge exactly.
std::vector<MultiPolygon> slanted_strips(double offset, int strips, double width) {
    std::vector<MultiPolygon> parts;
    Random random(7);
    std::vector<Ring> lines;
    for (int i = 0; i <= strips; ++i) {
        Ring line;
        for (int j = 0; j <= 20; ++j)
            line.push_back({offset + width * (i + random.uniform(-0.4, 0.4)) + 3.7 * j, offset + 40.1 * j});
        lines.push_back(line);
    }
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        Ring ring = lines[i];
        ring.insert(ring.end(), lines[i + 1].rbegin(), lines[i + 1].rend());
        parts.push_back(shape_of(ring));
    }
    return parts;
}

std::vector<PointLocator> locators_of(const std::vector<MultiPolygon>& parts) {
    std::vector<PointLocator> locators;
    for (const MultiPolygon& part : parts)
        locators.emplace_back(part);
    return locators;
}

int owners(const std::vector<PointLocator>& parts, Point p) {
    int count = 0;
    for (const PointLocator& part : parts)
        count += part.contains(p) ? 1 : 0;
    return count;
}

TEST(PointLocators, OfAPartitionGiveEveryPointExactlyOneOwner) {
    for (const double offset : {0.0, 1e5, 1e7, -3.3e6}) {
        const auto parts = locators_of(slanted_strips(offset, 8, 12.2));
        Random random(3);
        for (int i = 0; i < 20000; ++i) {
            const double y = random.uniform(1, 800), x = 3.7 / 40.1 * y + random.uniform(12, 80);
            EXPECT_EQ(owners(parts, {offset + x, offset + y}), 1) << offset << ": " << x << ' ' << y;
        }
    }
}

// Points computed onto a shared edge fall to one side or the other, or on it: never to both, never to none.
TEST(PointLocators, OfAPartitionOwnPointsOnSharedEdgesOnce) {
    for (const double offset : {0.0, 1e7}) {
        const std::vector<MultiPolygon> strips = slanted_strips(offset, 8, 12.2);
        const auto parts = locators_of(strips);
        Random random(4);
        for (std::size_t strip = 1; strip + 1 < strips.size(); ++strip) {
            const Ring& ring = strips[strip][0].shell;
            for (std::size_t i = 1; i < 20; ++i) {
                EXPECT_EQ(owners(parts, ring[i]), 1);
                const double t = random.uniform();
                const Point on{ring[i].x + t * (ring[i + 1].x - ring[i].x),
                               ring[i].y + t * (ring[i + 1].y - ring[i].y)};
                EXPECT_EQ(owners(parts, on), 1);
            }
        }
    }
}

// After Kettner, Mehlhorn, Pion, Schirra and Yap 2008, Computational Geometry 40, 61-78: beside the line y = x, on a
// grid of single bits, the plain determinant gives a mottled answer; the true one is a comparison of two coordinates.
TEST(PointLocators, KnowTheSideOfALineToTheLastBit) {
    const PointLocator left(shape_of({{-12, -12}, {24, 24}, {-12, 24}}));
    const PointLocator right(shape_of({{-12, -12}, {24, -12}, {24, 24}}));
    const double bit = 0x1.0p-53;
    for (int i = 0; i < 200; ++i)
        for (int j = 0; j < 200; ++j) {
            const Point p{0.5 + i * bit * 2, 0.5 + j * bit * 2};
            EXPECT_EQ(left.contains(p), p.y > p.x) << i << ' ' << j;
            EXPECT_EQ(right.contains(p), p.y <= p.x) << i << ' ' << j;
        }
}

// One bit apart at their wide end.
TEST(PointLocators, OfNeedlesOneBitWideStillOwnEveryPointOnce) {
    const double offset = 1e7, step = std::nextafter(offset, 2e7) - offset;
    std::vector<MultiPolygon> needles;
    for (int i = 0; i < 6; ++i) {
        const double near = i * step, far = (i + 1) * step;
        needles.push_back(
            shape_of({{offset, offset}, {offset + 1000 + far, offset + 900}, {offset + 1000 + near, offset + 900}}));
    }
    const auto parts = locators_of(needles);
    const PointLocator whole(
        shape_of({{offset, offset}, {offset + 1000 + 6 * step, offset + 900}, {offset + 1000, offset + 900}}));
    Random random(5);
    int inside = 0;
    for (int i = 0; i < 100000; ++i) {
        const double t = random.uniform();
        const Point p{offset + 1000 * t + step * std::floor(random.uniform(-2, 9)), offset + 900 * t};
        EXPECT_EQ(owners(parts, p), whole.contains(p) ? 1 : 0);
        inside += whole.contains(p) ? 1 : 0;
    }
    EXPECT_GT(inside, 1000);
}

TEST(PointLocators, OfHolesLeaveThemToWhatFillsThem) {
    const MultiPolygon lake = shape_of(rough_circle({50, 50}, 20, 97, 6));
    const auto parts = locators_of({lake, shape_of(square(0, 0, 100), {lake[0].shell})});
    Random random(8);
    for (int i = 0; i < 20000; ++i)
        EXPECT_EQ(owners(parts, {random.uniform(0, 100), random.uniform(0, 100)}), 1);
    for (const Point& corner : lake[0].shell)
        EXPECT_EQ(owners(parts, corner), 1);
}

// Ten thousand teeth as tall as the field: every edge crosses every slab, which must not cost a slab list each.
TEST(PointLocators, OfTallTeethStayRight) {
    Ring comb{{0, -1}};
    const int teeth = 5000;
    for (int i = 0; i < teeth; ++i) {
        comb.push_back({i + 0.5, 1000.0});
        comb.push_back({i + 1.0, 0.0});
    }
    comb.push_back({teeth * 1.0, -1});
    const PointLocator locator(shape_of(comb));
    for (int i = 1; i < teeth; i += 37) {
        EXPECT_TRUE(locator.contains({i + 0.5, 500}));
        EXPECT_FALSE(locator.contains({i + 0.0, 500}));
        EXPECT_FALSE(locator.contains({i + 0.2, 500}));
        EXPECT_TRUE(locator.contains({i + 0.3, 500}));
    }
}

TEST(PointLocators, TakeSlabsOfNoHeightInTheirStride) {
    const double y = 1.0, up = std::nextafter(y, 2.0);
    const PointLocator flat(shape_of({{0, y}, {10, y}, {10, up}, {0, up}}));
    EXPECT_TRUE(flat.contains({5, y}));
    EXPECT_FALSE(flat.contains({5, up}));
    const double tiny = std::numeric_limits<double>::denorm_min();
    const PointLocator least(shape_of({{0, 0}, {10, 0}, {10, tiny}, {0, tiny}}));
    EXPECT_TRUE(least.contains({5, 0}));
    EXPECT_FALSE(least.contains({5, 1}));
}

} // namespace
} // namespace quartercut
