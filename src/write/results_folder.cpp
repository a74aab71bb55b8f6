// SPDX-License-Identifier: MIT
// The results folder, whole or not at all: built in a hidden folder beside the target, then swapped in with one rename.
//
// The file .quartercut-results inside lists what was written. It is how a later run knows that the folder is ours, and
// that nobody has put files of their own into it: such a folder is left alone. A folder of ours is replaced by results of
// its own kind only: zones must not take the place of a comparison.
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"
#include "write/posix_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstdint>
#include <fstream>
#include <random>
#include <set>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>
#include <vector>

namespace quartercut {

namespace {

namespace fs = std::filesystem;

constexpr const char* aside_ending = "-old"; ///< of results that step aside for new ones
constexpr const char* marker_head = "Written by quartercut; a later run may replace this folder whole. Files:\n";

std::string temporary_prefix(const fs::path& target) { return "." + target.filename().string() + ".quartercut-"; }

fs::path parent_of(const fs::path& target) {
    const fs::path parent = target.parent_path();
    return parent.empty() ? fs::path(".") : parent;
}

/// The names the marker lists; nullopt without a marker of ours.
std::optional<std::set<std::string>> listed_files(const fs::path& folder) {
    std::ifstream in(folder / results_marker, std::ios::binary);
    std::string line;
    if (!std::getline(in, line) || line + '\n' != marker_head) return std::nullopt;
    std::set<std::string> names;
    while (std::getline(in, line))
        names.insert(line);
    return names;
}

/// Side files that viewers, spreadsheets and file managers leave beside ours. Anything else may be somebody's work.
bool is_side_file(const std::string& name, const std::set<std::string>& ours) {
    if (name == ".DS_Store" || name == "Thumbs.db" || name == "desktop.ini" || name.rfind(".~lock.", 0) == 0)
        return true;
    static const std::set<std::string> endings = {"-new", "-wal", "-shm", "-journal", ".aux.xml", ".ovr", ".qix"};
    return std::any_of(ours.begin(), ours.end(), [&](const std::string& mine) {
        return name.rfind(mine, 0) == 0 && endings.count(name.substr(mine.size())) > 0;
    });
}

/// A file in the folder that we did not write, or an empty string.
std::string foreign_file(const fs::path& folder, const std::set<std::string>& ours) {
    std::set<std::string> found;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const std::string name = entry.path().lexically_relative(folder).generic_string();
        if (name == results_marker || ours.count(name) > 0) continue;
        if (entry.is_directory() && !entry.is_symlink()) continue;
        if (!is_side_file(name, ours)) found.insert(name);
    }
    return found.empty() ? std::string() : *found.begin();
}

/// \throws WriteError when the target is something we must not replace
void require_replaceable(const fs::path& folder, const fs::path& shown) {
    if (!fs::exists(fs::symlink_status(folder))) return;
    if (!fs::is_directory(folder)) {
        throw WriteError(fmt::format("{}: there is a file of that name. Give another folder with --out, or move it.",
                                     shown.string()));
    }
    if (fs::is_empty(folder)) return;
    const auto ours = listed_files(folder);
    if (!ours) {
        throw WriteError(fmt::format("{}: the folder holds files and no results of an earlier run, so it is left "
                                     "untouched. Give another folder with --out.",
                                     shown.string()));
    }
    const std::string foreign = foreign_file(folder, *ours);
    if (foreign.empty()) return;
    throw WriteError(fmt::format("{}: the results of an earlier run stand there together with '{}', which this program "
                                 "did not write, so the folder is left untouched. Move that file or give another "
                                 "folder with --out.",
                                 shown.string(), foreign));
}

/// What a folder of ours holds, by a file every folder of that kind has; empty where no such file is listed.
std::string kind_of(const std::set<std::string>& listed) {
    // In this order: a layout holds counting sheets as well.
    static const std::vector<std::pair<std::string, std::string>> kinds = {
        {"comparison.json", "the results of a comparison"},
        {"choose.json", "a choice of next year's fields"},
        {"layout.json", "the layout of a trial"},
        {"zones.csv", "zones staked out"},
        {"counting_sheet.csv", "counting sheets"}};
    for (const auto& [name, words] : kinds)
        if (listed.count(name) > 0) return words;
    return {};
}

/// \throws WriteError when the target holds something of ours that the new results are no later version of
void require_same_kind(const fs::path& target, const fs::path& building, const fs::path& shown) {
    const std::string there = kind_of(listed_files(target).value_or(std::set<std::string>()));
    const std::string coming = kind_of(listed_files(building).value_or(std::set<std::string>()));
    if (there.empty() || coming.empty() || there == coming) return;
    throw WriteError(
        fmt::format("{}: the folder holds {}, which {} would replace, so it is left untouched. Give another "
                    "folder with --out, or move that one.",
                    shown.string(), there, coming));
}

/// Eight digits for this machine: on a shared drive a process id says nothing about a run elsewhere (FNV-1a, RFC draft
/// by Fowler, Noll and Vo).
std::string host_tag() {
    char name[256] = {};
    ::gethostname(name, sizeof name - 1);
    std::uint32_t hash = 2166136261u;
    for (const char* c = name; *c != '\0'; ++c)
        hash = (hash ^ static_cast<unsigned char>(*c)) * 16777619u;
    return fmt::format("{:08x}", hash);
}

/// Removes a folder of ours; the marker goes last, so that what a kill leaves of it is still known for ours.
void remove_ours(const fs::path& folder) {
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(folder, ignored))
        if (entry.path().filename() != results_marker) fs::remove_all(entry.path(), ignored);
    fs::remove_all(folder, ignored);
}

/// Folders beside the target that killed runs of this machine left: our prefix, and a process id that no longer runs.
std::vector<fs::path> leftovers(const fs::path& target) {
    const std::string prefix = temporary_prefix(target);
    std::vector<fs::path> out;
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(parent_of(target), ignored)) {
        const std::string name = entry.path().filename().string();
        if (name.rfind(prefix, 0) != 0 || !entry.is_directory() || entry.is_symlink()) continue;
        long pid = 0;
        const auto number = std::from_chars(name.data() + prefix.size(), name.data() + name.size(), pid);
        if (std::string(number.ptr).rfind("-" + host_tag() + "-", 0) != 0) continue;
        const bool ours = fs::exists(entry.path() / results_marker) || fs::is_empty(entry.path(), ignored);
        if (ours && write::is_dead(pid)) out.push_back(entry.path());
    }
    std::sort(out.begin(), out.end());
    return out;
}

/// Removes what killed runs left. Results that had stepped aside for new ones when the run was killed come back.
void remove_leftovers(const fs::path& target) {
    std::error_code failed;
    for (const fs::path& folder : leftovers(target)) {
        const bool aside = folder.string().ends_with(aside_ending);
        if (aside && !fs::exists(fs::symlink_status(target)) && !fs::is_empty(folder, failed))
            fs::rename(folder, target, failed);
        else
            remove_ours(folder);
    }
}

fs::path make_building_folder(const fs::path& target, const fs::path& shown) {
    std::random_device random;
    for (int attempt = 0; attempt < 100; ++attempt) {
        const fs::path folder = parent_of(target) / fmt::format("{}{}-{}-{:08x}", temporary_prefix(target), ::getpid(),
                                                                host_tag(), random());
        if (::mkdir(folder.c_str(), 0777) == 0) return folder;
        if (errno != EEXIST) break;
    }
    write::fail_with_errno(errno, shown, "create the results folder");
}

/// The path without a trailing slash; where it is a link, what the link points to.
fs::path plain_target(const fs::path& given) {
    fs::path target = given.lexically_normal();
    if (!target.has_filename() || target.filename() == "." || target.filename() == "..") {
        target = fs::absolute(target).lexically_normal();
        if (!target.has_filename()) target = target.parent_path();
    }
    std::error_code failed;
    if (!fs::is_symlink(target, failed)) return target;
    const fs::path real = fs::canonical(target, failed);
    return failed ? target : real;
}

std::string marker_text(const fs::path& folder) {
    std::set<std::string> names;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (!entry.is_directory()) names.insert(entry.path().lexically_relative(folder).generic_string());
    }
    names.erase(results_marker);
    std::string text = marker_head;
    for (const std::string& name : names)
        text += name + '\n';
    return text;
}

} // namespace

ResultsFolder::ResultsFolder(fs::path target) : shown_(std::move(target)), target_(plain_target(shown_)) {
    try {
        require_replaceable(target_, shown_);
        for (fs::path folder = parent_of(target_); !fs::exists(folder); folder = parent_of(folder)) {
            created_parents_.push_back(folder);
        }
        fs::create_directories(parent_of(target_));
        remove_leftovers(target_);
        building_ = make_building_folder(target_, shown_);
        write::write_synced(building_ / results_marker, marker_head, shown_);
    } catch (const fs::filesystem_error& error) {
        discard();
        write::fail_with_errno(error.code().value(), shown_, "create the results folder");
    } catch (...) {
        discard();
        throw;
    }
}

ResultsFolder::~ResultsFolder() {
    if (!committed_) discard();
}

void ResultsFolder::discard() noexcept {
    std::error_code ignored;
    if (!building_.empty()) remove_ours(building_);
    for (const fs::path& parent : created_parents_)
        fs::remove(parent, ignored); // only where still empty
}

void ResultsFolder::write_text(const std::string& name, const std::string& text) const {
    write::write_synced(building_ / name, text, shown_ / name);
}

void ResultsFolder::commit() {
    try {
        write::write_synced(building_ / results_marker, marker_text(building_), shown_ / results_marker);
        write::sync_tree(building_, shown_);
        swap_in();
        committed_ = true;
        write::sync_folder(parent_of(target_), shown_);
    } catch (const fs::filesystem_error& error) {
        write::fail_with_errno(error.code().value(), shown_, "put the results in place");
    }
}

void ResultsFolder::swap_in() {
    require_replaceable(target_, shown_); // looked at again: the run may have taken minutes
    require_same_kind(target_, building_, shown_);
    if (!fs::exists(target_)) {
        fs::rename(building_, target_);
        return;
    }
    std::error_code ignored;
    if (write::exchange(building_, target_)) {
        remove_ours(building_); // now the old results
        return;
    }
    // Without an exchange the old folder steps aside first; it comes back if the new one cannot take its place.
    const fs::path aside = building_.string() + aside_ending;
    fs::rename(target_, aside);
    std::error_code failed;
    fs::rename(building_, target_, failed);
    if (failed) {
        fs::rename(aside, target_, ignored);
        write::fail_with_errno(failed.value(), shown_, "put the results in place");
    }
    remove_ours(aside);
}

} // namespace quartercut
