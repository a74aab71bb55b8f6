// SPDX-License-Identifier: MIT
// Factors that bring the monitor to the scale, and what is said where there is no scale.
#pragma once

#include "clean/tickets.hpp"
#include "clean/work.hpp"

namespace quartercut::cleaning {

/// Difference of level between machines of one method, from passes that run side by side.
struct MachineContrast {
    int method = -1, machine = -1, other = -1;
    double log_ratio = 0.0, se = 0.0; ///< ln(yield of machine / yield of other)
    int pass_pairs = 0;
};

/// Mean over pass pairs of the log ratio of yields, same method area on both sides; at least 3 pass pairs.
[[nodiscard]] std::vector<MachineContrast> machine_contrasts(const std::vector<FieldWork>& works,
                                                             const Setting& setting);

/// Fills factors of groups without tickets from machines that have them, or levels machines about their common mean.
void level_machines(std::vector<Calibration>& factors, const std::vector<MachineContrast>& contrasts,
                    const std::vector<double>& group_kg, const Setting& setting);

/// The factor of a machine and method nobody weighed: 1, with 5 % (canola) or 3 % (judgement).
[[nodiscard]] Calibration without_tickets(const Setting& setting, int group);

/// Estimates the factors of the season, multiplies the masses, and reports.
void calibrate(std::vector<FieldWork>& works, const Setting& setting, Cleaned& cleaned);

} // namespace quartercut::cleaning
