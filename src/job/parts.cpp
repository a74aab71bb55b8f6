// SPDX-License-Identifier: MIT
// A season of many fields, worked on by several runs: each answers for its part of the fields, the last step brings the
// answers together. Loads of every field say how far a machine is out, so each run reads and cleans the whole season;
// what it shares out is the comparing, which costs most.
#include "job/steps.hpp"

#include "quartercut/error.hpp"
#include "quartercut/write.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

namespace quartercut {
namespace {

constexpr const char* again = "Run 'quartercut compare --part' again for it.";

std::vector<SeasonPart> read_parts(const std::filesystem::path& folder) {
    std::vector<SeasonPart> parts;
    for (const std::filesystem::path& file : part_files(folder))
        parts.push_back(read_part(file));
    if (parts.empty())
        throw InputError(fmt::format("{}: there are no parts in it. Run 'quartercut compare SEASON --part 1/N' to N/N "
                                     "first, or name their folder with --parts.",
                                     folder.string()));
    return parts;
}

/// \throws InputError  parts of different divisions, or a part is missing
void need_all_parts(const std::vector<SeasonPart>& parts, const std::filesystem::path& folder) {
    const int count = parts.front().part.count;
    for (const SeasonPart& part : parts)
        if (part.part.count != count)
            throw InputError(fmt::format("{}: it holds parts of a season divided by {} and by {}. Take out those that "
                                         "do not belong.",
                                         folder.string(), count, part.part.count));
    std::vector<int> missing;
    for (int number = 1; number <= count; ++number)
        if (std::none_of(parts.begin(), parts.end(), [&](const auto& part) { return part.part.number == number; }))
            missing.push_back(number);
    if (!missing.empty())
        throw InputError(
            fmt::format("{}: of {} parts these are missing: {}.", folder.string(), count, fmt::join(missing, ", ")));
}

/// \throws InputError  the part was made from other files, or by another version
void need_same_season(const SeasonPart& part, const Results& results) {
    const std::string name = fmt::format("Part {} of {}", part.part.number, part.part.count);
    if (part.version != results.version)
        throw InputError(
            fmt::format("{} was made by version {}, this is {}. {}", name, part.version, results.version, again));
    const std::vector<InputFile>& now = results.standardised.inputs;
    for (std::size_t i = 0; i < std::max(now.size(), part.inputs.size()); ++i)
        if (i >= now.size() || i >= part.inputs.size() || now[i].path != part.inputs[i].path ||
            now[i].sha256 != part.inputs[i].sha256)
            throw InputError(fmt::format("{} was made from other files: {} has changed since. {}", name,
                                         i < now.size() ? now[i].path : part.inputs[i].path, again));
}

/// The answers in the order of the season's fields.
std::vector<FieldComparison> answers_in_order(std::vector<SeasonPart> parts, const Results& results) {
    std::map<std::string, FieldComparison> by_name;
    for (SeasonPart& part : parts)
        for (FieldComparison& field : part.fields)
            by_name[field.name] = std::move(field);
    std::vector<FieldComparison> out;
    for (const StandardField& field : results.standardised.fields) {
        const auto found = by_name.find(field.name);
        if (found == by_name.end())
            throw InputError(fmt::format("No part holds the field '{}'. Run all parts again.", field.name));
        out.push_back(std::move(found->second));
    }
    return out;
}

} // namespace

std::filesystem::path parts_folder(const std::filesystem::path& season_file, const JobOptions& options) {
    return options.out.empty() ? season_file.parent_path() / "parts" : options.out;
}

std::filesystem::path compare_part(const std::filesystem::path& season_file, const JobOptions& options) {
    SeasonPart out;
    job::with_threads(options.jobs, [&] {
        const job::Survey survey = job::survey(season_file, options);
        out.part = options.part.value();
        out.version = options.version;
        out.inputs = survey.results.standardised.inputs;
        out.fields = job::answer_fields(survey, options);
    });
    return write_part(out, parts_folder(season_file, options));
}

Results join_season(const std::filesystem::path& season_file, const std::filesystem::path& folder,
                    const JobOptions& options) {
    std::vector<SeasonPart> parts = read_parts(folder);
    need_all_parts(parts, folder);
    job::Survey survey;
    job::with_threads(options.jobs, [&] {
        survey = job::survey(season_file, options);
        for (const SeasonPart& part : parts)
            need_same_season(part, survey.results);
        job::bring_season_together(survey, options, answers_in_order(std::move(parts), survey.results));
    });
    job::save(survey.results, results_folder(season_file, options), options);
    return std::move(survey.results);
}

} // namespace quartercut
