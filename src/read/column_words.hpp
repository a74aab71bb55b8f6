// SPDX-License-Identifier: MIT
// The trade's words for what a monitor records: the table by which columns are recognised.
#pragma once

#include "quartercut/season.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace quartercut::reading {

/// One way of naming a meaning. Common practice, no source.
struct ColumnWord {
    Meaning meaning;
    std::string_view phrase; ///< words separated by blanks, all of which must stand in the name in this order
    int points;              ///< how sure the phrase makes us; 5 is the least that counts
};

/// A word that rules a meaning out: "fan speed" is no ground speed.
struct ForbiddenWord {
    Meaning meaning;
    std::string_view words; ///< separated by blanks
};

[[nodiscard]] std::span<const ColumnWord> column_words();
[[nodiscard]] std::string_view forbidden_words(Meaning meaning);
/// Words that say nothing about the meaning: "grain", "crop", "value".
/// Is `word` in a list of words separated by blanks?
[[nodiscard]] bool in_list(std::string_view list, std::string_view word);
[[nodiscard]] bool is_filler(std::string_view word);

/// The same of files, whose coordinates state no unit: nullopt for them too.
[[nodiscard]] std::optional<Dimension> stated_dimension_of(Meaning meaning);

} // namespace quartercut::reading
