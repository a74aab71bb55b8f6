// SPDX-License-Identifier: MIT
// A column name taken apart: words, the unit written in it, and whether it says wet or dry.
#pragma once

#include "quartercut/units.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut::reading {

struct HeaderName {
    std::vector<std::string> words; ///< small letters; "GrainFlow(lb/s)" -> grain, flow
    std::string bracket;            ///< what stands in the last brackets: "lb/s"
    bool wet = false, dry = false;
};

/// Splits at blanks, underscores, signs and where small letters meet capitals; brackets are set apart.
[[nodiscard]] HeaderName taken_apart(std::string_view name);

/// The unit of that dimension written in the name: in brackets, or as its last one to three words ("flow_kg_s" ->
/// "kg/s"); `words_used` tells how many words belong to it.
struct UnitInName {
    std::string unit;
    std::size_t words_used = 0;
};
[[nodiscard]] std::optional<UnitInName> unit_in_name(const HeaderName& name, Dimension dimension,
                                                     std::optional<double> bushel_lb);

} // namespace quartercut::reading
