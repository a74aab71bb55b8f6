// SPDX-License-Identifier: MIT
// The steps of this room: strata and method areas -> zones -> numbers -> segments.
#pragma once

#include "zone/engine.hpp"

#include "quartercut/zone.hpp"

#include <string>
#include <vector>

namespace quartercut::zone_room {

/// What a field is cut by.
struct Layers {
    MultiPolygon boundary;           ///< valid
    std::vector<MethodArea> areas;   ///< drawn, or grown from the passes
    std::vector<StratumArea> strata; ///< drawn or made
};

/// What strata may be made from, and where remarks go.
struct StrataMaking {
    const Engine& engine;
    const Season& season;
    const StandardField& field;
    const CleanedField& cleaned;
    const MultiPolygon& boundary; ///< valid
    Issues& issues;
};

// layers.cpp -----------------------------------------------------------------------------------------------------
/// Boundary, method areas and strata of the field, each valid; repairs are noted.
[[nodiscard]] Layers prepare_layers(const Engine& engine, const Season& season, const StandardField& field,
                                    const CleanedField& cleaned, Issues& issues);

// strata.cpp -----------------------------------------------------------------------------------------------------
/// Strata that no file draws, one kind each; where two hold a place the first counts.
[[nodiscard]] std::vector<StratumArea> make_strata(const StrataMaking& from, const StrataInput& choice,
                                                   std::size_t table);
/// Do the shapes come from a file, so that overlaps are somebody's mistake?
[[nodiscard]] inline bool is_drawn(StrataKind kind) {
    return kind == StrataKind::polygons || kind == StrataKind::raster;
}

// grown.cpp ------------------------------------------------------------------------------------------------------
/// Method areas grown from the passes, for methods that come from the records: every place within reach of a pass
/// belongs to the method of the nearest pass, so edges run halfway between neighbouring passes.
[[nodiscard]] std::vector<MethodArea> grow_areas(const Engine& engine, const StandardField& field,
                                                 const CleanedField& cleaned, const MultiPolygon& boundary);
/// The same for the direction the passes run in: land cut north-south, east-west and the two between.
[[nodiscard]] std::vector<StratumArea> direction_strata(const StrataMaking& from);

// fuzzy_strata.cpp -----------------------------------------------------------------------------------------------
/// Classes of earlier years' yields and other numbers over the land; never of the yield being compared.
[[nodiscard]] std::vector<StratumArea> fuzzy_strata(const StrataMaking& from, const StrataInput& choice,
                                                    std::size_t table);

// zones.cpp ------------------------------------------------------------------------------------------------------
/// The zones as land, without numbers. \throws DataError, InternalError
[[nodiscard]] std::vector<Zone> make_zones(const Engine& engine, const Season& season, const StandardField& field,
                                           const Layers& layers, double sliver_m, Issues& issues);

// numbers.cpp ----------------------------------------------------------------------------------------------------
/// The zone of every record, never one of another method; -1 where there is none.
[[nodiscard]] std::vector<std::int32_t> zones_of_records(const Records& records, const std::vector<Zone>& zones);
/// Harvested area, mass, moisture and times of the zones from the records used.
void fill_numbers(const StandardField& field, const CleanedField& cleaned, const std::vector<std::int32_t>& record_zone,
                  std::vector<Zone>& zones);

// segments.cpp ---------------------------------------------------------------------------------------------------
[[nodiscard]] std::vector<Segment> cut_segments(const Records& records, const CleanedField& cleaned,
                                                const std::vector<std::int32_t>& record_zone, double segment_m);

} // namespace quartercut::zone_room
