// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace quartercut {

/// The positions of the known times, earliest first; those of one moment as they stood.
inline std::vector<std::size_t> timed_in_order(const std::vector<double>& time_s) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < time_s.size(); ++i)
        if (std::isfinite(time_s[i])) order.push_back(i);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return time_s[a] < time_s[b]; });
    return order;
}

} // namespace quartercut
