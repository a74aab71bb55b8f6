// SPDX-License-Identifier: MIT
// Writes the simulated season into an empty folder.
#include "demo/demo_files.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

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

} // namespace

DemoTruth write_demo(const std::filesystem::path& folder, const DemoOptions& options) {
    need_empty(folder);
    const DemoSeason season = simulate_harvest(demo_farm(options), options);
    make_folder(folder / "yield");
    write_file(folder / "season.toml", demo::season_toml());
    write_file(folder / "README.md", demo::readme_md(season));
    write_file(folder / "tickets.csv", demo::tickets_csv(season));
    write_layer(demo::boundaries_layer(season), folder / "fields.gpkg");
    write_layer(demo::methods_layer(season), folder / "fields.gpkg");
    write_layer(demo::trial_records_layer(season, 1), folder / "yield" / "trials_b.gpkg");
    DemoTruth truth{options.true_gain_t_ha, season.raw_gain_t_ha, {}};
    for (const DemoField& field : season.fields) {
        truth.fields.push_back(field.plan.name);
        write_records(folder / "yield", field);
    }
    return truth;
}

} // namespace quartercut
