// SPDX-License-Identifier: MIT
// Everything one run of `compare` found: what write/ and report/ are given. They compute nothing.
#pragma once

#include "quartercut/plan.hpp"

#include <string>
#include <vector>

namespace quartercut {

struct Results {
    Season season;
    Standardised standardised;
    Cleaned cleaned;
    std::vector<ZonedField> zoned;
    Comparison comparison;
    PlanResults plan;    ///< money, losses, weather: only what the season file asks for
    std::string version; ///< of the program
};

} // namespace quartercut
