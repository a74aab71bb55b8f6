// SPDX-License-Identifier: MIT
// One cell of a table: is it empty, is it a number?
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace quartercut::reading {

/// Empty, or a word people and programs write for "nothing": NA, N/A, NaN, null, none, -, --, #N/A.
[[nodiscard]] bool is_missing(std::string_view cell);

/// The number a cell holds (blanks around it allowed), with `.` or, where said, `,` as the decimal sign; nullopt when
/// it is something else. Never NaN or infinite.
[[nodiscard]] std::optional<double> cell_number(std::string_view cell, bool decimal_comma = false);

/// The value many programs write for "no reading".
inline constexpr double missing_number = -9999.0;

/// A cell without the blanks and quotation marks around it; doubled marks inside become single.
[[nodiscard]] std::string unquoted(std::string_view cell);

} // namespace quartercut::reading
