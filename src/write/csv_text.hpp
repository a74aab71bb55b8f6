// SPDX-License-Identifier: MIT
// One value -> one CSV cell.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace quartercut::write {

/// Quoted by RFC 4180 section 2 where needed, otherwise as it is: for data that a program reads back.
[[nodiscard]] std::string csv_quoted(std::string_view text);

/// The same for a person's spreadsheet. A text that a spreadsheet would run as a formula (it begins with = + - @,
/// a tab or a carriage return) gets an apostrophe in front, so that it stays text.
[[nodiscard]] std::string csv_cell(std::string_view text);

/// Shortest decimal that reads back as the same number; empty for NaN, infinity and nullopt.
[[nodiscard]] std::string csv_number(double value);
[[nodiscard]] std::string csv_number(const std::optional<double>& value);

} // namespace quartercut::write
