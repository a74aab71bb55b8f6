// SPDX-License-Identifier: MIT
// A small right season file and ways to spoil it, for the tests of this room.
#pragma once

#include "quartercut/error.hpp"
#include "quartercut/season.hpp"

#include <stdexcept>
#include <string>

namespace quartercut::season_test {

/// Line numbers matter: messages are compared whole.
inline const std::string right = R"(title    = "Invented farm"
year     = 2025
crop     = "canola"
baseline = "swathed"

[fields]
file = "fields.gpkg"
name = "name"

[points]
files = ["yield/*.csv"]

[methods]
file   = "fields.gpkg"
column = "method"

[[method]]
name      = "swathed"
cut_width = "35 ft"

[[method]]
name = "standing"
)";

/// `right` with the one place where `from` stands changed into `to`.
inline std::string with(const std::string& from, const std::string& to, std::string text = right) {
    const std::size_t at = text.find(from);
    if (at == std::string::npos || text.find(from, at + 1) != std::string::npos)
        throw std::logic_error("The text to change must stand in the season file exactly once: " + from);
    return text.replace(at, from.size(), to);
}

inline std::string with_more(const std::string& lines) { return right + "\n" + lines; } // starts in line 23

/// The message of the InputError that `text` gives, or "accepted".
inline std::string refusal(const std::string& text) {
    try {
        static_cast<void>(parse_season(text, "season.toml"));
    } catch (const InputError& error) {
        return error.what();
    }
    return "accepted";
}

} // namespace quartercut::season_test
