// SPDX-License-Identifier: MIT
// Filling and emptying of the machine at the ends of passes.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

/// How long grain per land stays under 95 % of its level a little farther into the same pass, after the cut begins and
/// before it ends: the median curve over all passes of a machine and method in the season. The level is taken nearby
/// (25 to 45 s in) because field ends often yield less than the middle, and that is no ramp. All methods of a machine
/// get the longer of their ramps; with fewer than ten passes of all its methods together 10 s and 6 s; never more than
/// 20 s (judgement; typical magnitudes are common practice, no source).
[[nodiscard]] std::vector<RampEstimate> estimate_ramps(const std::vector<FieldWork>& works, const Setting& setting);

/// Every ramp longer (or shorter, to nothing) by so many seconds: for re-runs.
void lengthen(std::vector<RampEstimate>& ramps, double extra_s);

/// Marks pass_start and pass_end, and records whose grain arrived after logging had stopped.
void trim_ramps(FieldWork& work, const Setting& setting, const std::vector<RampEstimate>& ramps);

} // namespace quartercut::cleaning
