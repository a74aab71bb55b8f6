// SPDX-License-Identifier: MIT
// Scan lines through the centres of a row of squares; whole words of 64 squares are set and counted at once.
#include "clean/bitmap.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::cleaning {
namespace {

constexpr double finest_m = 0.25, most_cells = 64.0 * 8.0 * 1024.0 * 1024.0;

/// x where the edge meets the line y. The ends are taken in a fixed order, so that an edge shared by two quads gives
/// both the same x.
double crossing(Point a, Point b, double y) {
    if (b.y < a.y || (b.y == a.y && b.x < a.x)) std::swap(a, b);
    return a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
}

/// A line meets a quad two times, or four where the path folds the quad.
void sort_crossings(std::array<double, 4>& x, std::size_t count) {
    if (x[0] > x[1]) std::swap(x[0], x[1]);
    if (count < 4) return;
    if (x[2] > x[3]) std::swap(x[2], x[3]);
    if (x[0] > x[2]) std::swap(x[0], x[2]);
    if (x[1] > x[3]) std::swap(x[1], x[3]);
    if (x[1] > x[2]) std::swap(x[1], x[2]);
}

/// Least whole number not below `value`, cut to 0 .. most.
std::size_t whole_above(double value, std::size_t most) {
    if (!(value > 0.0)) return 0;
    if (value >= static_cast<double>(most)) return most;
    const auto whole = static_cast<std::size_t>(value);
    return whole + (static_cast<double>(whole) < value ? 1 : 0);
}

/// Bits set, by adding up neighbours in parallel: the compiler's own asks a library function on older machines.
std::size_t bits_set(std::uint64_t word) {
    word -= (word >> 1) & 0x5555555555555555U;
    word = (word & 0x3333333333333333U) + ((word >> 2) & 0x3333333333333333U);
    word = (word + (word >> 4)) & 0x0f0f0f0f0f0f0f0fU;
    return static_cast<std::size_t>((word * 0x0101010101010101U) >> 56);
}

} // namespace

double quad_area_m2(const Quad& quad) {
    double twice = 0.0;
    for (std::size_t k = 1; k + 1 < quad.size(); ++k)
        twice += (quad[k].x - quad[0].x) * (quad[k + 1].y - quad[0].y) -
                 (quad[k + 1].x - quad[0].x) * (quad[k].y - quad[0].y);
    return 0.5 * std::abs(twice);
}

Bitmap::Bitmap(const Box& box) : box_(box) {
    const double width = std::max(0.0, box.max_x - box.min_x), height = std::max(0.0, box.max_y - box.min_y);
    cell_m_ = std::max(finest_m, std::sqrt(width * height / most_cells));
    cells_per_m_ = 1.0 / cell_m_;
    columns_ = static_cast<std::size_t>(width / cell_m_) + 2;
    rows_ = static_cast<std::size_t>(height / cell_m_) + 2;
    words_per_row_ = (columns_ + 63) / 64;
    bits_.assign(words_per_row_ * rows_, 0);
}

Painted Bitmap::paint_row(std::size_t row, double from_x, double to_x) {
    const std::size_t first = whole_above((from_x - box_.min_x) * cells_per_m_ - 0.5, columns_);
    const std::size_t last = whole_above((to_x - box_.min_x) * cells_per_m_ - 0.5, columns_);
    Painted painted;
    for (std::size_t c = first; c < last;) {
        const std::size_t word = c / 64, bit = c % 64, count = std::min(64 - bit, last - c);
        const std::uint64_t mask = (count == 64 ? ~std::uint64_t{0} : (std::uint64_t{1} << count) - 1) << bit;
        std::uint64_t& target = bits_[row * words_per_row_ + word];
        painted.fresh += bits_set(mask & ~target);
        target |= mask;
        c += count;
    }
    painted.cells = last > first ? last - first : 0;
    return painted;
}

Painted Bitmap::paint(const Quad& quad) {
    double low = quad[0].y, high = quad[0].y;
    for (const Point& corner : quad)
        low = std::min(low, corner.y), high = std::max(high, corner.y);
    const std::size_t first = whole_above((low - box_.min_y) * cells_per_m_ - 0.5, rows_);
    const std::size_t last = whole_above((high - box_.min_y) * cells_per_m_ - 0.5, rows_);
    Painted painted;
    for (std::size_t row = first; row < last; ++row) {
        const double y = box_.min_y + (static_cast<double>(row) + 0.5) * cell_m_;
        std::array<double, 4> x{};
        std::size_t crossings = 0;
        for (std::size_t k = 0; k < 4; ++k) {
            const Point a = quad[k], b = quad[(k + 1) % 4];
            if ((a.y <= y) != (b.y <= y)) x[crossings++] = crossing(a, b, y);
        }
        sort_crossings(x, crossings);
        for (std::size_t k = 0; k + 1 < crossings; k += 2) {
            const Painted piece = paint_row(row, x[k], x[k + 1]);
            painted.cells += piece.cells;
            painted.fresh += piece.fresh;
        }
    }
    return painted;
}

} // namespace quartercut::cleaning
