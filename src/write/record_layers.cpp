// SPDX-License-Identifier: MIT
// Segments and removed records -> map layers.
#include "write/map_layer.hpp"
#include "write/palette.hpp"
#include "write/place.hpp"
#include "write/segment_shape.hpp"

#include <numeric>
#include <utility>

namespace quartercut::write {

namespace {

const std::vector<MapColumn> segment_columns{
    {"field", ColumnKind::text, "Field", "Name of the field"},
    {"zone_id", ColumnKind::text, "Zone", "Zone the segment lies in"},
    {"method", ColumnKind::text, "Method", "Method by its name in the season file"},
    {"machine", ColumnKind::text, "Machine", "Name of the machine"},
    {"pass", ColumnKind::whole, "Pass", "Number of the pass in its field, from 1"},
    {"length_m", ColumnKind::number, "Length (m)", "Length along the pass (m)"},
    {"area_m2", ColumnKind::number, "Area (m2)", "Land newly cut (m2)"},
    {"mass_kg", ColumnKind::number, "Mass (kg)", "Grain at the basis moisture (kg)"},
    {"yield_t_ha", ColumnKind::number, "Yield (t/ha)", "Mass / area, at the basis (t/ha)"},
    {"moisture_pct", ColumnKind::number, "Moisture (%)", "Wet basis (%)"},
    {"time", ColumnKind::text, "Time", "UTC, ISO 8601"},
    {"records", ColumnKind::whole, "Records", "Records used"},
    {"edge", ColumnKind::whole, "Edge", "1: the cut straddles two methods, left out of contrasts"}};

const std::vector<MapColumn> removed_columns{
    {"field", ColumnKind::text, "Field", "Name of the field"},
    {"reason", ColumnKind::text, "Reason", "Why the record is not used"},
    {"method", ColumnKind::text, "Method", "Method of the area the record lies in"},
    {"machine", ColumnKind::text, "Machine", "Name of the machine"},
    {"time", ColumnKind::text, "Time", "UTC, ISO 8601"},
    {"logged_yield_t_ha", ColumnKind::number, "Logged yield (t/ha)",
     "Yield as the record stands, before cleaning (t/ha)"},
    {"moisture_pct", ColumnKind::number, "Moisture (%)", "As logged, wet basis (%)"},
    {"speed_m_s", ColumnKind::number, "Speed (m/s)", "As logged or from distance and time (m/s)"},
    {"input", ColumnKind::whole, "Input", "Number of the record file in inputs.json order, from 1"},
    {"row", ColumnKind::whole, "Row", "Row in that file, from 1"}};

using Places = std::vector<std::pair<std::size_t, std::size_t>>; // field, item

std::string machine_name(const Results& results, int machine) {
    return machine < 0 ? std::string() : results.standardised.machines.at(static_cast<std::size_t>(machine));
}

MapFeature segment_feature(const Results& results, std::size_t field_index, std::size_t index) {
    const StandardField& field = results.standardised.fields[field_index];
    const ZonedField& zoned = results.zoned[field_index];
    const Segment& segment = zoned.segments[index];
    const Zone* zone = segment.zone < 0 ? nullptr : &zoned.zones.at(static_cast<std::size_t>(segment.zone));
    MapFeature out;
    out.shape = to_map(field.frame, segment_shape_m(zoned.segments, index, results.cleaned.fields[field_index].passes));
    out.cells = {text_cell(field.name),
                 text_cell(zone == nullptr ? std::string() : zone->id),
                 text_cell(zone == nullptr ? std::string() : method_name(results.season, zone->method)),
                 text_cell(machine_name(results, segment.machine)),
                 std::int64_t{segment.pass} + 1,
                 number_cell(segment.length_m),
                 number_cell(segment.area_m2),
                 number_cell(segment.mass_basis_kg),
                 number_cell(segment.yield_t_ha()),
                 number_cell(segment.moisture_pct),
                 time_cell(segment.time_s),
                 count_cell(segment.records),
                 std::int64_t{segment.edge ? 1 : 0}};
    return out;
}

MapFeature removed_feature(const Results& results, std::size_t field_index, std::size_t index) {
    const StandardField& field = results.standardised.fields[field_index];
    const Records& records = field.records;
    const Removal removal = results.cleaned.fields[field_index].removal[index];
    MapFeature out;
    out.point = field.frame.to_degrees({records.x_m[index], records.y_m[index]});
    out.cells = {text_cell(field.name),
                 text_cell(removal_word(removal)),
                 text_cell(method_name(results.season, records.method[index])),
                 text_cell(machine_name(results, records.machine[index])),
                 time_cell(records.time_s[index]),
                 number_cell(records.logged_yield_t_ha[index]),
                 number_cell(records.moisture_pct[index]),
                 number_cell(records.speed_m_s[index]),
                 std::int64_t{records.input[index]} + 1,
                 std::int64_t{records.row[index]}};
    return out;
}

LayerStyle removal_style(const std::array<std::size_t, removal_count>& counts) {
    LayerStyle style;
    style.name = "reasons";
    style.description = "Records that are not used, by reason.";
    style.kind = StyleKind::categories;
    style.column = "reason";
    style.points = true;
    style.outline_mm = 0.1;
    std::size_t shown = 0;
    for (std::size_t reason = 1; reason < removal_count; ++reason) {
        if (counts[reason] == 0) continue;
        const std::string word = removal_word(static_cast<Removal>(reason));
        style.classes.push_back(
            {word, 0.0, 0.0, word + " (" + std::to_string(counts[reason]) + ")", category_colour(shown), Hatch::none});
        ++shown;
    }
    return style;
}

} // namespace

MapLayer segments_layer(const Results& results) {
    MapLayer layer;
    layer.name = "segments";
    layer.title = "Segments";
    layer.description = "Stretches of passes, the unit of the analysis; drawn as straight rectangles of their area";
    layer.columns = segment_columns;
    Places places;
    std::vector<double> yields_t_ha;
    for (std::size_t f = 0; f < results.zoned.size(); ++f) {
        for (std::size_t s = 0; s < results.zoned[f].segments.size(); ++s) {
            places.emplace_back(f, s);
            yields_t_ha.push_back(results.zoned[f].segments[s].yield_t_ha());
        }
    }
    layer.size = places.size();
    layer.feature = [&results, places](std::size_t index) {
        return segment_feature(results, places[index].first, places[index].second);
    };
    layer.styles = {quantile_style("yield_t_ha", yields_t_ha, "t/ha")};
    layer.styles[0].name = "yield";
    return layer;
}

MapLayer removed_layer(const Results& results) {
    MapLayer layer;
    layer.name = "removed";
    layer.title = "Removed records";
    layer.description = "Records that are not used, each with its reason";
    layer.points = true;
    layer.columns = removed_columns;
    Places places;
    std::array<std::size_t, removal_count> counts{};
    for (std::size_t f = 0; f < results.cleaned.fields.size(); ++f) {
        const std::vector<Removal>& removal = results.cleaned.fields[f].removal;
        for (std::size_t i = 0; i < removal.size(); ++i) {
            if (removal[i] == Removal::kept) continue;
            places.emplace_back(f, i);
            ++counts[static_cast<std::size_t>(removal[i])];
        }
    }
    layer.size = places.size();
    layer.feature = [&results, places](std::size_t index) {
        return removed_feature(results, places[index].first, places[index].second);
    };
    layer.styles = {removal_style(counts)};
    return layer;
}

} // namespace quartercut::write
