// SPDX-License-Identifier: MIT
// The metric frame against GeographicLib, an independent implementation (Karney 2011, J. Geod. 85, 475-485).
#include "quartercut/standardise.hpp"

#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>
#include <GeographicLib/TransverseMercator.hpp>
#include <gtest/gtest.h>

#include <cmath>
#include <thread>

namespace quartercut {
namespace {

constexpr double quarter_m = 804.672; // half a mile
constexpr double township_m = 9656.064;

struct Place {
    double lon_deg, lat_deg;
};

const std::vector<Place> places = {{-110.0, 49.0}, {-113.5, 52.3}, {-97.2, 56.0}, {-135.0, 60.0}, {12.0, 0.0},
                                   {147.3, -35.1}, {-93.9, 44.1},  {25.0, 69.5},  {178.9, -41.0}, {0.0, 75.0}};

/// A square of that side with `n` vertices a side, turned by 0.3 rad, as degrees.
MultiPolygon square_deg(const Frame& frame, double side_m, int n) {
    const double c = std::cos(0.3), s = std::sin(0.3);
    const std::vector<Point> corners = {{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}};
    Polygon square;
    for (std::size_t k = 0; k < 4; ++k)
        for (int i = 0; i < n; ++i) {
            const Point a = corners[k], b = corners[(k + 1) % 4];
            const double f = static_cast<double>(i) / n;
            const double x = side_m * (a.x + f * (b.x - a.x)), y = side_m * (a.y + f * (b.y - a.y));
            square.shell.push_back(frame.to_degrees({c * x - s * y, s * x + c * y}));
        }
    return {square};
}

double geographiclib_area_m2(const MultiPolygon& shape_deg) {
    GeographicLib::PolygonArea polygon(GeographicLib::Geodesic::WGS84());
    for (const Point& vertex : shape_deg.front().shell)
        polygon.AddPoint(vertex.y, vertex.x);
    double perimeter_m = 0.0, area_m2 = 0.0;
    polygon.Compute(false, true, perimeter_m, area_m2);
    return std::abs(area_m2);
}

/// The largest difference of planar from geodesic area over all places, relative.
double largest_area_error(double side_m, int vertices_a_side) {
    double largest = 0.0;
    for (const Place& place : places) {
        const Frame frame(place.lon_deg, place.lat_deg);
        const double geodesic_m2 = geographiclib_area_m2(square_deg(frame, side_m, vertices_a_side));
        largest = std::max(largest, std::abs(side_m * side_m / geodesic_m2 - 1.0));
    }
    return largest;
}

TEST(Frame, KeepsTheAreaOfAQuarterSectionWithinAMillionth) { EXPECT_LT(largest_area_error(quarter_m, 1), 1e-8); }

TEST(Frame, KeepsTheAreaOfATownshipWithinAMillionth) {
    EXPECT_LT(largest_area_error(township_m, 1), 1e-6);
    EXPECT_LT(largest_area_error(township_m, 50), 1e-6);
}

TEST(Frame, AgreesWithAnIndependentTransverseMercator) {
    const GeographicLib::TransverseMercator reference(GeographicLib::Constants::WGS84_a(),
                                                      GeographicLib::Constants::WGS84_f(), 1.0);
    for (const Place& place : places) {
        const Frame frame(place.lon_deg, place.lat_deg);
        double x0 = 0.0, y0 = 0.0, x = 0.0, y = 0.0;
        reference.Forward(place.lon_deg, place.lat_deg, place.lon_deg, x0, y0);
        reference.Forward(place.lon_deg, place.lat_deg + 0.03, place.lon_deg + 0.04, x, y);
        const Point found = frame.to_metres({place.lon_deg + 0.04, place.lat_deg + 0.03});
        EXPECT_NEAR(found.x, x - x0, 1e-6);
        EXPECT_NEAR(found.y, y - y0, 1e-6);
    }
}

TEST(Frame, ComesBackToTheSameDegrees) {
    for (const Place& place : places) {
        const Frame frame(place.lon_deg, place.lat_deg);
        for (const double offset : {-0.08, -0.003, 0.0, 0.011, 0.08}) {
            const Point start{place.lon_deg + offset, place.lat_deg - 0.7 * offset};
            const Point back = frame.to_degrees(frame.to_metres(start));
            EXPECT_NEAR(back.x, start.x, 1e-9);
            EXPECT_NEAR(back.y, start.y, 1e-9);
        }
    }
}

TEST(Frame, ProjectsManyPointsAsItDoesOne) {
    const Frame frame(-113.5, 52.3);
    std::vector<double> x = {-113.5, -113.49, -113.52}, y = {52.3, 52.31, 52.28};
    const std::vector<double> lon = x, lat = y;
    frame.to_metres(x, y);
    for (std::size_t i = 0; i < x.size(); ++i) {
        const Point one = frame.to_metres({lon[i], lat[i]});
        EXPECT_EQ(x[i], one.x);
        EXPECT_EQ(y[i], one.y);
    }
    EXPECT_NEAR(x[0], 0.0, 1e-9);
    EXPECT_NEAR(y[0], 0.0, 1e-9);
}

TEST(Frame, GivesTheSameNumbersFromManyThreads) {
    const Frame frame(-113.5, 52.3);
    const Point expected = frame.to_metres({-113.47, 52.32});
    std::vector<std::size_t> wrong(4, 0);
    std::vector<std::thread> threads;
    for (std::size_t t = 0; t < wrong.size(); ++t)
        threads.emplace_back([&wrong, &expected, t, copy = frame] {
            for (int i = 0; i < 2000; ++i)
                if (!(copy.to_metres({-113.47, 52.32}) == expected)) ++wrong[t];
        });
    for (std::thread& thread : threads)
        thread.join();
    EXPECT_EQ(wrong, std::vector<std::size_t>(4, 0));
}

TEST(Frame, LeavesLocalMetresAlone) {
    const Frame frame;
    EXPECT_TRUE(frame.is_local());
    EXPECT_EQ(frame.to_metres({3.0, 4.0}), (Point{3.0, 4.0}));
    EXPECT_EQ(frame.to_degrees({3.0, 4.0}), (Point{3.0, 4.0}));
    EXPECT_EQ(frame.definition(), "local metres");
}

TEST(Frame, SaysItsDefinition) {
    EXPECT_EQ(Frame(-113.5, 52.25).definition(),
              "+proj=tmerc +lat_0=52.25 +lon_0=-113.5 +k=1 +x_0=0 +y_0=0 +ellps=WGS84 +units=m +no_defs");
}

} // namespace
} // namespace quartercut
