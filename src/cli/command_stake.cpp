// SPDX-License-Identifier: MIT
// `quartercut stake`: the fields staked out into zones, nothing compared.
#include "cli/command.hpp"
#include "cli/terminal.hpp"

#include "quartercut/write.hpp"

#include <fmt/format.h>

#include <memory>

namespace quartercut::cli {
namespace {

struct StakeCommand {
    std::string season;
    std::vector<std::string> formats;
    bool no_records = false;
};

/// One line a field: how many zones, how much land, how much of it in no method; with records, how much harvested.
std::string staked_text(const Results& results, bool with_records) {
    const YieldUnit units = results.season.units;
    const std::string land = land_unit_word(units);
    std::string out = bold("Zones") + "\n";
    out += fmt::format("  {:<24} {:>6} {:>10} {:>14}", "field", "zones", land, "in no method");
    out += with_records ? fmt::format(" {:>14}\n", "harvested " + land) : "\n";
    for (std::size_t f = 0; f < results.zoned.size(); ++f) {
        double no_method_m2 = 0.0, harvested_m2 = 0.0;
        for (const Zone& zone : results.zoned[f].zones) {
            if (zone.method < 0) no_method_m2 += zone.area_m2;
            harvested_m2 += zone.harvested_m2;
        }
        const StandardField& field = results.standardised.fields[f];
        out += fmt::format("  {:<24} {:>6} {:>10.2f} {:>14.2f}", field.name, results.zoned[f].zones.size(),
                           from_m2(field.area_m2, units), from_m2(no_method_m2, units));
        out += with_records ? fmt::format(" {:>14.2f}\n", from_m2(harvested_m2, units)) : "\n";
    }
    std::string remarks;
    for (const Issue& issue : all_issues(results))
        if (issue.severity != Severity::note || issue.code == "fuzzy-classes")
            remarks += fmt::format("  {} ({})\n", issue.message, issue.where);
    return remarks.empty() ? out : out + "\n" + bold("To know") + "\n" + remarks;
}

void run_stake(const StakeCommand& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    bound_memory(common, chosen.season);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    options.formats = formats_of(chosen.formats, {Format::geopackage, Format::geojson, Format::kml});
    const Results results = stake_season(chosen.season, options, !chosen.no_records);
    progress.clear();
    if (common.json) return print(zones_json(results));
    if (common.quiet) return;
    print(staked_text(results, !chosen.no_records));
    const auto folder = stakes_folder(chosen.season, options);
    print("\nTable: " + (folder / "zones.csv").string() +
          "\nMaps:  " + (folder / map_file(options.formats.front())).string() + "\n");
}

/// Nothing is compared, so no yield surface is drawn: asked for, it would be missing from the folder.
std::string refuse_surface(const std::string& word) {
    return word == "tif" ? "tif is the yield surface, which only 'quartercut compare' draws" : "";
}

} // namespace

void setup_stake(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("stake", "Stake the fields out: cut them into zones, compare nothing");
    auto chosen = std::make_shared<StakeCommand>();
    command->add_option("SEASON", chosen->season, "The season file (TOML)")->required();
    command->add_flag("--no-records", chosen->no_records,
                      "Before the harvest: by boundaries, method areas and strata alone");
    add_formats_option(*command, chosen->formats);
    command->get_option("--formats")
        ->type_name("gpkg,geojson,kml,fgb,shp")
        ->check(CLI::Validator([](std::string& word) { return refuse_surface(word); }, ""));
    command->footer(
        "For planning and sampling. Writes zones.csv, inputs.json and the maps into 'zones' beside the season "
        "file (or --out), whole or not at all.\n"
        "Examples:\n"
        "  quartercut stake my-season/season.toml\n"
        "  quartercut stake my-season/season.toml --no-records --formats gpkg,shp --out plan");
    // main gives every command the common options, among them the folder `compare` writes; this one has its own.
    command->preparse_callback([command](std::size_t) {
        command->get_option("--out")->description("Folder for the zones (default: 'zones' beside the season file)");
    });
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_stake(*chosen, common); }; });
}

} // namespace quartercut::cli
