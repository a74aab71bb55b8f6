// SPDX-License-Identifier: MIT
// What the loads and the factors from them should make one look at again.
#pragma once

#include "clean/load_factors.hpp"
#include "clean/tickets.hpp"

namespace quartercut::cleaning {

/// Where the monitor's error hangs on the flow or moves with the days.
void remark_on_fit(Cleaned& cleaned, const LoadFit& fit, const Setting& setting);

/// Lists the loads that could be read; remarks on mixed, unread and mislabelled ones, and on one far from its fellows.
void remark_on_loads(Cleaned& cleaned, const std::vector<WeighedLoad>& weighed, const Setting& setting);

/// Factors far from 1, and those of one machine that differ between methods.
void remark_on_factors(Cleaned& cleaned, const Setting& setting);

} // namespace quartercut::cleaning
