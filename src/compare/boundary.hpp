// SPDX-License-Identifier: MIT
// The contrast along the line where two methods meet: near neighbours differ least in soil. All its points share the
// same few passes, so the pass effect goes into the error undivided.
#pragma once

#include "compare/cells.hpp"

#include <optional>
#include <span>

namespace quartercut::contrast {

struct BoundaryContrast {
    MeanTest test;       ///< error with serial correlation and shared passes
    double iid_se = 0.0; ///< as if all points were independent
    double serial = 0.0; ///< first-order autocorrelation, >= 0
};

/// Mean of differences in order along the boundary. `pass_variance`: of one pass; `passes_per_side` averaged in each.
/// nullopt for fewer than four points or no variation.
[[nodiscard]] std::optional<BoundaryContrast> boundary_contrast(std::span<const double> differences,
                                                                double pass_variance, double passes_per_side);

/// Differences `method` minus `baseline` in 50 m steps along, from the two passes nearest the border on either side.
/// Empty when the methods do not lie side by side across the passes.
[[nodiscard]] std::vector<double> boundary_differences(const CellSet& set, int method, int baseline);

} // namespace quartercut::contrast
