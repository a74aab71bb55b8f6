// SPDX-License-Identifier: MIT
// One command, one file: options bound to a struct, a `setup` that opens nothing, a `run` that works.
#pragma once

#include "quartercut/job.hpp"

#include <CLI/CLI.hpp>

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace quartercut::cli {

/// Options every command takes.
struct CommonOptions {
    std::string out;
    std::vector<std::string> only;
    int jobs = 0;
    double memory_gib = 1.5;
    bool json = false;
    bool quiet = false;
    bool no_color = false;
};

/// What a chosen command will do; set by the parsed command line, run by main.
using Action = std::function<void()>;

void setup_compare(CLI::App& app, CommonOptions& common, Action& action);
void setup_join(CLI::App& app, CommonOptions& common, Action& action);
void setup_check(CLI::App& app, CommonOptions& common, Action& action);
void setup_stake(CLI::App& app, CommonOptions& common, Action& action);
void setup_start(CLI::App& app, CommonOptions& common, Action& action);
void setup_report(CLI::App& app, CommonOptions& common, Action& action);
void setup_choose(CLI::App& app, CommonOptions& common, Action& action);
void setup_layout(CLI::App& app, CommonOptions& common, Action& action);
void setup_demo(CLI::App& app, CommonOptions& common, Action& action);

/// `--formats gpkg,kml ...`: which map files to write; other words are wrong usage. \param words  is filled
void add_formats_option(CLI::App& command, std::vector<std::string>& words);
/// \param words  as the option took them; empty: `otherwise`
[[nodiscard]] std::vector<Format> formats_of(const std::vector<std::string>& words, std::vector<Format> otherwise);

/// What `compare` and `join` say when the results are written.
void show_comparison(const Results& results, const std::string& season, const JobOptions& options,
                     const CommonOptions& common);

/// The job's options from the command line's.
[[nodiscard]] JobOptions job_options(const CommonOptions& common);

/// Holds the program to --memory; what does not fit waits on the disk the results will go to.
void bound_memory(const CommonOptions& common, const std::filesystem::path& season);

[[nodiscard]] bool has_command(const CLI::App& app, const std::string& word);

/// The command nearest to a mistyped word, or empty when none is near.
[[nodiscard]] std::string nearest_command(const CLI::App& app, const std::string& word);

} // namespace quartercut::cli
