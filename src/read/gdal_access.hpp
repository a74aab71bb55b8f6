// SPDX-License-Identifier: MIT
// GDAL as this room uses it: only the drivers named here, files of this machine only, and every complaint caught and
// put into a message instead of printed.
#pragma once

#include "read/context.hpp"
#include "read/input_files.hpp"

#include <gdal_priv.h>
#include <memory>
#include <ogrsf_frmts.h>

namespace quartercut::reading {

/// Collects what GDAL says on this thread while it lives.
class GdalWords {
public:
    GdalWords();
    ~GdalWords();
    GdalWords(const GdalWords&) = delete;
    GdalWords& operator=(const GdalWords&) = delete;
    [[nodiscard]] const std::vector<std::string>& all() const { return words_; }
    /// The last message, or `otherwise`.
    [[nodiscard]] std::string last(const std::string& otherwise) const;
    /// Was one of them a failure rather than a warning?
    [[nodiscard]] bool failed() const { return failed_; }
    void add(CPLErr severity, const char* message);
    /// After reading through a layer: a failure on the way means that rows are missing. \throws InputError
    void check_complete(const std::string& shown) const;

private:
    std::vector<std::string> words_;
    bool failed_ = false;
};

struct DatasetCloser {
    void operator()(GDALDataset* dataset) const { GDALClose(dataset); }
};
using Dataset = std::unique_ptr<GDALDataset, DatasetCloser>;

/// Which layer is wanted, and how the season file asked for it.
struct LayerWish {
    std::string layer;    ///< empty: the only fitting one
    std::string role;     ///< "fields", "points" ...: the table of the season file to amend
    bool polygons = true; ///< false: points
};

struct OpenLayer {
    Dataset dataset;
    OGRLayer* layer = nullptr;
    std::string shown; ///< "fields.gpkg, layer 'boundaries'"
    std::string name;
    std::string driver;
};

/// Opens a file of one of the formats: GeoPackage, Shapefile (also in a zip), GeoJSON, newline-delimited GeoJSON,
/// FlatGeobuf, KML/KMZ, GML.
/// \throws InputError  not readable as any of them, layer missing (lists those there are), several and none chosen
[[nodiscard]] OpenLayer open_layer(const FoundFile& file, const LayerWish& wish);

/// What a file's layers are, before any is chosen.
struct LayerFacts {
    std::string name, crs; ///< crs: as the file names it; empty when it says none
    bool polygons = false;
    std::size_t rows = 0;
    std::vector<std::string> columns;
};

/// Every layer of a file; of a zip with several files, each file is one. \throws InputError  as open_layer does
[[nodiscard]] std::vector<LayerFacts> layers_of(const FoundFile& file);

/// Is it text with columns (CSV, TSV, TXT) rather than one of GDAL's formats? Decided by ending, then content.
[[nodiscard]] bool is_text_table(const FoundFile& file);

/// The value of a feature's field as text, numbers as short as they go, times as ISO 8601; empty when unset.
[[nodiscard]] std::string field_text(const OGRFeature& feature, int field);

/// Names of the layer's fields.
[[nodiscard]] std::vector<std::string> field_names(const OGRLayer& layer);

/// Index of the field of exactly that name, else the only one that differs by case.
/// \throws InputError  there is none; lists those there are and the nearest
[[nodiscard]] int field_index(const OpenLayer& open, const std::string& column, const std::string& key);

} // namespace quartercut::reading
