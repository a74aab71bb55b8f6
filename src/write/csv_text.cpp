// SPDX-License-Identifier: MIT
// CSV cells by RFC 4180, safe to open in a spreadsheet.
#include "write/csv_text.hpp"

#include <fmt/format.h>

#include <cmath>

namespace quartercut::write {

std::string csv_quoted(std::string_view text) {
    if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

std::string csv_cell(std::string_view text) {
    std::string safe;
    if (!text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos) safe += '\'';
    safe += text;
    return csv_quoted(safe);
}

std::string csv_number(double value) { return std::isfinite(value) ? fmt::format("{}", value) : std::string(); }

std::string csv_number(const std::optional<double>& value) { return value ? csv_number(*value) : std::string(); }

} // namespace quartercut::write
