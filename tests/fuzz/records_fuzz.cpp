// SPDX-License-Identifier: MIT
// Any bytes as a table of records: read, or refused with an InputError or DataError; nothing else.
#include "season_by_hand.hpp"

#include "quartercut/error.hpp"
#include "read/records.hpp"

#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace quartercut;
    Raw raw;
    reading::Context context{fuzz::season_by_hand(), raw};
    try {
        const auto source = reading::text_records(std::string(reinterpret_cast<const char*>(bytes), size), "fuzz.csv");
        const reading::RecordsRead read = reading::records_of(context, *source, {});
        for (const auto& [meaning, column] : read.records.numbers)
            if (column.values.size() != read.records.size()) __builtin_trap();
        for (const auto& [meaning, column] : read.records.texts)
            if (column.codes.size() != read.records.size()) __builtin_trap();
        if (!read.records.time_s.empty() && read.records.time_s.size() != read.records.size()) __builtin_trap();
    } catch (const InputError&) {
    } catch (const DataError&) {
    }
    return 0;
}
