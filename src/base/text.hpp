// SPDX-License-Identifier: MIT
// Small helpers for text, none of which looks at the locale: a decimal point is a point on every machine.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut {

/// Without blanks, tabs, line ends and no-break spaces (UTF-8) at either end.
[[nodiscard]] std::string_view trim(std::string_view text);

/// ASCII letters made small; other bytes untouched.
[[nodiscard]] std::string lower(std::string_view text);

[[nodiscard]] bool is_digit(char c);
[[nodiscard]] bool is_letter(char c); ///< ASCII letter

/// The number the whole text is (trimmed; "12", "-3.5", "+1e3"), or nullopt. Never NaN or infinite; no hex, no commas.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);
/// The whole number the whole text is, or nullopt.
[[nodiscard]] std::optional<int> parse_whole_number(std::string_view text);

/// Fixed decimals with a point: format_fixed(2.5, 2) is "2.50". NaN gives "unknown"; -0.00 gives "0.00".
[[nodiscard]] std::string format_fixed(double value, int decimals);
/// The shortest text that reads back as the same number: "35", "0.1".
[[nodiscard]] std::string format_shortest(double value);

/// Every `from` (not empty) become `to`, left to right; what was put in is not looked at again.
[[nodiscard]] std::string replace_all(std::string_view text, std::string_view from, std::string_view to);

/// The text as it may stand in a message: at most 60 bytes, then "...", never cut inside a character.
[[nodiscard]] std::string shortened(std::string_view text);

/// Parts between separators, untrimmed; an empty text gives one empty part.
[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);
[[nodiscard]] std::string join(const std::vector<std::string>& parts, std::string_view separator);
/// "a", "a or b", "a, b or c".
[[nodiscard]] std::string join_with(const std::vector<std::string>& parts, std::string_view last_word);

/// Letters to insert, drop, change or swap with their neighbour to get from one word to the other.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);
/// The word most like `text` (case does not matter; the first of equals), or nullopt when none is similar: more than
/// a third of the longer word would have to change, and two letters at least. Then the only word that begins with it
/// ("Home" for "Home Quarter"), from three letters on.
[[nodiscard]] std::optional<std::string> nearest_word(std::string_view text, const std::vector<std::string>& words);
/// " Did you mean 'x'?" or nothing.
[[nodiscard]] std::string did_you_mean(std::string_view word, const std::vector<std::string>& words);

/// "'a', 'b' and 12 more", for lists of layers, columns and names in messages; "none" for none.
[[nodiscard]] std::string listed(const std::vector<std::string>& words, std::size_t most = 24);

} // namespace quartercut
