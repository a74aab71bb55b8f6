// SPDX-License-Identifier: MIT
// Tables a person can read, copy and print: caption, column heads, first cell of a row as its head.
#pragma once

#include "report/html.hpp"

#include <string>
#include <vector>

namespace quartercut::report {

struct Table {
    std::string id;
    std::string caption;
    std::vector<std::string> headings;
    std::vector<std::vector<std::string>> rows;
    std::size_t text_columns = 1; ///< columns from the left that hold words; the others are numbers, set to the right
    bool quiet = false;           ///< a heading just above says the same: the caption is there for screen readers only
};

/// Appends cells to a row.
void append(std::vector<std::string>& row, const std::vector<std::string>& cells);

/// `in_si`: the same table in t/ha, where its columns show the report unit alone.
void write_table(Html& html, const Table& table, const Table* in_si = nullptr);

/// The table under a summary that opens on demand.
void write_folded_table(Html& html, const std::string& summary, const Table& table);

} // namespace quartercut::report
