// SPDX-License-Identifier: MIT
// LayerStyle -> QML. Only QML (in layer_styles or as a side-car) is loaded by itself in desktop viewers that read it.
#include "write/layer_style.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

namespace quartercut::write {

namespace {

/// "#rrggbb" and an opacity -> "r,g,b,a".
std::string rgba(const std::string& hex, double opacity) {
    const auto part = [&](std::size_t at) { return std::strtol(hex.substr(at, 2).c_str(), nullptr, 16); };
    return fmt::format("{},{},{},{}", part(1), part(3), part(5), std::lround(255.0 * opacity));
}

const char* brush_word(Hatch hatch) {
    switch (hatch) {
    case Hatch::none:
        return "no";
    case Hatch::down:
        return "b_diagonal";
    case Hatch::up:
        return "f_diagonal";
    case Hatch::crossed:
        return "cross";
    case Hatch::level:
        return "horizontal";
    case Hatch::upright:
        return "vertical";
    case Hatch::diagonal_net:
        return "diagonal_x";
    }
    return "no";
}

std::string prop(const char* key, const std::string& value) {
    return fmt::format("          <prop k=\"{}\" v=\"{}\"/>\n", key, value);
}

std::string symbol_layer(const char* kind, const std::string& props) {
    return fmt::format("        <layer class=\"{}\" enabled=\"1\" locked=\"0\" pass=\"0\">\n{}        </layer>\n", kind,
                       props);
}

std::string fill_layers(const LayerStyle& style, const StyleClass& shown) {
    const std::string outline = prop("outline_color", rgba(style.outline, 1.0)) + prop("outline_style", "solid") +
                                prop("outline_width", fmt::format("{}", style.outline_mm)) +
                                prop("outline_width_unit", "MM");
    const std::string fill = shown.fill.empty()
                                 ? prop("style", "no")
                                 : prop("color", rgba(shown.fill, style.opacity)) + prop("style", "solid");
    std::string out = symbol_layer("SimpleFill", fill + outline);
    if (shown.hatch == Hatch::none) return out;
    return out + symbol_layer("SimpleFill", prop("color", rgba(style.outline, 0.6)) +
                                                prop("style", brush_word(shown.hatch)) + prop("outline_style", "no"));
}

std::string marker_layer(const LayerStyle& style, const StyleClass& shown) {
    return symbol_layer("SimpleMarker", prop("name", "circle") + prop("color", rgba(shown.fill, style.opacity)) +
                                            prop("outline_color", rgba(style.outline, 1.0)) +
                                            prop("outline_width", fmt::format("{}", style.outline_mm)) +
                                            prop("size", "1.4") + prop("size_unit", "MM"));
}

std::string symbols(const LayerStyle& style) {
    std::string out = "    <symbols>\n";
    for (std::size_t k = 0; k < style.classes.size(); ++k) {
        out += fmt::format("      <symbol type=\"{}\" name=\"{}\" alpha=\"1\" clip_to_extent=\"1\" force_rhr=\"0\">\n",
                           style.points ? "marker" : "fill", k);
        out += style.points ? marker_layer(style, style.classes[k]) : fill_layers(style, style.classes[k]);
        out += "      </symbol>\n";
    }
    return out + "    </symbols>\n";
}

std::string renderer_head(const LayerStyle& style) {
    const std::string common = "symbollevels=\"0\" forceraster=\"0\" enableorderby=\"0\"";
    switch (style.kind) {
    case StyleKind::single:
        return fmt::format("  <renderer-v2 type=\"singleSymbol\" {}>\n", common);
    case StyleKind::categories:
        return fmt::format("  <renderer-v2 type=\"categorizedSymbol\" attr=\"{}\" {}>\n", style.column, common);
    case StyleKind::classes:
        return fmt::format(
            "  <renderer-v2 type=\"graduatedSymbol\" attr=\"{}\" graduatedMethod=\"GraduatedColor\" {}>\n",
            style.column, common);
    }
    return {};
}

std::string legend(const LayerStyle& style) {
    if (style.kind == StyleKind::single) return {};
    const char* group = style.kind == StyleKind::categories ? "categories" : "ranges";
    std::string out = fmt::format("    <{}>\n", group);
    for (std::size_t k = 0; k < style.classes.size(); ++k) {
        const StyleClass& c = style.classes[k];
        if (style.kind == StyleKind::categories) {
            out += fmt::format("      <category symbol=\"{}\" value=\"{}\" label=\"{}\" render=\"true\"/>\n", k,
                               xml_text(c.value), xml_text(c.label));
        } else {
            out += fmt::format("      <range symbol=\"{}\" lower=\"{}\" upper=\"{}\" label=\"{}\" render=\"true\"/>\n",
                               k, c.low, c.high, xml_text(c.label));
        }
    }
    return out + fmt::format("    </{}>\n", group);
}

std::string labelling(const LayerStyle& style) {
    if (style.label_column.empty()) return {};
    return fmt::format("  <labeling type=\"simple\">\n    <settings>\n"
                       "      <text-style fieldName=\"{}\" isExpression=\"0\" fontFamily=\"Sans Serif\" fontSize=\"8\" "
                       "fontSizeUnit=\"Point\" textColor=\"0,0,0,255\" multilineHeight=\"1\">\n"
                       "        <text-buffer bufferDraw=\"1\" bufferSize=\"0.8\" bufferSizeUnits=\"MM\" "
                       "bufferColor=\"255,255,255,255\"/>\n"
                       "      </text-style>\n"
                       "      <text-format multilineAlign=\"1\"/>\n"
                       "      <placement placement=\"1\" centroidInside=\"1\" centroidWhole=\"1\"/>\n"
                       "      <rendering drawLabels=\"1\" obstacle=\"0\"/>\n"
                       "    </settings>\n  </labeling>\n",
                       style.label_column);
}

std::string aliases(const std::vector<std::pair<std::string, std::string>>& titles) {
    std::string out = "  <aliases>\n";
    for (std::size_t i = 0; i < titles.size(); ++i) {
        out += fmt::format("    <alias field=\"{}\" index=\"{}\" name=\"{}\"/>\n", xml_text(titles[i].first), i,
                           xml_text(titles[i].second));
    }
    return out + "  </aliases>\n";
}

} // namespace

std::string qml_of(const LayerStyle& style, const std::vector<std::pair<std::string, std::string>>& titles) {
    return fmt::format("<!DOCTYPE qgis PUBLIC 'http://mrcc.com/qgis.dtd' 'SYSTEM'>\n"
                       "<qgis version=\"3.22\" styleCategories=\"Symbology|Labeling|Fields\" labelsEnabled=\"{}\">\n"
                       "{}{}{}  </renderer-v2>\n{}{}"
                       "  <layerGeometryType>{}</layerGeometryType>\n</qgis>\n",
                       style.label_column.empty() ? 0 : 1, renderer_head(style), legend(style), symbols(style),
                       labelling(style), aliases(titles), style.points ? 0 : 2);
}

} // namespace quartercut::write
