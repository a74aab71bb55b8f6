// SPDX-License-Identifier: MIT
// What goes to the terminal: answers to stdout, messages to stderr, progress only where stderr is a terminal.
#pragma once

#include "quartercut/issue.hpp"

#include <string>

namespace quartercut::cli {

/// The words with '?' for every control character but line ends, tabs and our own bold: names come out of files, and a
/// terminal would obey them.
[[nodiscard]] std::string without_commands(const std::string& words);

/// Writes text to stdout. \throws WriteError when it cannot be written (a full disk, a closed pipe)
void print(const std::string& text);

/// Flushes stdout. \throws WriteError
void finish_output();

/// A line that says how rows are counted, where the words speak of the row of a text file; else empty.
[[nodiscard]] std::string row_reminder(const std::string& words);

/// A line on stderr.
void tell(const std::string& line);

/// Shows one step of long work in place on stderr, only if that is a terminal; `done` clears it.
class Progress {
public:
    explicit Progress(bool wanted);
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;
    void show(const std::string& words);
    void clear();

private:
    bool on_;
};

/// Whether stdout takes colour: a terminal, no --no-color, NO_COLOR unset or empty (no-color.org), TERM not "dumb".
void allow_color(bool allowed);
[[nodiscard]] std::string bold(const std::string& text);

/// "warning [code] where: message"
[[nodiscard]] std::string issue_line(const Issue& issue);

} // namespace quartercut::cli
