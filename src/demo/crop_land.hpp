// SPDX-License-Identifier: MIT
// The land and what stands on it: cells of one square metre that remember how much of them is still uncut.
//
// Across/along coordinates in metres from the field's corner (0, 0). Yield is clean grain at 10 % moisture. Land can be
// taken once: `take` hands out what a header rectangle newly covers and nothing else.
#pragma once

#include "quartercut/demo.hpp"

#include <vector>

namespace quartercut::demo {

/// A header rectangle, in metres across and along.
struct Rect {
    double across_lo = 0.0, across_hi = 0.0, along_lo = 0.0, along_hi = 0.0;
};

struct Taken {
    double area_m2 = 0.0;
    double basis_kg = 0.0;
};

/// The hollow's outline, 36 corners, not quite round.
[[nodiscard]] Ring hollow_outline(const DemoHollow& hollow);

class CropLand {
public:
    CropLand(const DemoFieldPlan& plan, const DemoOptions& options, std::size_t field);

    /// Was this spot seeded (whether cut by now or not)?
    [[nodiscard]] bool is_crop(double across_m, double along_m) const;
    /// Takes what the rectangle newly covers; `extra_t_ha` is added to the yield of its land.
    Taken take(const Rect& rect, double extra_t_ha);
    /// Seeded land in a rectangle, cut or not (m2).
    [[nodiscard]] double crop_m2(const Rect& rect) const;
    /// Land still uncut (m2).
    [[nodiscard]] double uncut_m2() const;
    [[nodiscard]] double yield_t_ha(double across_m, double along_m) const;

private:
    struct Span {
        std::size_t first, last; // half-open
    };
    void mark_hollow(const DemoHollow& slough);
    void mark_corner(double legs_m);
    void grow(const DemoFieldPlan& plan, const DemoOptions& options, std::size_t field);
    [[nodiscard]] Span span(double lo, double hi, std::size_t cells) const;
    [[nodiscard]] std::size_t cell(std::size_t across, std::size_t along) const {
        return along * across_cells_ + across;
    }

    double across_m_, along_m_;
    std::size_t across_cells_, along_cells_;
    std::vector<float> crop_, uncut_, yield_t_ha_;
};

} // namespace quartercut::demo
