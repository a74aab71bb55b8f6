// SPDX-License-Identifier: MIT
// A mean that one slip of a sensor does not make.
#pragma once

#include "base/sum.hpp"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <vector>

namespace quartercut {

/// Mean of the readings up to five times the median of those above 0; NaN of none. A distance of next to nothing makes a
/// yield a thousand times too high: on a map it colours one point, in a plain mean it would be all that is heard.
inline double mean_without_slips(const std::vector<double>& readings) {
    constexpr double slip_of_medians = 5.0;
    std::vector<double> above;
    for (const double reading : readings)
        if (reading > 0.0) above.push_back(reading);
    double most = std::numeric_limits<double>::infinity();
    if (!above.empty()) {
        const auto middle = above.begin() + static_cast<std::ptrdiff_t>(above.size() / 2);
        std::nth_element(above.begin(), middle, above.end());
        most = slip_of_medians * *middle;
    }
    Sum sum;
    std::size_t count = 0;
    for (const double reading : readings)
        if (reading <= most) sum += reading, ++count;
    return count > 0 ? sum.value() / static_cast<double>(count) : std::numeric_limits<double>::quiet_NaN();
}

} // namespace quartercut
