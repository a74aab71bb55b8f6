// SPDX-License-Identifier: MIT
// Words shared by the messages of this room.
#include "read/context.hpp"

#include "base/text.hpp"

#include <fmt/format.h>

namespace quartercut::reading {

std::string written_at(const Season& season, const TextPlace& place) {
    if (place.line == 0) return {};
    return fmt::format("{}, line {}: ", season.file.filename().string(), place.line);
}

std::string listed(const std::vector<std::string>& words, std::size_t most) {
    if (words.empty()) return "none";
    std::string out;
    for (std::size_t i = 0; i < words.size() && i < most; ++i)
        out += fmt::format("{}'{}'", i == 0 ? "" : ", ", words[i]);
    if (words.size() > most) out += fmt::format(" and {} more", words.size() - most);
    return out;
}

std::string did_you_mean(const std::string& word, const std::vector<std::string>& words) {
    const auto near = nearest_word(word, words);
    return near ? fmt::format(" Did you mean '{}'?", *near) : std::string();
}

std::string counted(std::size_t n, const std::string& singular) {
    return fmt::format("{} {}{}", n, singular, n == 1 ? "" : "s");
}

} // namespace quartercut::reading
