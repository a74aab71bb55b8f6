// SPDX-License-Identifier: MIT
// A grid of square cells over a field, put into classes: made coherent and turned into polygons.
#pragma once

#include "zone/engine.hpp"
#include "zone/fuzzy.hpp"

#include <vector>

namespace quartercut::zone_room {

/// Cells along the axes of the field's frame; row 0 is the southern one.
struct CellGrid {
    double west_m = 0.0, south_m = 0.0, cell_m = 10.0;
    int columns = 0, rows = 0;
    [[nodiscard]] std::size_t size() const {
        return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows);
    }
    [[nodiscard]] bool holds(int column, int row) const {
        return column >= 0 && row >= 0 && column < columns && row < rows;
    }
    [[nodiscard]] std::size_t index(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(column);
    }
    [[nodiscard]] int column_of(std::size_t cell) const { return static_cast<int>(cell) % columns; }
    [[nodiscard]] int row_of(std::size_t cell) const { return static_cast<int>(cell) / columns; }
    [[nodiscard]] Point middle(std::size_t cell) const {
        return {west_m + (column_of(cell) + 0.5) * cell_m, south_m + (row_of(cell) + 0.5) * cell_m};
    }
};

/// Covers the shape, with two cells to spare all round.
[[nodiscard]] CellGrid grid_over(const MultiPolygon& shape, double cell_m);

/// Mean of the numbers in each cell and the eight around it; where there are none, in as many rings more as the numbers
/// are apart; NaN beyond.
[[nodiscard]] std::vector<double> values_in_cells(const CellGrid& grid, const std::vector<double>& x_m,
                                                  const std::vector<double>& y_m, const std::vector<double>& values);

/// Class of every cell, -1: none. Memberships (one row a cell of `cells`) are averaged with the cells around first, then
/// patches smaller than `smallest_m2` join the neighbouring class they belong to most, and the field's rim is filled.
[[nodiscard]] std::vector<int> coherent_classes(const CellGrid& grid, const std::vector<std::size_t>& cells,
                                                const NumberTable& memberships, double smallest_m2);

/// The land of one class.
[[nodiscard]] MultiPolygon land_of_class(const Engine& engine, const CellGrid& grid, const std::vector<int>& classes,
                                         int wanted);

} // namespace quartercut::zone_room
