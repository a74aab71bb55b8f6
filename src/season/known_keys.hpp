// SPDX-License-Identifier: MIT
// The keys a season file may hold, table by table, and what to say about one it may not.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace quartercut::season {

/// Keys of one kind of table. `table` is its name in brackets; "" is the top of the file, "*" stands for any name.
struct KnownKeys {
    std::string table;
    std::vector<std::string> keys;
};

/// Known keys of a table such as "fields" or "points.columns.*"; nullptr where any key may stand.
[[nodiscard]] const KnownKeys* known_keys(std::string_view table);

/// What is wrong with `key` in `table`, and the nearest key that would be right: the sentence after line and column.
[[nodiscard]] std::string unknown_key_message(const KnownKeys& table, const std::string& key);

} // namespace quartercut::season
