// SPDX-License-Identifier: MIT
// Grain cut -> what the monitor logs and what the scale weighs.
//
// The grain of a step reaches the flow sensor late and smeared; water and dockage travel with it. The sensor reads it
// wrong by the machine's factor, a slow drift and noise. Every kilogram cut arrives: the kernel sums to one.
#pragma once

#include "demo/drive.hpp"

#include <vector>

namespace quartercut::demo {

/// Grain taken from the land in each step of a campaign, as it stood: wet, with dockage.
struct CutGrain {
    std::vector<double> area_m2, basis_kg, gross_kg, water_kg;
    double dockage_pct = 0.0;
};

/// The same grain at the flow sensor, step by step, as it truly passes.
struct SensorGrain {
    std::vector<double> gross_kg, water_kg, basis_kg;
};

/// Share of a step's grain that arrives 0, 1, 2, ... steps later: uniform within the step, then transport, then an
/// exponential with mean mixing_s. Sums to 1.
[[nodiscard]] std::vector<double> arrival_kernel(const DemoMonitor& monitor, double step_s);

[[nodiscard]] SensorGrain at_sensor(const CutGrain& cut, const DemoMonitor& monitor, double step_s);

struct LogContext {
    const DemoOptions& options;
    const DemoMonitor& monitor;
    const Campaign& campaign;
    const CutGrain& cut;
    const SensorGrain& grain;
    std::size_t field = 0;
};

/// Records of one campaign. `passes` gives the logged widths.
[[nodiscard]] std::vector<DemoRecord> log_records(const LogContext& context, const std::vector<PassPlan>& passes,
                                                  const FieldPlace& place);

/// Weighed loads of one campaign: at most four, spread evenly over it.
[[nodiscard]] std::vector<DemoTicket> weigh_loads(const LogContext& context);

/// The two machines' monitors, A swathed, A standing, B swathed, B standing.
[[nodiscard]] std::vector<DemoMonitor> monitors();

} // namespace quartercut::demo
