// SPDX-License-Identifier: MIT
// A folder of the process's own, gone at its end, for targets whose bytes must stand in a file.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>

namespace quartercut::fuzz {

class OwnFolder {
public:
    OwnFolder() { std::filesystem::create_directories(path_); }
    ~OwnFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    OwnFolder(const OwnFolder&) = delete;
    OwnFolder& operator=(const OwnFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// Puts the bytes into a file of that name, in place of what it held.
    std::filesystem::path put(const char* name, const std::uint8_t* bytes, std::size_t size) const {
        std::ofstream(path_ / name, std::ios::binary)
            .write(reinterpret_cast<const char*>(bytes), static_cast<std::streamsize>(size));
        return path_ / name;
    }

private:
    std::filesystem::path path_ =
        std::filesystem::temp_directory_path() / ("quartercut-fuzz-" + std::to_string(::getpid()));
};

} // namespace quartercut::fuzz
