// SPDX-License-Identifier: MIT
// `quartercut compare`: the main job.
#include "cli/command.hpp"
#include "cli/memory_store.hpp"
#include "cli/summary.hpp"
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"
#include "quartercut/write.hpp"

#include <algorithm>
#include <charconv>
#include <memory>

namespace quartercut::cli {
namespace {

struct CompareCommand {
    std::string season;
    std::vector<std::string> formats;
    std::string part;
};

/// "2/8": the second of eight. \throws UsageError
Part part_from(const std::string& words) {
    Part part;
    const std::size_t slash = words.find('/');
    const auto number = [](std::string_view text, int& value) {
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        return error == std::errc{} && end == text.data() + text.size();
    };
    const std::string_view text = words;
    if (slash == std::string::npos || !number(text.substr(0, slash), part.number) ||
        !number(text.substr(slash + 1), part.count) || part.number < 1 || part.number > part.count)
        throw UsageError("--part " + words + ": write which part of how many, as in --part 2/8.");
    return part;
}

void run_part(const CompareCommand& chosen, const JobOptions& options, const CommonOptions& common,
              Progress& progress) {
    if (!options.only.empty()) throw UsageError("--part shares out every field; it does not go with --only.");
    if (common.json) throw UsageError("--part has no answer of its own to print; join the parts with --json.");
    const auto file = compare_part(chosen.season, options);
    progress.clear();
    if (!common.quiet)
        print("Part " + chosen.part + ": " + file.string() + "\nWhen all are there: quartercut join " + chosen.season +
              (common.out.empty() ? "" : " --parts " + common.out) + "\n");
}

void run_compare(const CompareCommand& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    bound_memory(common, chosen.season);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    options.formats = formats_of(chosen.formats, usual_formats);
    if (!chosen.part.empty()) {
        options.part = part_from(chosen.part);
        return run_part(chosen, options, common, progress);
    }
    const Results results = compare_season(chosen.season, options);
    progress.clear();
    show_comparison(results, chosen.season, options, common);
}

/// Endings of the files, in the order `--help` lists them.
const std::vector<std::string>& format_words() {
    static const std::vector<std::string> words{"gpkg", "geojson", "kml", "tif", "fgb", "shp"};
    return words;
}

} // namespace

void show_comparison(const Results& results, const std::string& season, const JobOptions& options,
                     const CommonOptions& common) {
    if (common.json) return print(comparison_json(results));
    if (common.quiet) return;
    print(comparison_text(results));
    const auto folder = results_folder(season, options);
    print("\nReport: " + (folder / "report.html").string() +
          "\nMaps:   " + (folder / map_file(options.formats.front())).string() + "\n");
}

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

void bound_memory(const CommonOptions& common, const std::filesystem::path& season) {
    const auto beside = common.out.empty() ? season.parent_path() : std::filesystem::path(common.out).parent_path();
    std::error_code ignored;
    keep_memory_within(static_cast<std::size_t>(common.memory_gib * 1024.0 * 1024.0 * 1024.0),
                       {beside, std::filesystem::temp_directory_path(ignored)});
}

void setup_compare(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("compare", "The main job: read, standardise, clean, zone, compare, write");
    auto chosen = std::make_shared<CompareCommand>();
    command->add_option("SEASON", chosen->season, "The season file (TOML)")->required();
    add_formats_option(*command, chosen->formats);
    command
        ->add_option("--part", chosen->part,
                     "Compare every N-th field only, from the I-th on; 'join' brings the parts together")
        ->type_name("I/N");
    command->footer("Writes the results folder whole or not at all; a folder that is not ours is never touched.\n"
                    "Examples:\n"
                    "  quartercut compare my-season/season.toml\n"
                    "  quartercut compare my-season/season.toml --out winter-meeting --only \"Home quarter\"\n"
                    "  quartercut compare my-season/season.toml --formats gpkg,tif,shp\n"
                    "  quartercut compare my-season/season.toml --part 2/8      one of eight runs, on any machine\n"
                    "  quartercut compare my-season/season.toml --json > comparison.json");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_compare(*chosen, common); }; });
}

} // namespace quartercut::cli
