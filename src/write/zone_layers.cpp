// SPDX-License-Identifier: MIT
// Fields and zones -> map layers: one row a field with its gain, one row a zone with its yield.
#include "write/map_layer.hpp"
#include "write/palette.hpp"
#include "write/place.hpp"
#include "write/record_count.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace quartercut::write {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

const std::vector<MapColumn> field_columns{
    {"field", ColumnKind::text, "Field", "Name of the field"},
    {"area_ha", ColumnKind::number, "Area (ha)", "Area of the boundary, holes taken off, on the ellipsoid (ha)"},
    {"evidence", ColumnKind::text, "Evidence", "How the methods were laid out"},
    {"contrast", ColumnKind::text, "Contrast", "What the gain compares; the first contrast of the field"},
    {"finding", ColumnKind::text, "Finding", "What the gain may be quoted as"},
    {"gain_t_ha", ColumnKind::number, "Gain (t/ha)", "Yield of the method minus the baseline, at the basis (t/ha)"},
    {"gain_low_t_ha", ColumnKind::number, "Gain, low end (t/ha)", "95 % interval with calibration, moisture and width"},
    {"gain_high_t_ha", ColumnKind::number, "Gain, high end (t/ha)",
     "95 % interval with calibration, moisture and width"},
    {"records_read", ColumnKind::whole, "Records read", "Records of the monitors in the field"},
    {"records_used", ColumnKind::whole, "Records used", "Records kept by the cleaning"},
    {"label", ColumnKind::text, "Label", "Text on the map"}};

const std::vector<MapColumn> zone_columns{
    {"zone_id", ColumnKind::text, "Zone", "Unique in the season"},
    {"field", ColumnKind::text, "Field", "Name of the field"},
    {"method", ColumnKind::text, "Method", "Method by its name in the season file; empty: none"},
    {"method_label", ColumnKind::text, "Method, in words", "Method as people read it"},
    {"reason", ColumnKind::text, "Why no method", "Why the land is in no method"},
    {"stratum", ColumnKind::text, "Stratum", "Part of the field by something other than method"},
    {"block", ColumnKind::text, "Block", "Pair or block of strips"},
    {"area_ha", ColumnKind::number, "Mapped area (ha)", "Area of the polygon (ha)"},
    {"harvested_ha", ColumnKind::number, "Harvested area (ha)", "Land newly cut by the records used (ha)"},
    {"harvested_share_pct", ColumnKind::number, "Harvested of mapped (%)", "100 x harvested / mapped area"},
    {"records", ColumnKind::whole, "Records", "Records used"},
    {"mass_t", ColumnKind::number, "Mass (t)", "Grain at the basis moisture, of the records used (t)"},
    {"yield_t_ha", ColumnKind::number, "Yield (t/ha)", "Sum of mass / sum of harvested area, at the basis (t/ha)"},
    {"moisture_pct", ColumnKind::number, "Moisture (%)", "Mass-weighted, wet basis (%)"},
    {"first_time", ColumnKind::text, "First record", "Time of the first record used, UTC, ISO 8601"},
    {"last_time", ColumnKind::text, "Last record", "Time of the last record used, UTC, ISO 8601"},
    {"label", ColumnKind::text, "Label", "Text on the map"}};

/// The contrast shown on the map: the first that speaks of the whole field.
const Contrast* shown_contrast(const FieldComparison& field) {
    for (const Contrast& contrast : field.contrasts) {
        if (!contrast.stratum) return &contrast;
    }
    return nullptr;
}

double end_of(const std::optional<Interval>& interval, std::size_t end) {
    return interval ? (*interval)[end] : unknown;
}

std::string yield_words(const Season& season, double yield_t_ha) {
    const double shown = from_t_ha(yield_t_ha, season.units, season.bushel_lb);
    const bool whole = season.units == YieldUnit::kg_ha || season.units == YieldUnit::lb_ac;
    return fmt::format("{:.{}f} {}", shown,
                       whole                             ? 0
                       : season.units == YieldUnit::t_ha ? 2
                                                         : 1,
                       yield_unit_word(season.units));
}

MapFeature field_feature(const Results& results, std::size_t index) {
    const StandardField& field = results.standardised.fields[index];
    const FieldComparison* compared = is_compared(results) ? &results.comparison.fields[index] : nullptr;
    const Contrast* contrast = compared == nullptr ? nullptr : shown_contrast(*compared);
    const RecordCount count = count_records(field, results.cleaned.fields[index]);
    MapFeature out;
    out.shape = to_map(field.frame, field.boundary_m);
    out.cells = {text_cell(field.name), number_cell(field.area_m2 / m2_per_hectare),
                 text_cell(compared == nullptr ? std::string() : evidence_word(compared->evidence))};
    if (contrast != nullptr) {
        out.cells.insert(out.cells.end(), {text_cell(contrast->method + " minus " + contrast->baseline),
                                           text_cell(finding_word(contrast->finding)), number_cell(contrast->gain_t_ha),
                                           number_cell(end_of(contrast->ci95_total_t_ha, 0)),
                                           number_cell(end_of(contrast->ci95_total_t_ha, 1))});
    } else {
        out.cells.resize(out.cells.size() + 5);
    }
    out.cells.insert(out.cells.end(), {count_cell(count.read), count_cell(count.used), text_cell(field.name)});
    return out;
}

MapFeature zone_feature(const Results& results, std::size_t field_index, const Zone& zone) {
    const Season& season = results.season;
    const StandardField& field = results.standardised.fields[field_index];
    const std::string label = method_label(season, zone.method);
    const double yield_t_ha = zone.yield_t_ha();
    MapFeature out;
    out.shape = to_map(field.frame, zone.shape_m);
    out.cells = {text_cell(zone.id),
                 text_cell(field.name),
                 text_cell(method_name(season, zone.method)),
                 text_cell(label),
                 text_cell(zone.reason),
                 text_cell(zone.stratum.value_or("")),
                 text_cell(zone.block),
                 number_cell(zone.area_m2 / m2_per_hectare),
                 number_cell(zone.harvested_m2 / m2_per_hectare),
                 number_cell(100.0 * zone.harvested_m2 / zone.area_m2),
                 count_cell(zone.records),
                 number_cell(zone.mass_basis_kg / kg_per_tonne),
                 number_cell(yield_t_ha),
                 number_cell(zone.moisture_pct),
                 time_cell(zone.first_s),
                 time_cell(zone.last_s),
                 text_cell(yield_t_ha > 0.0 ? label + "\n" + yield_words(season, yield_t_ha) : label)};
    return out;
}

LayerStyle outline_style() {
    LayerStyle style;
    style.name = "boundaries";
    style.description = "Field boundaries with their names.";
    style.classes = {{"", 0.0, 0.0, "Field boundary", "", Hatch::none}};
    style.label_column = "label";
    style.outline_mm = 0.6;
    return style;
}

LayerStyle method_style(const Season& season) {
    constexpr std::array hatches{Hatch::none,    Hatch::up,      Hatch::down,        Hatch::level,
                                 Hatch::upright, Hatch::crossed, Hatch::diagonal_net};
    LayerStyle style;
    style.name = "methods";
    style.description = "Zones by method (Okabe-Ito colours, hatched apart).";
    style.kind = StyleKind::categories;
    style.column = "method";
    style.label_column = "label";
    style.opacity = 0.7;
    for (std::size_t m = 0; m < season.methods.size(); ++m) {
        style.classes.push_back({season.methods[m].name, 0.0, 0.0, method_label(season, static_cast<int>(m)),
                                 category_colour(m), hatches[m % hatches.size()]});
    }
    style.classes.push_back({"", 0.0, 0.0, "No method", no_method_grey, Hatch::none});
    return style;
}

} // namespace

MapLayer fields_layer(const Results& results) {
    MapLayer layer;
    layer.name = "fields";
    layer.title = "Fields";
    layer.description = "Field boundaries with what the comparison found";
    layer.columns = field_columns;
    layer.size = results.standardised.fields.size();
    layer.feature = [&results](std::size_t index) { return field_feature(results, index); };
    std::vector<double> gains;
    for (const FieldComparison& field : results.comparison.fields) {
        const Contrast* contrast = shown_contrast(field);
        if (contrast != nullptr) gains.push_back(contrast->gain_t_ha.value_or(unknown));
    }
    LayerStyle gain = difference_style("gain_t_ha", gains, "t/ha");
    gain.name = "gain";
    gain.label_column = "label";
    layer.styles = {outline_style()};
    if (is_compared(results)) layer.styles.push_back(gain);
    return layer;
}

MapLayer zones_layer(const Results& results) {
    MapLayer layer;
    layer.name = "zones";
    layer.title = "Zones";
    layer.description =
        "Parts of the fields by method and stratum; together they are the fields, without gap or overlap";
    layer.columns = zone_columns;
    std::vector<std::pair<std::size_t, std::size_t>> places;
    std::vector<double> yields_t_ha;
    for (std::size_t f = 0; f < results.zoned.size(); ++f) {
        for (std::size_t z = 0; z < results.zoned[f].zones.size(); ++z) {
            places.emplace_back(f, z);
            yields_t_ha.push_back(results.zoned[f].zones[z].yield_t_ha());
        }
    }
    layer.size = places.size();
    layer.feature = [&results, places](std::size_t index) {
        const auto [field, zone] = places[index];
        return zone_feature(results, field, results.zoned[field].zones[zone]);
    };
    LayerStyle yield = quantile_style("yield_t_ha", yields_t_ha, "t/ha");
    yield.name = "yield";
    yield.label_column = "label";
    yield.outline_mm = 0.3;
    layer.styles = {method_style(results.season), yield};
    return layer;
}

} // namespace quartercut::write
