// SPDX-License-Identifier: MIT
// Telling the encoding of a text file, and turning Windows-1252 into UTF-8.
#include "read/encoding.hpp"

#include <array>
#include <cstdint>
#include <cstring>

namespace quartercut::reading {
namespace {

/// Code points of bytes 0x80..0x9F; 0: unassigned.
constexpr std::array<std::uint16_t, 32> upper_controls{0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                       0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                                       0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                       0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

void append_code_point(std::string& out, unsigned code) {
    if (code < 0x80U) {
        out += static_cast<char>(code);
    } else if (code < 0x800U) {
        out += static_cast<char>(0xC0U | (code >> 6U));
        out += static_cast<char>(0x80U | (code & 0x3FU));
    } else {
        out += static_cast<char>(0xE0U | (code >> 12U));
        out += static_cast<char>(0x80U | ((code >> 6U) & 0x3FU));
        out += static_cast<char>(0x80U | (code & 0x3FU));
    }
}

/// Length of the UTF-8 sequence at `at`, or 0 when it is none.
std::size_t sequence_length(std::string_view bytes, std::size_t at) {
    const auto byte = [&](std::size_t i) -> unsigned {
        return i < bytes.size() ? static_cast<unsigned char>(bytes[i]) : 0U;
    };
    const unsigned first = byte(at);
    if (first < 0x80U) return 1;
    const std::size_t length = first >= 0xC2U && first <= 0xDFU   ? 2
                               : (first & 0xF0U) == 0xE0U         ? 3
                               : first >= 0xF0U && first <= 0xF4U ? 4
                                                                  : 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte(at + i) & 0xC0U) != 0x80U) return 0;
    const unsigned second = byte(at + 1);
    const bool overlong = (first == 0xE0U && second < 0xA0U) || (first == 0xF0U && second < 0x90U);
    const bool beyond = (first == 0xEDU && second > 0x9FU) || (first == 0xF4U && second > 0x8FU);
    return overlong || beyond ? 0 : length;
}

/// First byte that is not ASCII, eight at a time.
std::size_t skip_ascii(std::string_view bytes, std::size_t at) {
    while (at + 8 <= bytes.size()) {
        std::uint64_t word = 0;
        std::memcpy(&word, bytes.data() + at, 8);
        if ((word & 0x8080808080808080ULL) != 0) break;
        at += 8;
    }
    while (at < bytes.size() && static_cast<unsigned char>(bytes[at]) < 0x80U)
        ++at;
    return at;
}

} // namespace

bool is_utf8(std::string_view bytes) {
    for (std::size_t at = skip_ascii(bytes, 0); at < bytes.size(); at = skip_ascii(bytes, at)) {
        const std::size_t length = sequence_length(bytes, at);
        if (length == 0) return false;
        at += length;
    }
    return true;
}

Encoding encoding_of(std::string_view bytes) {
    if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) return Encoding::utf16;
    if (bytes.substr(0, 4096).find('\0') != std::string_view::npos) return Encoding::utf16;
    return is_utf8(bytes) ? Encoding::utf8 : Encoding::windows_1252;
}

std::string utf8_from_windows_1252(std::string_view bytes) {
    std::string out;
    out.reserve(bytes.size() + bytes.size() / 8);
    for (const char c : bytes) {
        const unsigned code = static_cast<unsigned char>(c);
        const unsigned mapped = code >= 0x80U && code <= 0x9FU ? upper_controls[code - 0x80U] : code;
        append_code_point(out, mapped == 0 && code != 0 ? 0xFFFDU : mapped);
    }
    return out;
}

} // namespace quartercut::reading
