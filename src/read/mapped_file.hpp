// SPDX-License-Identifier: MIT
// A whole file as one piece of memory, mapped and not copied.
#pragma once

#include <filesystem>
#include <string_view>

namespace quartercut::reading {

class MappedFile {
public:
    /// \throws InputError  the file cannot be opened or mapped; `shown` names it
    MappedFile(const std::filesystem::path& path, const std::string& shown);
    ~MappedFile();
    MappedFile(MappedFile&& other) noexcept;
    MappedFile& operator=(MappedFile&&) = delete;
    MappedFile(const MappedFile&) = delete;
    MappedFile& operator=(const MappedFile&) = delete;
    [[nodiscard]] std::string_view bytes() const { return bytes_; }

private:
    std::string_view bytes_;
    void* address_ = nullptr;
};

} // namespace quartercut::reading
