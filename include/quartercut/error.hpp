// SPDX-License-Identifier: MIT
// What stops the work, and who must act on it.
//
// Two kinds of trouble are kept apart.  When the work cannot go on, a room throws one of the errors below and only
// `main` catches it.  When something is merely odd (a doubtful row, a fit that found no range), the room returns an
// `Issue` (issue.hpp) in its result and goes on.
#pragma once

#include <stdexcept>
#include <string>

namespace quartercut {

/// Process exit codes. 1 and 2 are the users' to act on; 70 and 74 follow sysexits.h (EX_SOFTWARE, EX_IOERR).
enum class ExitCode : int { done = 0, input = 1, usage = 2, defect = 70, cannot_write = 74 };

/// Root of every error this library throws. The message says what, where and what to do, in whole sentences.
class Error : public std::runtime_error {
public:
    Error(ExitCode code, const std::string& message) : std::runtime_error(message), code_(code) {}
    [[nodiscard]] ExitCode code() const noexcept { return code_; }

private:
    ExitCode code_;
};

/// The command line was wrong.
class UsageError : public Error {
public:
    explicit UsageError(const std::string& message) : Error(ExitCode::usage, message) {}
};

/// A file, layer, column, coordinate system or season-file key is missing, unknown or contradicts another.
class InputError : public Error {
public:
    explicit InputError(const std::string& message) : Error(ExitCode::input, message) {}
};

/// The input could be read but its numbers cannot be used.
class DataError : public Error {
public:
    explicit DataError(const std::string& message) : Error(ExitCode::input, message) {}
};

/// The result could not be written.
class WriteError : public Error {
public:
    explicit WriteError(const std::string& message) : Error(ExitCode::cannot_write, message) {}
};

/// A defect of ours: a self-check failed.
class InternalError : public Error {
public:
    explicit InternalError(const std::string& message) : Error(ExitCode::defect, message) {}
};

} // namespace quartercut
