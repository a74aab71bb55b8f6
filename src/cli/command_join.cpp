// SPDX-License-Identifier: MIT
// `quartercut join`: the parts of a season that several runs compared become one report.
#include "cli/command.hpp"
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"

#include <memory>

namespace quartercut::cli {
namespace {

struct JoinCommand {
    std::string season, parts;
    std::vector<std::string> formats;
};

void run_join(const JoinCommand& chosen, const CommonOptions& common) {
    if (!common.only.empty()) throw UsageError("join takes every field; it does not go with --only.");
    Progress progress(!common.quiet);
    bound_memory(common, chosen.season);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    options.formats = formats_of(chosen.formats, usual_formats);
    const auto parts = chosen.parts.empty() ? parts_folder(chosen.season, {}) : std::filesystem::path(chosen.parts);
    const Results results = join_season(chosen.season, parts, options);
    progress.clear();
    show_comparison(results, chosen.season, options, common);
}

} // namespace

void setup_join(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("join", "Bring the parts of a season together that 'compare --part' made");
    auto chosen = std::make_shared<JoinCommand>();
    command->add_option("SEASON", chosen->season, "The season file (TOML)")->required();
    command->add_option("--parts", chosen->parts, "Folder of the parts (default: 'parts' beside the season file)")
        ->type_name("DIR");
    add_formats_option(*command, chosen->formats);
    command->footer("Writes the same results as one 'compare' would have, byte for byte. The parts may come from any\n"
                    "machines that had the same files; a part made from other files is refused.\n"
                    "Example, two runs at once:\n"
                    "  quartercut compare my-season/season.toml --part 1/2 &\n"
                    "  quartercut compare my-season/season.toml --part 2/2 ; wait\n"
                    "  quartercut join my-season/season.toml");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_join(*chosen, common); }; });
}

} // namespace quartercut::cli
