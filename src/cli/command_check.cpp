// SPDX-License-Identifier: MIT
// `quartercut check`: everything `compare` could object to, none of its answers.
#include "cli/command.hpp"
#include "cli/summary.hpp"
#include "cli/terminal.hpp"

namespace quartercut::cli {
namespace {

struct CheckOptions {
    std::string season;
};

void run_check(const CheckOptions& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    const Results results = survey_season(chosen.season, options);
    progress.clear();
    if (common.json) return print(survey_json(results));
    if (!common.quiet) print(survey_text(results));
}

} // namespace

void setup_check(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("check", "Read everything, say what is wrong or doubtful, compute nothing");
    auto chosen = std::make_shared<CheckOptions>();
    command->add_option("SEASON", chosen->season, "The season file (TOML)")->required();
    command->footer("Exits with 1 when 'compare' would.\nExample:\n  quartercut check my-season/season.toml");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_check(*chosen, common); }; });
}

} // namespace quartercut::cli
