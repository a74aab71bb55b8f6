// SPDX-License-Identifier: MIT
// What the range leaves out, and the cautions a reader needs before acting.
#include "report/sections.hpp"
#include "report/sentences.hpp"

#include <algorithm>

namespace quartercut::report {
namespace {

std::size_t compared_fields(const Results& results) {
    const auto& fields = results.comparison.fields;
    return static_cast<std::size_t>(std::count_if(fields.begin(), fields.end(), is_compared));
}

// A thing left out, and the fields it was said of; none: it holds for all.
struct LeftOut {
    std::string what;
    std::vector<std::string> fields;
};

// "Home, Hill: no machine cut both" -> the fields and the rest; a text whose beginning names no fields stays whole.
LeftOut apart(const Results& results, const std::string& item) {
    const auto colon = item.find(": ");
    if (colon == std::string::npos) return {item, {}};
    LeftOut out{item.substr(colon + 2), {}};
    const std::string names = item.substr(0, colon);
    std::string rest = names;
    for (const auto& field : results.comparison.fields) {
        if (rest.rfind(field.name, 0) != 0) continue;
        const bool last = rest.size() == field.name.size();
        if (!last && rest.compare(field.name.size(), 2, ", ") != 0) continue;
        out.fields.push_back(field.name);
        rest = last ? "" : rest.substr(field.name.size() + 2);
    }
    return out.fields.empty() || !rest.empty() ? LeftOut{item, {}} : out;
}

void add_to(std::vector<LeftOut>& all, const LeftOut& more) {
    const auto same = [&](const LeftOut& known) { return capital(known.what) == capital(more.what); };
    const auto known = std::find_if(all.begin(), all.end(), same);
    if (known == all.end()) return all.push_back(more);
    if (known->fields.empty()) return; // already said of all
    for (const auto& name : more.fields) {
        if (std::find(known->fields.begin(), known->fields.end(), name) == known->fields.end())
            known->fields.push_back(name);
    }
}

// Each thing once, in the order first met, with the fields it was said of. What a field's own comparison leaves out is
// said of that field where the farm names fields for the same thing, and once for all otherwise.
std::vector<std::string> left_out(const Results& results) {
    std::vector<LeftOut> all;
    for (const auto& farm : results.comparison.farm) {
        for (const auto& item : farm.leaves_out)
            add_to(all, apart(results, item));
    }
    for (const auto& field : results.comparison.fields) {
        for (const auto& contrast : field.contrasts) {
            for (const auto& item : contrast.leaves_out)
                add_to(all, {item, {field.name}});
        }
    }
    std::vector<std::string> out;
    for (const auto& item : all) {
        const bool everywhere = item.fields.empty() || item.fields.size() == compared_fields(results);
        out.push_back(everywhere ? capital(item.what) : fmt::format("{}: {}", fmt::join(item.fields, ", "), item.what));
    }
    return out;
}

} // namespace

void write_limits(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    const auto section = html.in("section", {{"id", "limits"}, {"aria-labelledby", "limits-heading"}});
    html.leaf("h2", words.leaves_out, {{"id", "limits-heading"}});
    const auto out = left_out(telling.results);
    if (!out.empty()) {
        html.leaf("p", words.leaves_out_note);
        const auto list = html.in("ul");
        for (const auto& item : out)
            html.leaf("li", item);
    }
    html.leaf("h3", words.cautions);
    const auto list = html.in("ul", {{"class", "cautions"}});
    for (const char* caution : telling.words.cautions)
        html.leaf("li", caution);
}

} // namespace quartercut::report
