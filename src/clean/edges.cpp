// SPDX-License-Identifier: MIT
// Two points per record decide: a tenth of the width in from either end of the header.
#include "clean/edges.hpp"

#include <tbb/parallel_for.h>

namespace quartercut::cleaning {
namespace {

constexpr double inner_half = 0.4; // of the width: the outer tenth may touch the neighbour

/// Method of the land at a point, looking first where the record itself lies; -1: none.
int method_at(const std::vector<MethodArea>& areas, const std::vector<PointLocator>& locators, Point p,
              std::int32_t own_area) {
    if (own_area >= 0 && locators[at(own_area)].contains(p)) return areas[at(own_area)].method;
    for (std::size_t a = 0; a < locators.size(); ++a)
        if (locators[a].box().contains(p) && locators[a].contains(p)) return areas[a].method;
    return -1;
}

} // namespace

void mark_edges(FieldWork& work) {
    const std::vector<MethodArea>& areas = work.field->method_areas;
    if (areas.size() < 2) return;
    std::vector<PointLocator> locators;
    for (const MethodArea& area : areas)
        locators.emplace_back(area.shape_m);
    const Records& r = work.records();
    tbb::parallel_for(std::size_t{0}, work.size(), [&](std::size_t i) {
        if (r.method[i] < 0 || !(r.width_m[i] > 0.0)) return;
        for (const double side : {-inner_half, inner_half}) {
            const double reach = side * r.width_m[i];
            const Point end{r.x_m[i] + reach * work.dir_y[i], r.y_m[i] - reach * work.dir_x[i]};
            const int method = method_at(areas, locators, end, r.area[i]);
            if (method >= 0 && method != r.method[i]) work.out->edge[i] = 1;
        }
    });
}

} // namespace quartercut::cleaning
