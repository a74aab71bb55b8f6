// SPDX-License-Identifier: MIT
// `quartercut layout`: trial strips in one field, the cab sheet, and blank counting sheets.
#include "cli/command.hpp"
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"
#include "quartercut/job_plan.hpp"
#include "quartercut/write_plan.hpp"

#include <fmt/format.h>

namespace quartercut::cli {
namespace {

struct LayoutCommand {
    std::string season, field;
    bool counting_sheet = false;
};

std::string layout_text(const TrialLayout& layout) {
    const YieldUnit units = layout.wish.units;
    const char* const length = length_unit_word(units);
    std::string out = bold(layout.field) + "\n" + layout.answer + "\n";
    for (const std::string& note : layout.notes)
        out += note + "\n";
    for (const TrialStrip& strip : layout.strips)
        out += fmt::format("  strip {:>2}, pair {:>2}: {:<14} {} passes, {:.1f} {} wide, {:.0f} {} long\n", strip.order,
                           strip.pair, strip.method, strip.passes, from_m(strip.width_m, units), length,
                           from_m(strip.length_m, units), length);
    return out;
}

void run_layout(const LayoutCommand& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    bound_memory(common, chosen.season);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    if (chosen.counting_sheet) {
        write_counting_sheets(chosen.season, options);
        if (!common.quiet) print("Counting sheets: " + plan_folder(chosen.season, options, "counting").string() + "\n");
        return;
    }
    if (chosen.field.empty()) throw UsageError("layout needs --field NAME (or --counting-sheet).");
    const TrialLayout layout = layout_season(chosen.season, chosen.field, options);
    progress.clear();
    if (common.json) return print(layout_json(layout));
    if (common.quiet) return;
    print(layout_text(layout));
    print("\nCab sheet: " + (layout_folder(chosen.season, options, chosen.field) / "cab_sheet.html").string() + "\n");
}

} // namespace

void setup_layout(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("layout", "Lay out trial strips in one field for next year");
    auto chosen = std::make_shared<LayoutCommand>();
    command->add_option("SEASON", chosen->season, "The season file (TOML)")->required();
    command->add_option("--field", chosen->field, "The field to lay out")->type_name("NAME");
    command->add_flag("--counting-sheet", chosen->counting_sheet, "Only write blank sheets for tray and pan counts");
    command->footer(
        "Designs are judged by simulation on the field's own past map; 'no design can show it' is an answer.\n"
        "Writes strips and guidance lines for any viewer, and a sheet for the cab, into 'layout-NAME' beside\nthe "
        "season file, a folder a field.\n"
        "Examples:\n  quartercut layout my-season/season.toml --field Home\n"
        "  quartercut layout my-season/season.toml --counting-sheet");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_layout(*chosen, common); }; });
}

} // namespace quartercut::cli
