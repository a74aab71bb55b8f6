// SPDX-License-Identifier: MIT
// The record beside each record, left and right, on one quarter section and one core: our cells beside Boost's R-tree and
// nanoflann's k-d tree, which are asked the same question of the same records and must find the same.
#include "../clean/harvest.hpp"
#include "clean/cells.hpp"
#include "clean/directions.hpp"
#include "clean/neighbours.hpp"
#include "clean/passes.hpp"

#include <benchmark/benchmark.h>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/box.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/index/rtree.hpp>
#include <cstdlib>
#include <nanoflann.hpp>
#include <tbb/task_arena.h>

namespace quartercut::cleaning {
namespace {

namespace bgi = boost::geometry::index;
using BoostPoint = boost::geometry::model::d2::point_xy<double>;
using Indexed = std::pair<BoostPoint, std::size_t>;

struct Quarter {
    StandardField field;
    CleanedField out;
    FieldWork work;
    Quarter() {
        test::Harvest harvest;
        harvest.width_m = harvest.height_m = 805.0;
        harvest.cut_m = 10.7333;
        field = test::simulate(harvest);
        out.removal.assign(field.records.size(), Removal::kept);
        work.field = &field;
        work.out = &out;
        prepare_clock(work);
        find_jumps(work);
        find_directions(work);
        find_passes(work);
    }
};

Quarter& quarter() {
    static Quarter only;
    return only;
}

/// Of the records a search brings, the one find_neighbours asks for.
class Choice {
public:
    Choice(const FieldWork& work, std::size_t i, double side) : work_(work), i_(i), side_(side) {}
    [[nodiscard]] Point spot() const {
        const Records& r = work_.records();
        return {r.x_m[i_] + side_ * r.width_m[i_] * work_.dir_y[i_],
                r.y_m[i_] - side_ * r.width_m[i_] * work_.dir_x[i_]};
    }
    [[nodiscard]] double reach_m() const { return 0.6 * work_.records().width_m[i_]; }
    void look_at(std::size_t j) {
        const double width = work_.records().width_m[i_];
        if (work_.out->pass[j] == work_.out->pass[i_]) return;
        const double across = side_ * sideways_m(work_, i_, j), along = ahead_m(work_, i_, j);
        if (across < 0.4 * width || across > 1.6 * width || std::abs(along) > reach_m()) return;
        if (std::abs(direction_cosine(work_, i_, j)) < 0.906) return;
        const double score = std::abs(along) + 2.0 * across;
        if (score < best_) best_ = score, found_ = static_cast<std::int32_t>(j);
    }
    [[nodiscard]] std::int32_t found() const { return found_; }

private:
    const FieldWork& work_;
    std::size_t i_;
    double side_, best_ = 1e300;
    std::int32_t found_ = -1;
};

/// \param search  calls `look_at` for every record within reach of a spot
template <class Search>
std::size_t with_neighbours(const FieldWork& work, const Search& search) {
    std::size_t found = 0;
    for (std::size_t i = 0; i < work.size(); ++i)
        for (const double side : {-1.0, 1.0}) {
            if (!usable(work, i)) continue;
            Choice choice(work, i, side);
            search(choice);
            found += choice.found() >= 0 ? 1U : 0U;
        }
    return found;
}

std::size_t known() {
    static const std::size_t count = [] {
        FieldWork& work = quarter().work;
        find_neighbours(work);
        const auto there = [](std::int32_t j) { return j >= 0; };
        return static_cast<std::size_t>(std::count_if(work.left.begin(), work.left.end(), there) +
                                        std::count_if(work.right.begin(), work.right.end(), there));
    }();
    return count;
}

void check(std::size_t found) {
    if (found != known()) std::abort(); // another answer is no reference
}

void cells(benchmark::State& state) {
    tbb::task_arena one(1);
    for (auto _ : state)
        one.execute([] { find_neighbours(quarter().work); });
}

void boost_rtree(benchmark::State& state) {
    const FieldWork& work = quarter().work;
    for (auto _ : state) {
        std::vector<Indexed> all;
        for (std::size_t i = 0; i < work.size(); ++i)
            if (usable(work, i)) all.push_back({BoostPoint(work.records().x_m[i], work.records().y_m[i]), i});
        const bgi::rtree<Indexed, bgi::rstar<16>> tree(all);
        check(with_neighbours(work, [&](Choice& choice) {
            const Point at = choice.spot();
            const double reach = choice.reach_m();
            const boost::geometry::model::box<BoostPoint> box({at.x - reach, at.y - reach},
                                                              {at.x + reach, at.y + reach});
            for (auto hit = tree.qbegin(bgi::intersects(box)); hit != tree.qend(); ++hit)
                choice.look_at(hit->second);
        }));
    }
}

struct Cloud {
    const FieldWork& work;
    std::vector<std::size_t> members;
    [[nodiscard]] std::size_t kdtree_get_point_count() const { return members.size(); }
    [[nodiscard]] double kdtree_get_pt(std::size_t k, std::size_t axis) const {
        const Records& r = work.records();
        return axis == 0 ? r.x_m[members[k]] : r.y_m[members[k]];
    }
    template <class Box>
    bool kdtree_get_bbox(Box&) const {
        return false;
    }
};

void nanoflann_tree(benchmark::State& state) {
    using Tree = nanoflann::KDTreeSingleIndexAdaptor<nanoflann::L2_Simple_Adaptor<double, Cloud>, Cloud, 2>;
    const FieldWork& work = quarter().work;
    for (auto _ : state) {
        Cloud cloud{work, {}};
        for (std::size_t i = 0; i < work.size(); ++i)
            if (usable(work, i)) cloud.members.push_back(i);
        Tree tree(2, cloud, nanoflann::KDTreeSingleIndexAdaptorParams(16));
        tree.buildIndex();
        std::vector<std::pair<unsigned, double>> hits;
        nanoflann::SearchParams unsorted;
        unsorted.sorted = false;
        check(with_neighbours(work, [&](Choice& choice) {
            const Point at = choice.spot();
            const double spot[2] = {at.x, at.y}; // NOLINT
            hits.clear();
            tree.radiusSearch(spot, 2.0 * choice.reach_m() * choice.reach_m(), hits, unsorted);
            for (const auto& [k, square_m2] : hits)
                choice.look_at(cloud.members[k]);
        }));
    }
}

BENCHMARK(cells)->Unit(benchmark::kMillisecond);
BENCHMARK(boost_rtree)->Unit(benchmark::kMillisecond);
BENCHMARK(nanoflann_tree)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace quartercut::cleaning

BENCHMARK_MAIN();
