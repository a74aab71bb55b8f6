// SPDX-License-Identifier: MIT
// Metres to drawing units, shapes to paths, scale bar and north arrow (map.hpp).
#include "report/map.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace quartercut::report {
namespace {

constexpr double height_limit = 440.0;
constexpr double below_land = 34.0; // room for the scale bar

std::string ring_path(const Ring& ring, const MapFrame& frame) {
    std::string path;
    Point last{};
    for (const auto& vertex : ring) {
        const Point at = frame.at(vertex);
        if (!std::isfinite(at.x) || !std::isfinite(at.y)) continue;
        if (!path.empty() && std::hypot(at.x - last.x, at.y - last.y) < 0.5) continue;
        path += (path.empty() ? "M" : "L") + coordinate(at.x) + " " + coordinate(at.y);
        last = at;
    }
    return path.empty() ? path : path + "z";
}

// Where a level line enters and leaves a polygon: sorted crossings, holes included.
std::vector<double> crossings(const Polygon& polygon, double y) {
    std::vector<double> out;
    const auto add = [&](const Ring& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Point a = ring[i];
            const Point b = ring[(i + 1) % ring.size()];
            if ((a.y <= y) != (b.y <= y)) out.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
        }
    };
    add(polygon.shell);
    for (const auto& hole : polygon.holes)
        add(hole);
    std::sort(out.begin(), out.end());
    return out;
}

Polygon transposed(Polygon polygon) {
    const auto swap = [](Ring& ring) {
        for (auto& vertex : ring)
            std::swap(vertex.x, vertex.y);
    };
    swap(polygon.shell);
    for (auto& hole : polygon.holes)
        swap(hole);
    return polygon;
}

struct Stretch {
    double from = 0.0, to = 0.0;
    [[nodiscard]] double middle() const { return (from + to) / 2; }
};

// The stretch of a level line inside the polygon that holds x; a point where none does.
Stretch stretch_around(const Polygon& polygon, double x, double y) {
    const auto cuts = crossings(polygon, y);
    for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
        if (cuts[i] <= x && x <= cuts[i + 1]) return {cuts[i], cuts[i + 1]};
    }
    return {x, x};
}

// A spot found by its room to the left and right, moved to the middle of what lies above and below it.
LabelSpot centred(const Polygon& polygon, LabelSpot spot) {
    const Polygon turned = transposed(polygon);
    spot.at.y = stretch_around(turned, spot.at.y, spot.at.x).middle();
    const Stretch across = stretch_around(polygon, spot.at.x, spot.at.y);
    spot.at.x = across.middle();
    spot.room_m = across.to - across.from;
    const Stretch along = stretch_around(turned, spot.at.y, spot.at.x);
    spot.height_m = 2.0 * std::min(spot.at.y - along.from, along.to - spot.at.y);
    return spot;
}

} // namespace

MapFrame map_frame(const Box& box) {
    MapFrame frame;
    const double width_m = std::max(box.max_x - box.min_x, 1.0);
    const double height_m = std::max(box.max_y - box.min_y, 1.0);
    frame.units_per_m = std::min((drawing_width - 2 * frame.margin) / width_m, height_limit / height_m);
    frame.height = height_m * frame.units_per_m;
    // A tall field is centred.
    const double spare = drawing_width - 2 * frame.margin - width_m * frame.units_per_m;
    frame.min_x_m = box.min_x - spare / 2 / frame.units_per_m;
    frame.max_y_m = box.max_y;
    return frame;
}

double drawing_height(const MapFrame& frame) { return frame.height + 2 * frame.margin + below_land; }

std::string shape_path(const MultiPolygon& shape_m, const MapFrame& frame) {
    std::string path;
    for (const auto& polygon : shape_m) {
        path += ring_path(polygon.shell, frame);
        for (const auto& hole : polygon.holes)
            path += ring_path(hole, frame);
    }
    return path;
}

LabelSpot label_spot(const MultiPolygon& shape_m) {
    LabelSpot best;
    const Polygon* holder = nullptr;
    for (const auto& polygon : shape_m) {
        const Box box = bounding_box({polygon});
        // From the middle outwards, so that of equal places the middle one wins.
        for (const int step : {0, 1, -1, 2, -2, 3, -3, 4, -4}) {
            const double y = (box.min_y + box.max_y) / 2 + step * 0.11 * (box.max_y - box.min_y);
            const auto cuts = crossings(polygon, y);
            for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
                const double room = cuts[i + 1] - cuts[i];
                if (room <= best.room_m * 1.02) continue;
                best = {{(cuts[i] + cuts[i + 1]) / 2, y}, room};
                holder = &polygon;
            }
        }
    }
    return holder == nullptr ? best : centred(*holder, best);
}

void draw_north_and_scale(Html& html, const Telling& telling, const MapFrame& frame) {
    const double y = frame.height + 2 * frame.margin + 14;
    const double longest_m = 150.0 / frame.units_per_m;
    const double power = std::pow(10.0, std::floor(std::log10(longest_m)));
    const double length_m = longest_m >= 5 * power ? 5 * power : longest_m >= 2 * power ? 2 * power : power;
    const double end = frame.margin + length_m * frame.units_per_m;
    html.empty("path",
               {{"class", "line"},
                {"d", "M" + coordinate(frame.margin) + " " + coordinate(y - 4) + "v4H" + coordinate(end) + "v-4"}});
    const std::string feet = count(static_cast<std::size_t>(std::llround(length_m / m_per_foot / 10.0) * 10));
    html.leaf("text", count(static_cast<std::size_t>(std::llround(length_m))) + " m (" + feet + " ft)",
              {{"class", "tick"}, {"x", coordinate(frame.margin)}, {"y", coordinate(y + 14)}});
    const double x = drawing_width - frame.margin - 8;
    html.empty("path",
               {{"class", "north"}, {"d", "M" + coordinate(x) + " " + coordinate(y - 14) + "l5 16l-5 -4l-5 4z"}});
    html.leaf("text", telling.words.page.north,
              {{"class", "tick"}, {"x", coordinate(x)}, {"y", coordinate(y + 14)}, {"text-anchor", "middle"}});
}

} // namespace quartercut::report
