// SPDX-License-Identifier: MIT
// `quartercut demo`: an invented season whose true answer is known.
#include "cli/command.hpp"
#include "cli/summary.hpp"
#include "cli/terminal.hpp"

#include "quartercut/demo.hpp"

#include <fmt/format.h>

namespace quartercut::cli {
namespace {

struct DemoCommand {
    std::string folder;
    DemoOptions options;
};

void run_demo(const DemoCommand& chosen, const CommonOptions& common) {
    const DemoTruth truth = write_demo(chosen.folder, chosen.options);
    if (common.json)
        return print(
            fmt::format("{{\"true_gain_t_ha\": {}, \"raw_gain_t_ha\": {}}}\n", truth.gain_t_ha, truth.raw_gain_t_ha));
    if (common.quiet) return;
    const Season season = read_season(std::filesystem::path(chosen.folder) / "season.toml");
    print(fmt::format("An invented season of {} fields stands in {}.\n"
                      "The truth: standing out-yields swathed by {} {unit}; the raw records say {} {unit}.\n"
                      "Now try: quartercut compare {}/season.toml\n",
                      truth.fields.size(), chosen.folder, yield_number(season, truth.gain_t_ha, false),
                      yield_number(season, truth.raw_gain_t_ha, true), chosen.folder,
                      fmt::arg("unit", yield_unit_word(season.units))));
}

} // namespace

void setup_demo(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("demo", "Write an invented season whose true answer is known");
    auto chosen = std::make_shared<DemoCommand>();
    command->add_option("FOLDER", chosen->folder, "New or empty folder to write into")->required();
    command->add_option("--seed", chosen->options.seed, "Another seed, another season")->capture_default_str();
    command->add_option("--interval", chosen->options.record_interval_s, "Seconds between records")
        ->check(CLI::Range(1.0, 10.0))
        ->capture_default_str();
    command->footer("The land, the farm and every number are invented.\nExample:\n  quartercut demo my-season");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_demo(*chosen, common); }; });
}

} // namespace quartercut::cli
