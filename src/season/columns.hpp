// SPDX-License-Identifier: MIT
// [points.columns]: which column of the records means what, in which unit.
#pragma once

#include "season/table_reader.hpp"

#include <map>

namespace quartercut::season {

/// The mapping under `columns` of a table, empty when there is none. `schema`: "points" or "history".
[[nodiscard]] std::map<Meaning, ColumnChoice> read_columns(const TableReader& table, const std::string& schema,
                                                           double bushel_lb);

} // namespace quartercut::season
