// SPDX-License-Identifier: MIT
// Words shared by the messages of this room.
#include "read/context.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::reading {

std::size_t Context::faults() const {
    return static_cast<std::size_t>(std::count_if(
        raw.issues.begin(), raw.issues.end(), [](const Issue& issue) { return issue.severity == Severity::error; }));
}

std::string shown_cell(std::string_view cell) {
    constexpr std::size_t most = 40;
    std::string out(cell.substr(0, most));
    while (cell.size() > most && !out.empty() && (static_cast<unsigned char>(out.back()) & 0xC0U) == 0x80U)
        out.pop_back(); // no half letters
    for (char& c : out)
        if (static_cast<unsigned char>(c) < 0x20U || c == 0x7F) c = '?';
    return cell.size() > most ? out + "..." : out;
}

std::string written_at(const Season& season, const TextPlace& place) {
    if (place.line == 0) return {};
    return fmt::format("{}, line {}: ", season.file.filename().string(), place.line);
}

std::string counted(std::size_t n, const char* one, const char* many) {
    return fill(n == 1 ? one : many, fmt::arg("count", n));
}

} // namespace quartercut::reading
