// SPDX-License-Identifier: MIT
// Mapping files into memory (POSIX).
#include "read/mapped_file.hpp"

#include "quartercut/error.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace quartercut::reading {
namespace {

/// Closes the descriptor when the scope ends: a mapping outlives it.
struct Descriptor {
    int number;
    ~Descriptor() {
        if (number >= 0) ::close(number);
    }
};

} // namespace

MappedFile::MappedFile(const std::filesystem::path& path, const std::string& shown) {
    const Descriptor file{::open(path.c_str(), O_RDONLY | O_CLOEXEC)};
    struct stat facts {};
    if (file.number < 0 || ::fstat(file.number, &facts) != 0)
        throw InputError(fmt::format("{}: the file cannot be opened. Is it readable?", shown));
    const auto size = static_cast<std::size_t>(facts.st_size);
    if (size == 0) return;
    void* const address = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file.number, 0);
    if (address == MAP_FAILED)
        throw InputError(fmt::format("{}: the file cannot be mapped into memory.", shown)); // NOLINT
    ::madvise(address, size, MADV_SEQUENTIAL);
    address_ = address;
    bytes_ = {static_cast<const char*>(address), size};
}

MappedFile::~MappedFile() {
    if (address_ != nullptr) ::munmap(address_, bytes_.size());
}

MappedFile::MappedFile(MappedFile&& other) noexcept
    : bytes_(std::exchange(other.bytes_, {})), address_(std::exchange(other.address_, nullptr)) {}

} // namespace quartercut::reading
