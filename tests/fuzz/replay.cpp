// SPDX-License-Identifier: MIT
// Feeds the stored corpus to a fuzz target without a fuzzer: replay FOLDER. Every file as it is, cut short at every
// so many bytes, and with one byte changed here and there; always the same ones.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size);

namespace {

namespace fs = std::filesystem;

constexpr std::size_t places_per_file = 200;

std::size_t fed = 0;

void feed(const std::string& text) {
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
    ++fed;
}

void feed_changed(const std::string& text) {
    const std::size_t step = std::max<std::size_t>(1, text.size() / places_per_file);
    for (std::size_t at = 0; at < text.size(); at += step) {
        feed(text.substr(0, at));
        for (const char other : {'\0', '9', '"', '\xff'}) {
            std::string changed = text;
            changed[at] = other;
            feed(changed);
        }
    }
}

std::vector<fs::path> files_in(const fs::path& folder) {
    std::vector<fs::path> out;
    for (const auto& entry : fs::directory_iterator(folder))
        if (entry.is_regular_file()) out.push_back(entry.path());
    std::sort(out.begin(), out.end());
    return out;
}

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

} // namespace

int main(int count, char** words) {
    if (count != 2) {
        std::fprintf(stderr, "usage: replay FOLDER\n");
        return 2;
    }
    for (const fs::path& file : files_in(words[1])) {
        try {
            const std::string text = bytes_of(file);
            feed(text);
            feed_changed(text);
        } catch (const std::exception& error) {
            std::fprintf(stderr, "%s, input %zu: an error nobody expects: %s\n", file.c_str(), fed, error.what());
            return 1;
        }
    }
    std::printf("%zu inputs\n", fed);
    return fed == 0 ? 1 : 0; // an empty corpus would pass without having tried anything
}
