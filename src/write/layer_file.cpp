// SPDX-License-Identifier: MIT
// A plain table of points or polygons -> a GeoPackage layer, GeoJSON or CSV, by the file's ending.
//
// CSV holds points only, as columns lon_deg and lat_deg (8 decimals, about 1 mm) before the others.
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"
#include "write/csv_text.hpp"
#include "write/gdal_session.hpp"
#include "write/ogr_shape.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cmath>
#include <cstring>
#include <fstream>
#include <iterator>

namespace quartercut {

namespace {

using write::GdalSession;

// An R-tree over more points than this costs more time than the writing itself.
constexpr std::size_t most_indexed_points = 200000;

std::size_t row_count(const Layer& layer) {
    const std::size_t rows = layer.shapes_deg.empty() ? layer.points_deg.size() : layer.shapes_deg.size();
    for (const LayerColumn& column : layer.columns) {
        const std::size_t filled = column.texts.empty() ? column.numbers.size() : column.texts.size();
        if (filled != rows) {
            throw InternalError(fmt::format("layer '{}': column '{}' has {} values for {} shapes", layer.name,
                                            column.name, filled, rows));
        }
    }
    return rows;
}

void add_columns(OGRLayer& out, const Layer& layer) {
    for (const LayerColumn& column : layer.columns) {
        OGRFieldDefn field(column.name.c_str(), column.texts.empty() ? OFTReal : OFTString);
        out.CreateField(&field);
    }
}

void fill(OGRFeature& feature, const Layer& layer, std::size_t row) {
    for (std::size_t c = 0; c < layer.columns.size(); ++c) {
        const LayerColumn& column = layer.columns[c];
        const int at = static_cast<int>(c);
        if (!column.texts.empty()) {
            feature.SetField(at, column.texts[row].c_str());
        } else if (std::isfinite(column.numbers[row])) {
            feature.SetField(at, column.numbers[row]);
        } else {
            feature.SetFieldNull(at);
        }
    }
    if (!layer.shapes_deg.empty()) {
        const OGRMultiPolygon shape = write::to_ogr(layer.shapes_deg[row]);
        feature.SetGeometry(&shape);
    } else {
        const OGRPoint point(layer.points_deg[row].x, layer.points_deg[row].y);
        feature.SetGeometry(&point);
    }
}

void add_layer(const GdalSession& session, GDALDataset& dataset, const Layer& layer,
               const std::filesystem::path& file) {
    const std::size_t rows = row_count(layer);
    const bool is_package = std::string_view(dataset.GetDriverName()) == "GPKG";
    write::OptionList options{};
    if (is_package) {
        options.set("GEOMETRY_NAME", "geom");
        if (layer.points_deg.size() > most_indexed_points) options.set("SPATIAL_INDEX", "NO");
    } else {
        options.set("RFC7946", "YES");
        options.set("COORDINATE_PRECISION", "8");
    }
    OGRSpatialReference crs = write::wgs84();
    OGRLayer* out = dataset.CreateLayer(layer.name.c_str(), &crs, layer.shapes_deg.empty() ? wkbPoint : wkbMultiPolygon,
                                        options.get());
    if (out == nullptr) session.fail(file, fmt::format("add the layer '{}'", layer.name));
    add_columns(*out, layer);
    if (is_package) dataset.StartTransaction();
    for (std::size_t row = 0; row < rows; ++row) {
        OGRFeature feature(out->GetLayerDefn());
        fill(feature, layer, row);
        if (out->CreateFeature(&feature) != OGRERR_NONE) session.fail(file, fmt::format("write row {}", row + 1));
    }
    if (is_package) dataset.CommitTransaction();
}

void write_with_gdal(const Layer& layer, const std::filesystem::path& file, const char* driver) {
    const GdalSession session;
    write::DatasetPtr dataset;
    if (std::filesystem::exists(file) && std::string_view(driver) == "GPKG") {
        dataset.reset(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
        if (!dataset) session.fail(file, "open the file to add a layer");
    } else {
        std::filesystem::remove(file);
        dataset = write::create_dataset(session, driver, file, {});
    }
    add_layer(session, *dataset, layer, file);
    write::close_dataset(session, std::move(dataset), file);
}

std::string csv_of(const Layer& layer) {
    const std::size_t rows = row_count(layer);
    std::string text = layer.points_deg.empty() ? "" : "lon_deg,lat_deg";
    for (const LayerColumn& column : layer.columns) {
        if (!text.empty()) text += ',';
        text += write::csv_quoted(column.name);
    }
    text += '\n';
    for (std::size_t row = 0; row < rows; ++row) {
        const Point p = layer.points_deg[row];
        fmt::format_to(std::back_inserter(text), "{:.8f},{:.8f}", p.x, p.y);
        for (const LayerColumn& column : layer.columns) {
            text += ',';
            text +=
                column.texts.empty() ? write::csv_number(column.numbers[row]) : write::csv_quoted(column.texts[row]);
        }
        text += '\n';
    }
    return text;
}

void write_csv(const Layer& layer, const std::filesystem::path& file) {
    if (!layer.shapes_deg.empty()) {
        throw WriteError(
            fmt::format("{}: polygons do not go into a CSV file. Write .gpkg or .geojson.", file.filename().string()));
    }
    const std::string text = csv_of(layer);
    errno = 0;
    std::ofstream out(file, std::ios::binary | std::ios::trunc);
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
    out.close();
    if (!out) {
        throw WriteError(fmt::format("{}: cannot write the file: {}. Check that the folder may be written and the disk "
                                     "has room.",
                                     file.filename().string(), std::strerror(errno)));
    }
}

} // namespace

void write_layer(const Layer& layer, const std::filesystem::path& file) {
    const std::string ending = file.extension().string();
    if (ending == ".gpkg") return write_with_gdal(layer, file, "GPKG");
    if (ending == ".geojson") return write_with_gdal(layer, file, "GeoJSON");
    if (ending == ".csv") return write_csv(layer, file);
    throw WriteError(fmt::format("{}: the ending '{}' is not one this program writes. Use .gpkg, .geojson or .csv.",
                                 file.filename().string(), ending));
}

} // namespace quartercut
