// SPDX-License-Identifier: MIT
// Method areas grown from the passes, where nobody drew them.
//
// Two shapes are made and laid over each other. What was cut: the swaths of all passes, with gaps up to a swath wide
// closed, also towards the boundary. Who cut it: the Voronoi cells of the passes' positions, dissolved by method, whose
// edges run halfway between neighbouring passes (Aurenhammer 1991, ACM Comput. Surv. 23, 345-405).
#include "zone/steps.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

namespace quartercut::zone_room {

namespace {

constexpr double site_spacing_m = 3.0; ///< positions nearer than this to the one before say nothing new
constexpr double simplify_m = 0.3;     ///< irons out the small zigzag between staggered positions

/// A stretch of one pass with one label: a method, or a direction.
struct Swath {
    int label = -1;
    double width_m = 0.0;
    std::vector<Point> line;
};

bool cuts_land(const Records& records, const CleanedField& cleaned, std::size_t i) {
    const Removal removal = cleaned.removal[i];
    return cleaned.pass[i] >= 0 && records.header_up[i] == 0 && removal != Removal::header_up &&
           removal != Removal::position_jump && removal != Removal::no_travel;
}

double median_of(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Where the machine was when the first record of a pass began.
std::optional<Point> start_of(const Records& records, std::size_t first, std::size_t second) {
    const double dx = records.x_m[second] - records.x_m[first], dy = records.y_m[second] - records.y_m[first];
    const double step_m = std::hypot(dx, dy), back_m = records.distance_m[first];
    if (!(step_m > 0.0 && back_m > 0.0 && back_m < 50.0)) return std::nullopt;
    return Point{records.x_m[first] - dx / step_m * back_m, records.y_m[first] - dy / step_m * back_m};
}

Swath swath_of(const Records& records, const std::vector<std::size_t>& members) {
    Swath swath;
    swath.label = records.method[members.front()];
    std::vector<double> widths;
    if (members.size() > 1)
        if (const auto start = start_of(records, members[0], members[1])) swath.line.push_back(*start);
    for (const std::size_t i : members) {
        if (records.width_m[i] > 0.0) widths.push_back(records.width_m[i]);
        const Point place{records.x_m[i], records.y_m[i]};
        const bool moved = swath.line.empty() ||
                           std::hypot(place.x - swath.line.back().x, place.y - swath.line.back().y) >= site_spacing_m;
        if (moved || i == members.back()) swath.line.push_back(place);
    }
    if (!widths.empty()) swath.width_m = median_of(widths);
    return swath;
}

std::vector<Swath> swaths_of(const Records& records, const CleanedField& cleaned) {
    std::vector<Swath> swaths;
    std::vector<std::size_t> members;
    const auto close = [&] {
        if (members.size() > 1) swaths.push_back(swath_of(records, members));
        members.clear();
    };
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (!cuts_land(records, cleaned, i)) continue;
        if (!members.empty() &&
            (cleaned.pass[i] != cleaned.pass[members.back()] || records.method[i] != records.method[members.back()]))
            close();
        members.push_back(i);
    }
    close();
    return swaths;
}

/// Land of the swaths with gaps closed; everything outside the field counts as covered while closing.
MultiPolygon covered_land(const Engine& engine, const std::vector<Swath>& swaths, const MultiPolygon& boundary) {
    const Box box = bounding_box(boundary);
    double widest_m = 0.0;
    std::vector<MultiPolygon> parts;
    for (const Swath& swath : swaths) {
        if (swath.line.size() < 2 || swath.width_m <= 0.0) continue;
        widest_m = std::max(widest_m, swath.width_m);
        const Shape line = engine.line_from(swath.line);
        parts.push_back(
            engine.polygons_of(engine
                                   .own(GEOSBufferWithStyle_r(engine.handle(), line.get(), 0.5 * swath.width_m, 4,
                                                              GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_ROUND, 2.0),
                                        "making a swath")
                                   .get()));
    }
    const double margin_m = 3.0 * widest_m;
    const MultiPolygon frame = {{{{box.min_x - margin_m, box.min_y - margin_m},
                                  {box.max_x + margin_m, box.min_y - margin_m},
                                  {box.max_x + margin_m, box.max_y + margin_m},
                                  {box.min_x - margin_m, box.max_y + margin_m}},
                                 {}}};
    parts.push_back(engine.difference(frame, boundary));
    const MultiPolygon closed = engine.grown(engine.grown(engine.union_of(parts), 0.5 * widest_m), -0.5 * widest_m);
    return engine.intersection(closed, boundary);
}

/// All positions with their labels; each place once, the first keeps it.
std::map<std::pair<double, double>, int> sites_of(const std::vector<Swath>& swaths) {
    std::map<std::pair<double, double>, int> sites;
    for (const Swath& swath : swaths)
        for (const Point& place : swath.line)
            sites.emplace(std::pair(place.x, place.y), swath.label);
    return sites;
}

/// Label of the site in a Voronoi cell: sites are sorted by x, and a cell holds exactly one.
int label_of_cell(const std::map<std::pair<double, double>, int>& sites, const Polygon& cell) {
    const Box box = bounding_box({cell});
    const PointLocator locator({cell});
    const double low = -std::numeric_limits<double>::infinity();
    for (auto site = sites.lower_bound({box.min_x, low}); site != sites.end() && site->first.first <= box.max_x; ++site)
        if (locator.contains({site->first.first, site->first.second})) return site->second;
    return -1;
}

std::map<int, MultiPolygon> cells_by_label(const Engine& engine, const std::vector<Swath>& swaths,
                                           const MultiPolygon& boundary) {
    const auto sites = sites_of(swaths);
    std::vector<Point> points;
    for (const auto& [place, label] : sites)
        points.push_back({place.first, place.second});
    const Shape cloud = engine.points_from(points), around = engine.from(boundary);
    const Shape cells = engine.own(GEOSVoronoiDiagram_r(engine.handle(), cloud.get(), around.get(), 0.0, 0),
                                   "finding the land nearest to each pass");
    std::map<int, std::vector<MultiPolygon>> parts;
    for (Polygon& cell : engine.polygons_of(cells.get()))
        if (const int label = label_of_cell(sites, cell); label >= 0) parts[label].push_back({std::move(cell)});
    std::map<int, MultiPolygon> land;
    for (const auto& [label, polygons] : parts)
        land[label] = engine.union_of(polygons);
    return land;
}

MultiPolygon ironed(const Engine& engine, const MultiPolygon& shape) {
    const Shape made = engine.from(shape);
    return engine.polygons_of(
        engine.own(GEOSTopologyPreserveSimplify_r(engine.handle(), made.get(), simplify_m), "ironing an edge").get());
}

/// Land by the label of the pass it is nearest to; nothing where no pass is near.
std::map<int, MultiPolygon> grown_land(const Engine& engine, const std::vector<Swath>& swaths,
                                       const MultiPolygon& boundary) {
    if (swaths.empty()) return {};
    const MultiPolygon covered = covered_land(engine, swaths, boundary);
    std::map<int, MultiPolygon> land = cells_by_label(engine, swaths, boundary);
    for (auto& [label, shape] : land)
        shape = ironed(engine, engine.intersection(shape, covered));
    return land;
}

constexpr std::array directions{"passes N-S", "passes NE-SW", "passes E-W", "passes SE-NW"};

/// Of eight compass points those two a pass lies nearest to; which way along it the machine ran does not matter.
int direction_of(const Swath& swath) {
    const double dx = swath.line.back().x - swath.line.front().x, dy = swath.line.back().y - swath.line.front().y;
    const double eighths = std::atan2(dx, dy) / (0.25 * std::numbers::pi); // from north, clockwise
    return (static_cast<int>(std::lround(eighths)) + 8) % 4;
}

} // namespace

std::vector<MethodArea> grow_areas(const Engine& engine, const StandardField& field, const CleanedField& cleaned,
                                   const MultiPolygon& boundary) {
    std::vector<Swath> swaths = swaths_of(field.records, cleaned);
    std::erase_if(swaths, [](const Swath& swath) { return swath.label < 0; });
    std::vector<MethodArea> areas;
    for (const auto& [method, land] : grown_land(engine, swaths, boundary))
        for (const Polygon& part : land) {
            MethodArea area;
            area.shape_m = {part};
            area.method = method;
            area.row = areas.size() + 1;
            areas.push_back(std::move(area));
        }
    return areas;
}

std::vector<StratumArea> direction_strata(const StrataMaking& from) {
    std::vector<Swath> swaths = swaths_of(from.field.records, from.cleaned);
    for (Swath& swath : swaths)
        swath.label = direction_of(swath);
    std::vector<StratumArea> strata;
    for (auto& [direction, land] : grown_land(from.engine, swaths, from.boundary))
        strata.push_back({std::move(land), directions[static_cast<std::size_t>(direction)]});
    return strata;
}

} // namespace quartercut::zone_room
