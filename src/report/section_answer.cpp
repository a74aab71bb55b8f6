// SPDX-License-Identifier: MIT
// What the page opens with: the answer for the farm, then field by field, and what its words mean.
#include "report/care.hpp"
#include "report/closing.hpp"
#include "report/meanings.hpp"
#include "report/sections.hpp"
#include "report/sentences.hpp"

#include <algorithm>

namespace quartercut::report {
namespace {

using fmt::arg;

void write_farm_answer(Html& html, const Telling& telling, const FarmContrast& contrast, bool lead) {
    leaf_in_both(html, "p", telling, [&](const Telling& in) { return farm_sentence(in, contrast); },
                 {{"class", (lead ? "answer " : "answer second ") + std::string(finding_style(contrast.finding))},
                  {"data-finding", finding_word(contrast.finding)}});
}

// The best evidence decides and leads (`compare` puts it first); the other kinds, and several years, stand quieter.
void write_farm_answers(Html& html, const Telling& telling) {
    const std::string* leading = nullptr;
    const auto& farm = telling.results.comparison.farm;
    for (std::size_t i = 0; i < farm.size(); ++i) {
        const FarmContrast& contrast = farm[i];
        if (!is_answer(farm, i)) continue;
        if (leading == nullptr) leading = &contrast.evidence;
        write_farm_answer(html, telling, contrast, contrast.evidence == *leading);
        const auto raw = [&](const Telling& in) { return farm_raw_sentence(in, contrast); };
        if (!raw(telling).empty()) leaf_in_both(html, "p", telling, raw, {{"class", "raw"}});
    }
    for (const auto& contrast : telling.results.comparison.seasons)
        write_farm_answer(html, telling, contrast, false);
}

void write_cares(Html& html, const char* pattern, const std::vector<std::string>& cares) {
    for (const auto& what : cares)
        html.leaf("p", fill(pattern, arg("what", what)), {{"class", "care"}});
}

// `lead`: no sentence for the farm stands above, so the fields' own are the answer and look like it. `said`: cares that
// were said of all fields.
void write_field_answer(Html& html, const Telling& telling, std::size_t index, bool lead,
                        const std::vector<std::string>& said) {
    const auto& field = telling.results.comparison.fields[index];
    const auto item = html.in("li");
    html.leaf("a", field.name, {{"href", "#field-" + std::to_string(index + 1)}, {"class", "field-name"}});
    for (const auto& contrast : field.contrasts) {
        if (contrast.stratum) continue;
        leaf_in_both(html, "p", telling, [&](const Telling& in) { return field_sentence(in, field, contrast); },
                     {{"class", std::string(lead ? "answer " : "") + finding_style(contrast.finding)},
                      {"data-finding", finding_word(contrast.finding)}});
    }
    if (!is_compared(field)) {
        return leaf_in_both(html, "p", telling, [&](const Telling& in) { return lone_field_sentence(in, index); });
    }
    const std::string caution = shared_caution(telling, field);
    if (!caution.empty()) html.leaf("p", caution);
    auto cares = cares_of(telling.results, field);
    std::erase_if(cares, [&](const auto& what) { return std::count(said.begin(), said.end(), what) > 0; });
    write_cares(html, telling.words.page.caution, cares);
}

void write_field_answers(Html& html, const Telling& telling) {
    const auto& comparison = telling.results.comparison;
    const bool lead = std::none_of(comparison.farm.begin(), comparison.farm.end(), is_told);
    if (!lead) html.leaf("h3", telling.words.page.by_field);
    const auto shared = cares_of_all(telling.results);
    write_cares(html, telling.words.page.caution_of_all, shared);
    const auto alone = lone_fields(telling.results);
    const auto list = html.in("ul", {{"class", "field-answers"}});
    for (std::size_t i = 0; i < comparison.fields.size(); ++i) {
        if (std::count(alone.begin(), alone.end(), i) == 0) write_field_answer(html, telling, i, lead, shared);
    }
    if (alone.empty()) return;
    leaf_in_both(html, "li", telling, [&](const Telling& in) { return lone_fields_sentence(in, alone); });
}

// A label that repeats the name is none.
bool says_nothing(const Method& method) { return method.label.empty() || method.label == method.name; }

void write_methods(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto& season = telling.season();
    html.leaf("h3", words.meant_by);
    const auto& methods = season.methods;
    if (std::all_of(methods.begin(), methods.end(), [](const auto& method) { return says_nothing(method); })) {
        std::vector<std::string> others;
        for (const auto& method : methods) {
            if (method.name != season.baseline) others.push_back(method.name);
        }
        html.leaf("p", capital(fill(words.no_labels, arg("others", fmt::format("{}", fmt::join(others, ", "))),
                                    arg("baseline", season.baseline))));
        return;
    }
    const auto list = html.in("dl", {{"class", "meanings"}});
    for (const auto& method : season.methods) {
        html.leaf("dt", method.name);
        std::string meaning = says_nothing(method) ? words.no_label : method.label;
        if (method.name == season.baseline) meaning += " – " + std::string(words.compared_with);
        html.leaf("dd", meaning);
    }
}

// Were ranges widened because several comparisons are looked at together?
bool looks_several_times(const Comparison& comparison) {
    const auto several = [](const auto& contrast) { return contrast.looks > 1; };
    return std::any_of(comparison.farm.begin(), comparison.farm.end(), several) ||
           std::any_of(comparison.fields.begin(), comparison.fields.end(), [&](const auto& field) {
               return std::any_of(field.contrasts.begin(), field.contrasts.end(), several);
           });
}

} // namespace

void write_answer(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "answer"}, {"aria-labelledby", "answer-heading"}});
    html.leaf("h2", words.answer, {{"id", "answer-heading"}});
    const auto& comparison = telling.results.comparison;
    if (comparison.fields.empty()) html.leaf("p", telling.words.answer.nothing, {{"class", "answer none"}});
    write_farm_answers(html, telling);
    if (!comparison.fields.empty()) write_field_answers(html, telling);
    html.leaf("p", words.answer_note, {{"class", "note"}});
    if (looks_several_times(comparison)) html.leaf("p", words.several_note, {{"class", "note"}});
    write_meant(html, telling, {Term::calibration_error, Term::raw_map});
    write_methods(html, telling);
}

} // namespace quartercut::report
