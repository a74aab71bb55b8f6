// SPDX-License-Identifier: MIT
// What every part of the page is handed: the results, how numbers are written, and the words.
#pragma once

#include "base/words/words.hpp"
#include "quartercut/results.hpp"
#include "report/figures.hpp"
#include "report/html.hpp"

#include <fmt/args.h>
#include <fmt/format.h>
#include <string>

namespace quartercut::report {

struct Telling {
    const Results& results;
    Figures figures;
    const Words& words;
    explicit Telling(const Results& of) : results(of), figures(of.season), words(spoken()) {}
    /// The same told in t/ha.
    [[nodiscard]] Telling in_si() const {
        Telling si = *this;
        si.figures = figures.in_si();
        return si;
    }
    [[nodiscard]] const Season& season() const { return results.season; }
    /// Are there so few fields that each is drawn? A page of thousands of maps opens in no browser.
    [[nodiscard]] bool draws_each_field() const { return results.comparison.fields.size() <= most_drawn_fields; }

    static constexpr std::size_t most_drawn_fields = 200;
};

/// An element whose text is `write(telling)`. What it says in t/ha stands beside it, for the page's switch of units.
template <class Write>
void leaf_in_both(Html& html, std::string_view tag, const Telling& telling, const Write& write,
                  Attributes attributes = {}) {
    const std::string text = write(telling);
    const std::string si = write(telling.in_si());
    if (si != text) attributes.push_back({"data-si", si});
    html.leaf(tag, text, attributes);
}

/// First letter in capitals, and in small letters.
[[nodiscard]] std::string capital(std::string text);
[[nodiscard]] std::string small(std::string text);

/// Label of a method by name; the name where the season file gives no label.
[[nodiscard]] std::string label_of(const Season& season, const std::string& method);

/// The words of a finding and of an evidence class for a reader: "more, and more than chance", "whole fields", ...
[[nodiscard]] std::string finding_text(Finding finding);
[[nodiscard]] std::string evidence_text(Evidence evidence);
[[nodiscard]] std::string evidence_text(const std::string& word);

/// One or two words for it: "strips", "split fields", "whole fields".
[[nodiscard]] std::string evidence_short(const std::string& word);

/// "gain", "loss", "leans", "none" or "unfit": the class that styles a finding. Colour is never its only carrier.
[[nodiscard]] const char* finding_style(Finding finding);

} // namespace quartercut::report
