// SPDX-License-Identifier: MIT
// Another language made by marking every word of the table of words: what comes out unmarked did not come from there.
#pragma once

#include "base/words/words.hpp"

#include <array>
#include <cctype>
#include <cstring>
#include <deque>
#include <regex>
#include <set>
#include <string>
#include <type_traits>
#include <vector>

namespace quartercut {

inline constexpr const char* mark = "\xC2\xA7"; // a section sign

/// Behind the first letter of every word, places of a template left as they are: "T§he f§ield {field}"; before a
/// template without words.
inline std::string marked(const std::string& text) {
    std::string out;
    bool in_word = false, in_place = false;
    for (const char c : text) {
        out += c;
        if (c == '{' || c == '}') in_place = c == '{';
        const bool letter = std::isalpha(static_cast<unsigned char>(c)) != 0;
        if (letter && !in_word && !in_place) out += mark;
        in_word = letter || (in_word && c == '\'');
    }
    return out == text ? mark + text : out;
}

class MarkedWords {
public:
    MarkedWords() {
        mark_all(words.answer, words.page, words.kinds, words.plan, words.money, words.losses, words.weather,
                 words.choice, words.cab, words.counting, words.sheets, words.cautions, words.terms, words.places,
                 words.read, words.standardise, words.clean, words.zone, words.compare, words.robustness, words.advice,
                 words.tokens, words.numbers.months, words.numbers.counts, words.numbers.from_to,
                 words.numbers.from_less_to_more, words.numbers.date, words.numbers.unknown);
        words.numbers.point = ',';
        words.numbers.thousands = "\xC2\xA0";
        words.language = "fr-CA";
    }
    Words words;

private:
    template <class... Tables>
    void mark_all(Tables&... tables) {
        (mark_one(tables), ...);
    }
    template <class Table>
    void mark_one(Table& table) {
        static_assert(std::is_trivially_copyable_v<Table> && sizeof(Table) % sizeof(const char*) == 0);
        std::array<const char*, sizeof(Table) / sizeof(const char*)> all{};
        std::memcpy(all.data(), &table, sizeof(Table));
        for (const char*& text : all)
            text = kept_.emplace_back(marked(text)).c_str();
        std::memcpy(static_cast<void*>(&table), all.data(), sizeof(Table));
    }
    std::deque<std::string> kept_; // stays where it is while growing
};

/// What a reader, or a reader of screens, meets: text between tags (titles and descriptions of drawings among it) and
/// the attributes that are read out or take the text's place.
inline std::vector<std::string> pieces_of(const std::string& page) {
    const std::string body = page.substr(page.find("<body"), page.find("<script>") - page.find("<body"));
    const std::regex piece(
        "(?:>|(?:aria-label|data-si|title|alt|placeholder)=\")([^<>\"]*[A-Za-z]{2}[^<>\"]*)(?=[<\"])");
    std::vector<std::string> out;
    for (std::sregex_iterator at(body.begin(), body.end(), piece), end; at != end; ++at)
        out.push_back((*at)[1]);
    return out;
}

/// Words of three letters and more that carry no mark.
inline std::set<std::string> plain_words(const std::string& text) {
    std::set<std::string> out;
    std::string word;
    bool is_marked = false;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        const char c = i < text.size() ? text[i] : ' ';
        if (text.compare(i, 2, mark) == 0) {
            is_marked = is_marked || !word.empty();
            ++i;
        } else if (std::isalpha(static_cast<unsigned char>(c)) != 0 || (is_marked && c == '\'')) {
            word += c;
        } else {
            if (!is_marked && word.size() >= 3) out.insert(word);
            word.clear();
            is_marked = false;
        }
    }
    return out;
}

} // namespace quartercut
