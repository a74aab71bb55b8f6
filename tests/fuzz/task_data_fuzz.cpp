// SPDX-License-Identifier: MIT
// Any bytes as a time log of task data: the text up to the first zero byte is its header, what follows are its records.
// Read, or refused with an InputError or DataError; nothing else.
#include "quartercut/error.hpp"
#include "read/records.hpp"
#include "read/task_data.hpp"

#include <cstdint>

namespace {

const quartercut::Season& season() {
    static const quartercut::Season made = [] {
        quartercut::Season s;
        s.file = "season.toml";
        s.year = 2025;
        s.crop = "canola";
        s.basis_pct = 10.0;
        s.bushel_lb = 50.0;
        s.methods = {{"swathed", "swathed", 10.0}, {"standing", "standing", 12.0}};
        return s;
    }();
    return made;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace quartercut;
    const std::string_view all(reinterpret_cast<const char*>(bytes), size);
    const std::size_t end = std::min(all.find('\0'), size);
    Raw raw;
    reading::Context context{season(), raw};
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
