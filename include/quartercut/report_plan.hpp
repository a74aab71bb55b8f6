// SPDX-License-Identifier: MIT
// Plans -> pages to print and to read, part of the room report/. Gets finished numbers.
#pragma once

#include "quartercut/plan_choose.hpp"

#include <string>
#include <vector>

namespace quartercut {

/// For the cab: the order of the strips, which way to cut each, what to record and weigh; the designs that were tried.
[[nodiscard]] std::string layout_html(const TrialLayout& layout, const Season& season);
/// What the plan, all of one way and each limit of the season file bring and cost on the whole farm, in sentences; empty
/// where nothing is priced.
[[nodiscard]] std::vector<std::string> farm_choice_sentences(const Choice& choice, const Season& season);
/// Next year's fields with what is proposed, why, and what would change it.
[[nodiscard]] std::string choice_html(const Choice& choice, const Season& season);
/// The counting sheet to print, with its cautions.
[[nodiscard]] std::string counting_sheet_html(const Season& season, const std::vector<std::string>& fields);

} // namespace quartercut
