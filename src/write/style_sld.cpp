// SPDX-License-Identifier: MIT
// LayerStyle -> Styled Layer Descriptor 1.0.0 (OGC 02-070), for map servers and for loading by hand.
#include "write/layer_style.hpp"

#include <fmt/format.h>

namespace quartercut::write {

namespace {

constexpr double pixels_per_mm = 1.0 / 0.28; // the standard's pixel is 0.28 mm

std::string compare(const char* operation, const std::string& column, const std::string& literal) {
    return fmt::format("<ogc:{0}><ogc:PropertyName>{1}</ogc:PropertyName><ogc:Literal>{2}</ogc:Literal></ogc:{0}>",
                       operation, column, xml_text(literal));
}

std::string filter(const LayerStyle& style, const StyleClass& c) {
    switch (style.kind) {
    case StyleKind::single:
        return {};
    case StyleKind::categories:
        if (c.value.empty()) {
            return fmt::format("<ogc:Filter><ogc:PropertyIsNull><ogc:PropertyName>{}</ogc:PropertyName>"
                               "</ogc:PropertyIsNull></ogc:Filter>",
                               style.column);
        }
        return "<ogc:Filter>" + compare("PropertyIsEqualTo", style.column, c.value) + "</ogc:Filter>";
    case StyleKind::classes:
        return "<ogc:Filter><ogc:And>" +
               compare("PropertyIsGreaterThanOrEqualTo", style.column, fmt::format("{}", c.low)) +
               compare("PropertyIsLessThanOrEqualTo", style.column, fmt::format("{}", c.high)) +
               "</ogc:And></ogc:Filter>";
    }
    return {};
}

std::string stroke(const LayerStyle& style) {
    return fmt::format(
        "<Stroke><CssParameter name=\"stroke\">{}</CssParameter><CssParameter name=\"stroke-width\">{:.2f}"
        "</CssParameter></Stroke>",
        style.outline, style.outline_mm * pixels_per_mm);
}

std::string fill(const LayerStyle& style, const StyleClass& c) {
    if (c.fill.empty()) return {};
    return fmt::format("<Fill><CssParameter name=\"fill\">{}</CssParameter><CssParameter name=\"fill-opacity\">{}"
                       "</CssParameter></Fill>",
                       c.fill, style.opacity);
}

std::string symbolizer(const LayerStyle& style, const StyleClass& c) {
    if (!style.points) return "<PolygonSymbolizer>" + fill(style, c) + stroke(style) + "</PolygonSymbolizer>";
    return "<PointSymbolizer><Graphic><Mark><WellKnownName>circle</WellKnownName>" + fill(style, c) + stroke(style) +
           "</Mark><Size>5</Size></Graphic></PointSymbolizer>";
}

std::string label(const LayerStyle& style) {
    if (style.label_column.empty()) return {};
    return fmt::format("        <TextSymbolizer><Label><ogc:PropertyName>{}</ogc:PropertyName></Label>"
                       "<Font><CssParameter name=\"font-size\">11</CssParameter></Font>"
                       "<Halo><Radius>2</Radius><Fill><CssParameter name=\"fill\">#FFFFFF</CssParameter></Fill></Halo>"
                       "<Fill><CssParameter name=\"fill\">#000000</CssParameter></Fill></TextSymbolizer>\n",
                       style.label_column);
}

} // namespace

std::string sld_of(const LayerStyle& style, const std::string& layer_name) {
    std::string rules;
    for (const StyleClass& c : style.classes) {
        rules += fmt::format("      <Rule><Title>{}</Title>{}\n        {}\n{}      </Rule>\n", xml_text(c.label),
                             filter(style, c), symbolizer(style, c), label(style));
    }
    return fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                       "<StyledLayerDescriptor version=\"1.0.0\" xmlns=\"http://www.opengis.net/sld\" "
                       "xmlns:ogc=\"http://www.opengis.net/ogc\">\n"
                       "  <NamedLayer><Name>{}</Name>\n    <UserStyle><Name>{}</Name><Abstract>{}</Abstract>"
                       "<FeatureTypeStyle>\n{}    </FeatureTypeStyle></UserStyle>\n  </NamedLayer>\n"
                       "</StyledLayerDescriptor>\n",
                       xml_text(layer_name), xml_text(style.name), xml_text(style.description), rules);
}

} // namespace quartercut::write
