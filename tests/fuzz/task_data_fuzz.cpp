// SPDX-License-Identifier: MIT
// Any bytes as a time log of task data: the text up to the first zero byte is its header, what follows are its records.
// Read, or refused with an InputError or DataError; nothing else.
#include "season_by_hand.hpp"

#include "quartercut/error.hpp"
#include "read/records.hpp"
#include "read/task_data.hpp"

#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace quartercut;
    const std::string_view all(reinterpret_cast<const char*>(bytes), size);
    const std::size_t end = std::min(all.find('\0'), size);
    Raw raw;
    reading::Context context{fuzz::season_by_hand(), raw};
    try {
        const auto source = reading::task_records(all.substr(0, end), all.substr(std::min(end + 1, size)));
        const reading::RecordsRead read = reading::records_of(context, *source, {});
        for (const auto& [meaning, column] : read.records.numbers)
            if (column.values.size() != read.records.size()) __builtin_trap();
        if (read.records.time_s.size() != read.records.size() && !read.records.time_s.empty()) __builtin_trap();
    } catch (const InputError&) {
    } catch (const DataError&) {
    }
    return 0;
}
