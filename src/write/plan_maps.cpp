// SPDX-License-Identifier: MIT
// Trial strips, guidance lines and next year's fields as map files.
#include "base/words/words.hpp"
#include "quartercut/write_plan.hpp"

#include "write/map_files.hpp"
#include "write/palette.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <cstdint>

namespace quartercut {
namespace write {
namespace {

struct Lines {
    std::vector<std::array<Point, 2>> ends;
    std::vector<std::string> names, methods;
};

std::string fill_of(const Season& season, const std::string& method) {
    const int code = season.method_code(method);
    if (code < 0) return no_method_grey;
    return category_colour(static_cast<std::size_t>(code));
}

LayerStyle method_style(const Season& season, const std::vector<std::string>& more) {
    LayerStyle style;
    style.name = "Method";
    style.description = "Which way to cut";
    style.kind = StyleKind::categories;
    style.column = "method";
    style.opacity = 0.7;
    constexpr std::array hatches{Hatch::none, Hatch::down, Hatch::up, Hatch::crossed, Hatch::level, Hatch::upright};
    for (std::size_t m = 0; m < season.methods.size(); ++m)
        style.classes.push_back({season.methods[m].name, 0.0, 0.0, season.methods[m].label,
                                 fill_of(season, season.methods[m].name), hatches[m % hatches.size()]});
    for (const std::string& word : more)
        style.classes.push_back({word, 0.0, 0.0, word, no_method_grey, Hatch::diagonal_net});
    return style;
}

MultiPolygon in_degrees(const Frame& frame, const MultiPolygon& shape_m) {
    MultiPolygon out;
    for (const Polygon& polygon : shape_m) {
        Polygon turned;
        for (const Point p : polygon.shell)
            turned.shell.push_back(frame.to_degrees(p));
        for (const Ring& hole : polygon.holes) {
            turned.holes.emplace_back();
            for (const Point p : hole)
                turned.holes.back().push_back(frame.to_degrees(p));
        }
        out.push_back(std::move(turned));
    }
    return out;
}

MapLayer strips_layer(const TrialLayout& layout, const Season& season) {
    MapLayer layer;
    layer.name = "strips";
    layer.title = "Trial strips";
    layer.description = layout.answer;
    layer.columns = {{"field", ColumnKind::text, "Field", ""},
                     {"block", ColumnKind::text, "Pair", "Strips of one pair share it"},
                     {"method", ColumnKind::text, "Method", "Which way to cut"},
                     {"strip", ColumnKind::whole, "Strip", "In order across the field"},
                     {"passes", ColumnKind::whole, "Compared passes", ""},
                     {"guards", ColumnKind::whole, "Guard passes on either side", "Cut the same way, not compared"},
                     {"width_m", ColumnKind::number, "Width (m)", ""},
                     {"length_m", ColumnKind::number, "Length (m)", ""}};
    layer.size = layout.strips.size();
    layer.styles = {method_style(season, {})};
    layer.styles[0].label_column = "strip";
    layer.feature = [&layout](std::size_t i) {
        const TrialStrip& strip = layout.strips[i];
        return MapFeature{in_degrees(layout.frame, strip.shape_m),
                          {},
                          {text_cell(layout.field), text_cell(std::to_string(strip.pair)), text_cell(strip.method),
                           count_cell(static_cast<std::size_t>(strip.order)),
                           count_cell(static_cast<std::size_t>(strip.passes)),
                           count_cell(static_cast<std::size_t>(strip.guards)), number_cell(strip.width_m),
                           number_cell(strip.length_m)}};
    };
    return layer;
}

Lines guidance_of(const TrialLayout& layout) {
    Lines out;
    for (const TrialStrip& strip : layout.strips)
        for (std::size_t pass = 0; pass < strip.lines_m.size(); ++pass) {
            out.ends.push_back(
                {layout.frame.to_degrees(strip.lines_m[pass][0]), layout.frame.to_degrees(strip.lines_m[pass][1])});
            out.names.push_back(fmt::format("Strip {} {} pass {}", strip.order, strip.method, pass + 1));
            out.methods.push_back(strip.method);
        }
    return out;
}

void add_lines(const GdalSession& session, GDALDataset& dataset, const Lines& lines, const OptionList& options) {
    const std::filesystem::path file(dataset.GetDescription());
    OGRSpatialReference crs = wgs84();
    OGRLayer* out = dataset.CreateLayer("guidance", &crs, wkbLineString, options.get());
    if (out == nullptr) session.fail(file, "add the layer 'guidance'");
    for (const char* column : {"Name", "method"}) {
        OGRFieldDefn field(column, OFTString);
        if (out->CreateField(&field) != OGRERR_NONE) session.fail(file, "add a column");
    }
    for (std::size_t i = 0; i < lines.ends.size(); ++i) {
        OGRFeature feature(out->GetLayerDefn());
        feature.SetField(0, lines.names[i].c_str());
        feature.SetField(1, lines.methods[i].c_str());
        OGRLineString line;
        for (const Point p : lines.ends[i])
            line.addPoint(p.x, p.y);
        feature.SetGeometry(&line);
        if (out->CreateFeature(&feature) != OGRERR_NONE) session.fail(file, fmt::format("write line {}", i + 1));
    }
}

void write_polygons_kml(const MapLayer& layer, const Season& season, const Lines* lines, std::size_t name_column,
                        std::size_t method_column, const std::filesystem::path& file) {
    const GdalSession session;
    DatasetPtr dataset = create_dataset(session, "LIBKML", file, {});
    OGRSpatialReference crs = wgs84();
    OGRLayer* out = dataset->CreateLayer(layer.name.c_str(), &crs, wkbMultiPolygon, nullptr);
    if (out == nullptr) session.fail(file, "add a layer");
    OGRFieldDefn name("Name", OFTString), words("description", OFTString);
    out->CreateField(&name);
    out->CreateField(&words);
    for (std::size_t i = 0; i < layer.size; ++i) {
        const MapFeature from = layer.feature(i);
        const auto text = [&](std::size_t c) {
            const auto* word = std::get_if<std::string>(&from.cells[c]);
            const auto* whole = std::get_if<std::int64_t>(&from.cells[c]);
            return word != nullptr ? *word : whole != nullptr ? std::to_string(*whole) : std::string();
        };
        OGRFeature feature(out->GetLayerDefn());
        feature.SetField(0, fmt::format("{} {}", text(name_column), text(method_column)).c_str());
        std::string description;
        for (std::size_t c = 0; c < layer.columns.size(); ++c)
            if (!text(c).empty()) description += layer.columns[c].title + ": " + text(c) + "\n";
        feature.SetField(1, description.c_str());
        feature.SetStyleString(
            fmt::format("BRUSH(fc:{}B0);PEN(c:#333333,w:1px)", fill_of(season, text(method_column))).c_str());
        OGRMultiPolygon shape;
        for (const Polygon& polygon : from.shape) {
            OGRPolygon one;
            const auto add = [&one](const Ring& ring) {
                OGRLinearRing closed;
                for (const Point p : ring)
                    closed.addPoint(p.x, p.y);
                closed.closeRings();
                one.addRing(&closed);
            };
            add(polygon.shell);
            for (const Ring& hole : polygon.holes)
                add(hole);
            shape.addGeometry(&one);
        }
        feature.SetGeometry(&shape);
        if (out->CreateFeature(&feature) != OGRERR_NONE) session.fail(file, fmt::format("write row {}", i + 1));
    }
    if (lines != nullptr) add_lines(session, *dataset, *lines, {});
    close_dataset(session, std::move(dataset), file);
}

void write_lines(const char* driver, const Lines& lines, const std::filesystem::path& file, const OptionList& options) {
    const GdalSession session;
    DatasetPtr dataset = create_dataset(session, driver, file, {});
    add_lines(session, *dataset, lines, options);
    close_dataset(session, std::move(dataset), file);
}

void write_polygons(const char* driver, const MapLayer& layer, const std::filesystem::path& file,
                    const OptionList& options, const Lines* lines = nullptr) {
    const GdalSession session;
    DatasetPtr dataset = create_dataset(session, driver, file, {});
    add_map_layer(session, *dataset, layer, wgs84(), options);
    if (lines != nullptr) add_lines(session, *dataset, *lines, options);
    close_dataset(session, std::move(dataset), file);
    write_side_cars(layer, file);
}

MapLayer choice_layer(const Choice& choice, const Season& season) {
    MapLayer layer;
    layer.name = "next_year";
    layer.title = fmt::format("Fields of {}", choice.year);
    layer.columns = {{"field", ColumnKind::text, "Field", ""},
                     {"method", ColumnKind::text, "Proposed", ""},
                     {"trial", ColumnKind::text, "Trial", ""},
                     {"area_ha", ColumnKind::number, "Area (ha)", ""},
                     {"variety", ColumnKind::text, "Variety", ""},
                     {"why", ColumnKind::text, "Why", ""},
                     {"changes_if", ColumnKind::text, "What would change it", ""},
                     {"combine", ColumnKind::text, "Combining from", ""}};
    layer.size = choice.fields.size();
    layer.styles = {method_style(season, {spoken().advice.both_in_strips})};
    layer.styles[0].label_column = "field";
    layer.feature = [&choice](std::size_t i) {
        const CandidateField& field = choice.fields[i];
        const auto joined = [](const std::vector<std::string>& words) {
            return fmt::format("{}", fmt::join(words, " "));
        };
        return MapFeature{field.shape_deg,
                          {},
                          {text_cell(field.name), text_cell(field.method), text_cell(field.trial ? "yes" : "no"),
                           number_cell(field.area_ha), text_cell(field.variety), text_cell(joined(field.reasons)),
                           text_cell(joined(field.would_change)), text_cell(field.combine_from.value_or(""))}};
    };
    return layer;
}

} // namespace
} // namespace write

void write_layout_maps(const TrialLayout& layout, const Season& season, const std::filesystem::path& folder) {
    using namespace write;
    if (layout.strips.empty()) return;
    const MapLayer strips = strips_layer(layout, season);
    const Lines lines = guidance_of(layout);
    const OptionList geojson{"RFC7946=YES", "COORDINATE_PRECISION=8"};
    write_polygons("GPKG", strips, folder / "strips.gpkg", {"GEOMETRY_NAME=geom"}, &lines);
    write_polygons("GeoJSON", strips, folder / "strips.geojson", geojson);
    write_lines("GeoJSON", lines, folder / "guidance.geojson", geojson);
    write_polygons("ESRI Shapefile", strips, folder / "strips.shp", {"ENCODING=UTF-8"});
    write_lines("ESRI Shapefile", lines, folder / "guidance.shp", {"ENCODING=UTF-8"});
    constexpr std::size_t strip_column = 3, method_column = 2;
    write_polygons_kml(strips, season, &lines, strip_column, method_column, folder / "strips.kml");
}

void write_choice_maps(const Choice& choice, const Season& season, const std::filesystem::path& folder) {
    using namespace write;
    const MapLayer layer = choice_layer(choice, season);
    write_polygons("GPKG", layer, folder / "choose.gpkg", {"GEOMETRY_NAME=geom"});
    write_polygons("GeoJSON", layer, folder / "choose.geojson", {"RFC7946=YES", "COORDINATE_PRECISION=7"});
    write_polygons_kml(layer, season, nullptr, 0, 1, folder / "choose.kml");
}

} // namespace quartercut
