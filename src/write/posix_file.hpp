// SPDX-License-Identifier: MIT
// The few file-system steps that must reach the disk or swap whole folders, with errno kept for the message.
#pragma once

#include <filesystem>
#include <string>

namespace quartercut::write {

/// \throws WriteError  "SHOWN: cannot WHAT: No space left on device. ..."
[[noreturn]] void fail_with_errno(int error, const std::filesystem::path& shown, const std::string& what);

/// Writes and fsyncs. `shown` stands in the message. \throws WriteError
void write_synced(const std::filesystem::path& file, const std::string& text, const std::filesystem::path& shown);

/// fsyncs every file and folder under `folder`, itself included. \throws WriteError
void sync_tree(const std::filesystem::path& folder, const std::filesystem::path& shown);
void sync_folder(const std::filesystem::path& folder, const std::filesystem::path& shown);

/// Swaps two folders in one step (Linux renameat2). \returns false where the file system cannot
[[nodiscard]] bool exchange(const std::filesystem::path& a, const std::filesystem::path& b);

/// True when no process of that id runs on this machine.
[[nodiscard]] bool is_dead(long pid);

} // namespace quartercut::write
