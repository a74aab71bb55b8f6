// SPDX-License-Identifier: MIT
// `quartercut start`: looks through a folder, says what each file is and why, and writes a draft season file.
#include "cli/command.hpp"
#include "cli/draft_season.hpp"
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"
#include "quartercut/standardise.hpp"

#include <cstdio>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace quartercut::cli {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

struct StartOptions {
    std::string folder;
};

/// A draft whose questions can wait is read as `check` would; what that stops at becomes a question.
SeasonDraft tried(SeasonDraft draft, const fs::path& file) {
    if (draft.stops) return draft;
    try {
        const Season season = parse_season(draft.text, file);
        (void)standardise(season, read(season));
        return draft;
    } catch (const InputError& error) {
        return with_fault(std::move(draft), error.what());
    } catch (const DataError& error) {
        return with_fault(std::move(draft), error.what());
    }
}

void need_no_season(const fs::path& file) {
    if (!fs::exists(fs::symlink_status(file))) return;
    throw WriteError(fmt::format("{}: there is a season file already, and it is never overwritten. Move it away, or "
                                 "run 'quartercut check' on it.",
                                 file.string()));
}

/// Never overwrites, and is there whole or not at all: written beside and given its name, which fails where another has
/// it. What a killed run left beside is overwritten by the next.
void write_new(const fs::path& file, const std::string& text) {
    const fs::path beside = file.parent_path() / ("." + file.filename().string() + ".quartercut-new");
    std::error_code failed, ignored;
    std::FILE* const out = std::fopen(beside.c_str(), "wb");
    bool written = out != nullptr && std::fwrite(text.data(), 1, text.size(), out) == text.size();
    if (out != nullptr) written = std::fclose(out) == 0 && written;
    if (written) fs::create_hard_link(beside, file, failed);
    if (written && failed && !fs::exists(file)) fs::rename(beside, file, failed); // a disk without hard links
    fs::remove(beside, ignored);
    if (written && failed) need_no_season(file);
    if (!written || failed) throw WriteError(fmt::format("{}: the draft cannot be written there.", file.string()));
}

std::string survey_text(const FolderSurvey& survey) {
    std::string out = bold("Files") + "\n";
    for (const FolderEntry& entry : survey.entries) {
        const LayerSketch& sketch = entry.sketch;
        out += fmt::format("  {:<13} {}{}: {}\n", part_word(entry.part), sketch.file,
                           entry.layers > 1 ? ", layer " + sketch.layer : "", entry.reason);
        if (entry.part != Part::records) continue;
        for (const auto& [meaning, column] : sketch.meanings)
            out += fmt::format("                  {:<9} '{}': {}\n", meaning_word(meaning), column.column,
                               sketch.reasons.at(meaning));
    }
    if (survey.entries.empty()) out += "  none of a kind that is known\n";
    return out;
}

std::string draft_text(const SeasonDraft& draft, const fs::path& file) {
    std::string out = fmt::format("\nDraft: {}\n", file.string());
    if (draft.questions.empty()) return out + "No question is open. Next: quartercut check " + file.string() + "\n";
    out +=
        fmt::format("{} to answer in it (look for QUESTION):\n",
                    draft.questions.size() == 1 ? "1 question" : fmt::format("{} questions", draft.questions.size()));
    for (const std::string& question : draft.questions)
        out += "  - " + question + "\n";
    return out;
}

std::string start_json(const FolderSurvey& survey, const SeasonDraft& draft, const fs::path& file) {
    Json json;
    json["schema"] = "quartercut.start/1";
    json["draft"] = file.string();
    json["questions"] = draft.questions;
    json["files"] = Json::array();
    for (const FolderEntry& entry : survey.entries) {
        Json columns = Json::object();
        for (const auto& [meaning, column] : entry.sketch.meanings)
            columns[meaning_word(meaning)] = {
                {"column", column.column}, {"unit", column.unit}, {"reason", entry.sketch.reasons.at(meaning)}};
        json["files"].push_back({{"path", entry.sketch.file},
                                 {"layer", entry.sketch.layer},
                                 {"part", part_word(entry.part)},
                                 {"reason", entry.reason},
                                 {"columns", columns}});
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

void run_start(const StartOptions& chosen, const CommonOptions& common) {
    Progress progress(!common.quiet);
    const fs::path folder = chosen.folder;
    const fs::path file = folder / "season.toml";
    need_no_season(file); // said before the work is done
    progress.show("looking through the folder");
    const FolderSurvey survey = survey_folder(folder);
    const std::string title = fs::weakly_canonical(folder).filename().string();
    progress.show("trying the draft");
    const SeasonDraft draft = tried(draft_season(survey, title.empty() ? "Season" : title), file);
    progress.clear();
    if (survey.of(Part::records).empty() && survey.of(Part::boundaries).empty() && survey.of(Part::tickets).empty())
        throw InputError(fmt::format("{}: no file with records, boundaries or tickets was recognised there.\n{}",
                                     folder.string(), survey_text(survey)));
    write_new(file, draft.text);
    if (common.json) return print(start_json(survey, draft, file));
    if (!common.quiet) print(survey_text(survey) + draft_text(draft, file));
}

} // namespace

void setup_start(CLI::App& app, CommonOptions& common, Action& action) {
    auto* command =
        app.add_subcommand("start", "Look through a folder, recognise the files, write a draft season file");
    auto chosen = std::make_shared<StartOptions>();
    command->add_option("FOLDER", chosen->folder, "The folder with boundaries, records and tickets")->required();
    command->footer(
        "Writes FOLDER/season.toml, and never over one that is there. What only you can know stands in it as\n"
        "a comment marked QUESTION.\nExample:\n  quartercut start my-farm-2025");
    command->callback([&common, &action, chosen] { action = [&common, chosen] { run_start(*chosen, common); }; });
}

} // namespace quartercut::cli
