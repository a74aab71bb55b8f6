// SPDX-License-Identifier: MIT
// The network is closed twice: GDAL's file systems that reach over it are replaced by ones that have no file, and its
// fetching of single addresses is answered before it begins.
#include "read/closed_doors.hpp"

#include "quartercut/error.hpp"

#include <algorithm>
#include <array>
#include <cpl_conv.h>
#include <cpl_http.h>
#include <cpl_vsi.h>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <memory>
#include <ogr_srs_api.h>
#include <string_view>

namespace quartercut::reading {
namespace {

// Judgement: a season's largest archives hold some hundred files, and tables of numbers seldom shrink to a fiftieth.
constexpr unsigned most_members = 10000;
constexpr std::uintmax_t always_allowed_bytes = std::uintmax_t{256} << 20U;
constexpr std::uintmax_t largest_growth = 200;

/// The end-of-central-directory record of a zip file (published by its makers as APPNOTE, 4.3.16).
constexpr std::string_view directory_end = "PK\x05\x06";
constexpr std::size_t directory_end_bytes = 22, longest_comment = 65535, members_at = 10;

void* no_file(void*, const char*, const char*) { return nullptr; }
int no_facts(void*, const char*, VSIStatBufL*, int) { return -1; }
char** no_names(void*, const char*, int) { return nullptr; }

CPLHTTPResult* no_answer(const char*, CSLConstList, GDALProgressFunc, void*, CPLHTTPFetchWriteFunc, void*, void*) {
    auto* const result = static_cast<CPLHTTPResult*>(CPLCalloc(1, sizeof(CPLHTTPResult)));
    result->nStatus = 1;
    result->pszErrBuf = CPLStrdup("nothing is fetched over a network");
    return result;
}

/// How many files the archive's directory says it holds; 65535 also stands for "more than fit here".
unsigned member_count(const std::filesystem::path& archive) {
    std::ifstream stream(archive, std::ios::binary | std::ios::ate);
    const auto size = static_cast<std::size_t>(std::max<std::streamoff>(0, stream.tellg()));
    std::string tail(std::min(size, directory_end_bytes + longest_comment), '\0');
    stream.seekg(static_cast<std::streamoff>(size - tail.size()));
    stream.read(tail.data(), static_cast<std::streamsize>(tail.size()));
    const std::size_t at = tail.rfind(directory_end);
    if (at == std::string::npos || at + directory_end_bytes > tail.size()) return 0; // GDAL will say that it is damaged
    const auto byte = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(tail[i])); };
    return byte(at + members_at) | byte(at + members_at + 1) << 8U;
}

/// Bytes of all members unpacked, as the archive's directory states them.
std::uintmax_t unpacked_bytes(const std::string& root) {
    VSIDIR* const folder = VSIOpenDir(root.c_str(), -1, nullptr);
    std::uintmax_t bytes = 0;
    while (folder != nullptr) {
        const VSIDIREntry* const entry = VSIGetNextDirEntry(folder);
        if (entry == nullptr) break;
        bytes += entry->nSize;
    }
    VSICloseDir(folder);
    return bytes;
}

} // namespace

void close_network() {
    static constexpr std::array prefixes{"/vsicurl/",
                                         "/vsicurl?",
                                         "/vsicurl_streaming/",
                                         "/vsis3/",
                                         "/vsis3_streaming/",
                                         "/vsigs/",
                                         "/vsigs_streaming/",
                                         "/vsiaz/",
                                         "/vsiaz_streaming/",
                                         "/vsiadls/",
                                         "/vsioss/",
                                         "/vsioss_streaming/",
                                         "/vsiswift/",
                                         "/vsiswift_streaming/",
                                         "/vsihdfs/",
                                         "/vsiwebhdfs/"};
    VSIFilesystemPluginCallbacksStruct* const nothing = VSIAllocFilesystemPluginCallbacksStruct();
    nothing->open = no_file;
    nothing->stat = no_facts;
    nothing->read_dir = no_names;
    for (const char* prefix : prefixes)
        VSIInstallPluginHandler(prefix, nothing);
    VSIFreeFilesystemPluginCallbacksStruct(nothing);
    CPLHTTPSetFetchCallback(no_answer, nullptr);
    OSRSetPROJEnableNetwork(0);
}

std::string archive_root(const FoundFile& file) {
    const std::string path = std::filesystem::absolute(file.path).string();
    return path.find_first_of("{}") == std::string::npos ? "/vsizip/{" + path + "}" : "/vsizip/" + path;
}

void refuse_bottomless_archive(const FoundFile& file) {
    if (member_count(file.path) > most_members)
        throw InputError(fmt::format("{}: the archive holds more than {} files, so it is not looked through. Take out "
                                     "the one that is wanted.",
                                     file.shown, most_members));
    const std::uintmax_t unpacked = unpacked_bytes(archive_root(file));
    if (unpacked <= std::max(always_allowed_bytes, largest_growth * std::filesystem::file_size(file.path))) return;
    throw InputError(fmt::format("{}: the archive would unpack to {:.1f} GB, {} times its own size, which no records "
                                 "do, so it is not unpacked. Take out the file that is wanted.",
                                 file.shown, static_cast<double>(unpacked) / 1e9,
                                 unpacked / std::max<std::uintmax_t>(1, std::filesystem::file_size(file.path))));
}

} // namespace quartercut::reading
