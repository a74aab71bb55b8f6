// SPDX-License-Identifier: MIT
// Faces -> zones: labels settled, slivers merged, faces of one label dissolved, named, measured and verified.
#include "zone/cutting.hpp"

#include "base/words/words.hpp"
#include "zone/steps.hpp"
#include "zone/stratum_names.hpp"

#include "quartercut/error.hpp"

#include "base/sum.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace quartercut::zone_room {

namespace {

/// The noding works near zero, where the grid is finest; whole metres go there and back without rounding.
Point origin_of(const MultiPolygon& boundary) {
    const Box box = bounding_box(boundary);
    return {std::round(0.5 * (box.min_x + box.max_x)), std::round(0.5 * (box.min_y + box.max_y))};
}

MultiPolygon shifted(MultiPolygon shape, Point by) {
    const auto shift = [&](Ring& ring) {
        for (Point& vertex : ring)
            vertex = {vertex.x + by.x, vertex.y + by.y};
    };
    for (Polygon& polygon : shape) {
        shift(polygon.shell);
        for (Ring& hole : polygon.holes)
            shift(hole);
    }
    return shape;
}

/// Near zero and on the grid. Rounding first makes cutting repeatable: zones cut again by themselves do not change.
MultiPolygon on_grid(const MultiPolygon& shape, Point origin) {
    MultiPolygon moved = shifted(shape, {-origin.x, -origin.y});
    const auto round = [](Ring& ring) {
        for (Point& vertex : ring)
            vertex = {std::round(vertex.x / grid_m) * grid_m, std::round(vertex.y / grid_m) * grid_m};
    };
    for (Polygon& polygon : moved) {
        round(polygon.shell);
        for (Ring& hole : polygon.holes)
            round(hole);
    }
    return moved;
}

std::string place_text(const Frame& frame, Point place_m) {
    const Point place = frame.to_degrees(place_m);
    if (frame.is_local()) return fmt::format("x {:.1f} m, y {:.1f} m", place.x, place.y);
    return fmt::format("longitude {:.6f}, latitude {:.6f}", place.x, place.y);
}

/// A drawing that is not at rest after so many cuts keeps what the last one gave.
constexpr int most_cuts = 8;

/// Areas of a field-sized plane and of the ellipsoid agree to a ten-thousandth, or something is wrong with the field.
constexpr double honest_scale = 1e-4;

using Label = std::pair<int, int>; ///< method area, stratum; -1: none

/// Land of one label, on the grid.
struct Piece {
    Label label;
    MultiPolygon shape;
};

bool any_sliver(const std::vector<Face>& faces) {
    return std::any_of(faces.begin(), faces.end(), [](const Face& face) { return face.sliver; });
}

/// Did every face stay with the land that held it?
bool keep_their_holder(const std::vector<Face>& faces) {
    return std::all_of(faces.begin(), faces.end(),
                       [](const Face& face) { return face.area == (face.areas.empty() ? -1 : face.areas.front()); });
}

/// What is remarked once per pair, however many faces it concerns.
using Pairs = std::set<std::pair<int, int>>;

class ZoneMaker {
public:
    ZoneMaker(const Engine& engine, const Season& season, const StandardField& field, const Layers& layers,
              Issues& issues)
        : engine_(engine), season_(season), field_(field), layers_(layers), issues_(issues),
          origin_(origin_of(layers.boundary)), strata_(layers.strata) {}

    [[nodiscard]] std::vector<Zone> run(double sliver_m) {
        std::vector<Face> faces = cut(sliver_m);
        check_overlaps(faces);
        for (Face& face : faces)
            face.stratum = strata_.label(face.strata);
        std::vector<int> method_of_area;
        for (const MethodArea& area : layers_.areas)
            method_of_area.push_back(area.method);
        const bool slivers = any_sliver(faces);
        merge_slivers(faces, method_of_area);
        std::vector<Piece> pieces = gather(faces);
        if (slivers) settle(pieces, sliver_m);
        note_lost_areas(faces, pieces);
        std::vector<Zone> zones = zones_of(std::move(pieces));
        verify(zones);
        measure(zones);
        return zones;
    }

private:
    /// Land that took a sliver in may now hang on by one: cut by itself again until nothing narrow is left, so that
    /// whoever cuts these zones once more gets the same.
    void settle(std::vector<Piece>& pieces, double sliver_m) const {
        const MultiPolygon boundary = on_grid(layers_.boundary, origin_);
        for (int round = 1; round < most_cuts; ++round) {
            Cut again;
            again.boundary = &boundary;
            again.sliver_m = sliver_m;
            std::vector<int> method_of_piece;
            for (const Piece& piece : pieces) {
                again.areas.push_back(piece.shape);
                method_of_piece.push_back(piece.label.first < 0 ? -1 : area(piece.label.first).method);
            }
            std::vector<Face> faces = cut_into_faces(engine_, again);
            if (!any_sliver(faces)) return;
            merge_slivers(faces, method_of_piece);
            if (keep_their_holder(faces)) return;
            for (Face& face : faces) {
                const Label label = face.area < 0 ? Label{-1, -1} : pieces[static_cast<std::size_t>(face.area)].label;
                std::tie(face.area, face.stratum) = label;
            }
            pieces = gather(faces);
        }
    }

    [[nodiscard]] std::vector<Face> cut(double sliver_m) const {
        const MultiPolygon boundary = on_grid(layers_.boundary, origin_);
        Cut cut;
        cut.boundary = &boundary;
        cut.sliver_m = sliver_m;
        for (const MethodArea& area : layers_.areas)
            cut.areas.push_back(on_grid(area.shape_m, origin_));
        for (const StratumArea& stratum : layers_.strata)
            cut.strata.push_back(on_grid(stratum.shape_m, origin_));
        return cut_into_faces(engine_, cut);
    }

    [[nodiscard]] const MethodArea& area(int index) const { return layers_.areas[static_cast<std::size_t>(index)]; }

    /// Slivers of overlap are drawing errors; wider ones leave open how the land was cut.
    void check_overlaps(const std::vector<Face>& faces) {
        Pairs same_method;
        for (const Face& face : faces) {
            if (face.sliver) continue;
            for (std::size_t k = 1; k < face.areas.size(); ++k) {
                if (area(face.areas[k]).method != area(face.areas[0]).method) refuse(face, face.areas[k]);
                same_method.insert({face.areas[0], face.areas[k]});
            }
        }
        for (const auto& [first, second] : same_method)
            issues_.push_back({"method-areas-overlap", Severity::note, field_.name,
                               fill(spoken().zone.areas_overlap, fmt::arg("first", area(first).row),
                                    fmt::arg("second", area(second).row), fmt::arg("holder", area(first).row))});
        const std::vector<StrataInput> tables = season_.strata_tables();
        for (std::size_t table = 0; table < tables.size(); ++table)
            if (is_drawn(tables[table].kind)) warn_of_strata_overlaps(faces, table);
    }

    void warn_of_strata_overlaps(const std::vector<Face>& faces, std::size_t table) {
        std::set<std::pair<std::string, std::string>> pairs;
        for (const Face& face : faces) {
            if (face.sliver) continue;
            const auto found = strata_.overlaps(face.strata, table);
            pairs.insert(found.begin(), found.end());
        }
        for (const auto& [first, second] : pairs)
            issues_.push_back({"strata-overlap", Severity::warning, field_.name,
                               fill(spoken().zone.strata_overlap, fmt::arg("first", first), fmt::arg("second", second),
                                    fmt::arg("holder", first))});
    }

    [[noreturn]] void refuse(const Face& face, int second) const {
        const Point place{face.inside.x + origin_.x, face.inside.y + origin_.y};
        const MethodArea &a = area(face.areas[0]), &b = area(second);
        const auto name = [&](int method) { return season_.methods[static_cast<std::size_t>(method)].name; };
        throw DataError(
            fmt::format("In field \"{}\" the method areas of row {} (\"{}\") and row {} (\"{}\") overlap by "
                        "{:.0f} m2 near {}. Land cannot be cut both ways; correct the polygons.",
                        field_.name, a.row, name(a.method), b.row, name(b.method), planar_area(face.shape),
                        place_text(field_.frame, place)));
    }

    /// One piece a label, in the order of method area, then stratum; land without either comes last.
    [[nodiscard]] std::vector<Piece> gather(const std::vector<Face>& faces) const {
        const auto rank = [](int index) { return index < 0 ? std::numeric_limits<int>::max() : index; };
        std::map<Label, std::vector<const Polygon*>> groups;
        for (const Face& face : faces)
            groups[{rank(face.area), rank(face.stratum)}].push_back(&face.shape);
        const auto index = [&](int ranked) { return ranked == rank(-1) ? -1 : ranked; };
        std::vector<Piece> pieces;
        for (const auto& [label, shapes] : groups)
            pieces.push_back({{index(label.first), index(label.second)}, engine_.dissolved(shapes)});
        return pieces;
    }

    [[nodiscard]] std::vector<Zone> zones_of(std::vector<Piece> pieces) const {
        std::map<int, std::map<int, int>> number; // method -> area -> running number of that method
        std::vector<Zone> zones;
        for (Piece& piece : pieces) {
            Zone zone;
            zone.area_index = piece.label.first;
            if (zone.area_index >= 0) zone.method = area(zone.area_index).method;
            if (piece.label.second >= 0) zone.stratum = strata_.name(piece.label.second);
            auto& of_method = number[zone.method];
            const int running =
                of_method.emplace(zone.area_index, static_cast<int>(of_method.size()) + 1).first->second;
            describe(zone, running);
            zone.shape_m = shifted(std::move(piece.shape), origin_);
            zones.push_back(std::move(zone));
        }
        return zones;
    }

    void describe(Zone& zone, int running) const {
        const std::string method =
            zone.method < 0 ? "no-method" : season_.methods[static_cast<std::size_t>(zone.method)].name;
        zone.id = fmt::format("{}/{}/{}", field_.name, method, running);
        if (zone.stratum) zone.id += "/" + *zone.stratum;
        if (zone.area_index >= 0) zone.block = area(zone.area_index).block;
        if (zone.method < 0)
            zone.reason = season_.methods_from.source == MethodSource::points ? "no pass" : "no method area";
        else if (!layers_.strata.empty() && !zone.stratum)
            zone.reason = "no stratum";
    }

    void verify(const std::vector<Zone>& zones) const {
        std::vector<const MultiPolygon*> shapes;
        for (const Zone& zone : zones)
            shapes.push_back(&zone.shape_m);
        verify_partition(shapes, layers_.boundary, field_.name);
    }

    /// Planar areas, scaled by one factor so that they add up to the field's area on the ellipsoid.
    void measure(std::vector<Zone>& zones) {
        Sum planar_m2;
        for (const Zone& zone : zones)
            planar_m2 += planar_area(zone.shape_m);
        const double scale = field_.area_m2 / planar_m2.value();
        for (Zone& zone : zones)
            zone.area_m2 = planar_area(zone.shape_m) * scale;
        if (std::abs(scale - 1.0) <= honest_scale) return;
        issues_.push_back({"areas-differ", Severity::warning, field_.name,
                           fill(spoken().zone.areas_differ, fmt::arg("pct", 100.0 / scale - 100.0))});
    }

    void note_lost_areas(const std::vector<Face>& faces, const std::vector<Piece>& pieces) {
        std::set<int> drawn, left;
        for (const Face& face : faces)
            drawn.insert(face.areas.begin(), face.areas.end());
        for (const Piece& piece : pieces)
            left.insert(piece.label.first);
        for (const int lost : drawn)
            if (left.count(lost) == 0)
                issues_.push_back({"method-area-lost", Severity::warning, field_.name,
                                   fill(spoken().zone.area_lost, fmt::arg("row", area(lost).row))});
    }

    const Engine& engine_;
    const Season& season_;
    const StandardField& field_;
    const Layers& layers_;
    Issues& issues_;
    Point origin_;
    StratumNames strata_;
};

} // namespace

std::vector<Zone> make_zones(const Engine& engine, const Season& season, const StandardField& field,
                             const Layers& layers, double sliver_m, Issues& issues) {
    return ZoneMaker(engine, season, field, layers, issues).run(sliver_m);
}

} // namespace quartercut::zone_room
