// SPDX-License-Identifier: MIT
// The record beside a record: where the machine's left and right hand would touch the pass next door.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

/// Fills work.left and work.right: the nearest record of another pass running the same or the opposite way (within 25
/// degrees), 0.4 to 1.6 cut widths to the side. Any method and machine; users look at those themselves.
void find_neighbours(FieldWork& work);

/// Distance (m) of record j from the line of travel through record i, positive to the right of it.
[[nodiscard]] inline double sideways_m(const FieldWork& work, std::size_t i, std::size_t j) {
    const Records& r = work.records();
    return (r.x_m[j] - r.x_m[i]) * work.dir_y[i] - (r.y_m[j] - r.y_m[i]) * work.dir_x[i];
}

/// Distance (m) of record j from record i along the line of travel, positive ahead.
[[nodiscard]] inline double ahead_m(const FieldWork& work, std::size_t i, std::size_t j) {
    const Records& r = work.records();
    return (r.x_m[j] - r.x_m[i]) * work.dir_x[i] + (r.y_m[j] - r.y_m[i]) * work.dir_y[i];
}

/// Cosine between the directions of travel of two records.
[[nodiscard]] inline double direction_cosine(const FieldWork& work, std::size_t i, std::size_t j) {
    return work.dir_x[i] * work.dir_x[j] + work.dir_y[i] * work.dir_y[j];
}

} // namespace quartercut::cleaning
