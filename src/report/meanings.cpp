// SPDX-License-Identifier: MIT
// Writes what words mean (meanings.hpp).
#include "report/meanings.hpp"

#include "report/cautions.hpp"

namespace quartercut::report {

void write_meant(Html& html, const Telling&, std::initializer_list<std::string_view> words) {
    const auto paragraph = html.in("p", {{"class", "note meant"}});
    for (const std::string_view wanted : words) {
        for (const auto& [word, meaning] : english_words) {
            if (word != wanted) continue;
            html.leaf("dfn", std::string(word) + ":");
            html.text(" " + small(meaning) + " ");
        }
    }
}

void write_glossary(Html& html, const Telling& telling) {
    html.leaf("h3", telling.words.page.glossary, {{"id", "words"}});
    const auto list = html.in("dl", {{"class", "meanings"}});
    for (const auto& [word, meaning] : english_words) {
        html.leaf("dt", word, {{"id", "word-" + slug(word)}});
        html.leaf("dd", meaning);
    }
}

} // namespace quartercut::report
