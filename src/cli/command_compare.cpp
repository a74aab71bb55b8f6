// SPDX-License-Identifier: MIT
// `quartercut compare`: the main job.
#include "cli/command.hpp"
#include "cli/summary.hpp"
#include "cli/terminal.hpp"

#include "quartercut/write.hpp"

namespace quartercut::cli {
namespace {

struct CompareCommand {
    std::string season;
};

void run_compare(const CompareCommand& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    const Results results = compare_season(chosen.season, options);
    progress.clear();
    if (common.json) return print(comparison_json(results));
    if (common.quiet) return;
    print(comparison_text(results));
    const auto folder = results_folder(chosen.season, options);
    print("\nReport: " + (folder / "report.html").string() + "\nMaps:   " + (folder / "zones.gpkg").string() + "\n");
}

} // namespace

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
    command->footer("Writes the results folder whole or not at all; a folder that is not ours is never touched.\n"
                    "Examples:\n"
                    "  quartercut compare my-season/season.toml\n"
                    "  quartercut compare my-season/season.toml --out winter-meeting --only \"Home quarter\"\n"
                    "  quartercut compare my-season/season.toml --json > comparison.json");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_compare(*chosen, common); }; });
}

} // namespace quartercut::cli
