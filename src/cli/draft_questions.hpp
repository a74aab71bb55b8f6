// SPDX-License-Identifier: MIT
// What the draft of a season file asks about records, where no file can say it.
#pragma once

#include "cli/folder_survey.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quartercut::cli {

struct OpenQuestion {
    std::string question; ///< one sentence or two
    std::string line;     ///< waits below it for the answer; may be empty
    bool stops = true;    ///< nothing can be read before it is answered
};

/// A TOML string; quotes and backslashes escaped, control characters left out.
[[nodiscard]] std::string toml_text(const std::string& text);

/// Must the season file or the file's own column name say a unit of it?
[[nodiscard]] bool needs_unit(Meaning meaning);

/// Which unit a column has, with the units to choose from. Moisture can wait: per cent is taken.
/// \param file  whose column it is; empty: of every file that has it
[[nodiscard]] OpenQuestion unit_question(Meaning meaning, const ColumnChoice& choice, const std::string& file);

/// Which machine cut what the files without a machine's column hold, where others have one.
[[nodiscard]] std::optional<OpenQuestion> machine_question(const std::vector<const FolderEntry*>& records);

/// Where the files that do not say their coordinate system lie. \param taken  files whose columns are called so
struct OpenPlaces {
    std::vector<std::string> open, named;
};
[[nodiscard]] OpenPlaces open_places(const std::vector<const FolderEntry*>& records);
[[nodiscard]] OpenQuestion crs_question(const OpenPlaces& places);

/// day/month or month/day, of dates that do not tell it: as far as the other files allow.
struct DatesFound {
    std::optional<OpenQuestion> question;
    std::string line; ///< what the values leave no doubt about
};
[[nodiscard]] DatesFound dates_found(const std::vector<const FolderEntry*>& entries);

} // namespace quartercut::cli
