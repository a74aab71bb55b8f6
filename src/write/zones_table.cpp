// SPDX-License-Identifier: MIT
// The zones as a table, for a spreadsheet and for programs: each area measured twice, the land harvested beside it.
#include "quartercut/write.hpp"

#include "write/csv_text.hpp"
#include "write/json_values.hpp"
#include "write/map_layer.hpp"
#include "write/place.hpp"

#include <fmt/format.h>

namespace quartercut {

namespace {

using write::csv_cell;
using write::csv_number;

/// The zone on the plane of its field's frame, and on the ellipsoid; the difference says what the plane is worth.
struct TwoAreas {
    double plane_m2 = 0.0, ellipsoid_m2 = 0.0;
};

TwoAreas areas_of(const StandardField& field, const Zone& zone) {
    TwoAreas areas;
    areas.plane_m2 = planar_area(zone.shape_m);
    areas.ellipsoid_m2 =
        field.frame.is_local() ? areas.plane_m2 : geodesic_area_m2(write::to_map(field.frame, zone.shape_m));
    return areas;
}

std::string row_of(const Season& season, const StandardField& field, const Zone& zone) {
    const TwoAreas areas = areas_of(field, zone);
    const auto hectares = [](double area_m2) { return csv_number(area_m2 / m2_per_hectare); };
    return fmt::format("{},{},{},{},{},{},{},{},{},{},{},{},{}\n", csv_cell(zone.id), csv_cell(field.name),
                       csv_cell(write::method_name(season, zone.method)), csv_cell(zone.reason),
                       csv_cell(zone.stratum.value_or("")), csv_cell(zone.block), hectares(zone.area_m2),
                       hectares(areas.plane_m2), hectares(areas.ellipsoid_m2),
                       csv_number(100.0 * (areas.plane_m2 / areas.ellipsoid_m2 - 1.0)), hectares(zone.harvested_m2),
                       csv_number(100.0 * zone.harvested_m2 / zone.area_m2), zone.records);
}

write::Json zone_json(const Season& season, const StandardField& field, const Zone& zone) {
    const TwoAreas areas = areas_of(field, zone);
    return write::Json{
        {"id", zone.id},
        {"method",
         write::text_or_null(zone.method < 0 ? std::nullopt : std::optional(write::method_name(season, zone.method)))},
        {"reason", zone.reason},
        {"stratum", write::text_or_null(zone.stratum)},
        {"block", zone.block},
        {"area_ha", write::number(zone.area_m2 / m2_per_hectare)},
        {"plane_ha", write::number(areas.plane_m2 / m2_per_hectare)},
        {"ellipsoid_ha", write::number(areas.ellipsoid_m2 / m2_per_hectare)},
        {"harvested_ha", write::number(zone.harvested_m2 / m2_per_hectare)},
        {"records", zone.records}};
}

} // namespace

std::string zones_json(const Results& results) {
    write::Json fields = write::Json::array();
    for (std::size_t f = 0; f < results.zoned.size(); ++f) {
        const StandardField& field = results.standardised.fields[f];
        fields.push_back(
            {{"name", field.name},
             {"area_ha", write::number(field.area_m2 / m2_per_hectare)},
             {"zones", write::array_of(results.zoned[f].zones,
                                       [&](const Zone& zone) { return zone_json(results.season, field, zone); })},
             {"issues", write::issues_json(results.zoned[f].issues)}});
    }
    return write::to_text(
        write::Json{{"schema", "quartercut.zones/1"}, {"title", results.season.title}, {"fields", fields}});
}

std::string zones_csv(const Results& results) {
    std::string text =
        "zone_id,field,method,reason,stratum,block,area_ha,plane_ha,ellipsoid_ha,plane_minus_ellipsoid_pct,"
        "harvested_ha,harvested_share_pct,records\n";
    for (std::size_t f = 0; f < results.zoned.size(); ++f)
        for (const Zone& zone : results.zoned[f].zones)
            text += row_of(results.season, results.standardised.fields[f], zone);
    return text;
}

} // namespace quartercut
