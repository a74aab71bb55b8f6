// SPDX-License-Identifier: MIT
// Reading single cells: blanks, words for "nothing", numbers with point or comma.
#include "read/cells.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace quartercut::reading {
namespace {

constexpr std::array<std::string_view, 9> words_for_nothing{"na", "n/a", "nan",  "null", "none",
                                                            "-",  "--",  "#n/a", "nil"};

std::string_view without_blanks(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
        text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
        text.remove_suffix(1);
    return text;
}

std::optional<double> plain_number(std::string_view text) {
    if (!text.empty() && text.front() == '+') text.remove_prefix(1);
    if (text.empty() || text.front() == '+') return std::nullopt;
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stopped, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc() || stopped != end || !std::isfinite(value)) return std::nullopt;
    return value;
}

} // namespace

bool is_missing(std::string_view cell) {
    cell = without_blanks(cell);
    if (cell.empty()) return true;
    if (cell.size() > 4) return false;
    const std::string small = lower(cell);
    return std::find(words_for_nothing.begin(), words_for_nothing.end(), small) != words_for_nothing.end();
}

std::optional<double> cell_number(std::string_view cell, bool decimal_comma) {
    cell = without_blanks(cell);
    if (!decimal_comma) return plain_number(cell);
    const std::size_t comma = cell.find(',');
    if (comma == std::string_view::npos) return plain_number(cell);
    if (cell.find(',', comma + 1) != std::string_view::npos || cell.size() > 64) return std::nullopt;
    std::string pointed(cell);
    pointed[comma] = '.';
    return plain_number(pointed);
}

std::string unquoted(std::string_view cell) {
    cell = without_blanks(cell);
    if (cell.size() < 2 || cell.front() != '"' || cell.back() != '"') return std::string(cell);
    cell = cell.substr(1, cell.size() - 2);
    std::string out;
    for (std::size_t i = 0; i < cell.size(); ++i) {
        out += cell[i];
        if (cell[i] == '"' && i + 1 < cell.size() && cell[i + 1] == '"') ++i;
    }
    return out;
}

} // namespace quartercut::reading
