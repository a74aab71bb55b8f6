// SPDX-License-Identifier: MIT
// The words under which reasons of removal appear in comparison.json and on the maps.
#include "quartercut/clean.hpp"

namespace quartercut {

const char* removal_word(Removal removal) {
    static constexpr std::array<const char*, removal_count> words = {
        "kept",
        "off-field",
        "no-method",
        "header-up",
        "no-flow",
        "no-travel",
        "impossible-moisture",
        "position-jump",
        "merged",
        "speed",
        "turn",
        "pass-start",
        "pass-end",
        "covered-before",
        "short-pass",
        "yield-limits",
        "far-from-method-area",
        "far-from-neighbours",
    };
    return words[static_cast<std::size_t>(removal)];
}

} // namespace quartercut
