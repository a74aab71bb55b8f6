// SPDX-License-Identifier: MIT
// The planning commands: the season is compared once, without re-runs, and then looked ahead from.
#include "quartercut/job_plan.hpp"

#include "base/text.hpp"
#include "job/steps.hpp"
#include "quartercut/error.hpp"
#include "quartercut/history.hpp"
#include "quartercut/report_plan.hpp"
#include "quartercut/write.hpp"
#include "quartercut/write_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace quartercut {
namespace {

/// Up to the comparison and its money; every field, because trials of any field speak for the next one.
Results compared(const std::filesystem::path& season_file, const JobOptions& options) {
    JobOptions all = options;
    all.only.clear();
    Results results = survey_season(season_file, all);
    job::say(options, "comparing the methods");
    CompareOptions comparing;
    comparing.sensitivity = false;
    comparing.jobs = options.jobs;
    job::with_threads(options.jobs, [&] {
        results.comparison = compare(results.season, results.standardised, results.cleaned, results.zoned, comparing);
    });
    if (results.season.money)
        results.plan.money = price_comparison(results.season, results.standardised, results.zoned, results.comparison);
    return results;
}

void need_next_year(const Season& season) {
    if (season.next_year) return;
    throw InputError(fmt::format("{}: there is no table [next_year]. It names next year's fields (file, name) and the "
                                 "limits of the farm; the README has one to copy.",
                                 season.file.string()));
}

void add_inputs(const std::vector<InputFile>& more, Results& results) {
    std::vector<InputFile>& inputs = results.standardised.inputs;
    for (const InputFile& input : more) {
        const auto is_same = [&](const InputFile& known) {
            return known.path == input.path && known.role == input.role;
        };
        if (std::none_of(inputs.begin(), inputs.end(), is_same)) inputs.push_back(input);
    }
}

/// The earlier maps trials are judged on, for inputs.json.
void add_earlier_maps(Results& results) {
    if (!results.season.history) return;
    for (const std::string& map : results.season.history->maps)
        add_inputs(job::records_as_history(read(season_of_earlier_map(results.season, map)).inputs), results);
}

/// Earlier answers, where next year's fields are foretold from several years.
void add_earlier_results(Results& results) {
    std::vector<InputFile> inputs;
    if (results.season.history) (void)read_earlier_results(results.season, inputs);
    add_inputs(inputs, results);
}

TrialLand land_named(Results& results, const std::string& name) {
    for (std::size_t f = 0; f < results.standardised.fields.size(); ++f)
        if (results.standardised.fields[f].name == name)
            return trial_land(results.season, results.standardised.fields[f], results.cleaned.fields[f],
                              results.zoned[f], results.comparison.fields[f]);
    if (results.season.next_year) {
        const Candidates candidates = read_candidates(results.season);
        add_inputs(candidates.inputs, results);
        for (const RawArea& area : candidates.areas)
            if (area.name == name) return new_trial_land(results.season, results.zoned, area, candidates.local_metres);
    }
    const std::vector<std::string> known = job::field_names(results.standardised.fields);
    throw InputError(fmt::format("Neither the season nor [next_year] has a field '{}'. The season's fields are: {}.{}",
                                 name, listed(known), did_you_mean(name, known)));
}

/// A name as a folder can bear it on any machine: letters, digits, '-', '_' and what is not ASCII stay.
std::string folder_spelling(const std::string& name) {
    std::string out;
    for (const char c : name) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = byte >= 0x80 || std::isalnum(byte) != 0 || c == '-' || c == '_';
        out += plain ? c : '_';
    }
    return out;
}

/// Two names can be spelled alike ("N 1", "N/1"), and --out can name any folder.
void need_same_field(const std::filesystem::path& folder, const std::string& field) {
    const std::string there = field_of_layout(folder);
    if (there.empty() || there == field) return;
    throw WriteError(fmt::format("{}: the folder holds the layout of the field '{}', which that of '{}' would replace, "
                                 "so it is left untouched. Give another folder with --out, or move that one.",
                                 folder.string(), there, field));
}

void write_sheets(const ResultsFolder& folder, const Season& season, const std::vector<std::string>& fields) {
    folder.write_text("counting_sheet.csv", counting_sheet_csv(season, fields));
    folder.write_text("counting_sheet.html", counting_sheet_html(season, fields));
}

} // namespace

void job::add_plan(Results& results) {
    results.plan = plan_beside(results.season, results.standardised, results.zoned, results.comparison);
    for (const InputFile& input : results.plan.inputs)
        results.standardised.inputs.push_back(input);
    results.comparison.issues.insert(results.comparison.issues.end(), results.plan.issues.begin(),
                                     results.plan.issues.end());
}

std::filesystem::path plan_folder(const std::filesystem::path& season_file, const JobOptions& options,
                                  const std::string& name) {
    if (!options.out.empty()) return options.out;
    return season_file.parent_path() / name;
}

std::filesystem::path layout_folder(const std::filesystem::path& season_file, const JobOptions& options,
                                    const std::string& field) {
    return plan_folder(season_file, options, "layout-" + folder_spelling(field));
}

Choice choose_season(const std::filesystem::path& season_file, const JobOptions& options) {
    need_next_year(read_season(season_file));
    Results results = compared(season_file, options);
    job::say(options, "choosing next year's fields");
    const Candidates candidates = read_candidates(results.season);
    Choice choice = choose_fields(results.season, results.standardised, results.cleaned, results.zoned,
                                  results.comparison, results.plan.money, candidates);
    add_inputs(candidates.inputs, results);
    add_earlier_maps(results);
    add_earlier_results(results);
    ResultsFolder folder(plan_folder(season_file, options, "next_year"));
    folder.write_text("choose.csv", choice_csv(choice));
    folder.write_text("choose.json", choice_json(choice));
    folder.write_text("choose.html", choice_html(choice, results.season));
    folder.write_text("inputs.json", inputs_json(results));
    if (!candidates.local_metres) write_choice_maps(choice, results.season, folder.building());
    folder.commit();
    return choice;
}

TrialLayout layout_season(const std::filesystem::path& season_file, const std::string& field,
                          const JobOptions& options) {
    const std::filesystem::path target = layout_folder(season_file, options, field);
    need_same_field(target, field); // before the work, not after it
    Results results = compared(season_file, options);
    TrialLand land = land_named(results, field);
    add_earlier_maps(results);
    land.model = fit_land(results.zoned, results.comparison, results.season);
    job::say(options, "playing designs through");
    TrialLayout layout = lay_out_trial(land, trial_wish(results.season, results.comparison, results.plan.money));
    ResultsFolder folder(target);
    folder.write_text("layout.json", layout_json(layout));
    folder.write_text("cab_sheet.html", layout_html(layout, results.season));
    folder.write_text("inputs.json", inputs_json(results));
    if (!layout.strips.empty()) {
        folder.write_text("season_lines.toml", layout_season_lines(layout));
        write_layout_maps(layout, results.season, folder.building());
        write_sheets(folder, results.season, {field});
    }
    folder.commit();
    return layout;
}

void write_counting_sheets(const std::filesystem::path& season_file, const JobOptions& options) {
    const Season season = read_season(season_file);
    std::vector<std::string> names = options.only;
    if (names.empty()) names = read_field_names(season);
    ResultsFolder folder(plan_folder(season_file, options, "counting"));
    write_sheets(folder, season, names);
    folder.commit();
}

} // namespace quartercut
