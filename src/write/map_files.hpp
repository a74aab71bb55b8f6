// SPDX-License-Identifier: MIT
// Map layers -> files. Each function writes one format; write_layers picks.
#pragma once

#include "write/gdal_session.hpp"
#include "write/map_layer.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace quartercut::write {

/// Adds the layer to an open data set: columns, then every feature. `options` are the driver's layer options.
/// \throws WriteError
OGRLayer& add_map_layer(const GdalSession& session, GDALDataset& dataset, const MapLayer& layer,
                        const OGRSpatialReference& crs, const OptionList& options);

/// fields, zones, segments and removed with styles, column titles and descriptions.
void write_geopackage(const Results& results, const std::filesystem::path& file);
/// Zones by RFC 7946: longitude and latitude, 7 decimals (about 1 cm), right-hand rings, bounding boxes.
void write_geojson(const Results& results, const std::filesystem::path& file);
/// Zones as KML 2.2 with shared styles and a readable balloon.
void write_kml(const Results& results, const std::filesystem::path& file);
/// Zones, one file, with .qml and .sld side-cars.
void write_flatgeobuf(const Results& results, const std::filesystem::path& file);
/// Zones; names longer than the format's ten letters are mapped in zones_fields.csv.
void write_shapefile(const Results& results, const std::filesystem::path& file);
/// Yield surface, standard error band, colour side-car.
void write_yield_raster(const Results& results, const std::filesystem::path& file);

/// NAME.qml and NAME.sld beside `file`, from the layer's default style.
void write_side_cars(const MapLayer& layer, const std::filesystem::path& file);

/// Column names with their titles.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> column_titles(const MapLayer& layer);

} // namespace quartercut::write
