// SPDX-License-Identifier: MIT
// Reads the small CSV files under tests/data/compare: a header, commas, quotes around texts.
#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace quartercut::testing {

using Columns = std::map<std::string, std::vector<std::string>>;

inline std::string unquoted(const std::string& text) {
    return text.size() >= 2 && text.front() == '"' ? text.substr(1, text.size() - 2) : text;
}

inline std::vector<std::string> split_line(const std::string& line) {
    std::vector<std::string> out;
    std::stringstream in(line);
    std::string cell;
    while (std::getline(in, cell, ','))
        out.push_back(unquoted(cell));
    return out;
}

inline Columns read_csv_file(const std::string& path) {
    std::ifstream in(path);
    std::string line;
    if (!std::getline(in, line)) throw std::runtime_error("cannot read " + path);
    const std::vector<std::string> header = split_line(line);
    Columns columns;
    while (std::getline(in, line)) {
        const std::vector<std::string> cells = split_line(line);
        for (std::size_t i = 0; i < header.size(); ++i)
            columns[header[i]].push_back(cells.at(i));
    }
    return columns;
}

#ifdef QUARTERCUT_TESTS_DIR
inline Columns read_csv(const std::string& name) {
    return read_csv_file(std::string(QUARTERCUT_TESTS_DIR) + "/data/compare/" + name);
}
#endif

inline std::vector<double> numbers(const Columns& columns, const std::string& name) {
    std::vector<double> out;
    for (const std::string& cell : columns.at(name))
        out.push_back(std::stod(cell));
    return out;
}

/// Codes 0, 1, ... in order of first appearance.
inline std::vector<int> codes(const std::vector<std::string>& words) {
    std::map<std::string, int> seen;
    std::vector<int> out;
    for (const std::string& word : words)
        out.push_back(seen.emplace(word, static_cast<int>(seen.size())).first->second);
    return out;
}

} // namespace quartercut::testing
