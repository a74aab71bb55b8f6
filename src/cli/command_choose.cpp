// SPDX-License-Identifier: MIT
// `quartercut choose`: next year's fields, where to trial and which way to cut.
#include "cli/command.hpp"
#include "cli/terminal.hpp"

#include "quartercut/job_plan.hpp"
#include "quartercut/report_plan.hpp"
#include "quartercut/write_plan.hpp"

#include <fmt/format.h>

namespace quartercut::cli {
namespace {

struct ChooseCommand {
    std::string season;
};

std::string trials_text(const Choice& choice) {
    if (!choice.trials_value_cents) return "No set of trial fields was picked; see what is missing below.\n";
    std::string names;
    for (const CandidateField& field : choice.fields)
        if (field.trial) names += (names.empty() ? "" : ", ") + field.name;
    if (names.empty()) return "No trial is worth its cost: what it could teach would not change enough.\n";
    return fmt::format("Trials in {}: worth about ${:.0f}, cost ${:.0f}.\n", names, *choice.trials_value_cents / 100.0,
                       choice.trials_cost_cents.value_or(0.0) / 100.0);
}

std::string choice_text(const Choice& choice, const Season& season) {
    const YieldUnit units = season.units;
    const auto land = [&](double area_ha) { return from_m2(area_ha * m2_per_hectare, units); };
    const char* const word = land_unit_word(units);
    std::string out;
    for (const CandidateField& field : choice.fields) {
        out += fmt::format("{} ({:.1f} {}): {}\n", bold(field.name), land(field.area_ha), word, field.method);
        for (const std::string& reason : field.reasons)
            out += "  " + reason + "\n";
        for (const std::string& change : field.would_change)
            out += "  " + change + "\n";
    }
    out += "\n" + trials_text(choice);
    for (const MethodShare& share : choice.shares)
        out += fmt::format("{:<16} {:>8.1f} {} {:>5.1f} %\n", share.method, land(share.area_ha), word,
                           100.0 * share.share);
    for (const std::string& sentence : farm_choice_sentences(choice, season))
        out += sentence + "\n";
    for (const auto* list : {&choice.gaps, &choice.skipped, &choice.notes})
        for (const std::string& line : *list)
            out += line + "\n";
    return out;
}

void run_choose(const ChooseCommand& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    bound_memory(common, chosen.season);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    const Choice choice = choose_season(chosen.season, options);
    progress.clear();
    if (common.json) return print(choice_json(choice));
    if (common.quiet) return;
    print(choice_text(choice, read_season(chosen.season)));
    print("\nPage: " + (plan_folder(chosen.season, options, "next_year") / "choose.html").string() + "\n");
}

} // namespace

void setup_choose(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("choose", "Rank next year's fields: where to trial, where to cut which way");
    auto chosen = std::make_shared<ChooseCommand>();
    command->add_option("SEASON", chosen->season, "The season file (TOML), with [next_year]")->required();
    command->footer("Writes choose.csv, maps and a page into 'next_year' beside the season file.\n"
                    "Example:\n  quartercut choose my-season/season.toml");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_choose(*chosen, common); }; });
}

} // namespace quartercut::cli
