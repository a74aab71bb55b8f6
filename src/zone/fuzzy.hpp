// SPDX-License-Identifier: MIT
// Fuzzy c-means (Bezdek 1981, "Pattern Recognition with Fuzzy Objective Function Algorithms"): every place belongs a
// little to every class, and places that belong clearly say that the classes are real.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace quartercut::zone_room {

struct FuzzyOptions {
    double exponent = 1.5;          ///< 1: hard classes; larger: fuzzier
    double tolerance = 1e-5;        ///< centres that move less are at rest
    int starts = 20;                ///< random starts; the one with the smallest objective counts
    int most_rounds = 1000;         ///< of one start
    std::size_t most_fitted = 2000; ///< rows that starts are tried on; the last fit takes all
    std::uint64_t seed = 20;
};

/// A table of numbers, row by row.
struct NumberTable {
    std::size_t columns = 0;
    std::vector<double> values;
    [[nodiscard]] std::size_t rows() const { return columns == 0 ? 0 : values.size() / columns; }
    [[nodiscard]] double at(std::size_t row, std::size_t column) const { return values[row * columns + column]; }
};

struct FuzzyClasses {
    std::size_t classes = 0;
    NumberTable centres;     ///< one row a class
    NumberTable memberships; ///< one row a row of the data, one column a class; rows add up to 1
    double objective = 0.0;
    double partition_coefficient = 0.0; ///< F: 1/classes (no classes) .. 1 (hard)
    /// Fuzziness performance index, 1 - (classes F - 1) / (classes - 1): 0 for hard classes. Small is good.
    double fpi = 0.0;
    double entropy = 0.0; ///< H = - sum u ln u / rows
    /// Normalised classification entropy, H / (1 - classes / rows). Small is good.
    double nce = 0.0;
    /// Share of the columns' variance that lies between the classes once each row goes to its likeliest one.
    double explained = 0.0;
};

/// \param data  more rows than classes, at least two classes
[[nodiscard]] FuzzyClasses fuzzy_classes(const NumberTable& data, std::size_t classes, const FuzzyOptions& options);

/// Share of variance between classes, for the columns asked for: 1 - sum within / sum in all.
[[nodiscard]] double explained_share(const NumberTable& data, const std::vector<std::size_t>& class_of_row,
                                     const std::vector<std::size_t>& columns);

/// The class each row belongs to most.
[[nodiscard]] std::vector<std::size_t> likeliest(const NumberTable& memberships);

/// Of tries with 2, 3, ... classes, the one where FPI and NCE are both smallest; where they disagree, the fewest classes
/// that one more would add less than five points of explained variance to.
[[nodiscard]] std::size_t choose_classes(const std::vector<FuzzyClasses>& tries);

} // namespace quartercut::zone_room
