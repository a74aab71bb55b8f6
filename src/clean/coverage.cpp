// SPDX-License-Identifier: MIT
// Every pass over the land in the order it happened; the first to cut a square owns it.
#include "clean/coverage.hpp"

#include <algorithm>
#include <numeric>

namespace quartercut::cleaning {
namespace {

constexpr double fine_noise_m = 0.15, coarse_noise_m = 0.5;
constexpr double believed_below = 0.90, dropped_below = 0.50;

/// 1: a pass of which at least half the records brought grain; the others did not cut.
std::vector<std::uint8_t> cutting_passes(const FieldWork& work) {
    std::vector<double> with(work.ranges.size(), 0.0), all(work.ranges.size(), 0.0);
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (work.out->pass[i] < 0) continue;
        all[at(work.out->pass[i])] += 1.0;
        if (work.mass_kg[i] > 0.0 || work.unseen[i]) with[at(work.out->pass[i])] += 1.0;
    }
    std::vector<std::uint8_t> cutting(all.size(), 0);
    for (std::size_t p = 0; p < all.size(); ++p)
        cutting[p] = with[p] > 0.0 && !(with[p] / all[p] < 0.5);
    return cutting;
}

bool has_land(const FieldWork& work, std::size_t i) {
    const Records& r = work.records();
    return work.out->pass[i] >= 0 && r.distance_m[i] > 0.0 && r.width_m[i] > 0.0 &&
           (work.dir_x[i] != 0.0 || work.dir_y[i] != 0.0);
}

Box land_box(const FieldWork& work) {
    const Records& r = work.records();
    Box box{1e300, 1e300, -1e300, -1e300};
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (!has_land(work, i)) continue;
        const double reach = r.width_m[i] + r.distance_m[i];
        box.min_x = std::min(box.min_x, r.x_m[i] - reach);
        box.min_y = std::min(box.min_y, r.y_m[i] - reach);
        box.max_x = std::max(box.max_x, r.x_m[i] + reach);
        box.max_y = std::max(box.max_y, r.y_m[i] + reach);
    }
    return box;
}

/// The record before in the same pass, or i itself.
std::vector<std::uint32_t> record_before(const FieldWork& work) {
    std::vector<std::uint32_t> before(work.size());
    std::int32_t pass = -1;
    std::size_t last = 0;
    for (std::size_t i = 0; i < work.size(); ++i) {
        before[i] = static_cast<std::uint32_t>(work.out->pass[i] >= 0 && work.out->pass[i] == pass ? last : i);
        if (work.out->pass[i] < 0) continue;
        pass = work.out->pass[i];
        last = i;
    }
    return before;
}

/// What the bitmap says per record that carries mass: land swept and the new part of it.
struct Swept {
    std::vector<double> all_m2, fresh_m2;
};

bool takes_land(const FieldWork& work, std::size_t i) {
    return has_land(work, i) && work.cutting[at(work.out->pass[i])] != 0;
}

/// The passes that cut are nearly always those of an earlier cleaning, and then so is what they cut.
void paint(FieldWork& work) {
    std::vector<std::uint8_t> cutting = cutting_passes(work);
    if (work.new_share.size() == work.size() && cutting == work.cutting) return;
    work.cutting = std::move(cutting);
    work.new_share.assign(work.size(), 1.0);
    const std::vector<std::uint32_t> before = record_before(work);
    Bitmap bitmap(land_box(work));
    for (const std::size_t i : work.time_order) {
        if (!takes_land(work, i)) continue;
        const Painted painted = bitmap.paint(header_quad(work, before[i], i));
        if (painted.cells > 0)
            work.new_share[i] = static_cast<double>(painted.fresh) / static_cast<double>(painted.cells);
    }
}

Swept sweep(FieldWork& work) {
    const Records& r = work.records();
    Swept swept{std::vector<double>(work.size(), 0.0), std::vector<double>(work.size(), 0.0)};
    paint(work);
    for (const std::size_t i : work.time_order) {
        if (!takes_land(work, i)) continue;
        const double land = r.distance_m[i] * r.width_m[i];
        swept.all_m2[at(work.owner[i])] += land;
        swept.fresh_m2[at(work.owner[i])] += work.new_share[i] * land;
    }
    return swept;
}

} // namespace

Quad header_quad(const FieldWork& work, std::size_t before, std::size_t i) {
    const Records& r = work.records();
    const double half = 0.5 * r.width_m[i];
    const Point to{r.x_m[i], r.y_m[i]};
    Point from{to.x - r.distance_m[i] * work.dir_x[i], to.y - r.distance_m[i] * work.dir_y[i]};
    Point from_right{work.dir_y[i], -work.dir_x[i]};
    const Point to_right = from_right;
    const double moved = std::hypot(to.x - r.x_m[before], to.y - r.y_m[before]);
    // Within a pass the header sweeps on from where it was, also where a record is missing between.
    if (before != i && moved <= 3.0 * r.distance_m[i] + 10.0) {
        from = {r.x_m[before], r.y_m[before]};
        from_right = {work.dir_y[before], -work.dir_x[before]};
    }
    return {Point{from.x + half * from_right.x, from.y + half * from_right.y},
            Point{to.x + half * to_right.x, to.y + half * to_right.y},
            Point{to.x - half * to_right.x, to.y - half * to_right.y},
            Point{from.x - half * from_right.x, from.y - half * from_right.y}};
}

std::vector<std::size_t> by_time(const FieldWork& work) {
    std::vector<std::size_t> order(work.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (work.blocks.size() < 2) return order;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return work.clock_s[a] < work.clock_s[b]; });
    return order;
}

void cover_land(FieldWork& work) {
    work.cover_share.assign(work.size(), 1.0);
    bool any = false;
    for (std::size_t i = 0; i < work.size() && !any; ++i)
        any = has_land(work, i);
    if (!any) return;
    const Swept swept = sweep(work);
    const bool fine = work.position_noise_m <= fine_noise_m, coarse = work.position_noise_m > coarse_noise_m;
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (!(swept.all_m2[i] > 0.0)) continue;
        const double share = swept.fresh_m2[i] / swept.all_m2[i];
        work.cover_share[i] = share;
        if (fine || (!coarse && share < believed_below)) work.out->area_m2[i] = swept.fresh_m2[i];
        if (share < dropped_below) work.remove(i, Removal::covered_before);
    }
}

} // namespace quartercut::cleaning
