// SPDX-License-Identifier: MIT
// The commands as functions: each chains the rooms and returns or writes what the command promises.
#pragma once

#include "quartercut/results.hpp"
#include "quartercut/write.hpp"

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace quartercut {

struct JobOptions {
    std::filesystem::path out;                        ///< empty: "results" beside the season file
    std::vector<std::string> only;                    ///< field names; empty: all
    std::optional<Part> part;                         ///< of the fields, instead of `only`
    int jobs = 0;                                     ///< worker threads, 0: all cores; results do not depend on it
    std::string version;                              ///< of the program, written into the results
    std::vector<Format> formats = usual_formats;      ///< of the maps
    std::function<void(const std::string&)> progress; ///< called with a few words as each step starts; may be empty
};

/// Reads, standardises, cleans and zones, and stops there. \throws InputError, DataError
[[nodiscard]] Results survey_season(const std::filesystem::path& season_file, const JobOptions& options);

/// survey_season and the tables read beside a comparison (losses, samples, weather, next year's fields): everything
/// `compare` could object to, none of its answers. \throws InputError, DataError  as `compare_season` would
[[nodiscard]] Results check_season(const std::filesystem::path& season_file, const JobOptions& options);

/// Everything of [history] that would stop the work, all of it rather than the first. \param of_season  what was told of
/// this season's own files; such faults are not told again
[[nodiscard]] Issues history_faults(const Season& season, const Issues& of_season);

/// survey_season, then compares the methods and re-runs with one thing changed at a time; writes nothing.
[[nodiscard]] Results compute_season(const std::filesystem::path& season_file, const JobOptions& options);

/// compute_season, then the results folder, whole or not at all. Returns what was computed.
/// \throws WriteError  the folder is not ours or cannot be written
Results compare_season(const std::filesystem::path& season_file, const JobOptions& options);

/// Compares the fields of `options.part` and hands their answers over in a file of `parts_folder`. Returns its path.
/// \pre options.part  \throws InputError, DataError, WriteError
std::filesystem::path compare_part(const std::filesystem::path& season_file, const JobOptions& options);

/// The folder the parts go to: "parts" beside the season file where nothing else is asked for.
[[nodiscard]] std::filesystem::path parts_folder(const std::filesystem::path& season_file, const JobOptions& options);

/// Brings the parts of a season together: the results folder of `compare_season`, byte for byte.
/// \throws InputError  a part is missing, or was made from other files or by another version
Results join_season(const std::filesystem::path& season_file, const std::filesystem::path& parts,
                    const JobOptions& options);

/// Draws report.html again from the results folder of an earlier `compare_season`, computing nothing. Returns its path.
/// \throws InputError, WriteError
std::filesystem::path draw_report_again(const std::filesystem::path& folder);

/// Cuts the fields into zones and writes these, comparing nothing: zones.csv, inputs.json and the maps.
/// \param with_records  false: before the harvest, by boundaries, method areas and strata alone
/// \throws InputError, DataError, WriteError
Results stake_season(const std::filesystem::path& season_file, const JobOptions& options, bool with_records);

/// The folder `stake_season` writes to: "zones" beside the season file where nothing else is asked for.
[[nodiscard]] std::filesystem::path stakes_folder(const std::filesystem::path& season_file, const JobOptions& options);

/// The results folder `compare_season` writes to.
[[nodiscard]] std::filesystem::path results_folder(const std::filesystem::path& season_file, const JobOptions& options);

/// Every remark of the rooms, with the field it belongs to in `where`; season-wide remarks first.
[[nodiscard]] Issues all_issues(const Results& results);

} // namespace quartercut
