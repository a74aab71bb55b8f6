// SPDX-License-Identifier: MIT
// Files for the tests of this room: a fresh folder each, and whole texts.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

namespace quartercut {

inline std::string text_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

inline void put_text(const std::filesystem::path& file, const std::string& text) {
    std::ofstream(file, std::ios::binary) << text;
}

/// An empty folder named after the running test, so that tests may run side by side.
inline std::filesystem::path fresh_folder() {
    const testing::TestInfo* info = testing::UnitTest::GetInstance()->current_test_info();
    const std::string name = std::string("quartercut_") + info->test_suite_name() + "_" + info->name();
    const std::filesystem::path folder = std::filesystem::path(testing::TempDir()) / name;
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    return folder;
}

/// Names in a folder, hidden ones too, as one sorted line.
inline std::string names_in(const std::filesystem::path& folder) {
    std::set<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        names.insert(entry.path().filename().string());
    std::string line;
    for (const std::string& name : names)
        line += name + " ";
    return line;
}

} // namespace quartercut
