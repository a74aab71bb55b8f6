// SPDX-License-Identifier: MIT
// Earlier maps go through the same rooms as this season's records, each field cut one way: a layout needs the land, not
// this year's methods. So fields that were never in a trial, and next year's fields, have their maps too.
#include "plan/earlier_land.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace quartercut::planning {
namespace {

bool holds_a_record(const RawArea& area, const Raw& raw) {
    const PointLocator inside(area.shape_deg);
    const Box box = bounding_box(area.shape_deg);
    for (const RawRecords& file : raw.records)
        for (std::size_t i = 0; i < file.lon_deg.size(); ++i) {
            const Point place{file.lon_deg[i], file.lat_deg[i]};
            if (box.contains(place) && inside.contains(place)) return true;
        }
    return false;
}

/// Fields of next year that this season does not have and the map does. They may lie over this season's fields, cut up
/// anew, so they are looked at by themselves: a record belongs to one field of a season.
std::vector<RawArea> new_fields(const Raw& raw, const std::vector<RawArea>& more) {
    std::vector<RawArea> out;
    for (const RawArea& area : more) {
        const bool known = std::any_of(raw.fields.begin(), raw.fields.end(),
                                       [&](const RawArea& field) { return field.name == area.name; });
        if (!known && holds_a_record(area, raw)) out.push_back(area);
    }
    return out;
}

/// The same records on these fields, every field one area of the baseline.
Raw cut_one_way(const Season& season, Raw raw, std::vector<RawArea> fields) {
    raw.fields = std::move(fields);
    raw.method_areas = raw.fields;
    for (RawArea& area : raw.method_areas)
        area.name = season.baseline;
    return raw;
}

EarlierLand land_in(const std::string& map, const StandardField& field, const CleanedField& cleaned,
                    const ZonedField& zoned) {
    EarlierLand out{field.name, field.frame, {map, {}, direction_of(cleaned)}, 0.0};
    double mass_kg = 0.0, area_m2 = 0.0;
    for (const Segment& segment : zoned.segments) {
        if (segment.zone < 0 || !(segment.area_m2 > 0.0)) continue;
        out.map.points.push_back({segment.x_m, segment.y_m, segment.yield_t_ha()});
        mass_kg += segment.mass_basis_kg;
        area_m2 += segment.area_m2;
    }
    if (area_m2 > 0.0) out.mean_yield_t_ha = yield(Kilograms{mass_kg}, SquareMetres{area_m2}).value();
    return out;
}

void add_land(const Season& then, Raw raw, std::vector<EarlierLand>& out) {
    const std::string map = then.points.files.front();
    const Standardised standardised = standardise(then, std::move(raw));
    CleanOptions cleaning;
    cleaning.steps = then.cleaning;
    const Cleaned cleaned = clean(then, standardised, cleaning);
    ZoneOptions zoning;
    zoning.segment_m = then.comparison.segment_m;
    for (std::size_t f = 0; f < standardised.fields.size(); ++f) {
        if (cleaned.fields[f].passes.empty()) continue;
        const ZonedField zoned = zone(then, standardised.fields[f], cleaned.fields[f], zoning);
        EarlierLand land = land_in(map, standardised.fields[f], cleaned.fields[f], zoned);
        if (land.mean_yield_t_ha > 0.0) out.push_back(std::move(land));
    }
}

void read_map(const Season& season, const std::string& map, const std::vector<RawArea>& more,
              std::vector<EarlierLand>& out) {
    Season then = season_of_earlier_map(season, map);
    Raw raw = read(then);
    then.methods_from = {};
    then.trial = {};
    std::vector<RawArea> fields = raw.fields, others = new_fields(raw, more);
    if (!others.empty()) add_land(then, cut_one_way(then, raw, std::move(others)), out);
    add_land(then, cut_one_way(then, std::move(raw), std::move(fields)), out);
}

} // namespace

std::vector<EarlierLand> read_earlier_land(const Season& season, const std::vector<RawArea>& more) {
    std::vector<EarlierLand> out;
    if (!season.history) return out;
    for (const std::string& map : season.history->maps)
        try {
            read_map(season, map, more, out);
        } catch (const InputError& error) {
            throw InputError(fmt::format("[history] maps, \"{}\": {}", map, error.what()));
        } catch (const DataError& error) {
            throw DataError(fmt::format("[history] maps, \"{}\": {}", map, error.what()));
        }
    return out;
}

void add_earlier(TrialLand& land, const std::vector<EarlierLand>& earlier, double mean_yield_t_ha) {
    for (const EarlierLand& then : earlier) {
        if (then.field != land.name) continue;
        PastMap map = then.map;
        const double scale = mean_yield_t_ha > 0.0 ? mean_yield_t_ha / then.mean_yield_t_ha : 1.0;
        for (YieldPoint& point : map.points) {
            const Point here = land.frame.to_metres(then.frame.to_degrees({point.x_m, point.y_m}));
            point = {here.x, here.y, point.yield_t_ha * scale};
        }
        land.earlier.push_back(std::move(map));
    }
}

} // namespace quartercut::planning
