// SPDX-License-Identifier: MIT
// Writes what words mean (meanings.hpp).
#include "report/meanings.hpp"

namespace quartercut::report {

void write_meant(Html& html, const Telling& telling, std::initializer_list<Term> terms) {
    const auto paragraph = html.in("p", {{"class", "note meant"}});
    for (const Term term : terms) {
        const auto& [word, meaning] = telling.words.terms[static_cast<std::size_t>(term)];
        html.leaf("dfn", std::string(word) + ":");
        html.text(" " + small(meaning) + " ");
    }
}

void write_glossary(Html& html, const Telling& telling) {
    html.leaf("h3", telling.words.page.glossary, {{"id", "words"}});
    const auto list = html.in("dl", {{"class", "meanings"}});
    for (const auto& [word, meaning] : telling.words.terms) {
        html.leaf("dt", word, {{"id", "word-" + slug(word)}});
        html.leaf("dd", meaning);
    }
}

} // namespace quartercut::report
