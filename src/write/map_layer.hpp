// SPDX-License-Identifier: MIT
// One layer of the result maps as a plain table with shapes and a style: every format is written from it.
#pragma once

#include "quartercut/results.hpp"
#include "write/layer_style.hpp"

#include <cstdint>
#include <functional>
#include <string>
#include <variant>
#include <vector>

namespace quartercut::write {

enum class ColumnKind { text, number, whole };

struct MapColumn {
    std::string name; ///< unit in the name: yield_t_ha
    ColumnKind kind = ColumnKind::text;
    std::string title; ///< for people: "Yield (t/ha)"
    std::string description;
};

/// Empty cells are unknown, never zero.
using Cell = std::variant<std::monostate, std::string, double, std::int64_t>;

struct MapFeature {
    MultiPolygon shape; ///< map coordinates (place.hpp); of a layer of points: empty
    Point point;
    std::vector<Cell> cells; ///< one per column
};

struct MapLayer {
    std::string name, title, description;
    bool points = false;
    std::vector<MapColumn> columns;
    std::size_t size = 0;
    std::function<MapFeature(std::size_t)> feature; ///< made when asked for: a season has millions of records
    std::vector<LayerStyle> styles;                 ///< the first is the default
};

/// False: the fields were only cut into zones.
[[nodiscard]] inline bool is_compared(const Results& results) { return !results.comparison.fields.empty(); }

/// Borrow `results`: it must outlive the layer.
[[nodiscard]] MapLayer fields_layer(const Results& results);
[[nodiscard]] MapLayer zones_layer(const Results& results);
[[nodiscard]] MapLayer segments_layer(const Results& results);
[[nodiscard]] MapLayer removed_layer(const Results& results);

/// A number, or an empty cell for NaN and infinity.
[[nodiscard]] Cell number_cell(double value);
[[nodiscard]] Cell number_cell(const std::optional<double>& value);
[[nodiscard]] Cell text_cell(const std::string& value); ///< an empty text is an empty cell
[[nodiscard]] Cell count_cell(std::size_t value);
/// "2025-09-04T15:33:20Z", or an empty cell where unknown.
[[nodiscard]] Cell time_cell(double seconds_since_1970);

/// Name of a method, empty for none; the same as people read it.
[[nodiscard]] std::string method_name(const Season& season, int method);
[[nodiscard]] std::string method_label(const Season& season, int method);

} // namespace quartercut::write
