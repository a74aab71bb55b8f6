// SPDX-License-Identifier: MIT
// Groups remarks (remarks.hpp) and writes them as lines for the terminal.
#include "report/remarks.hpp"

#include "quartercut/report.hpp"
#include "report/telling.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::report {
namespace {

constexpr std::size_t most_names = 8;

void add_once(std::vector<std::string>& list, const std::string& text) {
    if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end()) list.push_back(text);
}

// What a template says before its first place: ", machine {machine}" -> ", machine "
std::string beginning(const char* pattern) {
    const std::string text = pattern;
    return text.substr(0, text.find('{'));
}

// "field Home" -> "Home"
std::string without_field(const std::string& where) {
    const std::string field = beginning(spoken().places.field);
    return where.starts_with(field) ? where.substr(field.size()) : where;
}

// "field Home, machine A, method swathed" -> "Home"
std::string short_place(std::string where) {
    const auto& words = spoken().places;
    for (const char* part : {words.then_machine, words.then_method, words.then_row}) {
        const auto at = where.find(beginning(part));
        if (at != std::string::npos) where.erase(at);
    }
    return without_field(where);
}

} // namespace

std::vector<RemarkGroup> grouped(const Issues& issues) {
    std::vector<RemarkGroup> groups;
    for (const auto& issue : issues) {
        auto group = std::find_if(groups.begin(), groups.end(), [&](const RemarkGroup& known) {
            return known.first.severity == issue.severity && known.first.code == issue.code &&
                   known.first.message == issue.message;
        });
        if (group == groups.end()) group = groups.insert(groups.end(), {issue, {}, {}});
        add_once(group->places, issue.where);
        add_once(group->names, short_place(issue.where));
    }
    // What a reader must know stands before what is merely told.
    std::stable_sort(groups.begin(), groups.end(), [](const RemarkGroup& one, const RemarkGroup& other) {
        return one.first.severity > other.first.severity;
    });
    return groups;
}

std::string places_text(const RemarkGroup& group) {
    if (group.places.size() == 1) return without_field(group.places.front());
    const std::size_t shown = std::min(group.names.size(), most_names);
    const auto end = group.names.begin() + static_cast<std::ptrdiff_t>(shown);
    std::string text = fmt::format("{}", fmt::join(group.names.begin(), end, ", "));
    if (shown < group.names.size()) text += " ...";
    if (group.places.size() > shown) text += fill(spoken().page.more_places, fmt::arg("count", group.places.size()));
    return text;
}

} // namespace quartercut::report

namespace quartercut {

std::vector<std::string> remark_lines(const Issues& issues) {
    std::vector<std::string> lines;
    for (const auto& group : report::grouped(issues)) {
        const std::string places = report::places_text(group);
        lines.push_back(fmt::format("{} [{}] {}{}", severity_word(group.first.severity), group.first.code,
                                    group.first.message, places.empty() ? "" : " (" + places + ")"));
    }
    return lines;
}

} // namespace quartercut
