// SPDX-License-Identifier: MIT
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <regex>
#include <string_view>
#include <unistd.h>

namespace quartercut::cli {
namespace {

bool color_allowed = true;

bool set_and_not_empty(const char* variable) {
    const char* value = std::getenv(variable);
    return value != nullptr && *value != '\0';
}

bool is_dumb_terminal() {
    const char* term = std::getenv("TERM");
    return term != nullptr && std::strcmp(term, "dumb") == 0;
}

constexpr std::string_view bold_on = "\033[1m", bold_off = "\033[0m";

bool begins_with_bold(std::string_view text) { return text.starts_with(bold_on) || text.starts_with(bold_off); }

[[noreturn]] void fail_output() {
    throw WriteError(std::string("Standard output cannot be written: ") + std::strerror(errno) + ".");
}

} // namespace

std::string without_commands(const std::string& words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const auto byte = static_cast<unsigned char>(words[i]);
        const bool follows = byte == 0xc2 && i + 1 < words.size();
        const bool second_set = follows && static_cast<unsigned char>(words[i + 1]) < 0xa0; // U+0080 to U+009F
        const bool harmless =
            byte >= 0x20 || byte == '\n' || byte == '\t' || begins_with_bold(std::string_view(words).substr(i));
        out += harmless && !second_set && byte != 0x7f ? words[i] : '?';
        i += second_set ? 1 : 0;
    }
    return out;
}

void print(const std::string& words) {
    // JSON has no commands for a terminal unless it is looked at there; a pipe gets it to the byte.
    const std::string text = isatty(STDOUT_FILENO) == 1 || words.rfind('{', 0) != 0 ? without_commands(words) : words;
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size()) fail_output();
}

void finish_output() {
    if (std::fflush(stdout) != 0) fail_output();
}

std::string row_reminder(const std::string& words) {
    static const std::regex row_of_text_file(
        "\\.(csv|tsv|txt)\\b[^\n]*\\brows? [0-9]|\\brows? [0-9][^\n]*\\.(csv|tsv|txt)\\b", std::regex::icase);
    if (!std::regex_search(words, row_of_text_file)) return {};
    return "(Rows are counted below the column names, and below a row of units; blank lines are left out. Mostly row 1 "
           "is line 2 of a text file.)";
}

void tell(const std::string& line) { std::fprintf(stderr, "%s\n", without_commands(line).c_str()); }

Progress::Progress(bool wanted) : on_(wanted && isatty(STDERR_FILENO) == 1 && !is_dumb_terminal()) {}
Progress::~Progress() { clear(); }

void Progress::show(const std::string& words) {
    if (on_) std::fprintf(stderr, "\r\033[K%s ...", without_commands(words).c_str());
}

void Progress::clear() {
    if (on_) std::fputs("\r\033[K", stderr);
}

void allow_color(bool allowed) {
    color_allowed = allowed && isatty(STDOUT_FILENO) == 1 && !set_and_not_empty("NO_COLOR") && !is_dumb_terminal();
}

std::string bold(const std::string& text) {
    return color_allowed ? std::string(bold_on) + text + std::string(bold_off) : text;
}

std::string issue_line(const Issue& issue) {
    const std::string where = issue.where.empty() ? "" : " " + issue.where;
    return std::string(severity_word(issue.severity)) + " [" + issue.code + "]" + where + ": " + issue.message;
}

} // namespace quartercut::cli
