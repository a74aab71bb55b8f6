// SPDX-License-Identifier: MIT
// Strata made from the field itself: cells along its longest side, legal subdivisions, edge and interior.
#include "zone/steps.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"
#include "quartercut/land.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

namespace quartercut::zone_room {

namespace {

constexpr double straight_m = 2.0; ///< a side may wander this far from its chord and still be one side

/// Axes along the field's longest side: u the one nearer to east, v the one nearer to north.
struct Axes {
    double cos = 1.0, sin = 0.0;
    [[nodiscard]] Point turned(Point p) const { return {cos * p.x + sin * p.y, cos * p.y - sin * p.x}; }
    [[nodiscard]] Point back(Point p) const { return {cos * p.x - sin * p.y, cos * p.y + sin * p.x}; }
};

MultiPolygon simplified(const Engine& engine, const MultiPolygon& shape) {
    const Shape made = engine.from(shape);
    const Shape simple =
        engine.own(GEOSTopologyPreserveSimplify_r(engine.handle(), made.get(), straight_m), "finding long sides");
    return engine.polygons_of(simple.get());
}

Axes axes_along_longest_side(const Engine& engine, const MultiPolygon& boundary) {
    double longest = 0.0;
    double angle = 0.0;
    for (const Polygon& polygon : simplified(engine, boundary))
        for (std::size_t i = 0, j = polygon.shell.size() - 1; i < polygon.shell.size(); j = i++) {
            const double dx = polygon.shell[i].x - polygon.shell[j].x, dy = polygon.shell[i].y - polygon.shell[j].y;
            if (std::hypot(dx, dy) <= longest) continue;
            longest = std::hypot(dx, dy);
            angle = std::atan2(dy, dx);
        }
    const double quarter_turn = 0.5 * std::numbers::pi;
    angle -= quarter_turn * std::round(angle / quarter_turn);
    return {std::cos(angle), std::sin(angle)};
}

Box box_in(const Axes& axes, const MultiPolygon& shape) {
    MultiPolygon turned = shape;
    for (Polygon& polygon : turned)
        for (Point& vertex : polygon.shell)
            vertex = axes.turned(vertex);
    return bounding_box(turned);
}

MultiPolygon rectangle(const Axes& axes, double u0, double v0, double u1, double v1) {
    return {{{axes.back({u0, v0}), axes.back({u1, v0}), axes.back({u1, v1}), axes.back({u0, v1})}, {}}};
}

std::vector<StratumArea> grid_strata(const Engine& engine, const MultiPolygon& boundary, double cell_m) {
    const Axes axes = axes_along_longest_side(engine, boundary);
    const Box box = box_in(axes, boundary);
    const auto cells = [&](double low, double high) {
        return std::max(1, static_cast<int>(std::ceil((high - low) / cell_m - 1e-9)));
    };
    std::vector<StratumArea> strata;
    for (int row = 0; row < cells(box.min_y, box.max_y); ++row)
        for (int column = 0; column < cells(box.min_x, box.max_x); ++column) {
            const double u = box.min_x + column * cell_m, v = box.min_y + row * cell_m;
            strata.push_back(
                {rectangle(axes, u, v, u + cell_m, v + cell_m), fmt::format("row {} cell {}", row + 1, column + 1)});
        }
    return strata;
}

/// Regular hexagons with a corner up, `cell_m` from flat to flat. Corners are counted on one lattice, so neighbours
/// share them to the last bit.
std::vector<StratumArea> hexagon_strata(const Engine& engine, const MultiPolygon& boundary, double cell_m) {
    const Axes axes = axes_along_longest_side(engine, boundary);
    const Box box = box_in(axes, boundary);
    const double half_width_m = 0.5 * cell_m, half_side_m = 0.5 * cell_m / std::numbers::sqrt3;
    const auto corner = [&](int i, int j) {
        return axes.back({box.min_x + i * half_width_m, box.min_y + j * half_side_m});
    };
    const int columns = static_cast<int>(std::ceil((box.max_x - box.min_x) / cell_m)) + 1;
    const int rows = static_cast<int>(std::ceil((box.max_y - box.min_y) / (3.0 * half_side_m))) + 1;
    std::vector<StratumArea> strata;
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const int i = 2 * column + row % 2, j = 3 * row; // the middle
            Polygon cell{{corner(i, j - 2), corner(i + 1, j - 1), corner(i + 1, j + 1), corner(i, j + 2),
                          corner(i - 1, j + 1), corner(i - 1, j - 1)},
                         {}};
            strata.push_back({{std::move(cell)}, fmt::format("row {} cell {}", row + 1, column + 1)});
        }
    return strata;
}

/// Names of the 2 x 2 or 4 x 4 parts, south row first, west first.
/// Legal subdivisions count from the south-east corner of the section, to and fro (Canada Lands Surveys; the same rule
/// gives quarter_of_subdivision).
struct Parts {
    int across = 2;
    std::vector<std::string> names = {"SW", "SE", "NW", "NE"};
};

int subdivision_at(int row, int column) { return row % 2 == 0 ? 4 * row + 4 - column : 4 * row + 1 + column; }

Parts subdivisions_of(const std::string& legal) {
    const LegalLand land = parse_legal_land(legal);
    Parts parts;
    parts.names.clear();
    const bool section = land.quarter.empty() && !land.subdivision;
    if (land.subdivision) return {1, {fmt::format("LSD {}", *land.subdivision)}};
    const int first_row = !section && land.quarter.front() == 'N' ? 2 : 0;
    const int first_column = !section && land.quarter.back() == 'E' ? 2 : 0;
    parts.across = section ? 4 : 2;
    for (int row = 0; row < parts.across; ++row)
        for (int column = 0; column < parts.across; ++column)
            parts.names.push_back(fmt::format("LSD {}", subdivision_at(first_row + row, first_column + column)));
    return parts;
}

Parts parts_of(const StandardField& field) {
    const auto legal = field.attributes.find("legal");
    if (legal == field.attributes.end() || legal->second.empty()) return {};
    return subdivisions_of(legal->second);
}

std::vector<StratumArea> subdivision_strata(const Engine& engine, const StandardField& field,
                                            const MultiPolygon& boundary) {
    const Parts parts = parts_of(field);
    const Axes axes = axes_along_longest_side(engine, boundary);
    const Box box = box_in(axes, boundary);
    const double du = (box.max_x - box.min_x) / parts.across, dv = (box.max_y - box.min_y) / parts.across;
    std::vector<StratumArea> strata;
    for (int row = 0; row < parts.across; ++row)
        for (int column = 0; column < parts.across; ++column) {
            const double u = box.min_x + column * du, v = box.min_y + row * dv;
            strata.push_back({rectangle(axes, u, v, u + du, v + dv),
                              parts.names[static_cast<std::size_t>(row * parts.across + column)]});
        }
    return strata;
}

/// The width most records have, to the centimetre.
std::optional<double> usual_width_m(const Records& records) {
    std::map<long, std::size_t> counts;
    for (const double width_m : records.width_m)
        if (width_m > 0.0) ++counts[std::lround(width_m * 100.0)];
    if (counts.empty()) return std::nullopt;
    const auto most = std::max_element(counts.begin(), counts.end(),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    return static_cast<double>(most->first) / 100.0;
}

/// The widest cut the season names, for land nobody has driven yet.
std::optional<double> widest_cut_m(const Season& season) {
    std::optional<double> widest;
    for (const Method& method : season.methods)
        if (method.cut_width_m && (!widest || *method.cut_width_m > *widest)) widest = method.cut_width_m;
    return widest;
}

std::vector<StratumArea> edge_and_interior(const StrataMaking& from, int widths) {
    auto width_m = usual_width_m(from.field.records);
    if (!width_m) width_m = widest_cut_m(from.season);
    if (!width_m) {
        from.issues.push_back(
            {"edge-width-unknown", Severity::warning, from.field.name, spoken().zone.edge_width_unknown});
        return {};
    }
    const MultiPolygon interior = from.engine.grown(from.boundary, -*width_m * widths);
    std::vector<StratumArea> strata;
    if (!interior.empty()) strata.push_back({interior, "interior"});
    strata.push_back({from.boundary, "edge"}); // the first holder of a place wins, so this is what the interior leaves
    return strata;
}

} // namespace

std::vector<StratumArea> make_strata(const StrataMaking& from, const StrataInput& choice, std::size_t table) {
    const bool has_cells = choice.kind == StrataKind::grid || choice.kind == StrataKind::hexagons;
    if (has_cells && !(choice.cell_m > 0.0))
        throw InputError("The cell of the grid under [strata] must be longer than nothing.");
    switch (choice.kind) {
    case StrataKind::grid:
        return grid_strata(from.engine, from.boundary, choice.cell_m);
    case StrataKind::hexagons:
        return hexagon_strata(from.engine, from.boundary, choice.cell_m);
    case StrataKind::legal_subdivision:
        return subdivision_strata(from.engine, from.field, from.boundary);
    case StrataKind::edge_and_interior:
        return edge_and_interior(from, choice.widths);
    case StrataKind::pass_direction:
        return direction_strata(from);
    case StrataKind::fuzzy_classes:
        return fuzzy_strata(from, choice, table);
    case StrataKind::polygons:
    case StrataKind::raster:
        break;
    }
    return {};
}

} // namespace quartercut::zone_room
