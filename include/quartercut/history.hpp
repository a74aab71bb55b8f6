// SPDX-License-Identifier: MIT
// What earlier seasons found: the gains of earlier comparison.json files, field by field.
#pragma once

#include "quartercut/season.hpp"

#include <string>
#include <vector>

namespace quartercut {

struct InputFile;

/// One field's answer in an earlier year.
struct EarlierGain {
    std::string field, method, baseline;
    std::string evidence; ///< "replicated-randomised", "replicated" or "split"
    double gain_t_ha = 0.0;
    double se_t_ha = 0.0;           ///< sampling, > 0
    double df = 0.0;                ///< > 0
    double u_shared_t_ha = 0.0;     ///< errors common to all fields of that year
    bool machine_is_method = false; ///< that year's answer said the difference may be the machines'
};

struct EarlierSeason {
    std::string file; ///< as the season file writes it
    int year = 0;
    std::string crop;
    double basis_pct = 0.0;
    std::vector<EarlierGain> gains; ///< contrasts of whole fields that have an error; none within strata
};

/// Reads the comparison.json files [history] names. `inputs` gets one line a file.
/// \throws InputError  a file is missing, is not JSON or not a comparison; a year twice, or this season's own
[[nodiscard]] std::vector<EarlierSeason> read_earlier_results(const Season& season, std::vector<InputFile>& inputs);

} // namespace quartercut
