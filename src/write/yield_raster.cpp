// SPDX-License-Identifier: MIT
// yield.tif: dry yield and its standard error over the whole farm, a Cloud Optimized GeoTIFF in the farm's UTM zone.
//
// One file whatever the distance between fields: cells are 5 m, doubled until the farm's extent has no more than 40 million
// of them, and land outside the fields costs no room in the file (sparse, deflated).
#include "quartercut/error.hpp"
#include "write/map_files.hpp"
#include "write/place.hpp"
#include "write/raster_style.hpp"
#include "write/surface.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace quartercut::write {

namespace {

constexpr double smallest_cell_m = 5.0;
constexpr double most_cells = 40e6;
constexpr float no_data = -9999.0F;

/// North-up square cells; row 0 is the northern one.
struct Grid {
    OGRSpatialReference crs;
    double west_m = 0.0, north_m = 0.0, cell_m = smallest_cell_m;
    int columns = 0, rows = 0;
    std::vector<float> yield_t_ha, se_t_ha;
};

using TransformPtr = std::unique_ptr<OGRCoordinateTransformation>;

Point mean_centre_deg(const Results& results) {
    Point sum;
    for (const StandardField& field : results.standardised.fields) {
        const Point centre = field.frame.to_degrees({0.0, 0.0});
        sum.x += centre.x;
        sum.y += centre.y;
    }
    const auto n = static_cast<double>(results.standardised.fields.size());
    return {sum.x / n, sum.y / n};
}

/// The UTM zone of the farm's middle; fields in the next zone still fit, a little stretched.
OGRSpatialReference grid_crs(const Results& results) {
    if (is_local(results)) return map_crs(results);
    const Point centre = mean_centre_deg(results);
    const int zone = std::clamp(static_cast<int>(std::floor((centre.x + 180.0) / 6.0)) + 1, 1, 60);
    OGRSpatialReference crs;
    crs.importFromEPSG((centre.y < 0.0 ? 32700 : 32600) + zone);
    crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    return crs;
}

/// Null (nothing to do) where both are local metres.
TransformPtr transform(const GdalSession& session, const OGRSpatialReference& from, const OGRSpatialReference& to) {
    if (from.IsLocal() != 0) return nullptr;
    TransformPtr out(OGRCreateCoordinateTransformation(&from, &to));
    if (!out) session.fail("yield.tif", "find the way into UTM");
    return out;
}

/// A field's bounding box in grid coordinates.
Box extent_of(const StandardField& field, OGRCoordinateTransformation* to_grid) {
    MultiPolygon shells;
    for (const Polygon& polygon : to_map(field.frame, field.boundary_m)) {
        shells.push_back({polygon.shell, {}});
        for (Point& p : shells.back().shell) {
            if (to_grid != nullptr) to_grid->Transform(1, &p.x, &p.y);
        }
    }
    return bounding_box(shells);
}

Box join(const std::vector<Box>& boxes) {
    Box all = boxes.front();
    for (const Box& box : boxes) {
        all.min_x = std::min(all.min_x, box.min_x);
        all.min_y = std::min(all.min_y, box.min_y);
        all.max_x = std::max(all.max_x, box.max_x);
        all.max_y = std::max(all.max_y, box.max_y);
    }
    return all;
}

Grid make_grid(const Results& results, const Box& extent) {
    Grid grid;
    grid.crs = grid_crs(results);
    const auto cells = [&](double from, double to) { return std::ceil((to - from) / grid.cell_m) + 2.0; };
    while (cells(extent.min_x, extent.max_x) * cells(extent.min_y, extent.max_y) > most_cells)
        grid.cell_m *= 2.0;
    grid.west_m = std::floor(extent.min_x / grid.cell_m) * grid.cell_m;
    grid.north_m = std::ceil(extent.max_y / grid.cell_m) * grid.cell_m;
    grid.columns = static_cast<int>(std::ceil((extent.max_x - grid.west_m) / grid.cell_m));
    grid.rows = static_cast<int>(std::ceil((grid.north_m - extent.min_y) / grid.cell_m));
    const auto size = static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows);
    grid.yield_t_ha.assign(size, no_data);
    grid.se_t_ha.assign(size, no_data);
    return grid;
}

/// A grid cell whose centre lies in a zone.
struct CellInZone {
    std::size_t index = 0;
    int zone = -1;
    Point p_m; ///< in the field's frame
};

int zone_at(const std::vector<PointLocator>& zones, Point p) {
    for (std::size_t z = 0; z < zones.size(); ++z) {
        if (zones[z].box().contains(p) && zones[z].contains(p)) return static_cast<int>(z);
    }
    return -1;
}

std::vector<CellInZone> cells_of(const Grid& grid, const Box& extent, const StandardField& field,
                                 const std::vector<PointLocator>& zones, OGRCoordinateTransformation* to_degrees) {
    const int first = std::max(0, static_cast<int>((extent.min_x - grid.west_m) / grid.cell_m));
    const int last = std::min(grid.columns - 1, static_cast<int>((extent.max_x - grid.west_m) / grid.cell_m));
    const int top = std::max(0, static_cast<int>((grid.north_m - extent.max_y) / grid.cell_m));
    const int bottom = std::min(grid.rows - 1, static_cast<int>((grid.north_m - extent.min_y) / grid.cell_m));
    std::vector<CellInZone> cells;
    for (int row = top; row <= bottom; ++row) {
        std::vector<double> x, y(static_cast<std::size_t>(last - first + 1), grid.north_m - (row + 0.5) * grid.cell_m);
        for (int column = first; column <= last; ++column)
            x.push_back(grid.west_m + (column + 0.5) * grid.cell_m);
        if (to_degrees != nullptr) to_degrees->Transform(static_cast<int>(x.size()), x.data(), y.data());
        field.frame.to_metres(x, y);
        for (std::size_t i = 0; i < x.size(); ++i) {
            const Point p{x[i], y[i]};
            const int zone = zone_at(zones, p);
            const auto start = static_cast<std::size_t>(row) * static_cast<std::size_t>(grid.columns);
            if (zone >= 0) cells.push_back({start + static_cast<std::size_t>(first) + i, zone, p});
        }
    }
    return cells;
}

void fill_field(Grid& grid, const Box& extent, const StandardField& field, const ZonedField& zoned,
                OGRCoordinateTransformation* to_degrees) {
    std::vector<PointLocator> zones;
    for (const Zone& zone : zoned.zones)
        zones.emplace_back(zone.shape_m);
    const std::vector<CellInZone> cells = cells_of(grid, extent, field, zones, to_degrees);
    const Surface surface(zoned, fit_covariance(zoned), grid.cell_m);
    tbb::parallel_for(std::size_t{0}, cells.size(), [&](std::size_t i) {
        const SurfaceValue value = surface.at(cells[i].zone, cells[i].p_m);
        if (std::isfinite(value.yield_t_ha)) grid.yield_t_ha[cells[i].index] = static_cast<float>(value.yield_t_ha);
        if (std::isfinite(value.se_t_ha)) grid.se_t_ha[cells[i].index] = static_cast<float>(value.se_t_ha);
    });
}

void add_band(GDALDataset& memory, std::vector<float>& values, const char* name, const char* words) {
    OptionList place{};
    place.set("DATAPOINTER", fmt::format("{}", static_cast<const void*>(values.data())));
    memory.AddBand(GDT_Float32, place.get());
    GDALRasterBand& band = *memory.GetRasterBand(memory.GetRasterCount());
    band.SetDescription(name);
    band.SetUnitType("t/ha");
    band.SetNoDataValue(static_cast<double>(no_data));
    band.SetMetadataItem("DESCRIPTION", words);
    const bool any = std::any_of(values.begin(), values.end(), [](float v) { return v > no_data; });
    double low = 0.0, high = 0.0, mean = 0.0, deviation = 0.0;
    if (any) band.ComputeStatistics(FALSE, &low, &high, &mean, &deviation, nullptr, nullptr); // kept as metadata
}

DatasetPtr in_memory(const GdalSession& session, Grid& grid, const Season& season) {
    GDALDriver* maker = GetGDALDriverManager()->GetDriverByName("MEM");
    DatasetPtr memory(maker->Create("", grid.columns, grid.rows, 0, GDT_Float32, nullptr));
    if (!memory) session.fail("yield.tif", "make room in memory");
    std::array<double, 6> place{grid.west_m, grid.cell_m, 0.0, grid.north_m, 0.0, -grid.cell_m};
    memory->SetGeoTransform(place.data());
    memory->SetSpatialRef(&grid.crs);
    memory->SetMetadataItem("TITLE", season.title.c_str());
    memory->SetMetadataItem("HARVEST_YEAR", fmt::format("{}", season.year).c_str()); // reading refuses to split by it
    memory->SetMetadataItem("BASIS_MOISTURE_PCT", fmt::format("{}", season.basis_pct).c_str());
    memory->SetMetadataItem("HOW",
                            "Block kriging from the segments of the same zone, never across a zone border; inverse "
                            "squared distance (no standard error) where no covariance could be fitted; no value "
                            "farther than 60 m from every segment");
    add_band(*memory, grid.yield_t_ha, "yield_t_ha", "Yield at the basis moisture (t/ha)");
    add_band(*memory, grid.se_t_ha, "se_t_ha", "Kriging standard error of the cell's mean (t/ha)");
    return memory;
}

} // namespace

void write_yield_raster(const Results& results, const std::filesystem::path& file) {
    const GdalSession session;
    if (results.standardised.fields.empty()) throw InternalError("yield.tif: no field to draw.");
    const OGRSpatialReference map = map_crs(results), metres = grid_crs(results);
    const TransformPtr to_grid = transform(session, map, metres), to_degrees = transform(session, metres, map);
    std::vector<Box> extents;
    for (const StandardField& field : results.standardised.fields)
        extents.push_back(extent_of(field, to_grid.get()));
    Grid grid = make_grid(results, join(extents));
    for (std::size_t f = 0; f < extents.size(); ++f) {
        fill_field(grid, extents[f], results.standardised.fields[f], results.zoned[f], to_degrees.get());
    }
    const DatasetPtr memory = in_memory(session, grid, results.season);
    const OptionList options{
        "COMPRESS=DEFLATE", "PREDICTOR=YES", "BLOCKSIZE=256",      "OVERVIEWS=AUTO", "OVERVIEW_RESAMPLING=AVERAGE",
        "SPARSE_OK=TRUE",   "NUM_THREADS=1", "GEOTIFF_VERSION=1.1"};
    GDALDriver* cog = GetGDALDriverManager()->GetDriverByName("COG");
    if (cog == nullptr) session.fail(file, "find GDAL's COG driver");
    DatasetPtr written(cog->CreateCopy(file.c_str(), memory.get(), FALSE, options.get(), nullptr, nullptr));
    if (!written) session.fail(file, "write the raster");
    close_dataset(session, std::move(written), file);
    write_raster_side_cars(grid.yield_t_ha, static_cast<double>(no_data), file);
}

} // namespace quartercut::write
