// SPDX-License-Identifier: MIT
// Legal land descriptions of the Dominion Land Survey, as labels: "NE-16-74-20-W4", "SW 24-38-20-W5", "SW-9-8-6E1".
//
// They name a piece of land; they never give its area. The boundary polygon does that.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace quartercut {

struct LegalLand {
    std::string quarter;            ///< NE, NW, SE, SW; empty when a legal subdivision or whole section was given
    std::optional<int> subdivision; ///< 1..16
    int section = 0;                ///< 1..36
    int township = 0;               ///< 1..126 (Alberta), 1..129 (Saskatchewan archives guide)
    int range = 0;                  ///< 1..34
    char side = 'W';                ///< W or E (E only of the 1st meridian)
    int meridian = 0;               ///< 1..6
};

/// Parses and validates. \throws InputError naming the part that is out of range and what is allowed.
[[nodiscard]] LegalLand parse_legal_land(std::string_view text);

/// Quarter in which a legal subdivision 1..16 lies: SE 1,2,7,8; SW 3-6; NW 11-14; NE 9,10,15,16.
[[nodiscard]] std::string quarter_of_subdivision(int subdivision);

/// "NE-16-74-20-W4"
[[nodiscard]] std::string to_string(const LegalLand& land);

} // namespace quartercut
