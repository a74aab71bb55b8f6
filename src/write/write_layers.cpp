// SPDX-License-Identifier: MIT
// Picks the formats. Formats that ask for longitude and latitude are left out for local metres (inputs.json says so).
#include "quartercut/write.hpp"
#include "write/map_files.hpp"
#include "write/place.hpp"

#include <tbb/parallel_invoke.h>

namespace quartercut {

namespace {

void write_format(const Results& results, const std::filesystem::path& folder, Format format) {
    const std::filesystem::path file = folder / map_file(format);
    switch (format) {
    case Format::geopackage:
        return write::write_geopackage(results, file);
    case Format::geojson:
        if (!write::is_local(results)) write::write_geojson(results, file);
        return;
    case Format::kml:
        if (!write::is_local(results)) write::write_kml(results, file);
        return;
    case Format::geotiff:
        if (write::is_compared(results)) write::write_yield_raster(results, file);
        return;
    case Format::flatgeobuf:
        return write::write_flatgeobuf(results, file);
    case Format::shapefile:
        return write::write_shapefile(results, file);
    }
}

} // namespace

std::optional<Format> format_from(std::string_view ending) {
    for (const Format format :
         {Format::geopackage, Format::geojson, Format::kml, Format::geotiff, Format::flatgeobuf, Format::shapefile})
        if (std::filesystem::path(map_file(format)).extension().string().substr(1) == ending) return format;
    return std::nullopt;
}

std::string map_file(Format format) {
    switch (format) {
    case Format::geopackage:
        return "zones.gpkg";
    case Format::geojson:
        return "zones.geojson";
    case Format::kml:
        return "zones.kml";
    case Format::geotiff:
        return "yield.tif";
    case Format::flatgeobuf:
        return "zones.fgb";
    case Format::shapefile:
        return "zones.shp";
    }
    return {};
}

void write_layers(const Results& results, const std::filesystem::path& folder, const std::vector<Format>& formats) {
    // The raster beside the others, which go one after another: several of them write the same side-car of styles.
    const auto write_where = [&](bool raster) {
        for (const Format format : formats)
            if ((format == Format::geotiff) == raster) write_format(results, folder, format);
    };
    tbb::parallel_invoke([&] { write_where(true); }, [&] { write_where(false); });
}

} // namespace quartercut
