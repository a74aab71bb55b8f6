// SPDX-License-Identifier: MIT
// The net difference of two methods as a function of everything it rests on, so that each input can be moved alone.
#pragma once

#include "quartercut/plan.hpp"

#include <vector>

namespace quartercut::planning {

/// How wet a method's grain was: what drying is charged on.
struct WetGrain {
    double share_wet = 0.0;    ///< wet tonnes to be dried, per tonne at the basis
    double point_tonnes = 0.0; ///< points x wet tonnes, per tonne at the basis
    bool known = false;
};

/// One cost item and the side of the difference it falls on: +1 method, -1 baseline, both where it names none.
struct SidedCost {
    const CostItem* item = nullptr;
    bool on_method = false, on_baseline = false;
};

/// Everything the net difference rests on.
struct NetInputs {
    double gain_t_ha = 0.0, baseline_yield_t_ha = 0.0;
    double price_cents_t = 0.0;
    std::vector<SidedCost> costs;
    std::vector<double> amounts; ///< one per cost, in the item's own unit
    WetGrain method_grain, baseline_grain;
};

/// What one cost item takes from a hectare, cents.
[[nodiscard]] double cost_cents_ha(const CostItem& item, double amount, double yield_t_ha, double price_cents_t,
                                   const WetGrain& grain);

/// (price x yield - costs) of the method less that of the baseline, cents per hectare.
[[nodiscard]] double net_cents_ha(const NetInputs& inputs);

/// Fills net, uncertainty, interval, break-even, chances and tornado. `u_gain_t_ha` and `df` of the total interval.
void fill_net(NetDifference& out, const NetInputs& inputs, double u_gain_t_ha, double df, double price_u_cents_t);

} // namespace quartercut::planning
