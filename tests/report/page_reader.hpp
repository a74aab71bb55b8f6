// SPDX-License-Identifier: MIT
// Small helpers that read a page as text, for the tests: attributes, tags and the visible words.
#pragma once

#include <regex>
#include <string>
#include <vector>

namespace quartercut::page {

/// Values of an attribute in page order, entities as written.
inline std::vector<std::string> attribute(const std::string& page, const std::string& name) {
    std::vector<std::string> out;
    const std::string start = " " + name + "=\"";
    for (std::size_t at = page.find(start); at != std::string::npos; at = page.find(start, at + 1)) {
        const std::size_t from = at + start.size();
        out.push_back(page.substr(from, page.find('"', from) - from));
    }
    return out;
}

inline std::size_t count(const std::string& page, const std::string& piece) {
    std::size_t found = 0;
    for (std::size_t at = page.find(piece); at != std::string::npos; at = page.find(piece, at + piece.size()))
        ++found;
    return found;
}

/// Text between the first `<tag...>` after `from` and its `</tag>`; for tags that do not nest.
inline std::string inside(const std::string& page, const std::string& tag, std::size_t from = 0) {
    const std::size_t open = page.find("<" + tag, from);
    const std::size_t start = page.find('>', open) + 1;
    return page.substr(start, page.find("</" + tag + ">", start) - start);
}

/// The table of that id.
inline std::string table(const std::string& page, const std::string& id) {
    const std::size_t at = page.find("<table id=\"" + id + "\"");
    return at == std::string::npos ? std::string{} : inside(page, "table", at);
}

/// What a reader sees: no style, no script, no tags.
inline std::string visible(std::string page) {
    for (const char* tag : {"style", "script"}) {
        const std::size_t open = page.find("<" + std::string(tag));
        const std::string end = "</" + std::string(tag) + ">";
        if (open != std::string::npos) page.erase(open, page.find(end, open) + end.size() - open);
    }
    std::string out;
    bool in_tag = false;
    for (const char c : page) {
        if (c == '<') in_tag = true;
        if (!in_tag) out += c;
        if (c == '>') {
            in_tag = false;
            out += ' ';
        }
    }
    return out;
}

} // namespace quartercut::page
