// SPDX-License-Identifier: MIT
// Quantile classes of a raster -> QML (loaded by itself) and SLD 1.0.0 (loaded by hand, or by a map server).
#include "write/raster_style.hpp"

#include "write/layer_style.hpp"
#include "write/posix_file.hpp"

#include <fmt/format.h>

namespace quartercut::write {

namespace {

std::string raster_qml(const LayerStyle& style) {
    std::string items;
    for (const StyleClass& c : style.classes) {
        items += fmt::format("          <item value=\"{}\" color=\"{}\" alpha=\"255\" label=\"{}\"/>\n", c.high, c.fill,
                             xml_text(c.label));
    }
    const double low = style.classes.front().low, high = style.classes.back().high;
    return fmt::format("<!DOCTYPE qgis PUBLIC 'http://mrcc.com/qgis.dtd' 'SYSTEM'>\n"
                       "<qgis version=\"3.22\" styleCategories=\"Symbology\">\n  <pipe>\n"
                       "    <rasterrenderer type=\"singlebandpseudocolor\" band=\"1\" opacity=\"1\" alphaBand=\"-1\" "
                       "classificationMin=\"{0}\" classificationMax=\"{1}\">\n      <rastershader>\n"
                       "        <colorrampshader colorRampType=\"DISCRETE\" classificationMode=\"3\" clip=\"0\" "
                       "minimumValue=\"{0}\" maximumValue=\"{1}\">\n{2}        </colorrampshader>\n"
                       "      </rastershader>\n    </rasterrenderer>\n  </pipe>\n</qgis>\n",
                       low, high, items);
}

std::string raster_sld(const LayerStyle& style, const std::string& name) {
    std::string entries;
    for (const StyleClass& c : style.classes) {
        entries += fmt::format("          <ColorMapEntry color=\"{}\" quantity=\"{}\" label=\"{}\"/>\n", c.fill, c.high,
                               xml_text(c.label));
    }
    return fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<StyledLayerDescriptor version=\"1.0.0\" xmlns=\"http://www.opengis.net/sld\" "
        "xmlns:ogc=\"http://www.opengis.net/ogc\">\n"
        "  <NamedLayer><Name>{}</Name>\n    <UserStyle><FeatureTypeStyle><Rule>\n"
        "        <RasterSymbolizer><ColorMap type=\"intervals\">\n{}        </ColorMap></RasterSymbolizer>\n"
        "    </Rule></FeatureTypeStyle></UserStyle>\n  </NamedLayer>\n</StyledLayerDescriptor>\n",
        xml_text(name), entries);
}

} // namespace

void write_raster_side_cars(const std::vector<float>& values, double no_data, const std::filesystem::path& file) {
    std::vector<double> known;
    for (const float value : values) {
        if (static_cast<double>(value) > no_data) known.push_back(static_cast<double>(value));
    }
    const LayerStyle style = quantile_style("yield_t_ha", std::move(known), "t/ha");
    if (style.classes.empty()) return; // no cell has a value
    std::filesystem::path qml = file, sld = file;
    qml.replace_extension(".qml");
    sld.replace_extension(".sld");
    write_synced(qml, raster_qml(style), qml.filename());
    write_synced(sld, raster_sld(style, file.stem().string()), sld.filename());
}

} // namespace quartercut::write
