// SPDX-License-Identifier: MIT
// Weighed loads from a table.
#pragma once

#include "read/context.hpp"
#include "read/text_table.hpp"

namespace quartercut::reading {

/// Reads [tickets] where the season file has it. \throws InputError, DataError  with the row
void read_tickets(Context& context);

/// The same from an open table, for tests and fuzzing.
[[nodiscard]] std::vector<Ticket> tickets_of(Context& context, const TextTable& table);

} // namespace quartercut::reading
