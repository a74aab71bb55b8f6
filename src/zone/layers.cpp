// SPDX-License-Identifier: MIT
// Gathers what a field is cut by, repairs what the geometry engine could not use, and says so.
#include "zone/steps.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace quartercut::zone_room {

namespace {

constexpr double square_metre = 1.0;

MultiPolygon valid_or_repaired(const Engine& engine, const MultiPolygon& shape, const std::string& what,
                               const std::string& field, Issues& issues) {
    if (engine.is_valid(shape)) return shape;
    MultiPolygon repaired = engine.made_valid(shape);
    const double change_m2 = planar_area(repaired) - planar_area(shape);
    const Severity severity = std::abs(change_m2) > square_metre ? Severity::warning : Severity::note;
    issues.push_back({"polygon-repaired", severity, field,
                      fill(spoken().zone.repaired, fmt::arg("what", what), fmt::arg("change", change_m2))});
    return repaired;
}

std::vector<StratumArea> drawn_strata(const StrataMaking& from, std::size_t table) {
    std::vector<StratumArea> strata;
    for (const StratumArea& stratum : from.field.strata) {
        if (stratum.table != table) continue;
        strata.push_back(stratum);
        strata.back().shape_m =
            valid_or_repaired(from.engine, stratum.shape_m, fill(spoken().zone.stratum, fmt::arg("name", stratum.name)),
                              from.field.name, from.issues);
    }
    return strata;
}

std::vector<MethodArea> drawn_areas(const Engine& engine, const StandardField& field, Issues& issues) {
    std::vector<MethodArea> areas = field.method_areas;
    for (MethodArea& area : areas)
        area.shape_m = valid_or_repaired(
            engine, area.shape_m, fill(spoken().zone.method_area, fmt::arg("row", area.row)), field.name, issues);
    return areas;
}

} // namespace

Layers prepare_layers(const Engine& engine, const Season& season, const StandardField& field,
                      const CleanedField& cleaned, Issues& issues) {
    Layers layers;
    layers.boundary = valid_or_repaired(engine, field.boundary_m, spoken().zone.boundary, field.name, issues);
    if (!(planar_area(layers.boundary) > 0.0))
        throw DataError(fmt::format("The boundary of field \"{}\" encloses no area; draw it anew.", field.name));
    layers.areas = season.methods_from.source == MethodSource::points
                       ? grow_areas(engine, field, cleaned, layers.boundary)
                       : drawn_areas(engine, field, issues);
    const StrataMaking making{engine, season, field, cleaned, layers.boundary, issues};
    const std::vector<StrataInput> tables = season.strata_tables();
    for (std::size_t t = 0; t < tables.size(); ++t) {
        std::vector<StratumArea> strata =
            is_drawn(tables[t].kind) ? drawn_strata(making, t) : make_strata(making, tables[t], t);
        for (StratumArea& stratum : strata) {
            stratum.table = t;
            layers.strata.push_back(std::move(stratum));
        }
    }
    return layers;
}

} // namespace quartercut::zone_room
