// SPDX-License-Identifier: MIT
// Opening files through GDAL and choosing the layer.
#include "read/gdal_access.hpp"

#include "base/text.hpp"
#include "read/closed_doors.hpp"

#include <algorithm>
#include <array>
#include <cpl_conv.h>
#include <cpl_error.h>
#include <cpl_vsi.h>
#include <fmt/format.h>
#include <fstream>
#include <mutex>
#include <ogr_api.h>

namespace quartercut::reading {
namespace {

constexpr const char* formats_known = "GeoPackage (.gpkg), Shapefile (.shp or zipped), GeoJSON (.geojson, .geojsonl), "
                                      "FlatGeobuf (.fgb), KML (.kml, .kmz), "
                                      "GML (.gml) and, for records and tickets, CSV";

void CPL_STDCALL keep_words(CPLErr severity, CPLErrorNum, const char* message) {
    if (severity < CE_Warning) return;
    static_cast<GdalWords*>(CPLGetErrorHandlerUserData())->add(severity, message);
}

void prepare_gdal() {
    static std::once_flag done;
    std::call_once(done, [] {
        RegisterOGRGeoPackage();
        RegisterOGRShape();
        RegisterOGRGeoJSON();
        RegisterOGRGeoJSONSeq();
        RegisterOGRFlatGeobuf();
        RegisterOGRLIBKML();
        RegisterOGRGML();
        close_network();
    });
}

std::string first_bytes(const std::filesystem::path& path, std::size_t count) {
    std::ifstream stream(path, std::ios::binary);
    std::string bytes(count, '\0');
    stream.read(bytes.data(), static_cast<std::streamsize>(count));
    bytes.resize(static_cast<std::size_t>(stream.gcount()));
    return bytes;
}

bool is_layer_file(const std::string& name) {
    static constexpr std::array<std::string_view, 9> endings{".shp", ".gpkg", ".geojson", ".json",    ".geojsonl",
                                                             ".fgb", ".kml",  ".gml",     ".geojsons"};
    const std::string end = ending(name);
    return std::find(endings.begin(), endings.end(), end) != endings.end();
}

/// "/vsizip/..." of the one data set inside a zip; the layer's name picks among several.
std::string inside_zip(const FoundFile& file, const LayerWish& wish) {
    const std::string root = archive_root(file);
    char** const listing = VSIReadDirRecursive(root.c_str());
    std::vector<std::string> candidates;
    for (char** entry = listing; entry != nullptr && *entry != nullptr; ++entry)
        if (is_layer_file(*entry) && std::string(*entry).find("__MACOSX") == std::string::npos)
            candidates.emplace_back(*entry);
    CSLDestroy(listing);
    std::sort(candidates.begin(), candidates.end());
    if (candidates.empty())
        throw InputError(fmt::format("{}: the zip holds no file of a known format ({}).", file.shown, formats_known));
    if (candidates.size() == 1) return root + "/" + candidates.front();
    for (const std::string& candidate : candidates)
        if (std::filesystem::path(candidate).stem().string() == wish.layer) return root + "/" + candidate;
    throw InputError(fmt::format("{}: the zip holds several files: {}. Say which by `layer = \"...\"` under [{}] (the "
                                 "file's name without its ending).",
                                 file.shown, listed(candidates), wish.role));
}

/// A shapefile without its companions fails in ways that do not say so: say so.
void check_companions(const FoundFile& file) {
    if (ending(file.path) != ".shp") return;
    for (const char* needed : {".shx", ".dbf"}) {
        std::filesystem::path beside = file.path, capital = file.path;
        beside.replace_extension(needed);
        std::string shouted(needed);
        std::transform(shouted.begin(), shouted.end(), shouted.begin(),
                       [](unsigned char c) { return std::toupper(c); });
        capital.replace_extension(shouted);
        if (std::filesystem::exists(beside) || std::filesystem::exists(capital)) continue;
        throw InputError(
            fmt::format("{}: the file '{}' that belongs to this shapefile is missing. Copy all files of the "
                        "shapefile (.shp, .shx, .dbf, .prj) together.",
                        file.shown, beside.filename().string()));
    }
}

Dataset open_dataset(const FoundFile& file, const LayerWish& wish, const GdalWords& words) {
    static const std::array<const char*, 8> drivers{"GPKG",       "ESRI Shapefile", "GeoJSON", "GeoJSONSeq",
                                                    "FlatGeobuf", "LIBKML",         "GML",     nullptr};
    static const std::array<const char*, 2> gml_options{"WRITE_GFS=NO", nullptr};
    std::string name = std::filesystem::absolute(file.path).string();
    const bool archive = first_bytes(file.path, 4) == "PK\x03\x04";
    if (archive) refuse_bottomless_archive(file);
    if (archive && ending(file.path) != ".kmz") name = inside_zip(file, wish);
    check_companions(file);
    const bool gml = ending(name) == ".gml";
    Dataset dataset(GDALDataset::Open(name.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers.data(),
                                      gml ? gml_options.data() : nullptr));
    if (dataset) return dataset;
    throw InputError(fmt::format("{}: the file cannot be read as {}. {}", file.shown, formats_known,
                                 words.last("It may be damaged or of another format.")));
}

bool fits(OGRLayer& layer, bool polygons) {
    const OGRwkbGeometryType type = wkbFlatten(layer.GetGeomType());
    if (type == wkbUnknown || type == wkbGeometryCollection) return true;
    const bool is_polygon = OGR_GT_IsSurface(type) != 0 || OGR_GT_IsSubClassOf(type, wkbMultiSurface) != 0;
    const bool is_point = type == wkbPoint || type == wkbMultiPoint;
    return polygons ? is_polygon : is_point || type == wkbNone;
}

OGRLayer* choose_layer(GDALDataset& dataset, const FoundFile& file, const LayerWish& wish) {
    std::vector<std::string> names;
    std::vector<OGRLayer*> fitting;
    for (OGRLayer* layer : dataset.GetLayers()) {
        names.emplace_back(layer->GetName());
        if (fits(*layer, wish.polygons)) fitting.push_back(layer);
        if (!wish.layer.empty() && names.back() == wish.layer) return layer;
    }
    if (names.empty()) throw InputError(fmt::format("{}: the file holds no layer.", file.shown));
    if (!wish.layer.empty()) {
        if (names.size() == 1 && first_bytes(file.path, 4) == "PK\x03\x04") return dataset.GetLayer(0);
        throw InputError(fmt::format("{}: there is no layer '{}'. Layers: {}.{}", file.shown, wish.layer, listed(names),
                                     did_you_mean(wish.layer, names)));
    }
    if (names.size() == 1) return dataset.GetLayer(0);
    if (fitting.size() == 1) return fitting.front();
    throw InputError(fmt::format("{}: the file holds several layers: {}. Say which by `layer = \"...\"` under [{}].",
                                 file.shown, listed(names), wish.role));
}

std::string time_text(const OGRFeature& feature, int field, OGRFieldType type) {
    int year = 0, month = 0, day = 0, hour = 0, minute = 0, zone = 0;
    float second = 0.0F;
    if (!feature.GetFieldAsDateTime(field, &year, &month, &day, &hour, &minute, &second, &zone)) return {};
    const std::string date = fmt::format("{:04}-{:02}-{:02}", year, month, day);
    if (type == OFTDate) return date;
    const std::string clock = fmt::format("{:02}:{:02}:{:06.3f}", hour, minute, static_cast<double>(second));
    if (type == OFTTime) return clock;
    if (zone < 2) return date + "T" + clock;
    const int minutes = (zone - 100) * 15;
    const int size = minutes < 0 ? -minutes : minutes;
    if (minutes == 0) return date + "T" + clock + "Z";
    return fmt::format("{}T{}{}{:02}:{:02}", date, clock, minutes < 0 ? '-' : '+', size / 60, size % 60);
}

} // namespace

GdalWords::GdalWords() {
    prepare_gdal();
    CPLPushErrorHandlerEx(keep_words, this);
}

GdalWords::~GdalWords() { CPLPopErrorHandler(); }

std::string GdalWords::last(const std::string& otherwise) const { return words_.empty() ? otherwise : words_.back(); }

void GdalWords::add(CPLErr severity, const char* message) {
    words_.emplace_back(message);
    failed_ = failed_ || severity >= CE_Failure;
}

void GdalWords::check_complete(const std::string& shown) const {
    if (!failed_) return;
    throw InputError(fmt::format("{}: the file is damaged and cannot be read to its end: {} Copy or export it afresh.",
                                 shown, last("")));
}

OpenLayer open_layer(const FoundFile& file, const LayerWish& wish) {
    const GdalWords words;
    OpenLayer open;
    open.dataset = open_dataset(file, wish, words);
    open.layer = choose_layer(*open.dataset, file, wish);
    open.name = open.layer->GetName();
    open.driver = open.dataset->GetDriverName();
    open.shown = fmt::format("{}, layer '{}'", file.shown, open.name);
    return open;
}

std::vector<LayerFacts> layers_of(const FoundFile& file) {
    const GdalWords words;
    const Dataset dataset = open_dataset(file, {}, words);
    std::vector<LayerFacts> out;
    for (OGRLayer* layer : dataset->GetLayers()) {
        LayerFacts facts;
        facts.name = layer->GetName();
        const OGRSpatialReference* const crs = layer->GetSpatialRef();
        if (crs != nullptr && crs->GetName() != nullptr) facts.crs = crs->GetName();
        facts.polygons = fits(*layer, true);
        if (facts.polygons && fits(*layer, false)) { // the layer does not say: its first feature does
            const OGRFeatureUniquePtr first(layer->GetNextFeature());
            const OGRGeometry* const geometry = first ? first->GetGeometryRef() : nullptr;
            facts.polygons = geometry != nullptr && geometry->getDimension() == 2;
        }
        const GIntBig rows = layer->GetFeatureCount();
        facts.rows = rows > 0 ? static_cast<std::size_t>(rows) : 0;
        facts.columns = field_names(*layer);
        out.push_back(std::move(facts));
    }
    return out;
}

bool is_text_table(const FoundFile& file) {
    const std::string end = ending(file.path);
    if (end == ".csv" || end == ".tsv" || end == ".txt" || end == ".tab" || end == ".asc") return true;
    if (is_layer_file(file.path.string()) || end == ".zip" || end == ".kmz" || end == ".xml") return false;
    const std::string bytes = first_bytes(file.path, 512);
    return bytes.find('\0') == std::string::npos && !bytes.starts_with("PK") && !bytes.starts_with("<") &&
           !bytes.starts_with("{") && bytes.find_first_of(",;\t") != std::string::npos;
}

std::string field_text(const OGRFeature& feature, int field) {
    if (!feature.IsFieldSetAndNotNull(field)) return {};
    const OGRFieldType type = feature.GetFieldDefnRef(field)->GetType();
    if (type == OFTReal) return format_shortest(feature.GetFieldAsDouble(field));
    if (type == OFTDateTime || type == OFTDate || type == OFTTime) return time_text(feature, field, type);
    // GDAL's accessor is not const because it reuses a buffer of the feature; the value is not changed.
    return const_cast<OGRFeature&>(feature).GetFieldAsString(field); // NOLINT
}

std::vector<std::string> field_names(const OGRLayer& layer) {
    auto& definition = *const_cast<OGRLayer&>(layer).GetLayerDefn(); // NOLINT
    std::vector<std::string> names;
    for (int i = 0; i < definition.GetFieldCount(); ++i)
        names.emplace_back(definition.GetFieldDefn(i)->GetNameRef());
    return names;
}

int field_index(const OpenLayer& open, const std::string& column, const std::string& key) {
    const std::vector<std::string> names = field_names(*open.layer);
    int found = -1, alike = 0;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (names[i] == column) return static_cast<int>(i);
        if (lower(names[i]) != lower(column)) continue;
        found = static_cast<int>(i);
        ++alike;
    }
    if (alike == 1) return found;
    throw InputError(fmt::format("{}: there is no column '{}' ({}). Columns: {}.{}", open.shown, column, key,
                                 listed(names), did_you_mean(column, names)));
}

} // namespace quartercut::reading
