// SPDX-License-Identifier: MIT
// How the machines drive: pass by pass, turn by turn, second by second, before any grain is thought of.
//
// One campaign is one machine cutting one method in one field. Its steps are all of one length; between steps time runs
// on without gaps except over night, when the machine stands empty.
#pragma once

#include "demo/crop_land.hpp"
#include "demo/layout.hpp"

#include <vector>

namespace quartercut::demo {

/// One step of a machine. Positions are of the middle of the header at the step's end.
struct Step {
    double time_s = 0.0; ///< of its end
    double across_m = 0.0, along_m = 0.0;
    double moved_m = 0.0;
    Rect swept;   ///< land under the header in this step; empty when it is up
    int pass = 0; ///< index into Layout::passes
    bool header_up = true;
    bool logged = true;
};

/// Steps from the start of a load to its unloading; the machine is empty at both ends.
struct Load {
    std::size_t first = 0, last = 0; ///< half-open
};

struct Campaign {
    int machine = 0, method = 0;
    std::vector<Step> steps;
    std::vector<Load> loads;
    double end_s = 0.0;
};

struct DriveOrder {
    std::size_t field = 0;
    int machine = 0, method = 0;
    double start_s = 0.0; ///< not before this moment
};

/// Length of a step (s): the record interval in equal parts of at most one second.
[[nodiscard]] double step_s(const DemoOptions& options);
[[nodiscard]] int steps_per_record(const DemoOptions& options);

/// Drives all passes of the machine and method; without any the campaign is empty and ends when it starts.
[[nodiscard]] Campaign drive(const CropLand& land, const DemoFieldPlan& plan, const Layout& layout,
                             const DriveOrder& order, const DemoOptions& options);

} // namespace quartercut::demo
