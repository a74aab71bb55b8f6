// SPDX-License-Identifier: MIT
// `quartercut report`: the page again, from the results of an earlier comparison.
#include "cli/command.hpp"
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"

#include <nlohmann/json.hpp>

namespace quartercut::cli {
namespace {

void run_report(const std::string& folder, const CommonOptions& common) {
    if (!common.out.empty() || !common.only.empty())
        throw UsageError("'report' draws the page of a results folder as it stands: --out and --only do not apply.");
    const auto page = draw_report_again(folder);
    if (common.json) return print("{\"report\": " + nlohmann::json(page.string()).dump() + "}\n");
    if (!common.quiet) print("Report: " + page.string() + "\n");
}

} // namespace

void setup_report(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("report", "Draw the page of earlier results again, computing nothing");
    auto folder = std::make_shared<std::string>();
    command->add_option("RESULTS", *folder, "The results folder of a comparison")->required();
    command->footer(
        "For a newer version's page of older results: words and drawings are new, every number is as it was.\n"
        "Example:\n"
        "  quartercut report my-season/results");
    command->callback([&common, &action, folder] { action = [&common, folder] { run_report(*folder, common); }; });
}

} // namespace quartercut::cli
