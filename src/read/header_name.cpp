// SPDX-License-Identifier: MIT
// Taking column names apart.
#include "read/header_name.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::reading {
namespace {

bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
bool is_small(char c) { return c >= 'a' && c <= 'z'; }
bool joins_words(char c) { return is_letter(c) || is_digit(c) || static_cast<unsigned char>(c) >= 0x80U || c == '%'; }

/// A new word begins at `i`: "grainFlow" at F, "GPSTime" at T.
bool begins_word(std::string_view text, std::size_t i) {
    if (i == 0 || !is_capital(text[i])) return false;
    if (is_small(text[i - 1])) return true;
    return is_capital(text[i - 1]) && i + 1 < text.size() && is_small(text[i + 1]);
}

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    const auto finish = [&] {
        if (!word.empty()) words.push_back(lower(word));
        word.clear();
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!joins_words(text[i])) {
            finish();
            continue;
        }
        if (begins_word(text, i)) finish();
        word += text[i];
    }
    finish();
    return words;
}

} // namespace

HeaderName taken_apart(std::string_view name) {
    HeaderName out;
    std::string outside;
    std::size_t at = 0;
    while (at < name.size()) {
        const std::size_t open = name.find_first_of("([", at);
        const std::size_t close = open == std::string_view::npos ? open : name.find_first_of(")]", open);
        outside += fmt::format("{} ", name.substr(at, open == std::string_view::npos ? open : open - at));
        if (open == std::string_view::npos) break;
        out.bracket = trim(name.substr(open + 1, close == std::string_view::npos ? close : close - open - 1));
        // Brackets may hold a word rather than a unit: "Yield (dry)".
        if (lower(out.bracket) == "wet" || lower(out.bracket) == "dry") outside += out.bracket + " ";
        if (close == std::string_view::npos) break;
        at = close + 1;
    }
    out.words = words_of(outside);
    if (out.words.empty()) out.words = words_of(name);
    const auto says = [&](std::string_view word) {
        return std::find(out.words.begin(), out.words.end(), word) != out.words.end();
    };
    out.wet = says("wet") || says("wetmass") || says("wetyield") || says("yieldwet");
    out.dry = says("dry") || says("drymass") || says("dryyield") || says("yielddry");
    return out;
}

std::optional<UnitInName> unit_in_name(const HeaderName& name, Dimension dimension, std::optional<double> bushel_lb) {
    const auto known = [&](const std::string& unit) { return unit_factor(dimension, unit, bushel_lb).has_value(); };
    if (!name.bracket.empty() && known(name.bracket)) return UnitInName{name.bracket, 0};
    const std::vector<std::string>& w = name.words;
    const std::size_t n = w.size();
    if (n >= 4 && w[n - 2] == "per" && known(w[n - 3] + "/" + w[n - 1]))
        return UnitInName{w[n - 3] + "/" + w[n - 1], 3};
    if (n >= 3 && known(w[n - 2] + "/" + w[n - 1])) return UnitInName{w[n - 2] + "/" + w[n - 1], 2};
    if (n >= 2 && known(w[n - 1])) return UnitInName{w[n - 1], 1};
    return std::nullopt;
}

} // namespace quartercut::reading
