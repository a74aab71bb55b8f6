// SPDX-License-Identifier: MIT
// Records are sorted into square cells of about half a cut once; a query then looks at the few cells around the spot
// one cut to the side. Linear in the records.
#include "clean/neighbours.hpp"

#include "clean/robust.hpp"

#include <tbb/parallel_for.h>

namespace quartercut::cleaning {
namespace {

constexpr double parallel_cosine = 0.906; // 25 degrees
constexpr double nearest_share = 0.4, farthest_share = 1.6;

bool usable(const FieldWork& work, std::size_t i) {
    return work.out->pass[i] >= 0 && !work.copy[i] && work.records().width_m[i] > 0.0 &&
           (work.dir_x[i] != 0.0 || work.dir_y[i] != 0.0);
}

double usual_width_m(const FieldWork& work) {
    std::vector<double> widths;
    for (std::size_t i = 0; i < work.size(); ++i)
        if (usable(work, i)) widths.push_back(work.records().width_m[i]);
    return widths.empty() ? nan_value : median_in_place(widths);
}

class Cells {
public:
    Cells(const FieldWork& work, double cell_m) : work_(work) {
        const Records& r = work.records();
        Box box{1e300, 1e300, -1e300, -1e300};
        for (std::size_t i = 0; i < work.size(); ++i) {
            if (!usable(work, i)) continue;
            box = {std::min(box.min_x, r.x_m[i]), std::min(box.min_y, r.y_m[i]), std::max(box.max_x, r.x_m[i]),
                   std::max(box.max_y, r.y_m[i])};
        }
        min_x_ = box.min_x;
        min_y_ = box.min_y;
        // Stray positions must not blow the grid up: no more cells than four a record.
        const double area = (box.max_x - min_x_ + cell_m) * (box.max_y - min_y_ + cell_m);
        cell_m_ = std::max(cell_m, std::sqrt(area / (4.0 * static_cast<double>(work.size()) + 100.0)));
        columns_ = static_cast<std::int64_t>((box.max_x - min_x_) / cell_m_) + 1;
        rows_ = static_cast<std::int64_t>((box.max_y - min_y_) / cell_m_) + 1;
        fill();
    }

    template <class Visit>
    void around(double x, double y, double reach_m, Visit visit) const {
        const std::int64_t c0 = column(x - reach_m), c1 = column(x + reach_m);
        const std::int64_t r0 = row(y - reach_m), r1 = row(y + reach_m);
        for (std::int64_t line = std::max<std::int64_t>(r0, 0); line <= std::min(r1, rows_ - 1); ++line) {
            const std::int64_t first = std::max<std::int64_t>(c0, 0), last = std::min(c1, columns_ - 1);
            if (first > last) return;
            const auto from = start_[static_cast<std::size_t>(line * columns_ + first)];
            const auto to = start_[static_cast<std::size_t>(line * columns_ + last + 1)];
            for (std::uint32_t k = from; k < to; ++k)
                visit(static_cast<std::size_t>(members_[k]));
        }
    }

private:
    [[nodiscard]] std::int64_t column(double x) const {
        return static_cast<std::int64_t>(std::floor((x - min_x_) / cell_m_));
    }
    [[nodiscard]] std::int64_t row(double y) const {
        return static_cast<std::int64_t>(std::floor((y - min_y_) / cell_m_));
    }
    [[nodiscard]] std::size_t cell_of(std::size_t i) const {
        const Records& r = work_.records();
        return static_cast<std::size_t>(row(r.y_m[i]) * columns_ + column(r.x_m[i]));
    }
    void fill() {
        start_.assign(static_cast<std::size_t>(rows_ * columns_) + 1, 0);
        for (std::size_t i = 0; i < work_.size(); ++i)
            if (usable(work_, i)) ++start_[cell_of(i) + 1];
        for (std::size_t k = 1; k < start_.size(); ++k)
            start_[k] += start_[k - 1];
        members_.resize(start_.back());
        std::vector<std::uint32_t> next(start_.begin(), start_.end() - 1);
        for (std::size_t i = 0; i < work_.size(); ++i)
            if (usable(work_, i)) members_[next[cell_of(i)]++] = static_cast<std::uint32_t>(i);
    }

    const FieldWork& work_;
    double min_x_ = 0.0, min_y_ = 0.0, cell_m_ = 1.0;
    std::int64_t columns_ = 1, rows_ = 1;
    std::vector<std::uint32_t> start_, members_;
};

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
