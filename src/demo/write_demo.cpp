// SPDX-License-Identifier: MIT
// Writes the simulated season into an empty folder.
#include "demo/demo_files.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <system_error>
#include <unistd.h>

namespace quartercut {

namespace {

void need_empty(const std::filesystem::path& folder) {
    std::error_code error;
    if (!std::filesystem::exists(folder, error)) return;
    if (!std::filesystem::is_directory(folder, error)) {
        throw WriteError(
            fmt::format("{}: a file of that name exists. Give the name of a new folder.", folder.string()));
    }
    if (!std::filesystem::is_empty(folder, error) || error) {
        throw WriteError(
            fmt::format("{}: the folder is not empty, and nothing in it will be overwritten. Give the name "
                        "of a new or empty folder.",
                        folder.string()));
    }
}

void make_folder(const std::filesystem::path& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) {
        throw WriteError(fmt::format("{}: cannot make the folder: {}. Check the path and its permissions.",
                                     folder.string(), error.message()));
    }
}

void write_file(const std::filesystem::path& file, const std::string& text) {
    errno = 0;
    std::ofstream out(file, std::ios::binary | std::ios::trunc);
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
    out.close();
    if (!out) {
        throw WriteError(fmt::format("{}: cannot write the file: {}. Check that the folder may be written and the disk "
                                     "has room.",
                                     file.string(), std::strerror(errno)));
    }
}

std::string file_word(const std::string& name) {
    std::string word = lower(name);
    std::replace(word.begin(), word.end(), ' ', '_');
    return word;
}

std::filesystem::path without_end_slash(const std::filesystem::path& folder) {
    return folder.has_filename() ? folder : folder.parent_path();
}

/// The season is written beside and takes its place when it is whole: half a season could be taken for one. What killed
/// runs left is removed by the next one of the same name.
class HiddenFolder {
public:
    explicit HiddenFolder(const std::filesystem::path& folder)
        : target_(without_end_slash(std::filesystem::weakly_canonical(std::filesystem::absolute(folder)))),
          prefix_("." + target_.filename().string() + ".quartercut-demo-") {
        make_folder(target_.parent_path());
        remove_leftovers();
        path_ = target_.parent_path() / (prefix_ + std::to_string(::getpid()));
        make_folder(path_ / "yield");
    }
    ~HiddenFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    HiddenFolder(const HiddenFolder&) = delete;
    HiddenFolder& operator=(const HiddenFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

    void take_place() const {
        std::error_code error;
        if (std::filesystem::exists(target_)) { // somebody may stand in it, so it stays; the season file comes last
            for (const char* name : {"yield", "README.md", "tickets.csv", "fields.gpkg", "season.toml"})
                if (!error) std::filesystem::rename(path_ / name, target_ / name, error);
        } else {
            std::filesystem::rename(path_, target_, error);
        }
        if (error)
            throw WriteError(fmt::format("{}: the season cannot be put there: {}. Give the name of a new folder.",
                                         target_.string(), error.message()));
    }

private:
    void remove_leftovers() const {
        std::error_code ignored;
        for (const auto& entry : std::filesystem::directory_iterator(target_.parent_path(), ignored)) {
            const std::string name = entry.path().filename().string();
            if (name.rfind(prefix_, 0) != 0) continue;
            const long pid = std::strtol(name.c_str() + prefix_.size(), nullptr, 10);
            if (pid > 0 && ::kill(static_cast<pid_t>(pid), 0) != 0 && errno == ESRCH)
                std::filesystem::remove_all(entry.path(), ignored);
        }
    }
    std::filesystem::path target_;
    std::string prefix_;
    std::filesystem::path path_;
};

// Machine B's part of the strip trials stands in a GeoPackage of its own.
void write_records(const std::filesystem::path& folder, const DemoField& field) {
    constexpr std::array<const char*, 2> endings{"a", "b"};
    for (int machine = 0; machine < (demo::is_strip_trial(field) ? 1 : 2); ++machine) {
        const std::string text = demo::records_csv(field, machine);
        if (text.empty()) continue;
        const char* ending = endings[static_cast<std::size_t>(machine)];
        write_file(folder / fmt::format("{}_{}.csv", file_word(field.plan.name), ending), text);
    }
}

void write_files(const DemoSeason& season, const std::filesystem::path& folder) {
    write_file(folder / "season.toml", demo::season_toml());
    write_file(folder / "README.md", demo::readme_md(season));
    write_file(folder / "tickets.csv", demo::tickets_csv(season));
    write_layer(demo::boundaries_layer(season), folder / "fields.gpkg");
    write_layer(demo::methods_layer(season), folder / "fields.gpkg");
    write_layer(demo::trial_records_layer(season, 1), folder / "yield" / "trials_b.gpkg");
    for (const DemoField& field : season.fields)
        write_records(folder / "yield", field);
}

} // namespace

DemoTruth write_demo(const std::filesystem::path& folder, const DemoOptions& options) {
    need_empty(folder);
    const DemoSeason season = simulate_harvest(demo_farm(options), options);
    const HiddenFolder hidden(folder);
    write_files(season, hidden.path());
    hidden.take_place();
    DemoTruth truth{options.true_gain_t_ha, season.raw_gain_t_ha, {}};
    for (const DemoField& field : season.fields)
        truth.fields.push_back(field.plan.name);
    return truth;
}

} // namespace quartercut
