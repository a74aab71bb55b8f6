// SPDX-License-Identifier: MIT
// Cuts fields into zones (field boundary x method area x stratum) and passes into segments.
//
// Zones of a field are an exact partition: no overlap, no gap, areas add up to the field's; land in no method area is a
// zone of its own that says why. The room checks this itself and stops when it does not hold.
#pragma once

#include "quartercut/clean.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quartercut {

/// A part of a field cut by one method (and in one stratum). One method polygon - one strip - is one zone.
struct Zone {
    std::string id;     ///< "FIELD/METHOD/n" or "FIELD/METHOD/n/STRATUM", unique in the season
    int method = -1;    ///< -1: no method; `reason` says why
    std::string reason; ///< empty, or e.g. "no method area"
    std::optional<std::string> stratum;
    std::string block;   ///< value of the pairs column, or empty
    int area_index = -1; ///< method area it was cut from
    MultiPolygon shape_m;
    double area_m2 = 0.0;               ///< scaled so that zones add up to the field's (geodesic) area
    double harvested_m2 = 0.0;          ///< sum of record areas used
    std::size_t records = 0;            ///< records used
    double mass_basis_kg = 0.0;         ///< sum over those
    double moisture_pct = 0.0;          ///< mass-weighted; NaN where not recorded
    double first_s = 0.0, last_s = 0.0; ///< time of first and last record used; NaN where unknown
    /// sum of mass / sum of area (t/ha); NaN without records
    [[nodiscard]] double yield_t_ha() const;
};

/// A stretch of one pass within one zone: the unit of spatial analysis.
struct Segment {
    int pass = -1;
    int zone = -1;
    int machine = -1;
    double x_m = 0.0, y_m = 0.0; ///< area-weighted centre
    double length_m = 0.0;
    double area_m2 = 0.0;
    double mass_basis_kg = 0.0;
    double moisture_pct = 0.0;
    double time_s = 0.0;
    std::size_t records = 0;
    bool edge = false; ///< any record straddles methods: kept for the map only
    [[nodiscard]] double yield_t_ha() const;
};

struct ZonedField {
    std::vector<Zone> zones;
    std::vector<Segment> segments;
    std::vector<std::int32_t> record_zone; ///< per record, -1: none
    Issues issues;
};

struct ZoneOptions {
    double segment_m = 30.0; ///< aimed length; pieces shorter than 60 % join the one before
    double sliver_m = 1.0;   ///< parts narrower than this join their neighbour
    /// The same field as it was cut with the same sliver_m after another cleaning: the land and each record's zone are
    /// taken over where cleaning cannot move them (areas and strata that are not made from the passes).
    const ZonedField* earlier = nullptr;
};

/// \throws DataError      method areas that overlap by more than slivers
/// \throws InternalError  the partition does not close
[[nodiscard]] ZonedField zone(const Season& season, const StandardField& field, const CleanedField& cleaned,
                              const ZoneOptions& options);

/// The zone that holds each place, -1 outside all; a place on a border belongs to one zone at most.
[[nodiscard]] std::vector<std::int32_t> zones_at(const std::vector<Zone>& zones, const std::vector<double>& x_m,
                                                 const std::vector<double>& y_m);

} // namespace quartercut
