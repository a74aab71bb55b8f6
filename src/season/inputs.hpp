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
/// Fills `strata` and `strata_across`; `year` must be known before.
void read_strata(const TableReader& root, Season& season);
/// file, layer and crs, which most inputs share. `what`: what the file names, for the message that it is missing.
void read_layer(const TableReader& table, LayerInput& input, const std::string& what);
[[nodiscard]] std::optional<TicketsInput> read_tickets(const TableReader& root);
[[nodiscard]] std::optional<HistoryInput> read_history(const TableReader& root, double bushel_lb);

} // namespace quartercut::season
