// SPDX-License-Identifier: MIT
// zones.kml (OGC KML 2.2) for phones: one shared style a method, a plain-HTML balloon, and untyped ExtendedData, which
// more readers show than typed SchemaData.
#include "write/map_files.hpp"
#include "write/ogr_shape.hpp"
#include "write/palette.hpp"

#include <ogr_featurestyle.h>

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string_view>
#include <utility>

namespace quartercut::write {

namespace {

/// Style names must be XML names; method names need not be.
std::string style_name(int method) { return method < 0 ? "no_method" : fmt::format("method_{}", method + 1); }

const char* style_colour(int method) {
    return method < 0 ? no_method_grey : category_colour(static_cast<std::size_t>(method));
}

void add_shared_styles(GDALDataset& dataset, const Season& season) {
    OGRStyleTable table;
    for (int method = -1; method < static_cast<int>(season.methods.size()); ++method) {
        const std::string style = fmt::format("BRUSH(fc:{}B3);PEN(c:#333333FF,w:1px)", style_colour(method));
        table.AddStyle(style_name(method).c_str(), style.c_str());
    }
    dataset.SetStyleTable(&table);
}

std::string cell_text(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    if (const auto* number = std::get_if<double>(&cell)) return fmt::format("{:.6g}", *number);
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) return fmt::format("{}", *whole);
    return {};
}

/// The KML library marks text as a CDATA section without looking for the marks in it: they get a blank, so that the file
/// stays XML; characters that XML does not allow are left out.
std::string kml_text(const std::string& text) {
    std::string out;
    std::copy_if(text.begin(), text.end(), std::back_inserter(out),
                 [](char c) { return static_cast<unsigned char>(c) >= 0x20 || c == '\t' || c == '\n'; });
    for (const std::string_view mark : {"]]>", "<![CDATA["})
        for (std::size_t at = out.find(mark); at != std::string::npos; at = out.find(mark, at))
            out.insert(at + 2, " ");
    return out;
}

/// A two-column table of what is known. Names from user files are escaped: they are text, never markup.
std::string balloon(const MapLayer& layer, const MapFeature& zone) {
    std::string html = "<table>";
    for (std::size_t c = 0; c < layer.columns.size(); ++c) {
        const std::string value = cell_text(zone.cells[c]);
        if (value.empty() || layer.columns[c].name == "label") continue;
        html += fmt::format("<tr><td>{}</td><td>{}</td></tr>", xml_text(layer.columns[c].title), xml_text(value));
    }
    return html + "</table>";
}

void add_columns(OGRLayer& out, const MapLayer& layer) {
    for (const char* name : {"Name", "description"}) {
        OGRFieldDefn field(name, OFTString);
        out.CreateField(&field);
    }
    for (const MapColumn& column : layer.columns) {
        OGRFieldDefn field(column.name.c_str(), OFTString);
        out.CreateField(&field);
    }
}

/// Code of the method whose name the zone's row holds.
int method_of(const Season& season, const MapFeature& zone) {
    constexpr std::size_t method_column = 2;
    const auto* name = std::get_if<std::string>(&zone.cells[method_column]);
    return name == nullptr ? -1 : season.method_code(*name);
}

void add_zone(const GdalSession& session, OGRLayer& out, const MapLayer& layer, std::size_t index, int method) {
    const MapFeature zone = layer.feature(index);
    OGRFeature feature(out.GetLayerDefn());
    feature.SetField(0, kml_text(cell_text(zone.cells.back())).c_str());
    feature.SetField(1, balloon(layer, zone).c_str());
    for (std::size_t c = 0; c < zone.cells.size(); ++c) {
        const std::string value = kml_text(cell_text(zone.cells[c]));
        if (!value.empty()) feature.SetField(static_cast<int>(c) + 2, value.c_str());
    }
    const OGRMultiPolygon shape = to_ogr(zone.shape);
    feature.SetGeometry(&shape);
    feature.SetStyleString(("@" + style_name(method)).c_str());
    if (out.CreateFeature(&feature) != OGRERR_NONE) session.fail("zones.kml", fmt::format("write zone {}", index + 1));
}

/// The KML library says nothing when the disk fills up as it closes the file: the end must be there.
void need_whole(const GdalSession& session, const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    const std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    const std::size_t last = text.find_last_not_of(" \r\n");
    if (last == std::string::npos || !std::string_view(text).substr(0, last + 1).ends_with("</kml>"))
        session.fail(file, "write the file to its end");
}

} // namespace

void write_kml(const Results& results, const std::filesystem::path& file) {
    const GdalSession session;
    CPLSetThreadLocalConfigOption("LIBKML_USE_SIMPLEFIELD", "NO"); // untyped ExtendedData
    const MapLayer layer = zones_layer(results);
    DatasetPtr dataset = create_dataset(session, "LIBKML", file, {});
    add_shared_styles(*dataset, results.season);
    OGRSpatialReference crs = wgs84();
    OGRLayer* out = dataset->CreateLayer(layer.name.c_str(), &crs, wkbMultiPolygon, nullptr);
    if (out == nullptr) session.fail(file, "add the layer 'zones'");
    add_columns(*out, layer);
    for (std::size_t i = 0; i < layer.size; ++i) {
        add_zone(session, *out, layer, i, method_of(results.season, layer.feature(i)));
    }
    close_dataset(session, std::move(dataset), file);
    need_whole(session, file);
    CPLSetThreadLocalConfigOption("LIBKML_USE_SIMPLEFIELD", nullptr);
}

} // namespace quartercut::write
