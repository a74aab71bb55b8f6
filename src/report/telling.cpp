// SPDX-License-Identifier: MIT
// Names, findings and evidence classes in a reader's words (telling.hpp).
#include "report/telling.hpp"

namespace quartercut::report {

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string small(std::string text) {
    if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] - 'A' + 'a');
    return text;
}

std::string label_of(const Season& season, const std::string& method) {
    const int code = season.method_code(method);
    if (code < 0) return method;
    const auto& found = season.methods[static_cast<std::size_t>(code)];
    return found.label.empty() ? found.name : found.label;
}

std::string finding_text(Finding finding) {
    switch (finding) {
    case Finding::gain:
        return spoken().kinds.gain;
    case Finding::loss:
        return spoken().kinds.loss;
    case Finding::leans_gain:
        return spoken().kinds.leans_gain;
    case Finding::leans_loss:
        return spoken().kinds.leans_loss;
    case Finding::not_shown:
        return spoken().kinds.not_shown;
    case Finding::not_comparable:
        return spoken().kinds.not_comparable;
    }
    return {};
}

std::string evidence_text(Evidence evidence) {
    switch (evidence) {
    case Evidence::replicated_randomised:
        return spoken().kinds.replicated_randomised;
    case Evidence::replicated:
        return spoken().kinds.replicated;
    case Evidence::split:
        return spoken().kinds.split;
    case Evidence::whole_field:
        return spoken().kinds.whole_field;
    }
    return {};
}

std::string evidence_text(const std::string& word) {
    for (const auto evidence :
         {Evidence::replicated_randomised, Evidence::replicated, Evidence::split, Evidence::whole_field}) {
        if (word == evidence_word(evidence)) return evidence_text(evidence);
    }
    return word;
}

std::string evidence_short(const std::string& word) {
    if (word == evidence_word(Evidence::replicated_randomised) || word == evidence_word(Evidence::replicated)) {
        return spoken().kinds.strips;
    }
    if (word == evidence_word(Evidence::split)) return spoken().kinds.parts;
    return word == evidence_word(Evidence::whole_field) ? spoken().kinds.whole_field : word;
}

const char* finding_style(Finding finding) {
    switch (finding) {
    case Finding::gain:
        return "gain";
    case Finding::loss:
        return "loss";
    case Finding::leans_gain:
    case Finding::leans_loss:
        return "leans";
    case Finding::not_shown:
        return "none";
    case Finding::not_comparable:
        return "unfit";
    }
    return "none";
}

} // namespace quartercut::report
