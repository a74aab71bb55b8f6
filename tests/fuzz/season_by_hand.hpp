// SPDX-License-Identifier: MIT
// The season of the fuzz targets that read records.
#pragma once

#include "quartercut/season.hpp"

namespace quartercut::fuzz {

inline const Season& season_by_hand() {
    static const Season made = [] {
        Season s;
        s.file = "season.toml";
        s.year = 2025;
        s.crop = "canola";
        s.basis_pct = 10.0;
        s.bushel_lb = 50.0;
        s.methods = {{"swathed", "swathed", 10.0}, {"standing", "standing", 12.0}};
        return s;
    }();
    return made;
}

} // namespace quartercut::fuzz
