// SPDX-License-Identifier: MIT
// Everything one run of `compare` found: what write/ and report/ are given. They compute nothing.
#pragma once

#include "quartercut/compare.hpp"

#include <string>
#include <vector>

namespace quartercut {

struct Results {
    Season season;
    Standardised standardised;
    Cleaned cleaned;
    std::vector<ZonedField> zoned;
    Comparison comparison;
    std::string version; ///< of the program
};

} // namespace quartercut
