// SPDX-License-Identifier: MIT
// The same remark for many fields, machines and methods is one remark with many places.
#pragma once

#include "quartercut/issue.hpp"

#include <string>
#include <vector>

namespace quartercut::report {

/// Remarks alike in severity, code and message, warnings before notes, otherwise in the order first met.
struct RemarkGroup {
    Issue first;
    std::vector<std::string> places; ///< each once, as the remarks name them
    std::vector<std::string> names;  ///< the fields (or files) among them, each once, without machine, method and row
};

[[nodiscard]] std::vector<RemarkGroup> grouped(const Issues& issues);

/// "Home, Willow; 12 places"; the number only where it is more than the names tell. Empty for the whole season.
[[nodiscard]] std::string places_text(const RemarkGroup& group);

} // namespace quartercut::report
