// SPDX-License-Identifier: MIT
// Something a reader of the result must know: a value, not an exception.
#pragma once

#include <string>
#include <vector>

namespace quartercut {

enum class Severity { note, warning, error };

/// One remark. `error` marks a remark of `check` that would stop `compare`; `compare` itself throws instead.
struct Issue {
    std::string code; ///< lower-case words joined by hyphens, stable across versions, e.g. "lag-not-found"
    Severity severity = Severity::note;
    std::string where;   ///< field, file, layer, row or column; empty for the whole season
    std::string message; ///< what is odd, and what to do; a whole sentence a grower understands
};

using Issues = std::vector<Issue>;

/// "note", "warning" or "error".
[[nodiscard]] const char* severity_word(Severity severity);

} // namespace quartercut
