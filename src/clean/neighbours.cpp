// SPDX-License-Identifier: MIT
// Records are sorted into square cells of about half a cut once; a query then looks at the few cells around the spot
// one cut to the side.
#include "clean/neighbours.hpp"

#include "clean/cells.hpp"
#include "clean/robust.hpp"

#include <tbb/parallel_for.h>

namespace quartercut::cleaning {
namespace {

constexpr double parallel_cosine = 0.906; // 25 degrees
constexpr double nearest_share = 0.4, farthest_share = 1.6;

std::int32_t beside(const FieldWork& work, const Cells& cells, std::size_t i, double side) {
    const Records& r = work.records();
    const double width = r.width_m[i];
    const double x = r.x_m[i] + side * width * work.dir_y[i], y = r.y_m[i] - side * width * work.dir_x[i];
    const double reach = (farthest_share - 1.0) * width;
    double best = 1e300;
    std::int32_t found = -1;
    cells.around(x, y, reach, [&](std::size_t j) {
        if (work.out->pass[j] == work.out->pass[i]) return;
        const double across = side * sideways_m(work, i, j), along = ahead_m(work, i, j);
        if (across < nearest_share * width || across > farthest_share * width) return;
        if (std::abs(along) > reach || std::abs(direction_cosine(work, i, j)) < parallel_cosine) return;
        // The nearer pass wins over the better abreast: passes lie most of a width apart, records a few metres.
        const double score = std::abs(along) + 2.0 * across;
        if (score < best) {
            best = score;
            found = static_cast<std::int32_t>(j);
        }
    });
    return found;
}

} // namespace

void find_neighbours(FieldWork& work) {
    work.left.assign(work.size(), -1);
    work.right.assign(work.size(), -1);
    const double width = usual_width_m(work);
    if (!std::isfinite(width)) return;
    const Cells cells(work, 0.6 * width);
    tbb::parallel_for(std::size_t{0}, work.size(), [&](std::size_t i) {
        if (!usable(work, i)) return;
        work.left[i] = beside(work, cells, i, -1.0);
        work.right[i] = beside(work, cells, i, +1.0);
    });
}

} // namespace quartercut::cleaning
