// SPDX-License-Identifier: MIT
// Any bytes as the comparison.json of an earlier year: gains with an error, or an InputError; nothing else.
#include "quartercut/error.hpp"
#include "quartercut/history.hpp"
#include "quartercut/read.hpp"

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;

/// One folder a process, gone at its end.
struct Folder {
    Folder() { fs::create_directories(path); }
    ~Folder() {
        std::error_code ignored;
        fs::remove_all(path, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    fs::path path = fs::temp_directory_path() / ("quartercut-earlier-" + std::to_string(::getpid()));
};

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace quartercut;
    static const Folder folder;
    std::ofstream(folder.path / "earlier.json", std::ios::binary)
        .write(reinterpret_cast<const char*>(bytes), static_cast<std::streamsize>(size));
    Season season;
    season.file = folder.path / "season.toml";
    season.year = 2025;
    season.history = HistoryInput{{"earlier.json"}, {}, {}};
    std::vector<InputFile> inputs;
    try {
        for (const EarlierSeason& one : read_earlier_results(season, inputs))
            for (const EarlierGain& gain : one.gains)
                if (!std::isfinite(gain.gain_t_ha) || !(gain.se_t_ha > 0.0) || !(gain.df > 0.0)) std::abort();
    } catch (const InputError&) {
    }
    return 0;
}
