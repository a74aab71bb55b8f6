// SPDX-License-Identifier: MIT
// What the range leaves out, and the cautions a reader needs before acting.
#include "report/cautions.hpp"
#include "report/sections.hpp"

#include <algorithm>

namespace quartercut::report {
namespace {

// Each thing once, in the order first met.
std::vector<std::string> left_out(const Results& results) {
    std::vector<std::string> out;
    const auto add = [&out](const std::vector<std::string>& items) {
        for (const auto& item : items) {
            if (std::find(out.begin(), out.end(), item) == out.end()) out.push_back(item);
        }
    };
    for (const auto& farm : results.comparison.farm)
        add(farm.leaves_out);
    for (const auto& field : results.comparison.fields) {
        for (const auto& contrast : field.contrasts)
            add(contrast.leaves_out);
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
    for (const char* caution : english_cautions)
        html.leaf("li", caution);
}

} // namespace quartercut::report
