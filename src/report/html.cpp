// SPDX-License-Identifier: MIT
// Escaping and element writing (html.hpp).
#include "report/html.hpp"

#include <cstddef>

namespace quartercut::report {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";

unsigned byte_at(std::string_view text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

bool is_continuation(std::string_view text, std::size_t i) {
    return i < text.size() && (byte_at(text, i) & 0xC0U) == 0x80U;
}

// Length of the UTF-8 sequence at i, or 0 where there is none (RFC 3629: no overlong forms, no surrogates).
std::size_t utf8_length(std::string_view text, std::size_t i) {
    const unsigned first = byte_at(text, i);
    if (first < 0x80U) return 1;
    const std::size_t length = first >= 0xC2U && first < 0xE0U   ? 2
                               : first >= 0xE0U && first < 0xF0U ? 3
                               : first >= 0xF0U && first < 0xF5U ? 4
                                                                 : 0;
    for (std::size_t k = 1; k < length; ++k) {
        if (!is_continuation(text, i + k)) return 0;
    }
    if (length < 3) return length;
    const unsigned second = byte_at(text, i + 1);
    const bool wrong = (first == 0xE0U && second < 0xA0U) || (first == 0xEDU && second > 0x9FU) ||
                       (first == 0xF0U && second < 0x90U) || (first == 0xF4U && second > 0x8FU);
    return wrong ? 0 : length;
}

void append_ascii(std::string& out, char c) {
    switch (c) {
    case '&':
        out += "&amp;";
        return;
    case '<':
        out += "&lt;";
        return;
    case '>':
        out += "&gt;";
        return;
    case '"':
        out += "&quot;";
        return;
    case '\'':
        out += "&#39;";
        return;
    default:
        break;
    }
    const bool control = (static_cast<unsigned char>(c) < 0x20U && c != '\n' && c != '\t') || c == '\x7F';
    if (control) {
        out += replacement;
    } else {
        out += c;
    }
}

} // namespace

std::string escape(std::string_view text) {
    std::string out;
    out.reserve(text.size() + text.size() / 8);
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = utf8_length(text, i);
        if (length == 1) append_ascii(out, text[i]);
        if (length == 0) out += replacement;
        if (length > 1) out += text.substr(i, length);
        i += length == 0 ? 1 : length;
    }
    return out;
}

std::string slug(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool upper = c >= 'A' && c <= 'Z';
        const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (upper) out += static_cast<char>(c - 'A' + 'a');
        if (plain) out += c;
        if (!upper && !plain && !out.empty() && out.back() != '-') out += '-';
    }
    while (!out.empty() && out.back() == '-')
        out.pop_back();
    return out.empty() ? "x" : out;
}

void Html::start(std::string_view tag, const Attributes& attributes, std::string_view end) {
    out_ += '<';
    out_ += tag;
    for (const auto& attribute : attributes) {
        out_ += ' ';
        out_ += attribute.name;
        out_ += "=\"";
        out_ += escape(attribute.value);
        out_ += '"';
    }
    out_ += end;
}

Html::Scope Html::in(std::string_view tag, const Attributes& attributes) {
    start(tag, attributes, ">");
    open_.emplace_back(tag);
    return Scope(*this);
}

void Html::leaf(std::string_view tag, std::string_view text, const Attributes& attributes) {
    const auto scope = in(tag, attributes);
    out_ += escape(text);
}

void Html::empty(std::string_view tag, const Attributes& attributes) { start(tag, attributes, "/>"); }

void Html::close() {
    out_ += "</";
    out_ += open_.back();
    out_ += ">\n";
    open_.pop_back();
}

} // namespace quartercut::report
