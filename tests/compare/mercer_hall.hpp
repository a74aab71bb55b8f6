// SPDX-License-Identifier: MIT
// Mercer & Hall's wheat (1911): 500 plots in 25 columns of 20, no treatment at all. Whatever is found here is false.
#pragma once

#include "csv.hpp"

#include <cmath>

namespace quartercut::testing {

struct MercerHall {
    std::vector<double> x_m, y_m, yield;
    std::vector<int> column; ///< 1..25
    [[nodiscard]] double column_mean(int wanted) const {
        double sum = 0.0;
        int n = 0;
        for (std::size_t i = 0; i < yield.size(); ++i)
            if (column[i] == wanted) {
                sum += yield[i];
                ++n;
            }
        return sum / n;
    }
    /// 2k minus (2k - 1) of the first 24 columns.
    [[nodiscard]] std::vector<double> pair_differences() const {
        std::vector<double> out;
        for (int k = 1; k <= 12; ++k)
            out.push_back(column_mean(2 * k) - column_mean(2 * k - 1));
        return out;
    }
};

inline MercerHall mercer_hall() {
    const Columns csv = read_csv("mercer_hall_wheat.csv");
    MercerHall out;
    out.x_m = numbers(csv, "lon");
    out.y_m = numbers(csv, "lat");
    out.yield = numbers(csv, "yield");
    for (const double x : out.x_m)
        out.column.push_back(static_cast<int>(std::lround(x / 2.51)));
    return out;
}

} // namespace quartercut::testing
