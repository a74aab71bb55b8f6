// SPDX-License-Identifier: MIT
// Results -> one self-contained HTML page. Gets finished numbers, computes none beyond their layout.
#pragma once

#include "quartercut/results.hpp"

#include <string>

namespace quartercut {

/// The page: answer first, maps and charts as SVG readable without scripts, every string from user files escaped.
[[nodiscard]] std::string report_html(const Results& results);

/// The answer in plain sentences, one for the farm per method and evidence and one per field: what the terminal prints.
[[nodiscard]] std::vector<std::string> answer_sentences(const Results& results);

/// Remarks as lines for the terminal, alike ones once with their places:
/// "warning [code] message (Home, Willow; 12 places)".
[[nodiscard]] std::vector<std::string> remark_lines(const Issues& issues);

} // namespace quartercut
