// SPDX-License-Identifier: MIT
#include "cli/check_report.hpp"

#include "cli/terminal.hpp"

#include "quartercut/job.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <map>
#include <regex>

namespace quartercut::cli {
namespace {

constexpr const char* k_whole_season = "The season as a whole";

bool begins_with_path(const std::string& text, const std::string& path) {
    if (path.empty() || !text.starts_with(path)) return false;
    return text.size() == path.size() || text[path.size()] == ':' || text[path.size()] == ',';
}

/// The file an issue is about, or the field, or the season.
std::string group_of(const Findings& findings, const Issue& issue) {
    for (const std::string* text : {&issue.where, &issue.message})
        for (const InputFile& input : findings.inputs)
            if (begins_with_path(*text, input.path)) return input.path;
    for (const std::string& field : findings.fields)
        if (issue.where.find(field) != std::string::npos) return "Field " + field;
    if (issue.where.starts_with("season file"))
        return findings.inputs.empty() ? k_whole_season : findings.inputs[0].path;
    const std::string head = issue.where.substr(0, issue.where.find(','));
    return head.empty() ? k_whole_season : head;
}

/// The message without the file's name in front: that stands above it. "season.toml:12:3: ..." stays whole.
std::string without_group(const std::string& message, const std::string& group) {
    const bool stands_there = message.starts_with(group + ": ") || message.starts_with(group + ", ");
    return stands_there ? message.substr(group.size() + 2) : message;
}

/// Where within the group: "layer 'fields', row 3".
std::string place_within(const std::string& where, const std::string& group) {
    if (begins_with_path(where, group) && where.size() > group.size() + 2) return where.substr(group.size() + 2) + ": ";
    const bool is_field = group == "Field " + where;
    return where == group || is_field || where.empty() || where.starts_with("season file") ? "" : where + ": ";
}

std::string issue_text(const Issue& issue, const std::string& group) {
    const std::string message = without_group(issue.message, group);
    // A refusal tells its place itself.
    const std::string place = issue.severity == Severity::error ? "" : place_within(issue.where, group);
    return fmt::format("  {:<8} {}{}\n", std::string(severity_word(issue.severity)) + ":", place, message);
}

/// "column 'Start'" of "tickets.csv, row 3, column 'Start': ..."; empty for other messages.
std::string column_at_fault(const std::string& message) {
    static const std::regex cell("\\brow [0-9]+, (column '[^']*'): ");
    std::smatch found;
    return std::regex_search(message, found, cell) ? found[1].str() : std::string();
}

/// Faults of one column in row after row: the first few, and how many more.
std::string issues_text(const Issues& issues, const std::string& group, Severity least) {
    constexpr std::size_t most_alike = 4;
    std::map<std::string, std::size_t> seen;
    std::string text;
    for (const Issue& issue : issues) {
        if (issue.severity < least) continue;
        const std::string column = column_at_fault(issue.message);
        if (!column.empty() && ++seen[column] > most_alike) continue;
        text += issue_text(issue, group);
    }
    for (const auto& [column, count] : seen)
        if (count > most_alike)
            text += fmt::format("           ... and {} more rows in {}\n", count - most_alike, column);
    return text;
}

struct Group {
    std::string name;
    Issues issues;
};

std::vector<Group> grouped(const Findings& findings) {
    std::vector<Group> groups;
    const auto group_named = [&](const std::string& name) -> Group& {
        const auto known = std::find_if(groups.begin(), groups.end(), [&](const Group& g) { return g.name == name; });
        if (known != groups.end()) return *known;
        groups.push_back({name, {}});
        return groups.back();
    };
    for (const InputFile& input : findings.inputs)
        (void)group_named(input.path);
    for (const Issue& issue : findings.issues)
        group_named(group_of(findings, issue)).issues.push_back(issue);
    std::erase_if(groups, [](const Group& group) { return group.issues.empty(); });
    for (Group& group : groups)
        std::stable_sort(group.issues.begin(), group.issues.end(),
                         [](const Issue& a, const Issue& b) { return a.severity > b.severity; });
    return groups;
}

std::string plural(std::size_t n, const std::string& word) {
    return fmt::format("{} {}{}", n, word, n == 1 ? "" : "s");
}

/// Files of which the same is to be said share one heading: names, and below what is said of each.
struct Block {
    std::vector<std::string> names;
    std::string text;
};

std::vector<Block> blocks_of(const Findings& findings, Severity least) {
    std::vector<Block> blocks;
    for (const Group& group : grouped(findings)) {
        const std::string text = issues_text(group.issues, group.name, least);
        const auto same = std::find_if(blocks.begin(), blocks.end(), [&](const Block& b) { return b.text == text; });
        if (text.empty()) continue;
        if (same != blocks.end())
            same->names.push_back(group.name);
        else
            blocks.push_back({{group.name}, text});
    }
    return blocks;
}

std::string heading(const std::vector<std::string>& names) {
    constexpr std::size_t most = 4;
    std::string out;
    for (std::size_t i = 0; i < names.size() && i < most; ++i)
        out += (i == 0 ? "" : ", ") + names[i];
    return names.size() <= most ? out : fmt::format("{} and {} more", out, names.size() - most);
}

/// The .dbf, .shx ... beside a .shp: read with it, and nothing to look at by themselves.
bool is_side_file(const std::vector<InputFile>& inputs, const InputFile& input) {
    const std::filesystem::path path(input.path);
    return input.rows == 0 && path.extension() != ".shp" &&
           std::any_of(inputs.begin(), inputs.end(), [&](const InputFile& other) {
               const std::filesystem::path shape(other.path);
               return shape.extension() == ".shp" && other.role == input.role &&
                      std::filesystem::path(path).replace_extension(shape.extension()) == shape;
           });
}

/// One line or entry a layer.
std::vector<InputFile> layers_of(const std::vector<InputFile>& inputs) {
    std::vector<InputFile> out = inputs;
    std::erase_if(out, [&](const InputFile& input) { return is_side_file(inputs, input); });
    return out;
}

} // namespace

std::size_t Findings::count(Severity severity) const {
    return static_cast<std::size_t>(
        std::count_if(issues.begin(), issues.end(), [=](const Issue& issue) { return issue.severity == severity; }));
}

Findings findings_of(const Results& results) {
    Findings out;
    out.inputs = results.standardised.inputs;
    for (const StandardField& field : results.standardised.fields)
        out.fields.push_back(field.name);
    out.issues = all_issues(results);
    return out;
}

std::string counts_text(const Findings& findings) {
    return fmt::format("{}, {} and {}", plural(findings.count(Severity::error), "error"),
                       plural(findings.count(Severity::warning), "warning"),
                       plural(findings.count(Severity::note), "note"));
}

std::string files_text(const Findings& findings) {
    std::string out = bold("Files") + "\n";
    for (const InputFile& input : layers_of(findings.inputs))
        out += fmt::format("  {:<10} {:>9} rows  {}{}\n", input.role, input.rows, input.path,
                           input.layer.empty() ? "" : ", layer " + input.layer);
    return out;
}

std::string findings_text(const Findings& findings, Severity least) {
    std::string out;
    for (const Block& block : blocks_of(findings, least))
        out += (out.empty() ? "" : "\n") + bold(heading(block.names)) + "\n" + block.text;
    const std::string reminder = row_reminder(out);
    return reminder.empty() ? out : out + reminder + "\n";
}

std::string findings_json(const Findings& findings) {
    nlohmann::ordered_json json;
    json["schema"] = "quartercut.check/1";
    json["stops"] = findings.stops();
    json["counts"] = {{"errors", findings.count(Severity::error)},
                      {"warnings", findings.count(Severity::warning)},
                      {"notes", findings.count(Severity::note)}};
    json["inputs"] = nlohmann::ordered_json::array();
    for (const InputFile& input : layers_of(findings.inputs))
        json["inputs"].push_back(
            {{"path", input.path}, {"role", input.role}, {"layer", input.layer}, {"rows", input.rows}});
    json["issues"] = nlohmann::ordered_json::array();
    for (const Group& group : grouped(findings))
        for (const Issue& issue : group.issues)
            json["issues"].push_back({{"code", issue.code},
                                      {"severity", severity_word(issue.severity)},
                                      {"group", group.name},
                                      {"where", issue.where},
                                      {"message", issue.message}});
    return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

} // namespace quartercut::cli
