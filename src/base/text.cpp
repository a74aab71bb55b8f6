// SPDX-License-Identifier: MIT
// Text helpers: trimming, numbers without a locale, and the nearest known word for messages.
#include "base/text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace quartercut {
namespace {

/// Length of the blank at the front of `text`, in bytes; 0 when it does not start with one.
std::size_t blank_at_front(std::string_view text) {
    if (text.empty()) return 0;
    if (std::string_view(" \t\r\n\f\v").find(text.front()) != std::string_view::npos) return 1;
    if (text.substr(0, 2) == "\xC2\xA0") return 2;
    return text.substr(0, 3) == "\xE2\x80\xAF" ? 3 : 0;
}

std::size_t blank_at_back(std::string_view text) {
    for (const std::size_t length : {1U, 2U, 3U})
        if (text.size() >= length && blank_at_front(text.substr(text.size() - length)) == length) return length;
    return 0;
}

} // namespace

std::string_view trim(std::string_view text) {
    while (const std::size_t blank = blank_at_front(text))
        text.remove_prefix(blank);
    while (const std::size_t blank = blank_at_back(text))
        text.remove_suffix(blank);
    return text;
}

std::string lower(std::string_view text) {
    std::string small(text);
    for (char& c : small)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return small;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::optional<double> parse_number(std::string_view text) {
    text = trim(text);
    if (text.starts_with('+') && !text.substr(1).starts_with('-')) text.remove_prefix(1);
    const std::size_t first = text.starts_with('-') ? 1 : 0;
    // from_chars would read "nan" and "inf" as well.
    if (text.size() <= first || !(is_digit(text[first]) || text[first] == '.')) return std::nullopt;
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc{} || stop != end || !std::isfinite(value)) return std::nullopt;
    return value;
}

std::optional<int> parse_whole_number(std::string_view text) {
    text = trim(text);
    int value = 0;
    const char* const end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (text.empty() || error != std::errc{} || stop != end) return std::nullopt;
    return value;
}

std::string format_fixed(double value, int decimals) {
    if (std::isnan(value)) return "unknown";
    std::string text = fmt::format("{:.{}f}", value, decimals);
    const bool all_zero = text.find_first_not_of("-0.") == std::string::npos;
    return all_zero && text.front() == '-' ? text.substr(1) : text;
}

std::string format_shortest(double value) { return std::isnan(value) ? "unknown" : fmt::format("{}", value); }

std::string replace_all(std::string_view text, std::string_view from, std::string_view to) {
    std::string result;
    for (std::size_t at = 0; (at = text.find(from)) != std::string_view::npos; text.remove_prefix(at + from.size())) {
        result += text.substr(0, at);
        result += to;
    }
    result += text;
    return result;
}

std::string shortened(std::string_view text) {
    constexpr std::size_t most = 60;
    if (text.size() <= most) return std::string(text);
    std::size_t end = most;
    // Bytes 10xxxxxx continue a character of UTF-8.
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
        --end;
    return fmt::format("{}...", text.substr(0, end));
}

std::vector<std::string> split(std::string_view text, char separator) {
    std::vector<std::string> parts;
    for (std::size_t end = 0; (end = text.find(separator)) != std::string_view::npos; text.remove_prefix(end + 1))
        parts.emplace_back(text.substr(0, end));
    parts.emplace_back(text);
    return parts;
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
    std::string whole;
    for (const std::string& part : parts) {
        if (&part != &parts.front()) whole += separator;
        whole += part;
    }
    return whole;
}

std::string join_with(const std::vector<std::string>& parts, std::string_view last_word) {
    if (parts.size() < 2) return parts.empty() ? std::string() : parts.front();
    const std::vector<std::string> first(parts.begin(), parts.end() - 1);
    return fmt::format("{} {} {}", join(first, ", "), last_word, parts.back());
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    // Optimal string alignment; three rows of the table are enough.
    std::vector<std::size_t> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        above[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({change, above[j] + 1, row[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before[j - 2] + 1);
        }
        before.swap(above);
        above.swap(row);
    }
    return above[b.size()];
}

namespace {

std::optional<std::string> only_beginning_with(const std::string& wanted, const std::vector<std::string>& words) {
    if (wanted.size() < 3) return std::nullopt;
    std::optional<std::string> found;
    for (const std::string& word : words) {
        if (!lower(word).starts_with(wanted)) continue;
        if (found && *found != word) return std::nullopt;
        found = word;
    }
    return found;
}

} // namespace

std::optional<std::string> nearest_word(std::string_view text, const std::vector<std::string>& words) {
    const std::string wanted = lower(text.substr(0, 64));
    std::optional<std::string> nearest;
    std::size_t fewest = 0;
    for (const std::string& word : words) {
        const std::size_t distance = edit_distance(wanted, lower(word));
        const std::size_t allowed = std::max<std::size_t>(2, std::max(wanted.size(), word.size()) / 3);
        if (distance > allowed || distance >= std::max(wanted.size(), word.size())) continue;
        if (nearest && distance >= fewest) continue;
        nearest = word;
        fewest = distance;
    }
    return nearest ? nearest : only_beginning_with(wanted, words);
}

std::string listed(const std::vector<std::string>& words, std::size_t most) {
    if (words.empty()) return "none";
    std::string out;
    for (std::size_t i = 0; i < words.size() && i < most; ++i)
        out += fmt::format("{}'{}'", i == 0 ? "" : ", ", words[i]);
    if (words.size() > most) out += fmt::format(" and {} more", words.size() - most);
    return out;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& words) {
    const auto near = nearest_word(word, words);
    return near ? fmt::format(" Did you mean '{}'?", *near) : std::string();
}

} // namespace quartercut
