// SPDX-License-Identifier: MIT
// A trial played many times: pair differences from the past map or the model, a coin in each pair, the paired t test
// with the instruments' error beside it - the very rule `compare` decides by.
#pragma once

#include "plan/strips.hpp"

#include <functional>

namespace quartercut::planning {

/// Pair differences (method left of baseline minus the other way is the coin's business) with nothing done.
using DrawDifferences = std::function<void(std::uint64_t seed, std::vector<double>& differences)>;

struct Played {
    double se_t_ha = 0.0, false_finding = 0.0, power = 0.0, detectable_t_ha = 0.0;
};

[[nodiscard]] Played play(const DrawDifferences& draw, const TrialWish& wish);

/// A grid of the past map in (u, v); sums along u so that the mean of any band is quick.
class MapGrid {
public:
    MapGrid(const std::vector<YieldPoint>& map, const Turn& turn, const Box& box_uv);
    /// Mean yield of a band; nullopt where less than four fifths of it was ever seen.
    [[nodiscard]] std::optional<double> mean(double v0, double v1, const std::vector<Stretch>& stretches) const;

private:
    double u0_ = 0.0, v0_ = 0.0;
    std::size_t columns_ = 0, rows_ = 0;
    std::vector<double> sum_, count_; ///< running along u, one more than columns
};

/// Differences on the past map; nullopt where the map does not reach.
[[nodiscard]] std::optional<DrawDifferences> from_map(const MapGrid& grid, const std::vector<Placement>& placements,
                                                      const PairWidths& widths, double pass_sd_t_ha);

/// One of several ways to draw, all alike likely: each year's map is one way the land may turn out.
[[nodiscard]] DrawDifferences one_of(std::vector<DrawDifferences> draws);

/// The same with the spread known only as `df` pairs of strips tell it: each trial's differences are as much larger or
/// smaller as that spread may be. A t test where nothing was done does not see it; power does.
[[nodiscard]] DrawDifferences with_unsure_spread(DrawDifferences draw, int df);

/// Differences drawn from the model: covariance of all strip means, exactly.
[[nodiscard]] DrawDifferences from_model(const LandModel& model, const Placement& placement, const PairWidths& widths,
                                         int passes, int baseline_passes);

/// Covariance of the strip means of a placement, row-major, method strip before baseline strip in each pair.
[[nodiscard]] std::vector<double> strip_covariance(const LandModel& model, const Placement& placement,
                                                   const PairWidths& widths, int passes, int baseline_passes);

} // namespace quartercut::planning
