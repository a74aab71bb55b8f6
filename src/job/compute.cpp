// SPDX-License-Identifier: MIT
// The main job as a recipe: read, standardise, clean, zone, compare.
#include "job/steps.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"
#include "quartercut/plan_inputs.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <utility>

namespace quartercut {
namespace {

/// Every count-th field from the part's own number on: large fields tend to lie side by side in a file.
std::vector<std::size_t> fields_of_part(const Part& part, std::size_t fields) {
    std::vector<std::size_t> out;
    for (std::size_t i = static_cast<std::size_t>(part.number - 1); i < fields;
         i += static_cast<std::size_t>(part.count))
        out.push_back(i);
    return out;
}

/// Indices of the fields to look at. \throws InputError naming the fields there are
std::vector<std::size_t> wanted_fields(const JobOptions& options, const Standardised& standardised) {
    if (options.part) return fields_of_part(*options.part, standardised.fields.size());
    const std::vector<std::string>& only = options.only;
    job::check_names(only, standardised.fields);
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < standardised.fields.size(); ++i)
        if (only.empty() || std::find(only.begin(), only.end(), standardised.fields[i].name) != only.end())
            out.push_back(i);
    return out;
}

/// Splits the wanted fields off; the whole season stays beside them for calibration in re-runs.
void keep_wanted(job::Survey& survey) {
    Standardised& all = survey.results.standardised;
    if (survey.wanted.size() == all.fields.size()) return;
    Standardised some;
    for (const std::size_t i : survey.wanted)
        some.fields.push_back(all.fields[i]);
    some.machines = all.machines;
    some.loads = all.loads;
    some.tickets = all.tickets;
    some.inputs = all.inputs;
    some.records_read = all.records_read;
    some.records_outside = all.records_outside;
    some.issues = all.issues;
    survey.whole = std::move(all);
    survey.results.standardised = std::move(some);
}

CompareOptions compare_options(const Season& season, const JobOptions& options) {
    CompareOptions out;
    out.placebo_layouts = season.comparison.placebo_layouts;
    out.jobs = options.jobs;
    return out;
}

void append(Issues& to, const Issues& from, const std::string& field) {
    for (Issue issue : from) {
        if (!field.empty() && issue.where.find(field) == std::string::npos)
            issue.where = issue.where.empty() ? field : field + ", " + issue.where;
        to.push_back(std::move(issue));
    }
}

} // namespace

namespace job {

CleanOptions clean_options(const Season& season, const JobOptions& options) {
    CleanOptions out;
    out.steps = season.cleaning;
    out.jobs = options.jobs;
    return out;
}

ZoneOptions zone_options(const Season& season) {
    ZoneOptions out;
    out.segment_m = season.comparison.segment_m;
    return out;
}

std::vector<std::string> field_names(const std::vector<StandardField>& fields) {
    std::vector<std::string> names;
    for (const StandardField& field : fields)
        names.push_back(field.name);
    return names;
}

void check_names(const std::vector<std::string>& only, const std::vector<StandardField>& fields) {
    const std::vector<std::string> names = field_names(fields);
    for (const std::string& wanted : only)
        if (std::find(names.begin(), names.end(), wanted) == names.end())
            throw InputError(fmt::format("--only '{}': the season has no such field. Its fields are: {}.{}", wanted,
                                         listed(names), did_you_mean(wanted, names)));
}

Cleaned clean_wanted(const Survey& survey, const CleanOptions& options) {
    Cleaned cleaned = clean(survey.results.season, survey.season_records(), options);
    if (survey.wanted.size() == cleaned.fields.size()) return cleaned;
    std::vector<CleanedField> fields;
    for (const std::size_t i : survey.wanted)
        fields.push_back(std::move(cleaned.fields[i]));
    cleaned.fields = std::move(fields);
    return cleaned;
}

std::vector<ZonedField> zone_all(const Results& results, const Cleaned& cleaned, const ZoneOptions& options) {
    std::vector<ZonedField> zoned(results.standardised.fields.size());
    tbb::parallel_for(std::size_t{0}, zoned.size(), [&](std::size_t i) {
        ZoneOptions of_field = options;
        if (!results.zoned.empty()) of_field.earlier = &results.zoned[i];
        zoned[i] = zone(results.season, results.standardised.fields[i], cleaned.fields[i], of_field);
    });
    return zoned;
}

Survey survey(const std::filesystem::path& season_file, const JobOptions& options) {
    Survey out;
    Results& results = out.results;
    results.version = options.version;
    say(options, "reading the season file");
    results.season = read_season(season_file);
    say(options, "reading boundaries, records and tickets");
    Raw raw = read(results.season);
    say(options, "bringing records to one frame and one basis");
    results.standardised = standardise(results.season, std::move(raw));
    out.wanted = wanted_fields(options, results.standardised);
    keep_wanted(out);
    say(options, "cleaning and calibrating");
    results.cleaned = clean_wanted(out, clean_options(results.season, options));
    say(options, "cutting fields into zones");
    results.zoned = zone_all(results, results.cleaned, zone_options(results.season));
    out.history = read_history(results, options);
    return out;
}

std::vector<FieldComparison> answer_fields(const Survey& survey, const JobOptions& options) {
    say(options, "comparing the methods");
    const Results& results = survey.results;
    CompareOptions comparing = compare_options(results.season, options);
    if (results.season.history) comparing.history = &survey.history;
    auto fields = compare_each_field(results.season, results.standardised, results.cleaned, results.zoned, comparing);
    add_robustness(survey, options, fields);
    return fields;
}

void bring_season_together(Survey& survey, const JobOptions& options, std::vector<FieldComparison> fields) {
    say(options, "bringing the fields together");
    Results& results = survey.results;
    results.comparison = bring_together(results.season, results.standardised, results.cleaned, results.zoned,
                                        std::move(fields), results.season.history ? &survey.history : nullptr);
    add_plan(results);
}

} // namespace job

Results survey_season(const std::filesystem::path& season_file, const JobOptions& options) {
    Results results;
    job::with_threads(options.jobs, [&] { results = job::survey(season_file, options).results; });
    return results;
}

Results check_season(const std::filesystem::path& season_file, const JobOptions& options) {
    Results results = survey_season(season_file, options);
    job::say(options, "reading the tables beside the comparison");
    Standardised& into = results.standardised;
    const PlanTables tables = read_plan_tables(results.season);
    into.inputs.insert(into.inputs.end(), tables.inputs.begin(), tables.inputs.end());
    into.issues.insert(into.issues.end(), tables.issues.begin(), tables.issues.end());
    for (Issue& doubt : plan_table_faults(results.season))
        into.issues.push_back(std::move(doubt));
    return results;
}

Results compute_season(const std::filesystem::path& season_file, const JobOptions& options) {
    job::Survey survey;
    job::with_threads(options.jobs, [&] {
        survey = job::survey(season_file, options);
        job::bring_season_together(survey, options, job::answer_fields(survey, options));
    });
    return std::move(survey.results);
}

Issues all_issues(const Results& results) {
    Issues out;
    append(out, results.season.issues, "");
    append(out, results.standardised.issues, "");
    append(out, results.cleaned.issues, "");
    append(out, results.comparison.issues, "");
    for (std::size_t i = 0; i < results.standardised.fields.size(); ++i) {
        const std::string& name = results.standardised.fields[i].name;
        append(out, results.standardised.fields[i].issues, name);
        if (i < results.cleaned.fields.size()) append(out, results.cleaned.fields[i].issues, name);
        if (i < results.zoned.size()) append(out, results.zoned[i].issues, name);
        if (i < results.comparison.fields.size()) append(out, results.comparison.fields[i].issues, name);
    }
    return out;
}

} // namespace quartercut
