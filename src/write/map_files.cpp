// SPDX-License-Identifier: MIT
// Map layers into OGR data sets, and the small formats: GeoJSON, FlatGeobuf, Shapefile, side-car styles.
#include "write/map_files.hpp"

#include "write/csv_text.hpp"
#include "write/ogr_shape.hpp"
#include "write/place.hpp"
#include "write/posix_file.hpp"

#include <fmt/format.h>

#include <utility>

namespace quartercut::write {

namespace {

OGRFieldType field_type(ColumnKind kind) {
    switch (kind) {
    case ColumnKind::text:
        return OFTString;
    case ColumnKind::number:
        return OFTReal;
    case ColumnKind::whole:
        return OFTInteger64;
    }
    return OFTString;
}

void set_cell(OGRFeature& feature, int at, const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell)) {
        feature.SetField(at, text->c_str());
    } else if (const auto* number = std::get_if<double>(&cell)) {
        feature.SetField(at, *number);
    } else if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
        feature.SetField(at, GIntBig{*whole});
    } else {
        feature.SetFieldNull(at);
    }
}

void set_shape(OGRFeature& feature, const MapLayer& layer, const MapFeature& from) {
    if (layer.points) {
        const OGRPoint point(from.point.x, from.point.y);
        feature.SetGeometry(&point);
    } else if (!from.shape.empty()) {
        const OGRMultiPolygon shape = to_ogr(from.shape);
        feature.SetGeometry(&shape);
    }
}

std::filesystem::path with_ending(std::filesystem::path file, const char* ending) {
    return file.replace_extension(ending);
}

/// The same layer with names no longer than ten letters, different from each other.
MapLayer with_short_names(MapLayer layer) {
    const std::vector<std::pair<std::string, std::string>> short_names{
        {"method_label", "method_txt"}, {"harvested_ha", "harvest_ha"}, {"harvested_share_pct", "harv_pct"},
        {"yield_t_ha", "yield_t_ha"},   {"moisture_pct", "moist_pct"},  {"first_time", "first_time"}};
    for (MapColumn& column : layer.columns) {
        for (const auto& [name, short_name] : short_names) {
            if (column.name == name) column.name = short_name;
        }
    }
    return layer;
}

} // namespace

OGRLayer& add_map_layer(const GdalSession& session, GDALDataset& dataset, const MapLayer& layer,
                        const OGRSpatialReference& crs, const OptionList& options) {
    const std::filesystem::path file(dataset.GetDescription());
    OGRSpatialReference layer_crs(crs);
    OGRLayer* out =
        dataset.CreateLayer(layer.name.c_str(), &layer_crs, layer.points ? wkbPoint : wkbMultiPolygon, options.get());
    if (out == nullptr) session.fail(file, fmt::format("add the layer '{}'", layer.name));
    for (const MapColumn& column : layer.columns) {
        OGRFieldDefn field(column.name.c_str(), field_type(column.kind));
        if (out->CreateField(&field) != OGRERR_NONE)
            session.fail(file, fmt::format("add the column '{}'", column.name));
    }
    const bool transaction = dataset.StartTransaction() == OGRERR_NONE;
    for (std::size_t i = 0; i < layer.size; ++i) {
        const MapFeature from = layer.feature(i);
        OGRFeature feature(out->GetLayerDefn());
        for (std::size_t c = 0; c < from.cells.size(); ++c)
            set_cell(feature, static_cast<int>(c), from.cells[c]);
        set_shape(feature, layer, from);
        if (out->CreateFeature(&feature) != OGRERR_NONE) session.fail(file, fmt::format("write row {}", i + 1));
    }
    if (transaction && dataset.CommitTransaction() != OGRERR_NONE) session.fail(file, "write the layer");
    return *out;
}

std::vector<std::pair<std::string, std::string>> column_titles(const MapLayer& layer) {
    std::vector<std::pair<std::string, std::string>> titles;
    for (const MapColumn& column : layer.columns)
        titles.emplace_back(column.name, column.title);
    return titles;
}

void write_side_cars(const MapLayer& layer, const std::filesystem::path& file) {
    const auto qml = with_ending(file, ".qml"), sld = with_ending(file, ".sld");
    write_synced(qml, qml_of(layer.styles.front(), column_titles(layer)), qml.filename());
    write_synced(sld, sld_of(layer.styles.front(), layer.name), sld.filename());
}

void write_geojson(const Results& results, const std::filesystem::path& file) {
    const GdalSession session;
    const MapLayer layer = zones_layer(results);
    DatasetPtr dataset = create_dataset(session, "GeoJSON", file, {});
    const OptionList options{"RFC7946=YES", "COORDINATE_PRECISION=7", "WRITE_BBOX=YES", "SIGNIFICANT_FIGURES=15"};
    add_map_layer(session, *dataset, layer, wgs84(), options);
    close_dataset(session, std::move(dataset), file);
    write_side_cars(layer, file);
}

void write_flatgeobuf(const Results& results, const std::filesystem::path& file) {
    const GdalSession session;
    const MapLayer layer = zones_layer(results);
    DatasetPtr dataset = create_dataset(session, "FlatGeobuf", file, {});
    add_map_layer(session, *dataset, layer, map_crs(results), {"TITLE=Zones"});
    close_dataset(session, std::move(dataset), file);
    write_side_cars(layer, file);
}

void write_shapefile(const Results& results, const std::filesystem::path& file) {
    const GdalSession session;
    const MapLayer full = zones_layer(results);
    MapLayer layer = with_short_names(full);
    DatasetPtr dataset = create_dataset(session, "ESRI Shapefile", file, {});
    add_map_layer(session, *dataset, layer, map_crs(results), {"ENCODING=UTF-8"});
    close_dataset(session, std::move(dataset), file);
    write_side_cars(layer, file);
    std::string map = "shapefile_name,name,title\r\n";
    for (std::size_t c = 0; c < full.columns.size(); ++c) {
        map +=
            fmt::format("{},{},{}\r\n", layer.columns[c].name, full.columns[c].name, csv_quoted(full.columns[c].title));
    }
    const auto map_file = file.parent_path() / (file.stem().string() + "_fields.csv");
    write_synced(map_file, map, map_file.filename());
}

} // namespace quartercut::write
