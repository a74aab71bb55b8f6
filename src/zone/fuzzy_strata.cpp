// SPDX-License-Identifier: MIT
// Classes of land from numbers that do not come from this harvest: earlier yields, relief, soil surveys.
//
// Layers are brought to cells of 10 m and to one range (5th to 95th percentile, Schenatto et al. 2017, Comput.
// Electron. Agric. 143, 238-248), put into fuzzy classes, and the number of classes is chosen by how clearly places belong.
#include "zone/cell_classes.hpp"

#include "base/text.hpp"
#include "base/words/words.hpp"
#include "zone/fuzzy.hpp"
#include "zone/steps.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace quartercut::zone_room {

namespace {

constexpr double cell_m = 10.0;
constexpr double smallest_m2 = 5000.0; ///< nobody farms half a hectare by itself
constexpr std::size_t most_classes = 5;
constexpr std::size_t fewest_cells = 50;

/// Cells in the field with a number from every layer, and these numbers.
struct Cells {
    CellGrid grid;
    std::vector<std::size_t> cells;
    NumberTable numbers; ///< one row a cell, one column a layer
};

Cells gather_cells(const StrataMaking& from, const std::vector<const LandNumbers*>& layers) {
    Cells out;
    out.grid = grid_over(from.boundary, cell_m);
    out.numbers.columns = layers.size();
    std::vector<std::vector<double>> values;
    for (const LandNumbers* layer : layers)
        values.push_back(values_in_cells(out.grid, layer->x_m, layer->y_m, layer->values));
    const PointLocator field(from.boundary);
    for (std::size_t cell = 0; cell < out.grid.size(); ++cell) {
        const bool known =
            std::none_of(values.begin(), values.end(), [&](const auto& v) { return std::isnan(v[cell]); });
        if (!known || !field.contains(out.grid.middle(cell))) continue;
        out.cells.push_back(cell);
        for (const auto& of_layer : values)
            out.numbers.values.push_back(of_layer[cell]);
    }
    return out;
}

/// Each column from 0 (its 5th percentile or less) to 1 (its 95th or more).
NumberTable to_one_range(NumberTable table) {
    for (std::size_t c = 0; c < table.columns; ++c) {
        std::vector<double> sorted;
        for (std::size_t row = 0; row < table.rows(); ++row)
            sorted.push_back(table.at(row, c));
        std::sort(sorted.begin(), sorted.end());
        const double low = sorted[sorted.size() / 20], high = sorted[sorted.size() - 1 - sorted.size() / 20];
        for (std::size_t row = 0; row < table.rows(); ++row) {
            double& value = table.values[row * table.columns + c];
            value = high > low ? std::clamp((value - low) / (high - low), 0.0, 1.0) : 0.0;
        }
    }
    return table;
}

/// Class 1 is the one with the smallest centre, summed over the layers.
std::vector<std::size_t> rank_of_class(const FuzzyClasses& found) {
    std::vector<double> sum(found.classes, 0.0);
    for (std::size_t k = 0; k < found.classes; ++k)
        for (std::size_t c = 0; c < found.centres.columns; ++c)
            sum[k] += found.centres.at(k, c);
    std::vector<std::size_t> order(found.classes), rank(found.classes);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return sum[a] < sum[b]; });
    for (std::size_t place = 0; place < order.size(); ++place)
        rank[order[place]] = place;
    return rank;
}

std::string tries_text(const std::vector<FuzzyClasses>& tries) {
    std::vector<std::string> parts;
    for (const FuzzyClasses& each : tries)
        parts.push_back(fill(spoken().zone.try_of_classes, fmt::arg("classes", each.classes), fmt::arg("fpi", each.fpi),
                             fmt::arg("nce", each.nce), fmt::arg("pct", 100.0 * each.explained)));
    return join(parts, "; ");
}

FuzzyClasses find_classes(const StrataMaking& from, const StrataInput& choice, const NumberTable& numbers,
                          const std::string& names) {
    std::vector<FuzzyClasses> tries;
    const auto wanted = static_cast<std::size_t>(choice.classes);
    for (std::size_t k = wanted > 0 ? wanted : 2; k <= (wanted > 0 ? wanted : most_classes); ++k)
        tries.push_back(fuzzy_classes(numbers, k, FuzzyOptions{}));
    const std::size_t chosen = wanted > 0 ? wanted : choose_classes(tries);
    from.issues.push_back({"fuzzy-classes", Severity::note, from.field.name,
                           fill(spoken().zone.fuzzy_classes, fmt::arg("classes", chosen), fmt::arg("layers", names),
                                fmt::arg("tries", tries_text(tries)))});
    return *std::find_if(tries.begin(), tries.end(), [&](const auto& each) { return each.classes == chosen; });
}

} // namespace

std::vector<StratumArea> fuzzy_strata(const StrataMaking& from, const StrataInput& choice, std::size_t table) {
    std::vector<const LandNumbers*> layers;
    std::string names;
    for (const LandNumbers& layer : from.field.numbers) {
        if (layer.table != table) continue;
        layers.push_back(&layer);
        names += (names.empty() ? "" : ", ") + layer.name;
    }
    const Cells found = gather_cells(from, layers);
    if (found.cells.size() < fewest_cells) {
        from.issues.push_back({"no-fuzzy-classes", Severity::warning, from.field.name,
                               fill(spoken().zone.no_fuzzy_classes, fmt::arg("layers", names))});
        return {};
    }
    const FuzzyClasses classes = find_classes(from, choice, to_one_range(found.numbers), names);
    const std::vector<int> of_cell = coherent_classes(found.grid, found.cells, classes.memberships, smallest_m2);
    const std::vector<std::size_t> rank = rank_of_class(classes);
    std::vector<StratumArea> strata(classes.classes);
    for (std::size_t k = 0; k < classes.classes; ++k) {
        StratumArea& stratum = strata[rank[k]];
        stratum.shape_m = land_of_class(from.engine, found.grid, of_cell, static_cast<int>(k));
        stratum.name = fmt::format("class {} of {}", rank[k] + 1, classes.classes);
    }
    std::erase_if(strata, [](const StratumArea& stratum) { return stratum.shape_m.empty(); });
    return strata;
}

} // namespace quartercut::zone_room
