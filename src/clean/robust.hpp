// SPDX-License-Identifier: MIT
// Medians and quantiles over scratch buffers: the steps ask for many small ones, so nothing is allocated here.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace quartercut::cleaning {

/// Spread of normal noise from the median absolute deviation: 1 / Phi^-1(3/4).
inline constexpr double mad_to_sd = 1.4826;

/// Median; reorders `values`. NaN when empty. Even counts take the mean of the middle two.
inline double median_in_place(std::span<double> values) {
    if (values.empty()) return std::numeric_limits<double>::quiet_NaN();
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) return *middle;
    return 0.5 * (*middle + *std::max_element(values.begin(), middle));
}

/// Quantile 0..1 by linear interpolation between order statistics (type 7 of R); reorders `values`.
inline double quantile_in_place(std::span<double> values, double share) {
    if (values.empty()) return std::numeric_limits<double>::quiet_NaN();
    const double place = share * static_cast<double>(values.size() - 1);
    const auto low = static_cast<std::size_t>(place);
    const auto cut = values.begin() + static_cast<std::ptrdiff_t>(low);
    std::nth_element(values.begin(), cut, values.end());
    if (low + 1 == values.size()) return *cut;
    const double next = *std::min_element(cut + 1, values.end());
    return *cut + (place - static_cast<double>(low)) * (next - *cut);
}

struct Spread {
    double median = std::numeric_limits<double>::quiet_NaN();
    double sd = std::numeric_limits<double>::quiet_NaN(); ///< robust: 1.4826 * MAD
};

/// Median and robust SD; `values` is used up.
inline Spread spread_in_place(std::span<double> values) {
    Spread spread;
    spread.median = median_in_place(values);
    for (double& value : values)
        value = std::abs(value - spread.median);
    spread.sd = mad_to_sd * median_in_place(values);
    return spread;
}

} // namespace quartercut::cleaning
