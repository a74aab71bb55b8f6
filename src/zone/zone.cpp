// SPDX-License-Identifier: MIT
// One cleaned field -> its zones and segments, step by step (steps.hpp).
#include "zone/steps.hpp"

#include <algorithm>
#include <limits>

namespace quartercut {

namespace {

double tonnes_per_hectare(double mass_kg, double area_m2) {
    return area_m2 > 0.0 ? 10.0 * mass_kg / area_m2 : std::numeric_limits<double>::quiet_NaN();
}

bool follows_passes(const Season& season) {
    const std::vector<StrataInput> tables = season.strata_tables();
    return season.methods_from.source == MethodSource::points ||
           std::any_of(tables.begin(), tables.end(),
                       [](const StrataInput& table) { return table.kind == StrataKind::pass_direction; });
}

void cut_land(const Season& season, const StandardField& field, const CleanedField& cleaned, double sliver_m,
              ZonedField& into) {
    const zone_room::Engine engine;
    const auto layers = zone_room::prepare_layers(engine, season, field, cleaned, into.issues);
    into.zones = zone_room::make_zones(engine, season, field, layers, sliver_m, into.issues);
    into.record_zone = zone_room::zones_of_records(field.records, into.zones);
}

} // namespace

double Zone::yield_t_ha() const { return tonnes_per_hectare(mass_basis_kg, harvested_m2); }

double Segment::yield_t_ha() const { return tonnes_per_hectare(mass_basis_kg, area_m2); }

ZonedField zone(const Season& season, const StandardField& field, const CleanedField& cleaned,
                const ZoneOptions& options) {
    ZonedField result;
    if (options.earlier && !follows_passes(season)) {
        result.zones = options.earlier->zones;
        result.record_zone = options.earlier->record_zone;
        result.issues = options.earlier->issues;
    } else {
        cut_land(season, field, cleaned, options.sliver_m, result);
    }
    zone_room::fill_numbers(field, cleaned, result.record_zone, result.zones);
    result.segments = zone_room::cut_segments(field.records, cleaned, result.record_zone, options.segment_m);
    return result;
}

} // namespace quartercut
