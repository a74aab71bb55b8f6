// SPDX-License-Identifier: MIT
// Walking through a folder. What a file is follows from its content; its name only tips the scales between layers of
// polygons, which may be boundaries, method areas or strata.
#include "cli/folder_survey.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <fstream>
#include <iterator>

namespace quartercut::cli {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t k_most_files = 500;
constexpr int k_deepest = 4;

constexpr std::array<std::string_view, 15> k_endings{".csv",     ".tsv",  ".txt", ".gpkg", ".shp",
                                                     ".zip",     ".shz",  ".xml", ".fgb",  ".kml",
                                                     ".geojson", ".json", ".kmz", ".gml",  ".geojsonl"};

bool is_data_file(const fs::path& path) {
    const std::string end = lower(path.extension().string());
    if (end == ".xml") return lower(path.filename().string()) == "taskdata.xml";
    return std::find(k_endings.begin(), k_endings.end(), end) != k_endings.end();
}

/// Our own results are no input, but strips laid out for a year are its method areas.
bool holds_results(const fs::path& folder) {
    return fs::exists(folder / results_marker) && !fs::exists(folder / "layout.json");
}

std::vector<fs::path> files_in(const fs::path& folder, bool& cut_short) {
    std::vector<fs::path> files;
    std::error_code broken;
    fs::recursive_directory_iterator it(folder, fs::directory_options::skip_permission_denied, broken), end;
    for (; !broken && it != end; it.increment(broken)) {
        const bool hidden = it->path().filename().string().starts_with('.');
        if (it->is_directory() && (hidden || it.depth() >= k_deepest || holds_results(it->path())))
            it.disable_recursion_pending();
        if (!hidden && it->is_regular_file() && is_data_file(it->path())) files.push_back(it->path());
    }
    std::sort(files.begin(), files.end());
    cut_short = files.size() > k_most_files;
    if (cut_short) files.resize(k_most_files);
    return files;
}

bool says_any(const std::string& text, std::initializer_list<std::string_view> words) {
    const std::string small = lower(text);
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return small.find(word) != std::string::npos; });
}

/// The column that holds method words, or is named like one; empty when none does.
std::string method_column(const LayerSketch& sketch) {
    for (const auto& [column, values] : sketch.values)
        if (values.size() >= 1 && std::all_of(values.begin(), values.end(), is_method_word)) return column;
    for (const auto& [column, values] : sketch.values)
        if (values.size() >= 2 && says_any(column, {"method", "treatment", "cutting"})) return column;
    return {};
}

std::string name_column(const LayerSketch& sketch) {
    for (const std::string_view wanted : {"name", "field", "field_name", "fieldname", "field name", "quarter", "land"})
        for (const std::string& column : sketch.columns)
            if (lower(column) == wanted) return column;
    for (const std::string& column : sketch.columns)
        if (says_any(column, {"name", "field", "quarter"})) return column;
    return {};
}

/// A column that may name strata: words that repeat, and no method or field.
std::string stratum_column(const LayerSketch& sketch) {
    for (const auto& [column, values] : sketch.values)
        if (says_any(column, {"soil", "unit", "class", "zone", "slope", "stratum", "type"})) return column;
    return sketch.values.empty() ? std::string() : sketch.values.begin()->first;
}

void judge_polygons(FolderEntry& entry) {
    const std::string called = entry.sketch.file + " " + entry.sketch.layer;
    const std::string methods = method_column(entry.sketch), names = name_column(entry.sketch);
    const bool like_boundaries =
        says_any(entry.sketch.layer.empty() ? called : entry.sketch.layer, {"bound", "field", "quarter"});
    const bool like_strata = says_any(called, {"soil", "strat", "slope", "zone", "class", "management"});
    if (!methods.empty() && !(like_boundaries && !names.empty())) {
        entry.part = Part::method_areas;
        entry.name_column = methods;
        entry.reason = fmt::format("polygons whose column '{}' holds ways of cutting ({})", methods,
                                   join(entry.sketch.values.at(methods), ", "));
    } else if (like_strata && !like_boundaries) {
        entry.part = Part::strata;
        entry.name_column = stratum_column(entry.sketch);
        entry.reason = "polygons whose file or layer is named like a map of soil or classes";
    } else if (!names.empty()) {
        entry.part = Part::boundaries;
        entry.name_column = names;
        entry.reason = fmt::format("polygons with a column '{}' that may name fields", names);
        if (!methods.empty()) entry.reason += fmt::format(", and '{}' that holds ways of cutting", methods);
    } else {
        entry.reason = "polygons without a column that would name fields or ways of cutting";
    }
}

void judge(FolderEntry& entry) {
    using Kind = LayerSketch::Kind;
    const LayerSketch& sketch = entry.sketch;
    const bool has_grain = sketch.meanings.contains(Meaning::yield) || sketch.meanings.contains(Meaning::flow) ||
                           sketch.trouble.find("could be the yield") != std::string::npos ||
                           sketch.trouble.find("could be the flow") != std::string::npos;
    if (sketch.kind == Kind::polygons) return judge_polygons(entry);
    if (sketch.kind == Kind::tickets) {
        entry.part = Part::tickets;
        entry.reason = "a table with masses and moistures, and no places";
    } else if (sketch.kind == Kind::points && has_grain) {
        entry.part = Part::records;
        entry.reason = "points with grain flow or yield";
    } else {
        const std::string head = fs::path(sketch.file).filename().string() + ": "; // stands before the reason already
        const std::string& trouble = sketch.trouble;
        entry.reason = trouble.starts_with(head)     ? trouble.substr(head.size())
                       : !trouble.empty()            ? trouble
                       : sketch.kind == Kind::points ? "points without grain flow or yield"
                                                     : "a table without places and without masses of loads";
    }
}

/// The best layer of boundaries keeps that part: the one whose name says so, else the one with most rows.
void keep_one_boundary_layer(std::vector<FolderEntry>& entries) {
    FolderEntry* best = nullptr;
    const auto rank = [](const FolderEntry& e) {
        const bool named = says_any(e.sketch.file + " " + e.sketch.layer, {"bound", "field", "quarter"});
        const bool exact = lower(e.name_column) == "name" || lower(e.name_column) == "field";
        return (named ? 2 : 0) + (exact ? 1 : 0);
    };
    for (FolderEntry& entry : entries)
        if (entry.part == Part::boundaries && (best == nullptr || rank(entry) > rank(*best))) best = &entry;
    for (FolderEntry& entry : entries) {
        if (entry.part != Part::boundaries || &entry == best) continue;
        entry.part = Part::unknown;
        entry.reason += "; but another layer looks more like the boundaries";
    }
}

bool same_bytes(const fs::path& a, const fs::path& b) {
    std::error_code failed;
    if (fs::file_size(a, failed) != fs::file_size(b, failed) || failed) return false;
    std::ifstream left(a, std::ios::binary), right(b, std::ios::binary);
    return left && right &&
           std::equal(std::istreambuf_iterator<char>(left), std::istreambuf_iterator<char>(),
                      std::istreambuf_iterator<char>(right));
}

/// Records that were copied to a second name count once: of two names the shorter stays.
void keep_one_of_copies(const fs::path& folder, std::vector<FolderEntry>& entries) {
    for (FolderEntry& entry : entries)
        for (FolderEntry& other : entries) {
            if (entry.part != Part::records || other.part != Part::records) continue;
            const std::string &kept = other.sketch.file, &copy = entry.sketch.file;
            const bool second = std::pair(copy.size(), copy) > std::pair(kept.size(), kept);
            if (!second || !same_bytes(folder / copy, folder / kept)) continue;
            entry.part = Part::unknown;
            entry.reason = fmt::format("the same to the byte as {}", kept);
        }
}

} // namespace

const char* part_word(Part part) {
    switch (part) {
    case Part::boundaries:
        return "boundaries";
    case Part::method_areas:
        return "method areas";
    case Part::strata:
        return "strata";
    case Part::records:
        return "records";
    case Part::tickets:
        return "tickets";
    case Part::unknown:
        break;
    }
    return "unknown";
}

bool is_method_word(const std::string& word) {
    return says_any(word, {"swath", "windrow", "standing", "straight", "direct", "pickup", "pick-up", "pick up",
                           "draper", "strip", "desiccat"});
}

std::vector<const FolderEntry*> FolderSurvey::of(Part part) const {
    std::vector<const FolderEntry*> out;
    for (const FolderEntry& entry : entries)
        if (entry.part == part) out.push_back(&entry);
    return out;
}

FolderSurvey survey_folder(const fs::path& folder) {
    if (!fs::exists(folder))
        throw InputError(fmt::format("{}: there is no such folder. Name the one your files are in.", folder.string()));
    if (!fs::is_directory(folder))
        throw InputError(fmt::format("{}: this is a file. Name the folder your files are in.", folder.string()));
    FolderSurvey out;
    for (const fs::path& file : files_in(folder, out.cut_short)) {
        std::vector<LayerSketch> layers = sketch_file(file);
        for (LayerSketch& sketch : layers) {
            FolderEntry entry;
            entry.sketch = std::move(sketch);
            entry.sketch.file = fs::relative(file, folder).generic_string();
            entry.layers = layers.size();
            judge(entry);
            out.entries.push_back(std::move(entry));
        }
    }
    keep_one_boundary_layer(out.entries);
    keep_one_of_copies(folder, out.entries);
    return out;
}

} // namespace quartercut::cli
