// SPDX-License-Identifier: MIT
// A small season in plain text files, so that a test can spoil one thing in it and run the program on the rest.
//
// One field of 160 m x 400 m in eight strips of two 10 m passes, `swathed` and `standing` by turns in pairs. Standing
// gives 2.30 t/ha at 10 %, swathed 2.10, plus a smooth slope both ways and a little noise of fixed seed.
#pragma once

#include <filesystem>
#include <map>
#include <string>

namespace quartercut::test {

/// File name -> text.
using TextFiles = std::map<std::string, std::string>;

/// season.toml, fields.geojson, methods.geojson, points.csv, tickets.csv
TextFiles text_season();

/// [history.columns] of an earlier map that is written as points.csv is.
extern const char* const history_columns;

/// Replaces the only occurrence of `from`; fails the test when it does not stand there once.
void replace_once(std::string& text, const std::string& from, const std::string& to);

struct Ran {
    int exit_code = -1;
    std::string out, err;
};

/// A temporary folder with the files; removed at the end.
class SeasonFolder {
public:
    explicit SeasonFolder(const TextFiles& files);
    ~SeasonFolder();
    SeasonFolder(const SeasonFolder&) = delete;
    SeasonFolder& operator=(const SeasonFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] bool has(const std::string& name) const { return std::filesystem::exists(path_ / name); }
    [[nodiscard]] std::string text(const std::string& name) const;
    /// Runs `quartercut ARGUMENTS` in the folder.
    [[nodiscard]] Ran run(const std::string& arguments) const;
    /// Names in the folder that the files did not bring.
    [[nodiscard]] std::string left_behind() const;

private:
    TextFiles files_;
    std::filesystem::path path_;
};

} // namespace quartercut::test
