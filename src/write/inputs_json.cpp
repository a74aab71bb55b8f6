// SPDX-License-Identifier: MIT
// Results -> inputs.json: every file that was read, and every setting in force after defaults, so that the run can be
// repeated and two runs compared. No clock and no folder of this machine goes in.
#include "quartercut/write.hpp"
#include "write/field_json.hpp"
#include "write/place.hpp"

namespace quartercut {

namespace {

using write::Json;
using write::number;

/// The path as the season file names it. One that is absolute is told from the season file's folder.
std::string told_path(const Season& season, const std::string& path) {
    const std::filesystem::path given(path);
    if (!given.is_absolute()) return given.generic_string();
    std::error_code failed;
    const auto base = std::filesystem::absolute(season.folder(), failed);
    return given.lexically_relative(base).generic_string();
}

Json input_json(const Season& season, const InputFile& input) {
    return Json{{"path", told_path(season, input.path)},
                {"role", input.role},
                {"layer", input.layer.empty() ? Json(nullptr) : Json(input.layer)},
                {"bytes", input.bytes},
                {"sha256", input.sha256},
                {"rows", input.rows}};
}

Json columns_json(const std::map<Meaning, ColumnChoice>& columns) {
    Json out = Json::object();
    for (const auto& [meaning, choice] : columns) {
        out[meaning_word(meaning)] =
            Json{{"column", choice.column}, {"unit", choice.unit}, {"moisture", choice.moisture}, {"up", choice.up}};
    }
    return out;
}

Json cleaning_json(const CleaningChoice& c) {
    return Json{{"lag", c.lag},
                {"moisture_lag", c.moisture_lag},
                {"ramps", c.ramps},
                {"coverage", c.coverage},
                {"speed", c.speed},
                {"turns", c.turns},
                {"limits", c.limits},
                {"neighbours", c.neighbours},
                {"short_passes", c.short_passes},
                {"merge", c.merge},
                {"edge_passes", c.edge_passes},
                {"width_check", c.width_check},
                {"tickets", c.tickets},
                {"machine_offsets", c.machine_offsets}};
}

const char* method_source_word(MethodSource source) {
    switch (source) {
    case MethodSource::polygons:
        return "polygons";
    case MethodSource::points:
        return "points";
    case MethodSource::fields:
        return "fields";
    }
    return "polygons";
}

const char* strata_kind_word(StrataKind kind) {
    switch (kind) {
    case StrataKind::polygons:
        return "polygons";
    case StrataKind::raster:
        return "raster";
    case StrataKind::grid:
        return "grid";
    case StrataKind::hexagons:
        return "hexagons";
    case StrataKind::legal_subdivision:
        return "legal-subdivision";
    case StrataKind::edge_and_interior:
        return "edge-and-interior";
    case StrataKind::pass_direction:
        return "pass-direction";
    case StrataKind::fuzzy_classes:
        return "fuzzy-classes";
    }
    return "polygons";
}

Json layer_json(const LayerInput& input) {
    return Json{{"file", input.file}, {"layer", input.layer}, {"crs", input.crs}};
}

Json strata_json(const StrataInput& strata) {
    Json out = layer_json(strata);
    out["kind"] = strata_kind_word(strata.kind);
    out["column"] = strata.column;
    out["cell_m"] = number(strata.cell_m);
    out["widths"] = strata.widths;
    out["band"] = strata.band;
    out["classes"] = strata.classes;
    out["layers"] = write::array_of(strata.layers, [](const ClassLayer& layer) {
        Json each = layer_json(layer);
        each["column"] = layer.column;
        each["band"] = layer.band;
        each["yield_year"] = layer.yield_year;
        return each;
    });
    return out;
}

Json sources_json(const Season& season) {
    Json fields = layer_json(season.fields);
    fields["name_column"] = season.fields.name_column;
    fields["columns"] = Json(season.fields.columns);
    Json methods = layer_json(season.methods_from);
    methods["source"] = method_source_word(season.methods_from.source);
    methods["column"] = season.methods_from.column;
    methods["values"] = Json(season.methods_from.values);
    Json points{{"files", Json(season.points.files)}, {"layer", season.points.layer},
                {"crs", season.points.crs},           {"time_zone", season.points.time_zone},
                {"dates", season.points.dates},       {"columns", columns_json(season.points.columns)}};
    if (!season.points.crs_of.empty()) points["crs_of"] = Json(season.points.crs_of);
    Json out{{"fields", fields}, {"points", points}, {"methods", methods}};
    out["strata"] = nullptr;
    if (season.strata) out["strata"] = strata_json(*season.strata);
    out["strata_across"] = write::array_of(season.strata_across, strata_json);
    out["tickets"] = season.tickets ? Json(season.tickets->file) : Json(nullptr);
    return out;
}

Json settings_json(const Results& results) {
    const Season& season = results.season;
    Json methods = write::array_of(season.methods, [](const Method& method) {
        return Json{{"name", method.name}, {"label", method.label}, {"cut_width_m", number(method.cut_width_m)}};
    });
    return Json{{"title", season.title},
                {"year", season.year},
                {"crop", season.crop},
                {"basis_pct", number(season.basis_pct)},
                {"bushel_lb", number(season.bushel_lb)},
                {"yield_low_t_ha", number(season.yield_low_t_ha)},
                {"yield_high_t_ha", number(season.yield_high_t_ha)},
                {"baseline", season.baseline},
                {"units", yield_unit_word(season.units)},
                {"methods", methods},
                {"sources", sources_json(season)},
                {"trial", Json{{"randomised", season.trial.randomised}, {"pairs", season.trial.pairs}}},
                {"cleaning", cleaning_json(season.cleaning)},
                {"comparison", Json{{"segment_m", number(season.comparison.segment_m)},
                                    {"placebo_layouts", season.comparison.placebo_layouts},
                                    {"all_pairs", season.comparison.all_pairs},
                                    {"seed", CompareOptions{}.seed}}}};
}

Json frames_json(const Results& results) {
    return write::array_of(results.standardised.fields, [](const StandardField& field) {
        return Json{{"field", field.name}, {"frame", field.frame.definition()}, {"area_m2", number(field.area_m2)}};
    });
}

} // namespace

std::string inputs_json(const Results& results) {
    const Season& season = results.season;
    const Json out{{"schema", "quartercut.inputs/1"},
                   {"program", Json{{"name", "quartercut"}, {"version", results.version}}},
                   {"season_file", season.file.filename().generic_string()},
                   {"season_text", season.text},
                   {"inputs", write::array_of(results.standardised.inputs,
                                              [&](const InputFile& input) { return input_json(season, input); })},
                   {"records", Json{{"read", results.standardised.records_read},
                                    {"outside", results.standardised.records_outside}}},
                   {"machines", Json(results.standardised.machines)},
                   {"settings", settings_json(results)},
                   {"frames", frames_json(results)},
                   {"not_written", Json(write::unplaceable_files(results))}};
    return write::to_text(out);
}

} // namespace quartercut
