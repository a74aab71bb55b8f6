// SPDX-License-Identifier: MIT
// Steps the job's files share.
#pragma once

#include "quartercut/job.hpp"

#include <optional>
#include <tbb/global_control.h>
#include <vector>

namespace quartercut::job {

/// The season up to its zones. With --only, `results` holds the wanted fields and `whole` the season they were picked
/// from: loads of every field say how far a machine is out, whichever fields are looked at.
struct Survey {
    Results results;
    History history;
    std::optional<Standardised> whole;
    std::vector<std::size_t> wanted; ///< indices into the whole season's fields
    [[nodiscard]] const Standardised& season_records() const { return whole ? *whole : results.standardised; }
};

Survey survey(const std::filesystem::path& season_file, const JobOptions& options);

/// What [history] names, read and cut up by this season's areas; its files go to the results' inputs.
/// \throws InputError, DataError  as `read` and `standardise` would for the same records
History read_history(Results& results, const JobOptions& options);

/// An earlier map's own files for the results' inputs: fields and areas are this season's, and stand there already.
std::vector<InputFile> records_as_history(std::vector<InputFile> inputs);

std::vector<std::string> field_names(const std::vector<StandardField>& fields);

/// \throws InputError  `only` names a field that is not there; the message lists those that are
void check_names(const std::vector<std::string>& only, const std::vector<StandardField>& fields);

/// Cleans the whole season and keeps the wanted fields.
Cleaned clean_wanted(const Survey& survey, const CleanOptions& options);

/// Zones of the wanted fields, in their order; land cut before for these results is taken over.
std::vector<ZonedField> zone_all(const Results& results, const Cleaned& cleaned, const ZoneOptions& options);

CleanOptions clean_options(const Season& season, const JobOptions& options);
ZoneOptions zone_options(const Season& season);

/// Adds to each contrast what its gain becomes with one thing changed (a cleaning step off, the lag a second longer, the
/// segments halved ...), and the error of lag and ramps that follows from it.
void add_robustness(const Survey& survey, const JobOptions& options, std::vector<FieldComparison>& fields);

/// The wanted fields' answers, robustness and all.
std::vector<FieldComparison> answer_fields(const Survey& survey, const JobOptions& options);

/// The season from its fields' answers, and what the plan room adds.
void bring_season_together(Survey& survey, const JobOptions& options, std::vector<FieldComparison> fields);

/// The results folder, whole or not at all.
void save(const Results& results, const std::filesystem::path& target, const JobOptions& options);

/// Runs `work` with at most `jobs` threads (0: all cores).
template <class Work>
void with_threads(int jobs, const Work& work) {
    if (jobs <= 0) return work();
    const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, static_cast<std::size_t>(jobs));
    work();
}

/// Money, losses, samples and weather, where the season file asks for them; their files join the inputs.
void add_plan(Results& results);

inline void say(const JobOptions& options, const std::string& words) {
    if (options.progress) options.progress(words);
}

} // namespace quartercut::job
