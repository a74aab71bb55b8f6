// SPDX-License-Identifier: MIT
// Writing that has reached the disk when it returns, and swapping folders. See posix_file.hpp.
#include "write/posix_file.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <unistd.h>

namespace quartercut::write {

namespace {

/// A file descriptor that closes itself.
class Descriptor {
public:
    Descriptor(const std::filesystem::path& path, int flags) : fd_(::open(path.c_str(), flags | O_CLOEXEC, 0666)) {}
    ~Descriptor() {
        if (fd_ >= 0) ::close(fd_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] bool open() const { return fd_ >= 0; }
    [[nodiscard]] int get() const { return fd_; }

private:
    int fd_;
};

void sync_path(const std::filesystem::path& path, int flags, const std::filesystem::path& shown) {
    const Descriptor file(path, flags);
    if (!file.open()) fail_with_errno(errno, shown, "open");
    // Some file systems cannot sync a folder and say EINVAL; the data itself has been synced by then.
    if (::fsync(file.get()) != 0 && errno != EINVAL) fail_with_errno(errno, shown, "write it to disk");
}

} // namespace

void fail_with_errno(int error, const std::filesystem::path& shown, const std::string& what) {
    throw WriteError(fmt::format("{}: cannot {}: {}. Make room or give another folder with --out.", shown.string(),
                                 what, std::strerror(error)));
}

void write_synced(const std::filesystem::path& file, const std::string& text, const std::filesystem::path& shown) {
    const Descriptor out(file, O_WRONLY | O_CREAT | O_TRUNC);
    if (!out.open()) fail_with_errno(errno, shown, "create");
    std::size_t done = 0;
    while (done < text.size()) {
        const ssize_t written = ::write(out.get(), text.data() + done, text.size() - done);
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) fail_with_errno(errno, shown, "write");
        done += static_cast<std::size_t>(written);
    }
    if (::fsync(out.get()) != 0) fail_with_errno(errno, shown, "write it to disk");
}

void sync_folder(const std::filesystem::path& folder, const std::filesystem::path& shown) {
    sync_path(folder, O_RDONLY | O_DIRECTORY, shown);
}

void sync_tree(const std::filesystem::path& folder, const std::filesystem::path& shown) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        const int flags = entry.is_directory() ? O_RDONLY | O_DIRECTORY : O_RDONLY;
        sync_path(entry.path(), flags, shown / entry.path().lexically_relative(folder));
    }
    sync_folder(folder, shown);
}

bool exchange(const std::filesystem::path& a, const std::filesystem::path& b) {
    return ::renameat2(AT_FDCWD, a.c_str(), AT_FDCWD, b.c_str(), RENAME_EXCHANGE) == 0;
}

bool is_dead(long pid) { return pid > 0 && ::kill(static_cast<pid_t>(pid), 0) != 0 && errno == ESRCH; }

} // namespace quartercut::write
