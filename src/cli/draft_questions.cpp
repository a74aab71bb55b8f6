// SPDX-License-Identifier: MIT
#include "cli/draft_questions.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace quartercut::cli {
namespace {

std::string file_of(const FolderEntry* entry) { return entry->sketch.file; }

/// Columns of a file that were taken for nothing: the machine's may be among them.
std::vector<std::string> columns_left(const LayerSketch& sketch) {
    constexpr std::size_t most = 8;
    std::set<std::string> taken;
    for (const auto& [meaning, choice] : sketch.meanings)
        taken.insert(choice.column);
    std::vector<std::string> left;
    for (const std::string& column : sketch.columns)
        if (!taken.contains(column) && left.size() < most) left.push_back(column);
    return left;
}

bool says_degrees(const LayerSketch& sketch) {
    const auto column = sketch.meanings.find(Meaning::longitude);
    return column != sketch.meanings.end() && lower(column->second.column).starts_with("l");
}

std::string order_line(const std::string& order) { return fmt::format("dates = \"{}\"", order); }

} // namespace

std::string toml_text(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (static_cast<unsigned char>(c) >= 0x20U && c != 0x7F) out += c;
    }
    return out + "\"";
}

bool needs_unit(Meaning meaning) {
    switch (meaning) {
    case Meaning::yield:
    case Meaning::flow:
    case Meaning::speed:
    case Meaning::distance:
    case Meaning::duration:
    case Meaning::width:
        return true;
    default:
        return false;
    }
}

OpenQuestion unit_question(Meaning meaning, const ColumnChoice& choice, const std::string& file) {
    const std::string word = meaning_word(meaning);
    const bool can_wait = meaning == Meaning::moisture;
    OpenQuestion out;
    out.question = fmt::format("in which unit is the column '{}' ({}){}? Known are {}.{}", choice.column, word,
                               file.empty() ? "" : " of " + file, known_units(*dimension_of(meaning)),
                               can_wait ? " Unanswered, % is taken." : "");
    const std::string moisture =
        meaning == Meaning::yield
            ? fmt::format(", moisture = {}", choice.moisture.empty() ? "\"...\"" : toml_text(choice.moisture))
            : std::string();
    out.line = fmt::format("{} = {{ column = {}, unit = \"...\"{} }}", word, toml_text(choice.column), moisture);
    out.stops = !can_wait;
    return out;
}

std::optional<OpenQuestion> machine_question(const std::vector<const FolderEntry*>& records) {
    std::vector<std::string> files, columns, names;
    for (const FolderEntry* entry : records) {
        const auto found = entry->sketch.meanings.find(Meaning::machine);
        if (found != entry->sketch.meanings.end()) {
            names.push_back(fmt::format("'{}' of {}", found->second.column, file_of(entry)));
            continue;
        }
        files.push_back(file_of(entry));
        const auto left = columns_left(entry->sketch);
        columns.insert(columns.end(), left.begin(), left.end());
    }
    if (files.empty() || names.empty()) return std::nullopt;
    OpenQuestion out;
    out.stops = false;
    out.question = fmt::format(
        "which machine cut what {} hold{}? No column there was taken for the machine's, as {} was. Unanswered, those "
        "records are taken as of one more machine, called 'machine'. If one of {} names the machine, say it "
        "here; else add a column of that name to the file.",
        join(files, ", "), files.size() == 1 ? "s" : "", names.front(),
        columns.empty() ? "its columns" : "the columns " + join(columns, ", "));
    out.line = "machine = { column = \"...\" }";
    return out;
}

OpenPlaces open_places(const std::vector<const FolderEntry*>& records) {
    OpenPlaces out;
    std::set<std::string> seen;
    for (const FolderEntry* entry : records) {
        const bool is_degrees_by_format = lower(entry->sketch.file).find("json") != std::string::npos;
        if (!entry->sketch.crs.empty() || is_degrees_by_format || !seen.insert(entry->sketch.file).second) continue;
        (says_degrees(entry->sketch) ? out.named : out.open).push_back(entry->sketch.file);
    }
    return out;
}

OpenQuestion crs_question(const OpenPlaces& places) {
    OpenQuestion out;
    out.question = fmt::format("in which coordinate system are the records of {}? The file{} not say. Longitude and "
                               "latitude are EPSG:4326.",
                               join(places.open, ", "), places.open.size() == 1 ? " does" : "s do");
    if (places.named.empty() && places.open.size() == 1) {
        out.line = "crs   = \"EPSG:4326\"";
        return out;
    }
    std::string entries;
    for (const std::string& file : places.open)
        entries += fmt::format("{}{} = \"EPSG:...\"", entries.empty() ? "" : ", ", toml_text(file));
    for (const std::string& file : places.named)
        entries += fmt::format(", {} = \"EPSG:4326\"", toml_text(file));
    out.line = fmt::format("crs   = {{ {} }}", entries);
    return out;
}

DatesFound dates_found(const std::vector<const FolderEntry*>& entries) {
    const FolderEntry *unclear = nullptr, *settled = nullptr, *told = nullptr;
    std::set<std::string> orders;
    for (const FolderEntry* entry : entries) {
        const LayerSketch& sketch = entry->sketch;
        if (!sketch.dates.empty()) orders.insert(sketch.dates);
        if (sketch.dates_unclear && sketch.dates.empty() && unclear == nullptr) unclear = entry;
        if (sketch.dates_unclear && !sketch.dates.empty() && settled == nullptr) settled = entry;
        if (!sketch.dates.empty() && told == nullptr) told = entry;
    }
    DatesFound out;
    if (unclear != nullptr) {
        out.question = OpenQuestion{};
        out.question->question =
            fmt::format("the dates of {} could be day/month or month/day; which are they?{}", file_of(unclear),
                        orders.size() == 1 ? fmt::format(" Those of {} can only be {}.", file_of(told), *orders.begin())
                                           : std::string());
        out.question->line = order_line(orders.size() == 1 ? *orders.begin() : "day/month");
    } else if (settled != nullptr) {
        out.line =
            fmt::format("{}   # {} has dates that only fit this", order_line(settled->sketch.dates), file_of(settled));
    }
    return out;
}

} // namespace quartercut::cli
