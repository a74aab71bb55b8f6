// SPDX-License-Identifier: MIT
// Picks the formats. Formats that ask for longitude and latitude are left out for local metres (inputs.json says so).
#include "quartercut/write.hpp"
#include "write/map_files.hpp"
#include "write/place.hpp"

namespace quartercut {

namespace {

void write_format(const Results& results, const std::filesystem::path& folder, Format format) {
    switch (format) {
    case Format::geopackage:
        return write::write_geopackage(results, folder / "zones.gpkg");
    case Format::geojson:
        if (!write::is_local(results)) write::write_geojson(results, folder / "zones.geojson");
        return;
    case Format::kml:
        if (!write::is_local(results)) write::write_kml(results, folder / "zones.kml");
        return;
    case Format::geotiff:
        return write::write_yield_raster(results, folder / "yield.tif");
    case Format::flatgeobuf:
        return write::write_flatgeobuf(results, folder / "zones.fgb");
    case Format::shapefile:
        return write::write_shapefile(results, folder / "zones.shp");
    }
}

} // namespace

void write_layers(const Results& results, const std::filesystem::path& folder, const std::vector<Format>& formats) {
    for (const Format format : formats)
        write_format(results, folder, format);
}

} // namespace quartercut
