// SPDX-License-Identifier: MIT
// The draft of a season file: what was found, with the reasons as comments, and questions where only the grower knows.
#pragma once

#include "cli/folder_survey.hpp"

namespace quartercut::cli {

struct SeasonDraft {
    std::string text;                   ///< TOML
    std::vector<std::string> questions; ///< one sentence each; the lines stand in the text, marked QUESTION
    bool stops = false;                 ///< one of them must be answered before anything can be read
};

/// \param title  of the season, e.g. the folder's name
[[nodiscard]] SeasonDraft draft_season(const FolderSurvey& survey, const std::string& title);

/// The draft with one more question at its head: what `check` would stop at.
[[nodiscard]] SeasonDraft with_fault(SeasonDraft draft, const std::string& fault);

} // namespace quartercut::cli
