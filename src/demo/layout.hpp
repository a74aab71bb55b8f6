// SPDX-License-Identifier: MIT
// A field plan -> where every pass runs and what the method areas look like.
#pragma once

#include "demo/place.hpp"
#include "quartercut/demo.hpp"
#include "quartercut/units.hpp"

#include <vector>

namespace quartercut::demo {

/// Cut widths (m): the swather's 35 ft and the header's 40 ft.
inline constexpr std::array<double, 2> cut_width_m{35.0 * m_per_foot, 40.0 * m_per_foot};
/// How much a pass overlaps the one beside it (m), so that no crop is left between.
inline constexpr double overlap_m = 0.10;
inline constexpr double pass_spacing_m(int method) { return cut_width_m[static_cast<std::size_t>(method)] - overlap_m; }

/// Where one pass runs: a header rectangle as long as the field. `crosswise` passes (headlands) run along the
/// across axis.
struct PassPlan {
    int area = -1;
    int method = demo_swathed, machine = 0;
    bool crosswise = false;
    double side_lo = 0.0, side_hi = 0.0; ///< header, sideways (m)
    double from = 0.0, to = 0.0;         ///< how far it may cut, along its way (m)
    double real_width_m = 0.0, logged_width_m = 0.0;
    double effect_t_ha = 0.0; ///< of this pass alone, real
};

struct AreaSpan {
    double across_lo = 0.0, across_hi = 0.0, along_lo = 0.0, along_hi = 0.0;
};

struct Layout {
    std::vector<AreaSpan> areas;  ///< one per DemoFieldPlan::areas
    std::vector<PassPlan> passes; ///< in the order they are driven within machine and method
};

/// \throws DataError when the areas do not fit into the field
[[nodiscard]] Layout lay_out(const DemoFieldPlan& plan, const DemoOptions& options, std::size_t field);

/// Turns field coordinates (across, along) into longitude and latitude.
class FieldPlace {
public:
    explicit FieldPlace(const DemoFieldPlan& plan);
    [[nodiscard]] Point to_degrees(double across_m, double along_m) const;

private:
    bool east_west_;
    Point middle_m_;
    Place place_;
};

[[nodiscard]] MultiPolygon boundary_m(const DemoFieldPlan& plan); ///< in (across, along)
/// The area as a grower would draw it: a rectangle that runs a little past the field's edges where it meets them.
[[nodiscard]] MultiPolygon drawn_area_m(const DemoFieldPlan& plan, const AreaSpan& span);
[[nodiscard]] MultiPolygon to_degrees(const MultiPolygon& shape_m, const FieldPlace& place);

} // namespace quartercut::demo
