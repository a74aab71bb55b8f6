// SPDX-License-Identifier: MIT
// `choose`, `layout` and the counting sheet as functions, part of the room job/.
#pragma once

#include "quartercut/job.hpp"
#include "quartercut/plan_choose.hpp"

namespace quartercut {

/// The season compared without its re-runs, then next year's fields chosen; writes choose.csv, choose.json, maps and a
/// page into "next_year" beside the season file (or --out). \throws InputError  no [next_year], no candidates, limits
Choice choose_season(const std::filesystem::path& season_file, const JobOptions& options);

/// Strips in one field; writes strips, guidance lines, the cab sheet and blank counting sheets into the layout_folder().
/// \param field  a field of this season, or a candidate of [next_year]
/// \throws WriteError  the folder holds the layout of another field
TrialLayout layout_season(const std::filesystem::path& season_file, const std::string& field,
                          const JobOptions& options);

/// Only the blank counting sheets, for every field of the season; no records are read.
void write_counting_sheets(const std::filesystem::path& season_file, const JobOptions& options);

/// The folder a plan is written to: --out, or `name` beside the season file.
[[nodiscard]] std::filesystem::path plan_folder(const std::filesystem::path& season_file, const JobOptions& options,
                                                const std::string& name);
/// --out, or "layout-FIELD" beside the season file: each field has its own, so one layout never replaces another's.
[[nodiscard]] std::filesystem::path layout_folder(const std::filesystem::path& season_file, const JobOptions& options,
                                                  const std::string& field);

} // namespace quartercut
