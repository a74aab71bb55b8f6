// SPDX-License-Identifier: MIT
#include "zone/cell_classes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

namespace quartercut::zone_room {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr std::array<std::array<int, 2>, 4> sides{{{-1, 0}, {1, 0}, {0, -1}, {0, 1}}};

template <class Visit>
void around(const CellGrid& grid, std::size_t cell, int reach, const Visit& visit) {
    const int column = grid.column_of(cell), row = grid.row_of(cell);
    for (int r = row - reach; r <= row + reach; ++r)
        for (int c = column - reach; c <= column + reach; ++c)
            if (grid.holds(c, r)) visit(grid.index(c, r));
}

template <class Visit>
void beside(const CellGrid& grid, std::size_t cell, const Visit& visit) {
    for (const auto& [dc, dr] : sides)
        if (grid.holds(grid.column_of(cell) + dc, grid.row_of(cell) + dr))
            visit(grid.index(grid.column_of(cell) + dc, grid.row_of(cell) + dr));
}

/// Memberships of every cell of the grid after averaging over three by three cells; rows of zeros where there are none.
NumberTable smoothed(const CellGrid& grid, const std::vector<std::size_t>& cells, const NumberTable& memberships) {
    const std::size_t classes = memberships.columns;
    std::vector<int> row_of_cell(grid.size(), -1);
    for (std::size_t i = 0; i < cells.size(); ++i)
        row_of_cell[cells[i]] = static_cast<int>(i);
    NumberTable out{classes, std::vector<double>(grid.size() * classes, 0.0)};
    for (const std::size_t cell : cells) {
        double count = 0.0;
        around(grid, cell, 1, [&](std::size_t near) {
            if (row_of_cell[near] < 0) return;
            count += 1.0;
            for (std::size_t k = 0; k < classes; ++k)
                out.values[cell * classes + k] += memberships.at(static_cast<std::size_t>(row_of_cell[near]), k);
        });
        for (std::size_t k = 0; k < classes; ++k)
            out.values[cell * classes + k] /= count;
    }
    return out;
}

/// Cells of one class that hang together by their sides.
std::vector<std::size_t> patch_of(const CellGrid& grid, const std::vector<int>& classes, std::size_t start,
                                  std::vector<bool>& seen) {
    std::vector<std::size_t> patch{start};
    seen[start] = true;
    for (std::size_t next = 0; next < patch.size(); ++next)
        beside(grid, patch[next], [&](std::size_t near) {
            if (seen[near] || classes[near] != classes[start]) return;
            seen[near] = true;
            patch.push_back(near);
        });
    return patch;
}

std::vector<std::vector<std::size_t>> patches_of(const CellGrid& grid, const std::vector<int>& classes) {
    std::vector<bool> seen(grid.size(), false);
    std::vector<std::vector<std::size_t>> patches;
    for (std::size_t cell = 0; cell < grid.size(); ++cell)
        if (classes[cell] >= 0 && !seen[cell]) patches.push_back(patch_of(grid, classes, cell, seen));
    return patches;
}

/// The class among the patch's neighbours that its cells belong to most; -1: it has no neighbour.
int class_to_join(const CellGrid& grid, const std::vector<int>& classes, const NumberTable& u,
                  const std::vector<std::size_t>& patch) {
    std::map<int, double> worth;
    for (const std::size_t cell : patch)
        beside(grid, cell, [&](std::size_t near) {
            if (classes[near] >= 0 && classes[near] != classes[cell]) worth.emplace(classes[near], 0.0);
        });
    for (auto& [k, sum] : worth)
        for (const std::size_t cell : patch)
            sum += u.at(cell, static_cast<std::size_t>(k));
    if (worth.empty()) return -1;
    return std::max_element(worth.begin(), worth.end(),
                            [](const auto& a, const auto& b) { return a.second < b.second; })
        ->first;
}

/// The smallest patch joins first; each joining leaves one patch fewer, so this ends.
void join_small_patches(const CellGrid& grid, const NumberTable& u, std::size_t fewest_cells,
                        std::vector<int>& classes) {
    for (;;) {
        std::vector<std::vector<std::size_t>> patches = patches_of(grid, classes);
        std::stable_sort(patches.begin(), patches.end(),
                         [](const auto& a, const auto& b) { return a.size() < b.size(); });
        bool joined = false;
        for (const auto& patch : patches) {
            if (patch.size() >= fewest_cells) break;
            const int k = class_to_join(grid, classes, u, patch);
            if (k < 0) continue;
            for (const std::size_t cell : patch)
                classes[cell] = k;
            joined = true;
            break;
        }
        if (!joined) return;
    }
}

/// Cells just outside take the class of a neighbour, so that classes reach the boundary, which cuts them.
void fill_rim(const CellGrid& grid, std::vector<int>& classes) {
    const std::vector<int> before = classes;
    for (std::size_t cell = 0; cell < grid.size(); ++cell) {
        if (before[cell] >= 0) continue;
        beside(grid, cell, [&](std::size_t near) {
            if (classes[cell] < 0) classes[cell] = before[near];
        });
        around(grid, cell, 1, [&](std::size_t near) {
            if (classes[cell] < 0) classes[cell] = before[near];
        });
    }
}

} // namespace

CellGrid grid_over(const MultiPolygon& shape, double cell_m) {
    const Box box = bounding_box(shape);
    CellGrid grid;
    grid.cell_m = cell_m;
    grid.west_m = (std::floor(box.min_x / cell_m) - 2.0) * cell_m;
    grid.south_m = (std::floor(box.min_y / cell_m) - 2.0) * cell_m;
    grid.columns = static_cast<int>(std::ceil((box.max_x - grid.west_m) / cell_m)) + 2;
    grid.rows = static_cast<int>(std::ceil((box.max_y - grid.south_m) / cell_m)) + 2;
    return grid;
}

std::vector<double> values_in_cells(const CellGrid& grid, const std::vector<double>& x_m,
                                    const std::vector<double>& y_m, const std::vector<double>& values) {
    std::vector<double> sum(grid.size(), 0.0), count(grid.size(), 0.0), out(grid.size(), unknown);
    double held = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double column = std::floor((x_m[i] - grid.west_m) / grid.cell_m);
        const double row = std::floor((y_m[i] - grid.south_m) / grid.cell_m);
        const bool inside = column >= 0.0 && row >= 0.0 && column < grid.columns && row < grid.rows;
        if (!inside || !std::isfinite(values[i])) continue;
        const std::size_t cell = grid.index(static_cast<int>(column), static_cast<int>(row));
        sum[cell] += values[i];
        count[cell] += 1.0;
        held += 1.0;
    }
    if (held == 0.0) return out;
    const int farthest = 1 + static_cast<int>(std::ceil(std::sqrt(static_cast<double>(grid.size()) / held)));
    for (std::size_t cell = 0; cell < grid.size(); ++cell)
        for (int reach = 1; reach <= farthest && std::isnan(out[cell]); ++reach) {
            double total = 0.0, n = 0.0;
            around(grid, cell, reach, [&](std::size_t near) { total += sum[near], n += count[near]; });
            if (n > 0.0) out[cell] = total / n;
        }
    return out;
}

std::vector<int> coherent_classes(const CellGrid& grid, const std::vector<std::size_t>& cells,
                                  const NumberTable& memberships, double smallest_m2) {
    const NumberTable u = smoothed(grid, cells, memberships);
    const std::vector<std::size_t> hard = likeliest(u);
    std::vector<int> classes(grid.size(), -1);
    for (const std::size_t cell : cells)
        classes[cell] = static_cast<int>(hard[cell]);
    join_small_patches(grid, u, static_cast<std::size_t>(std::ceil(smallest_m2 / (grid.cell_m * grid.cell_m))),
                       classes);
    fill_rim(grid, classes);
    fill_rim(grid, classes);
    return classes;
}

MultiPolygon land_of_class(const Engine& engine, const CellGrid& grid, const std::vector<int>& classes, int wanted) {
    std::vector<MultiPolygon> runs; // stretches of one row: fewer shapes to unite than cells
    for (int row = 0; row < grid.rows; ++row)
        for (int column = 0; column < grid.columns;) {
            const int first = column;
            while (column < grid.columns && classes[grid.index(column, row)] == wanted)
                ++column;
            if (column == first) {
                ++column;
                continue;
            }
            const double x0 = grid.west_m + first * grid.cell_m, x1 = grid.west_m + column * grid.cell_m;
            const double y0 = grid.south_m + row * grid.cell_m, y1 = y0 + grid.cell_m;
            runs.push_back({{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}});
        }
    return runs.empty() ? MultiPolygon{} : engine.union_of(runs);
}

} // namespace quartercut::zone_room
