// SPDX-License-Identifier: MIT
// What `check` found, for people and for scripts.
#pragma once

#include "quartercut/results.hpp"

#include <string>
#include <vector>

namespace quartercut::cli {

struct Findings {
    std::vector<InputFile> inputs;
    std::vector<std::string> fields;
    Issues issues; ///< those of severity error are what `compare` would stop at

    [[nodiscard]] std::size_t count(Severity severity) const;
    [[nodiscard]] bool stops() const { return count(Severity::error) > 0; }
};

/// Findings of a season that can be compared.
[[nodiscard]] Findings findings_of(const Results& results);

/// The files that were read.
[[nodiscard]] std::string files_text(const Findings& findings);
/// What there is to say, grouped by the file (then the field) it is about, the gravest first in each group.
[[nodiscard]] std::string findings_text(const Findings& findings, Severity least);
[[nodiscard]] std::string findings_json(const Findings& findings);

/// "2 errors, 1 warning and 12 notes"
[[nodiscard]] std::string counts_text(const Findings& findings);

} // namespace quartercut::cli
