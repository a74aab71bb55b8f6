// SPDX-License-Identifier: MIT
// How a map layer is drawn, said once; written as QML (what a desktop viewer loads by itself) and as OGC SLD.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace quartercut::write {

/// Pattern over a fill, so that classes differ without colour too.
enum class Hatch { none, down, up, crossed, level, upright, diagonal_net };

struct StyleClass {
    std::string value; ///< categories: the value of the column; empty: every other value
    double low = 0.0;  ///< classes: from low to high
    double high = 0.0;
    std::string label; ///< what the legend says
    std::string fill;  ///< "#rrggbb", empty: outline only
    Hatch hatch = Hatch::none;
};

enum class StyleKind { single, categories, classes };

struct LayerStyle {
    std::string name;        ///< at most 30 letters
    std::string description; ///< how the classes were made
    StyleKind kind = StyleKind::single;
    std::string column;              ///< what is shown; empty for single
    std::vector<StyleClass> classes; ///< single: one
    std::string label_column;        ///< text written on the map; empty: none
    std::string outline = "#333333";
    double outline_mm = 0.3;
    double opacity = 1.0; ///< of the fill
    bool points = false;
};

/// Five classes of equal count (fewer where values repeat), cividis from dark (low) to light (high).
/// `unit` stands in the labels. Values that are NaN are left out.
[[nodiscard]] LayerStyle quantile_style(const std::string& column, std::vector<double> values, const std::string& unit);

/// Five steps of equal width centred on zero, PuOr: orange for loss, purple for gain.
[[nodiscard]] LayerStyle difference_style(const std::string& column, const std::vector<double>& values,
                                          const std::string& unit);

/// QML, the style language of a widely used open-source desktop viewer. `titles`: column name -> title for people.
[[nodiscard]] std::string qml_of(const LayerStyle& style,
                                 const std::vector<std::pair<std::string, std::string>>& titles);

/// Styled Layer Descriptor 1.0.0 (OGC 02-070).
[[nodiscard]] std::string sld_of(const LayerStyle& style, const std::string& layer_name);

/// Text made safe for XML: the five entities, and control characters that XML 1.0 forbids left out.
[[nodiscard]] std::string xml_text(const std::string& text);

} // namespace quartercut::write
