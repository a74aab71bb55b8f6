// SPDX-License-Identifier: MIT
// Weighed loads from a table.
#pragma once

#include "read/context.hpp"
#include "read/text_table.hpp"

namespace quartercut::reading {

/// Reads [tickets] where the season file has it. \throws InputError, DataError  with the row
void read_tickets(Context& context);

/// Fields, machines and methods the tickets name must be there.
/// \throws DataError  with the row of the first that is not
void check_ticket_names(Context& context);

/// Loads found by their start and end need records with times: records without would silently be missing from them.
/// \throws InputError  a file without any that such a load may have come from; some records without are told
void check_records_have_times(Context& context);

/// Grain counted twice: rows that are alike, and time windows of one machine that run into each other.
/// \throws DataError  with both rows
void check_twice(Context& context, const std::string& shown, const std::vector<Ticket>& tickets);

/// The tickets of an open table; also for tests and fuzzing.
[[nodiscard]] std::vector<Ticket> tickets_of(Context& context, const TextTable& table);

} // namespace quartercut::reading
