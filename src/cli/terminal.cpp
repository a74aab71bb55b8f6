// SPDX-License-Identifier: MIT
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
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

[[noreturn]] void fail_output() {
    throw WriteError(std::string("Standard output cannot be written: ") + std::strerror(errno) + ".");
}

} // namespace

void print(const std::string& text) {
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size()) fail_output();
}

void finish_output() {
    if (std::fflush(stdout) != 0) fail_output();
}

void tell(const std::string& line) { std::fprintf(stderr, "%s\n", line.c_str()); }

Progress::Progress(bool wanted) : on_(wanted && isatty(STDERR_FILENO) == 1 && !is_dumb_terminal()) {}
Progress::~Progress() { clear(); }

void Progress::show(const std::string& words) {
    if (on_) std::fprintf(stderr, "\r\033[K%s ...", words.c_str());
}

void Progress::clear() {
    if (on_) std::fputs("\r\033[K", stderr);
}

void allow_color(bool allowed) {
    color_allowed = allowed && isatty(STDOUT_FILENO) == 1 && !set_and_not_empty("NO_COLOR") && !is_dumb_terminal();
}

std::string bold(const std::string& text) { return color_allowed ? "\033[1m" + text + "\033[0m" : text; }

std::string issue_line(const Issue& issue) {
    const std::string where = issue.where.empty() ? "" : " " + issue.where;
    return std::string(severity_word(issue.severity)) + " [" + issue.code + "]" + where + ": " + issue.message;
}

} // namespace quartercut::cli
