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

#include "quartercut/clean.hpp"
#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace quartercut::cli {
namespace {

struct CheckOptions {
    std::string season;
};

/// Are all the faults of a kind that leaves fields, methods and records whole?
bool only_beside_records(const Season& season, const Issues& issues) {
    std::vector<std::string> beside;
    if (season.tickets) beside.push_back(season.tickets->file);
    if (season.loss_counts) beside.insert(beside.end(), {season.loss_counts->file, season.loss_counts->samples});
    if (season.weather) beside.push_back(season.weather->file);
    return std::all_of(issues.begin(), issues.end(), [&](const Issue& issue) {
        const auto is_of = [&](const std::string& file) { return !file.empty() && issue.where.starts_with(file); };
        return issue.severity != Severity::error || std::any_of(beside.begin(), beside.end(), is_of);
    });
}

void add_remarks(const Issues& remarks, Findings& out) {
    for (const Issue& remark : remarks) {
        const auto is_same = [&](const Issue& issue) {
            return issue.code == remark.code && issue.where == remark.where && issue.message == remark.message;
        };
        if (std::none_of(out.issues.begin(), out.issues.end(), is_same)) out.issues.push_back(remark);
    }
}

/// What later rooms refuse of the records, tickets left aside; one fault a line, empty when nothing. What is odd on the
/// way there joins the findings. \param is_known  what stops the work behind reading is known already
std::string refused_behind_reading(const Season& season, Raw raw, bool is_known, Findings& out) {
    raw.tickets.clear();
    try {
        const Standardised standardised = standardise(season, std::move(raw));
        add_remarks(standardised.issues, out);
        if (!is_known) (void)clean(season, standardised, CleanOptions{});
    } catch (const InputError& error) {
        return error.what();
    } catch (const DataError& error) {
        return error.what();
    }
    return {};
}

void add_faults(const std::string& lines, Findings& out) {
    for (const std::string& fault : split(lines, '\n')) {
        const bool told = std::any_of(out.issues.begin(), out.issues.end(),
                                      [&](const Issue& issue) { return issue.message == fault; });
        if (!told && !fault.empty()) out.issues.push_back({"data-refused", Severity::error, "", fault});
    }
}

/// All faults of the season; `first` is what stopped the work.
Findings faults_of(const std::filesystem::path& season_file, const Error& first) {
    Findings out;
    out.issues = season_faults(season_file);
    std::string behind;
    if (out.issues.empty()) {
        const Season season = read_season(season_file);
        Raw raw = read_for_faults(season);
        out.inputs = raw.inputs;
        for (const RawArea& field : raw.fields)
            out.fields.push_back(field.name);
        out.issues = raw.issues;
        const Issues earlier = history_faults(season, raw.issues);
        const bool is_known = !out.stops() && earlier.empty();
        if (only_beside_records(season, out.issues))
            behind = refused_behind_reading(season, std::move(raw), is_known, out);
        out.issues.insert(out.issues.end(), earlier.begin(), earlier.end());
    }
    // What later rooms refuse is met by nobody else; a fault a line.
    if (!out.stops()) behind = first.what();
    add_faults(behind, out);
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
        tell(findings_text(findings, Severity::note));
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
