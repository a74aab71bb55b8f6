// SPDX-License-Identifier: MIT
// What every part of this room carries along: the season's wishes, the tables filled so far, and how a place in the
// input is written in a message.
#pragma once

#include "base/words/words.hpp"
#include "quartercut/error.hpp"
#include "quartercut/read.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace quartercut::reading {

/// Thrown to leave a piece of work whose faults stand among the issues already. Never leaves this room.
struct FaultsTold : InputError {
    FaultsTold() : InputError("told already") {}
};

/// What tells without reading it that a file was written to or exchanged.
struct FileState {
    std::uintmax_t bytes = 0, inode = 0;
    std::int64_t modified_s = 0, modified_ns = 0;
    [[nodiscard]] bool operator==(const FileState&) const = default;
};

/// A file the season names: how it is written there (relative), where it lies, and what it was like when it was found.
struct FoundFile {
    std::string shown;
    std::filesystem::path path;
    std::optional<FileState> state = {};
};

struct Context {
    const Season& season;
    Raw& raw;
    /// False: the first fault stops the work. True: it becomes an issue of severity error and the work goes on with the
    /// next piece, so that everything can be told at once; what was read then is not to be used.
    bool gather_faults = false;
    bool frame_known = false;    ///< has a layer said whether coordinates are of the Earth or local metres?
    std::string frame_from = {}; ///< that layer, for messages
    std::string zoned_from = {},
                zoneless_from = {};    ///< an input whose times state their zone, and one whose times do not
    std::vector<FoundFile> files = {}; ///< read so far, to look at once more in the end

    void note(std::string code, std::string where, std::string message) {
        raw.issues.push_back({std::move(code), Severity::note, std::move(where), std::move(message)});
    }
    void warn(std::string code, std::string where, std::string message) {
        raw.issues.push_back({std::move(code), Severity::warning, std::move(where), std::move(message)});
    }
    /// Does a piece of work; see gather_faults. \returns whether it went well
    template <class Work>
    bool attempt(const std::string& where, const Work& work) {
        if (!gather_faults) {
            work();
            return true;
        }
        try {
            work();
            return true;
        } catch (const FaultsTold&) {
            return false;
        } catch (const InputError& error) {
            raw.issues.push_back({"input-refused", Severity::error, where, error.what()});
        } catch (const DataError& error) {
            raw.issues.push_back({"data-refused", Severity::error, where, error.what()});
        }
        return false;
    }
    /// Stops a piece of work whose faults have been gathered. \param before  faults there were when it began
    void stop_if_faults(std::size_t before) const {
        if (gather_faults && faults() > before) throw FaultsTold();
    }
    [[nodiscard]] std::size_t faults() const;
};

/// Text of a file made fit for a message: cut short, control characters as '?'.
[[nodiscard]] std::string shown_cell(std::string_view cell);

/// "season.toml, line 12: " for a key of the season file that is to be changed; empty when the key was not written.
[[nodiscard]] std::string written_at(const Season& season, const TextPlace& place);

/// "1 row", "3 rows".
[[nodiscard]] std::string counted(std::size_t n, const char* one, const char* many);

} // namespace quartercut::reading
