// SPDX-License-Identifier: MIT
// `quartercut check`: everything `compare` could object to, none of its answers.
//
// The work is done as `compare` does it, up to the zones, and the tables it reads afterwards are read. Only when that
// stops, everything is read a second time in a way that goes on after a fault, so that all faults are told and not only
// the first.
#include "base/text.hpp"
#include "cli/check_report.hpp"
#include "cli/command.hpp"
#include "cli/summary.hpp"
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace quartercut::cli {
namespace {

struct CheckOptions {
    std::string season;
};

/// All faults of the season; `first` is what stopped the work.
Findings faults_of(const std::filesystem::path& season_file, const Error& first) {
    Findings out;
    out.issues = season_faults(season_file);
    if (out.issues.empty()) {
        Raw raw = read_for_faults(read_season(season_file));
        out.inputs = std::move(raw.inputs);
        for (const RawArea& field : raw.fields)
            out.fields.push_back(field.name);
        out.issues = std::move(raw.issues);
    }
    // What later rooms refuse is met by nobody else; a fault a line.
    const bool stops = out.stops();
    for (const std::string& fault : split(first.what(), '\n')) {
        const bool told = std::any_of(out.issues.begin(), out.issues.end(),
                                      [&](const Issue& issue) { return issue.message == fault; });
        if (!told && !stops && !fault.empty()) out.issues.push_back({"data-refused", Severity::error, "", fault});
    }
    return out;
}

/// What `start` could not know and nobody has answered yet does not stop the work, where the work can do without.
void note_open_questions(const Season& season, Findings& findings) {
    std::size_t open = 0;
    for (const std::string& line : split(season.text, '\n'))
        open += line.starts_with("# QUESTION:") ? 1U : 0U;
    if (open > 0)
        findings.issues.push_back(
            {"questions-open", Severity::warning, findings.inputs.at(0).path,
             fmt::format("{} in the season file {} not answered yet: look for QUESTION, set the "
                         "line below right, and delete the question.",
                         open == 1 ? "1 question" : fmt::format("{} questions", open), open == 1 ? "is" : "are")});
}

void tell_faults(const Findings& findings, bool as_json) {
    if (as_json) {
        print(findings_json(findings));
        finish_output();
    } else {
        tell(findings_text(findings, Severity::warning));
    }
}

void run_check(const CheckOptions& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    bound_memory(common, chosen.season);
    JobOptions options = job_options(common);
    options.progress = [&](const std::string& words) { progress.show(words); };
    std::optional<Results> results;
    std::optional<Findings> faults;
    try {
        results = check_season(chosen.season, options);
    } catch (const InputError& error) {
        faults = faults_of(chosen.season, error);
    } catch (const DataError& error) {
        faults = faults_of(chosen.season, error);
    }
    progress.clear();
    if (faults) {
        tell_faults(*faults, common.json);
        throw DataError(fmt::format("{}: {}; 'compare' would stop.", chosen.season, counts_text(*faults)));
    }
    Findings findings = findings_of(*results);
    note_open_questions(results->season, findings);
    if (common.json) return print(findings_json(findings));
    if (common.quiet) return;
    print(bold(results->season.title) + "\n\n" + files_text(findings) + "\n" + removals_text(*results) + "\n" +
          findings_text(findings, Severity::note) + "\n" + counts_text(findings) + ": 'compare' can go to work.\n");
}

} // namespace

void setup_check(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command = app.add_subcommand("check", "Read everything, say what is wrong or doubtful, compute nothing");
    auto chosen = std::make_shared<CheckOptions>();
    command->add_option("SEASON", chosen->season, "The season file (TOML)")->required();
    command->footer("Tells everything at once, file by file. Exits with 1 when 'compare' would.\n"
                    "Examples:\n"
                    "  quartercut check my-season/season.toml\n"
                    "  quartercut check my-season/season.toml --json | jq '.issues[].message'");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_check(*chosen, common); }; });
}

} // namespace quartercut::cli
