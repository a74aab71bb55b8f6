// SPDX-License-Identifier: MIT
// Where strips fit: the field turned so that passes run along u, and the stretches of a band that are free of edges.
#pragma once

#include "quartercut/plan_layout.hpp"

namespace quartercut::planning {

/// u runs along the passes, v to their right.
struct Turn {
    double sine = 0.0, cosine = 1.0;
    explicit Turn(double direction_deg);
    [[nodiscard]] Point to_uv(Point m) const { return {m.x * sine + m.y * cosine, m.x * cosine - m.y * sine}; }
    [[nodiscard]] Point to_m(Point uv) const {
        return {uv.x * sine + uv.y * cosine, uv.x * cosine - uv.y * sine}; // its own inverse
    }
};

using Stretch = std::array<double, 2>;

/// Stretches of u, free for the whole width of a band.
class FreeLand {
public:
    FreeLand(const MultiPolygon& boundary_m, const Turn& turn, const LayoutChoice& choice);
    /// Exact: between two of them some edge, widened by its margin, enters the band.
    [[nodiscard]] std::vector<Stretch> stretches(double v0, double v1) const;
    [[nodiscard]] const Box& box() const { return box_; } ///< in (u, v)

private:
    struct Edge {
        Point a, b;
        double margin_m;
    };
    void add_ring(const Ring& ring, const Turn& turn, double margin_m);
    MultiPolygon turned_;
    std::vector<Edge> edges_;
    PointLocator inside_;
    Box box_;
};

/// Widths of a pair, left strip to right strip, guards within.
struct PairWidths {
    double method_m = 0.0, baseline_m = 0.0;             ///< compared
    double method_guard_m = 0.0, baseline_guard_m = 0.0; ///< one side
    [[nodiscard]] double method_total_m() const { return method_m + 2.0 * method_guard_m; }
    [[nodiscard]] double baseline_total_m() const { return baseline_m + 2.0 * baseline_guard_m; }
    [[nodiscard]] double total_m() const { return method_total_m() + baseline_total_m(); }
};

struct PlacedPair {
    double v0 = 0.0;
    std::vector<Stretch> stretches;
    [[nodiscard]] double length_m() const;
};

using Placement = std::vector<PlacedPair>; ///< west to east, as it were

/// Placements of `pairs` pairs, spread over the field with whole passes of `unit_m` between, the most even first.
[[nodiscard]] std::vector<Placement> placements(const FreeLand& land, const PairWidths& widths, int pairs,
                                                double unit_m, double min_length_m);

} // namespace quartercut::planning
