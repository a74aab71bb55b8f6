// SPDX-License-Identifier: MIT
// Any bytes as a table of tickets: read, or refused with an InputError or DataError; nothing else.
#include "quartercut/error.hpp"
#include "read/tickets.hpp"

#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace quartercut;
    Season season;
    season.bushel_lb = 50.0;
    Raw raw;
    reading::Context context{season, raw};
    try {
        const reading::TextTable table(std::string(reinterpret_cast<const char*>(bytes), size), "fuzz.csv");
        for (const Ticket& ticket : reading::tickets_of(context, table))
            if (!(ticket.net_kg > 0.0 && ticket.moisture_pct > 0.0 && ticket.moisture_pct < 100.0)) __builtin_trap();
    } catch (const InputError&) {
    } catch (const DataError&) {
    }
    return 0;
}
