// SPDX-License-Identifier: MIT
// Any bytes as the comparison.json of an earlier year: gains with an error, or an InputError; nothing else.
#include "own_folder.hpp"

#include "quartercut/error.hpp"
#include "quartercut/history.hpp"
#include "quartercut/read.hpp"

#include <cmath>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace quartercut;
    static const fuzz::OwnFolder folder;
    folder.put("earlier.json", bytes, size);
    Season season;
    season.file = folder.path() / "season.toml";
    season.year = 2025;
    season.history = HistoryInput{{"earlier.json"}, {}, {}};
    std::vector<InputFile> inputs;
    try {
        for (const EarlierSeason& one : read_earlier_results(season, inputs))
            for (const EarlierGain& gain : one.gains)
                if (!std::isfinite(gain.gain_t_ha) || !(gain.se_t_ha > 0.0) || !(gain.df > 0.0)) std::abort();
    } catch (const InputError&) {
    }
    return 0;
}
