// SPDX-License-Identifier: MIT
// `quartercut compare`: the main job.
#include "cli/command.hpp"
#include "cli/summary.hpp"
#include "cli/terminal.hpp"

#include "quartercut/write.hpp"

#include <algorithm>
#include <memory>

namespace quartercut::cli {
namespace {

struct CompareCommand {
    std::string season;
    std::vector<std::string> formats;
};

void run_compare(const CompareCommand& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    options.formats = formats_of(chosen.formats, usual_formats);
    const Results results = compare_season(chosen.season, options);
    progress.clear();
    if (common.json) return print(comparison_json(results));
    if (common.quiet) return;
    print(comparison_text(results));
    const auto folder = results_folder(chosen.season, options);
    print("\nReport: " + (folder / "report.html").string() +
          "\nMaps:   " + (folder / map_file(options.formats.front())).string() + "\n");
}

/// Endings of the files, in the order `--help` lists them.
const std::vector<std::string>& format_words() {
    static const std::vector<std::string> words{"gpkg", "geojson", "kml", "tif", "fgb", "shp"};
    return words;
}

} // namespace

void add_formats_option(CLI::App& command, std::vector<std::string>& words) {
    command.add_option("--formats", words, "Map files to write, by ending, with commas between")
        ->type_name("gpkg,geojson,kml,tif,fgb,shp")
        ->delimiter(',')
        ->allow_extra_args(false)
        ->check(CLI::IsMember(format_words()).description(""));
}

std::vector<Format> formats_of(const std::vector<std::string>& words, std::vector<Format> otherwise) {
    if (words.empty()) return otherwise;
    std::vector<Format> formats;
    for (const std::string& word : format_words()) // each once, whatever was written twice
        if (std::find(words.begin(), words.end(), word) != words.end()) formats.push_back(format_from(word).value());
    return formats;
}

JobOptions job_options(const CommonOptions& common) {
    JobOptions options;
    options.out = common.out;
    options.only = common.only;
    options.jobs = common.jobs;
    options.version = QUARTERCUT_VERSION;
    return options;
}

void setup_compare(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("compare", "The main job: read, standardise, clean, zone, compare, write");
    auto chosen = std::make_shared<CompareCommand>();
    command->add_option("SEASON", chosen->season, "The season file (TOML)")->required();
    add_formats_option(*command, chosen->formats);
    command->footer("Writes the results folder whole or not at all; a folder that is not ours is never touched.\n"
                    "Examples:\n"
                    "  quartercut compare my-season/season.toml\n"
                    "  quartercut compare my-season/season.toml --out winter-meeting --only \"Home quarter\"\n"
                    "  quartercut compare my-season/season.toml --formats gpkg,tif,shp\n"
                    "  quartercut compare my-season/season.toml --json > comparison.json");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_compare(*chosen, common); }; });
}

} // namespace quartercut::cli
