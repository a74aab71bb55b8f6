// SPDX-License-Identifier: MIT
// One cleaned field -> its zones and segments, step by step (steps.hpp).
#include "zone/steps.hpp"

#include <limits>

namespace quartercut {

namespace {

double tonnes_per_hectare(double mass_kg, double area_m2) {
    return area_m2 > 0.0 ? 10.0 * mass_kg / area_m2 : std::numeric_limits<double>::quiet_NaN();
}

} // namespace

double Zone::yield_t_ha() const { return tonnes_per_hectare(mass_basis_kg, harvested_m2); }

double Segment::yield_t_ha() const { return tonnes_per_hectare(mass_basis_kg, area_m2); }

ZonedField zone(const Season& season, const StandardField& field, const CleanedField& cleaned,
                const ZoneOptions& options) {
    ZonedField result;
    const zone_room::Engine engine;
    const auto layers = zone_room::prepare_layers(engine, season, field, cleaned, result.issues);
    result.zones = zone_room::make_zones(engine, season, field, layers, options.sliver_m, result.issues);
    result.record_zone = zone_room::zones_of_records(field.records, result.zones);
    zone_room::fill_numbers(field, cleaned, result.record_zone, result.zones);
    result.segments = zone_room::cut_segments(field.records, cleaned, result.record_zone, options.segment_m);
    return result;
}

} // namespace quartercut
