// SPDX-License-Identifier: MIT
// Square cells over a field's records, for "which records lie about here": linear to build, and a query looks at a few
// cells however large the field is.
#pragma once

#include "clean/robust.hpp"
#include "clean/work.hpp"
#include "quartercut/geometry.hpp"

#include <algorithm>

namespace quartercut::cleaning {

/// Of a pass, of some width and of known direction.
inline bool usable(const FieldWork& work, std::size_t i) {
    return work.out->pass[i] >= 0 && !work.copy[i] && work.records().width_m[i] > 0.0 &&
           (work.dir_x[i] != 0.0 || work.dir_y[i] != 0.0);
}

/// Median over the usable records; NaN without any.
inline double usual_width_m(const FieldWork& work) {
    std::vector<double> widths;
    for (std::size_t i = 0; i < work.size(); ++i)
        if (usable(work, i)) widths.push_back(work.records().width_m[i]);
    return widths.empty() ? nan_value : median_in_place(widths);
}

/// Holds the usable records.
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

} // namespace quartercut::cleaning
