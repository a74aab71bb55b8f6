// SPDX-License-Identifier: MIT
// Zones without a comparison: for planning, before a harvest, and for sampling after one.
#include "job/steps.hpp"

#include "quartercut/error.hpp"

#include <algorithm>

namespace quartercut {
namespace {

void refuse_what_needs_records(const Season& season) {
    if (season.methods_from.source == MethodSource::points)
        throw InputError("The methods come from a column of the records (from_points under [methods]), so zones cannot "
                         "be cut without the records. Draw method areas, or leave --no-records out.");
    for (const StrataInput& strata : season.strata_tables())
        if (strata.kind == StrataKind::pass_direction)
            throw InputError("Strata by pass direction under [strata] come from the records, so zones cannot be cut "
                             "without them. Take another kind, or leave --no-records out.");
}

void keep_only(const std::vector<std::string>& only, std::vector<StandardField>& fields) {
    if (only.empty()) return;
    job::check_names(only, fields);
    std::erase_if(fields, [&](const StandardField& field) {
        return std::find(only.begin(), only.end(), field.name) == only.end();
    });
}

Results land_only(const std::filesystem::path& season_file, const JobOptions& options) {
    Results results;
    results.version = options.version;
    job::say(options, "reading the season file");
    results.season = read_season(season_file);
    refuse_what_needs_records(results.season);
    job::say(options, "reading boundaries, method areas and strata");
    results.standardised = standardise_land(results.season, read_land(results.season));
    keep_only(options.only, results.standardised.fields);
    results.cleaned.fields.resize(results.standardised.fields.size());
    job::say(options, "cutting fields into zones");
    results.zoned = job::zone_all(results, results.cleaned, job::zone_options(results.season));
    return results;
}

} // namespace

std::filesystem::path stakes_folder(const std::filesystem::path& season_file, const JobOptions& options) {
    return options.out.empty() ? season_file.parent_path() / "zones" : options.out;
}

Results stake_season(const std::filesystem::path& season_file, const JobOptions& options, bool with_records) {
    Results results = with_records ? survey_season(season_file, options) : land_only(season_file, options);
    job::say(options, "writing the zones");
    ResultsFolder folder(stakes_folder(season_file, options));
    folder.write_text("zones.csv", zones_csv(results));
    folder.write_text("inputs.json", inputs_json(results));
    write_layers(results, folder.building(), options.formats);
    folder.commit();
    return results;
}

} // namespace quartercut
