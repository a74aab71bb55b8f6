// SPDX-License-Identifier: MIT
// What lies in a grower's folder: every file looked into and given a part in the season, with the reason.
#pragma once

#include "quartercut/read.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace quartercut::cli {

enum class Part { boundaries, method_areas, strata, records, tickets, unknown };

/// "boundaries", "method areas", ...
[[nodiscard]] const char* part_word(Part part);

/// One layer of a file, or the table it is.
struct FolderEntry {
    Part part = Part::unknown;
    std::string reason;      ///< why it was given that part
    LayerSketch sketch;      ///< `file` is relative to the folder
    std::string name_column; ///< of the names: fields, methods or strata
    std::size_t layers = 1;  ///< of its file
};

struct FolderSurvey {
    std::vector<FolderEntry> entries; ///< by path, then layer
    bool cut_short = false;           ///< there were more files than are looked at
    [[nodiscard]] std::vector<const FolderEntry*> of(Part part) const;
};

/// Looks through a folder and the folders in it. \throws InputError  it is no folder
[[nodiscard]] FolderSurvey survey_folder(const std::filesystem::path& folder);

/// Is the word one the trade has for a way of cutting: "swathed", "direct cut", "standing" ...?
[[nodiscard]] bool is_method_word(const std::string& word);

} // namespace quartercut::cli
