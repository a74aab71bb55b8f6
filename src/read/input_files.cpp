// SPDX-License-Identifier: MIT
// Finding the files a season names, and taking their fingerprints.
#include "read/input_files.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <fstream>
#include <memory>
#include <openssl/evp.h>
#include <sys/stat.h>

namespace quartercut::reading {
namespace fs = std::filesystem;
namespace {

constexpr std::array<std::string_view, 10> shapefile_companions{".dbf", ".shx", ".prj", ".cpg", ".qpj",
                                                                ".qix", ".sbn", ".sbx", ".fix", ".gfs"};

bool has_wildcard(std::string_view text) { return text.find_first_of("*?") != std::string_view::npos; }

/// Names in a folder, sorted; empty when it is none.
std::vector<std::string> names_in(const fs::path& folder) {
    std::vector<std::string> names;
    std::error_code broken;
    for (fs::directory_iterator it(folder, broken), end; !broken && it != end; it.increment(broken))
        names.push_back(it->path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
}

/// Paths below `folders` that match one more part of the pattern.
std::vector<FoundFile> step_into(const std::vector<FoundFile>& folders, const std::string& part) {
    std::vector<FoundFile> out;
    for (const FoundFile& folder : folders) {
        const std::string prefix = folder.shown.empty() ? "" : folder.shown + "/";
        if (!has_wildcard(part)) {
            out.push_back({prefix + part, folder.path / part});
            continue;
        }
        for (const std::string& name : names_in(folder.path.empty() ? fs::path(".") : folder.path))
            if (name.front() != '.' && matches(part, name)) out.push_back({prefix + name, folder.path / name});
    }
    return out;
}

bool is_companion(const FoundFile& file) {
    const std::string end = ending(file.path);
    if (std::find(shapefile_companions.begin(), shapefile_companions.end(), end) == shapefile_companions.end())
        return false;
    fs::path shape = file.path;
    return fs::exists(shape.replace_extension(".shp")) || fs::exists(shape.replace_extension(".SHP")) ||
           fs::exists(shape.replace_extension(".gml")) || fs::exists(shape.replace_extension(".csv"));
}

/// A folder, a pipe or a device is there, but it is no file.
void refuse_odd_kind(const FoundFile& file, const std::string& wanted_for) {
    std::error_code broken;
    const fs::file_status status = fs::status(file.path, broken);
    if (broken || !fs::exists(status) || fs::is_regular_file(status)) return;
    if (fs::is_directory(status))
        throw InputError(
            fmt::format("{0}: this is a folder, and a file is wanted for {1}. Name the file in it, or several "
                        "with a star: \"{0}/*.csv\".",
                        file.shown, wanted_for));
    throw InputError(fmt::format("{}: this is no ordinary file but a pipe or a device. Write its content into a file "
                                 "first.",
                                 file.shown));
}

[[noreturn]] void nothing_found(const Season& season, const std::string& pattern, const std::string& wanted_for) {
    if (pattern.empty()) throw InputError(fmt::format("No file is named for {}.", wanted_for));
    const fs::path written(pattern);
    const fs::path folder = season.folder() / written.parent_path();
    const std::string folder_shown =
        written.has_parent_path() ? written.parent_path().string() : std::string("the season file's folder");
    if (!has_wildcard(written.parent_path().string()) && !fs::is_directory(folder.empty() ? fs::path(".") : folder))
        throw InputError(fmt::format("{}: there is no folder '{}'. Paths are relative to the season file ({}).",
                                     pattern, folder_shown, season.file.filename().string()));
    const std::vector<std::string> there = names_in(folder.empty() ? fs::path(".") : folder);
    throw InputError(fmt::format("{}: no such file for {}. In {} there are: {}.{}", pattern, wanted_for, folder_shown,
                                 listed(there, 12), did_you_mean(written.filename().string(), there)));
}

class Digest {
public:
    Digest() : context_(EVP_MD_CTX_new()) {
        if (!context_ || EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr) != 1)
            throw InternalError("SHA-256 is not to be had from the cryptographic library.");
    }
    void add(const char* data, std::size_t size) { EVP_DigestUpdate(context_.get(), data, size); }
    [[nodiscard]] std::string hex() {
        std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
        unsigned length = 0;
        EVP_DigestFinal_ex(context_.get(), bytes.data(), &length);
        std::string out;
        for (unsigned i = 0; i < length; ++i)
            out += fmt::format("{:02x}", bytes[i]);
        return out;
    }

private:
    struct Free {
        void operator()(EVP_MD_CTX* context) const { EVP_MD_CTX_free(context); }
    };
    std::unique_ptr<EVP_MD_CTX, Free> context_;
};

} // namespace

std::optional<FileState> state_of(const fs::path& path) {
    struct stat facts {};
    if (::stat(path.c_str(), &facts) != 0) return std::nullopt;
    return FileState{static_cast<std::uintmax_t>(facts.st_size), static_cast<std::uintmax_t>(facts.st_ino),
                     static_cast<std::int64_t>(facts.st_mtim.tv_sec), static_cast<std::int64_t>(facts.st_mtim.tv_nsec)};
}

void require_unchanged(const FoundFile& file) {
    if (!file.state || state_of(file.path) == file.state) return;
    throw InputError(
        fmt::format("{}: the file changed while it was read: something still writes to it. Wait until it is "
                    "done, then run this again.",
                    file.shown));
}

std::string ending(const fs::path& path) { return lower(path.extension().string()); }

bool matches(std::string_view pattern, std::string_view name) {
    std::size_t p = 0, n = 0, star = std::string_view::npos, star_name = 0;
    while (n < name.size()) {
        if (p < pattern.size() && (pattern[p] == '?' || pattern[p] == name[n]) && pattern[p] != '*') {
            ++p;
            ++n;
        } else if (p < pattern.size() && pattern[p] == '*') {
            star = p++;
            star_name = n;
        } else if (star != std::string_view::npos) {
            p = star + 1;
            n = ++star_name;
        } else {
            return false;
        }
    }
    return pattern.find_first_not_of('*', p) == std::string_view::npos;
}

std::vector<FoundFile> find_files(const Season& season, const std::string& pattern, const std::string& wanted_for) {
    const fs::path written(pattern);
    std::vector<FoundFile> found = {{written.is_absolute() ? written.root_path().string() : "",
                                     written.is_absolute() ? written.root_path() : season.folder()}};
    for (const fs::path& part : written.relative_path())
        found = step_into(found, part.string());
    if (!has_wildcard(pattern) && found.size() == 1) refuse_odd_kind(found.front(), wanted_for);
    std::erase_if(found, [](const FoundFile& file) { return !fs::is_regular_file(file.path); });
    if (has_wildcard(pattern)) std::erase_if(found, is_companion);
    if (found.empty()) nothing_found(season, pattern, wanted_for);
    for (FoundFile& file : found)
        file.state = state_of(file.path);
    return found;
}

InputFile fingerprint(const FoundFile& file, const std::string& role) {
    std::ifstream stream(file.path, std::ios::binary);
    if (!stream) throw InputError(fmt::format("{}: the file cannot be opened. Is it readable?", file.shown));
    InputFile out;
    out.path = file.shown;
    out.role = role;
    Digest digest;
    std::vector<char> buffer(1U << 20U);
    while (stream) {
        stream.read(buffer.data(), static_cast<std::streamsize>(buffer.size()));
        const auto got = static_cast<std::size_t>(stream.gcount());
        digest.add(buffer.data(), got);
        out.bytes += got;
    }
    if (stream.bad()) throw InputError(fmt::format("{}: reading stopped half-way. Copy the file afresh.", file.shown));
    out.sha256 = digest.hex();
    require_unchanged(file);
    return out;
}

std::string sha256_of(std::string_view text) {
    Digest digest;
    digest.add(text.data(), text.size());
    return digest.hex();
}

std::size_t add_input(Context& context, const FoundFile& file, const std::string& role) {
    context.raw.inputs.push_back(fingerprint(file, role));
    context.files.push_back(file);
    const std::size_t index = context.raw.inputs.size() - 1;
    if (ending(file.path) != ".shp") return index;
    for (const char* companion : {".dbf", ".shx", ".prj", ".cpg"}) {
        FoundFile beside{fs::path(file.shown).replace_extension(companion).string(), file.path, {}};
        beside.path.replace_extension(companion);
        if (!fs::is_regular_file(beside.path)) continue;
        beside.state = state_of(beside.path);
        context.raw.inputs.push_back(fingerprint(beside, role));
        context.files.push_back(beside);
    }
    return index;
}

} // namespace quartercut::reading
