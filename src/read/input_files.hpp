// SPDX-License-Identifier: MIT
// Paths of the season file -> files on disk, each with its size and SHA-256 so that a run can be repeated and proven.
#pragma once

#include "read/context.hpp"

namespace quartercut::reading {

/// nullopt: no such file.
[[nodiscard]] std::optional<FileState> state_of(const std::filesystem::path& path);

/// What was read and the file's hash belong together only if the file stayed the same. 	hrows InputError  it did not
void require_unchanged(const FoundFile& file);

/// Files that match `pattern` (relative to the season's folder; `*` and `?` in any part), sorted by name. Companions of
/// a shapefile (.dbf, .shx, .prj, .cpg ...) are left out where a pattern catches them.
/// \throws InputError  nothing matches; the message names the nearest file there is
[[nodiscard]] std::vector<FoundFile> find_files(const Season& season, const std::string& pattern,
                                                const std::string& wanted_for);

/// Size and SHA-256 of a file. \throws InputError  it cannot be read, or has changed since it was found
[[nodiscard]] InputFile fingerprint(const FoundFile& file, const std::string& role);

/// SHA-256 of a text, in hexadecimal.
[[nodiscard]] std::string sha256_of(std::string_view text);

/// Adds the file, and the companions of a shapefile after it, to `raw.inputs`; returns the index of the file.
std::size_t add_input(Context& context, const FoundFile& file, const std::string& role);

/// The ending in small letters, with the point: ".csv".
[[nodiscard]] std::string ending(const std::filesystem::path& path);

/// Does `name` match `pattern`, where `*` stands for any letters and `?` for one?
[[nodiscard]] bool matches(std::string_view pattern, std::string_view name);

} // namespace quartercut::reading
