// SPDX-License-Identifier: MIT
// The tables of the season file that name files and columns.
#pragma once

#include "season/table_reader.hpp"

namespace quartercut::season {

[[nodiscard]] FieldsInput read_fields(const TableReader& root, Issues& issues);
/// `bushel_lb`: to check units that speak of bushels.
[[nodiscard]] PointsInput read_points(const TableReader& root, double bushel_lb);
/// `methods`: the names that mapped values may point to.
[[nodiscard]] MethodsInput read_methods_from(const TableReader& root, const std::vector<Method>& methods);
[[nodiscard]] std::optional<StrataInput> read_strata(const TableReader& root);
[[nodiscard]] std::optional<TicketsInput> read_tickets(const TableReader& root);
[[nodiscard]] std::optional<HistoryInput> read_history(const TableReader& root, double bushel_lb);

} // namespace quartercut::season
