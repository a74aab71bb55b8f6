// SPDX-License-Identifier: MIT
// The commands as functions: each chains the rooms and returns or writes what the command promises.
#pragma once

#include "quartercut/results.hpp"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace quartercut {

struct JobOptions {
    std::filesystem::path out;                     ///< empty: "results" beside the season file
    std::vector<std::string> only;                 ///< field names; empty: all
    int jobs = 0;                                  ///< 0: all cores
    std::function<void(const std::string&)> progress;  ///< called with one line per step; may be empty
};

/// Reads, standardises, cleans, zones and compares; writes nothing.
[[nodiscard]] Results compute_season(const std::filesystem::path& season_file, const JobOptions& options);

/// compute_season, then the results folder, whole or not at all. Returns what was computed.
Results compare_season(const std::filesystem::path& season_file, const JobOptions& options);

} // namespace quartercut
