// SPDX-License-Identifier: MIT
// Gathers the warnings that change the reading of a field's answer (care.hpp).
#include "report/care.hpp"

#include "report/sentences.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace quartercut::report {
namespace {

constexpr std::array<std::string_view, 4> codes = {"depends-on-model", "confounded", "earlier-map-differs",
                                                   "uneven-removal"};

bool is_of_codes(const Issue& issue) {
    return issue.severity != Severity::note && std::find(codes.begin(), codes.end(), issue.code) != codes.end();
}

std::string sentence(std::string text) {
    if (!text.empty() && text.back() != '.') text += '.';
    return capital(std::move(text));
}

void add_once(std::vector<std::string>& all, const std::string& text) {
    if (std::find(all.begin(), all.end(), text) == all.end()) all.push_back(text);
}

bool has(const std::vector<std::string>& all, const std::string& text) {
    return std::find(all.begin(), all.end(), text) != all.end();
}

// What is mixed up with the method in several fields is a remark of the season; the field's own answer leaves it out in
// the same words.
void add_from_season(std::vector<std::string>& all, const Issue& issue, const FieldComparison& field) {
    if (issue.code != "confounded") return;
    for (const auto& contrast : field.contrasts) {
        for (const auto& item : contrast.leaves_out) {
            if (!item.empty() && issue.message.find(item) != std::string::npos) add_once(all, sentence(item));
        }
    }
}

// That no machine cut both, of any two methods of the field.
bool is_of_machines(const std::string& text, const FieldComparison& field) {
    for (const auto& crossing : field.crossings) {
        for (const auto& method : crossing.methods) {
            for (const auto& baseline : crossing.methods) {
                if (text == sentence(fill(spoken().compare.apart_machine, fmt::arg("method", method),
                                          fmt::arg("baseline", baseline))))
                    return true;
            }
        }
    }
    return false;
}

bool says_own_machines(const FieldComparison& field) {
    return std::any_of(field.contrasts.begin(), field.contrasts.end(),
                       [](const Contrast& contrast) { return contrast.machine_is_method; });
}

} // namespace

std::vector<std::string> cares_of(const Results& results, const FieldComparison& field) {
    std::vector<std::string> all;
    for (const auto& issue : field.issues) {
        if (is_of_codes(issue)) add_once(all, sentence(issue.message));
    }
    for (std::size_t i = 0; i < results.cleaned.fields.size() && i < results.standardised.fields.size(); ++i) {
        if (results.standardised.fields[i].name != field.name) continue;
        for (const auto& issue : results.cleaned.fields[i].issues) {
            if (is_of_codes(issue)) add_once(all, sentence(issue.message));
        }
    }
    for (const auto& issue : results.comparison.issues) {
        if (issue.where == field.name && is_of_codes(issue)) add_once(all, sentence(issue.message));
        add_from_season(all, issue, field);
    }
    if (says_own_machines(field))
        std::erase_if(all, [&](const std::string& text) { return is_of_machines(text, field); });
    return all;
}

std::vector<std::string> cares_of_all(const Results& results) {
    std::vector<std::string> shared;
    int fields = 0;
    for (const auto& field : results.comparison.fields) {
        if (!is_compared(field)) continue;
        const auto own = cares_of(results, field);
        if (fields++ == 0) shared = own;
        std::erase_if(shared, [&](const std::string& text) { return !has(own, text); });
    }
    return fields > 1 ? shared : std::vector<std::string>{};
}

} // namespace quartercut::report
