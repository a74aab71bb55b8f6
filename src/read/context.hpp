// SPDX-License-Identifier: MIT
// What every part of this room carries along: the season's wishes, the tables filled so far, and how a place in the
// input is written in a message.
#pragma once

#include "quartercut/error.hpp"
#include "quartercut/read.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace quartercut::reading {

struct Context {
    const Season& season;
    Raw& raw;
    bool frame_known = false;    ///< has a layer said whether coordinates are of the Earth or local metres?
    std::string frame_from = {}; ///< that layer, for messages
    std::string zoned_from = {},
                zoneless_from = {}; ///< an input whose times state their zone, and one whose times do not

    void note(std::string code, std::string where, std::string message) {
        raw.issues.push_back({std::move(code), Severity::note, std::move(where), std::move(message)});
    }
    void warn(std::string code, std::string where, std::string message) {
        raw.issues.push_back({std::move(code), Severity::warning, std::move(where), std::move(message)});
    }
};

/// "season.toml, line 12: " for a key of the season file that is to be changed; empty when the key was not written.
[[nodiscard]] std::string written_at(const Season& season, const TextPlace& place);

/// "'a', 'b' and 12 more", for lists of layers and columns in messages.
[[nodiscard]] std::string listed(const std::vector<std::string>& words, std::size_t most = 24);

/// " Did you mean 'x'?" or nothing.
[[nodiscard]] std::string did_you_mean(const std::string& word, const std::vector<std::string>& words);

/// "1 row", "3 rows".
[[nodiscard]] std::string counted(std::size_t n, const std::string& singular);

} // namespace quartercut::reading
