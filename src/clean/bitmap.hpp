// SPDX-License-Identifier: MIT
// One bit per small square of land: cut or not yet.
#pragma once

#include "quartercut/geometry.hpp"

#include <array>
#include <cstdint>
#include <vector>

namespace quartercut::cleaning {

/// Corners of a header rectangle in order around it; need not be a perfect rectangle where the path bends.
using Quad = std::array<Point, 4>;

struct Painted {
    std::size_t cells = 0; ///< squares whose centre lies in the quad
    std::size_t fresh = 0; ///< of these, not painted before
};

class Bitmap {
public:
    /// Squares of 0.25 m; larger where the box would need more than 64 MB.
    explicit Bitmap(const Box& box);
    [[nodiscard]] double cell_m() const { return cell_m_; }
    /// Paints the squares whose centres lie in the quad. A centre on an edge shared by two quads is painted by one.
    Painted paint(const Quad& quad);

private:
    Painted paint_row(std::size_t row, double from_x, double to_x);
    Box box_;
    double cell_m_ = 0.25, cells_per_m_ = 4.0;
    std::size_t columns_ = 0, rows_ = 0, words_per_row_ = 0;
    std::vector<std::uint64_t> bits_;
};

/// Area of the quad by the shoelace formula.
[[nodiscard]] double quad_area_m2(const Quad& quad);

} // namespace quartercut::cleaning
