// SPDX-License-Identifier: MIT
// Results -> files. Written beside and renamed: whole or not at all. The only room besides read/ that knows GDAL.
#pragma once

#include "quartercut/results.hpp"

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut {

/// In every results folder: lists what a run wrote there.
inline constexpr const char* results_marker = ".quartercut-results";

/// A results folder under construction. Files go into a hidden folder beside the target; `commit` swaps it in; without
/// `commit` nothing is left behind. An existing target is replaced only if an earlier run of ours made it and nobody has
/// put files of their own into it; an empty folder is taken. Leftovers of killed runs are cleaned up.
class ResultsFolder {
public:
    /// \throws WriteError  target exists and is not ours, or the parent cannot be written
    explicit ResultsFolder(std::filesystem::path target);
    ~ResultsFolder();
    ResultsFolder(const ResultsFolder&) = delete;
    ResultsFolder& operator=(const ResultsFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& building() const { return building_; }
    /// Writes a text file whole. \throws WriteError (disk full, permission)
    void write_text(const std::string& name, const std::string& text) const;
    /// Everything on disk, then one rename. \throws WriteError, the old results untouched
    void commit();

private:
    void swap_in();
    void discard() noexcept;
    std::filesystem::path shown_; ///< the target as given, for messages
    std::filesystem::path target_, building_;
    std::vector<std::filesystem::path> created_parents_;
    bool committed_ = false;
};

/// comparison.json, schema quartercut.comparison/1; SI units in the names; unknown numbers are null, never NaN.
[[nodiscard]] std::string comparison_json(const Results& results);
/// comparison.csv: one row per field x contrast, then the farm rows.
[[nodiscard]] std::string comparison_csv(const Results& results);
/// inputs.json: every input with size, sha-256, rows read, and the settings in force.
[[nodiscard]] std::string inputs_json(const Results& results);

/// report-data.cbor: what the page is drawn from, as CBOR (RFC 8949).
[[nodiscard]] std::string report_data(const Results& results);
/// The results as far as the page needs them, from the folder of an earlier run; of the records only those left out have
/// a place. \throws InputError  no such file, damaged, or of another version
[[nodiscard]] Results read_report_data(const std::filesystem::path& folder);
/// Puts one file of an earlier run's folder anew, whole or not at all. \throws WriteError
void replace_result(const std::filesystem::path& folder, const std::string& name, const std::string& text);

/// One of `count` runs that share the fields of a season.
struct Part {
    int number = 1, count = 1; ///< 1 <= number <= count
};

/// What such a run hands over: the answers of its fields, and what they were made from.
struct SeasonPart {
    Part part;
    std::string version; ///< of the program
    std::vector<InputFile> inputs;
    std::vector<FieldComparison> fields; ///< before the season is brought together
};

/// Writes part-2-of-8.cbor into `folder`, which is made where it is not there. Whole or not at all. Returns its path.
/// \throws WriteError
std::filesystem::path write_part(const SeasonPart& part, const std::filesystem::path& folder);
/// The files of parts in a folder, by name. \throws InputError  no such folder
[[nodiscard]] std::vector<std::filesystem::path> part_files(const std::filesystem::path& folder);
/// \throws InputError  damaged, or no part
[[nodiscard]] SeasonPart read_part(const std::filesystem::path& file);

/// zones.csv: one row a zone, its area on the plane and on the ellipsoid, mapped and harvested.
[[nodiscard]] std::string zones_csv(const Results& results);
/// The same as JSON, schema quartercut.zones/1.
[[nodiscard]] std::string zones_json(const Results& results);

enum class Format { geopackage, geojson, kml, geotiff, flatgeobuf, shapefile };

/// What `compare` writes where nothing else is asked for.
inline const std::vector<Format> usual_formats{Format::geopackage, Format::geojson, Format::kml, Format::geotiff};
/// A format by the ending of its file: "gpkg", "geojson", "kml", "tif", "fgb", "shp".
[[nodiscard]] std::optional<Format> format_from(std::string_view ending);
/// zones.gpkg, ...: the file of a format.
[[nodiscard]] std::string map_file(Format format);

/// Writes the map layers of the results into `folder`: zones.gpkg (fields, zones, segments, removed), zones.geojson, ...
/// Zones that were not compared come without segments, removed records and yield surface.
void write_layers(const Results& results, const std::filesystem::path& folder, const std::vector<Format>& formats);

/// A plain table of points or polygons for `demo`: written as GeoPackage layer, CSV or GeoJSON by the file's ending.
struct LayerColumn {
    std::string name;
    std::vector<std::string> texts; ///< one of the two is filled
    std::vector<double> numbers;
};
struct Layer {
    std::string name;
    std::vector<MultiPolygon> shapes_deg; ///< or
    std::vector<Point> points_deg;
    std::vector<LayerColumn> columns;
};
/// Adds the layer to `file` (created if absent). \throws WriteError
void write_layer(const Layer& layer, const std::filesystem::path& file);

} // namespace quartercut
