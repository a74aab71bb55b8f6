// SPDX-License-Identifier: MIT
// What the cleaning steps share about one field: the clock, the directions, the passes and the masses so far.
// The result of the room (CleanedField) is filled step by step; what only the steps need stays here.
#pragma once

#include "quartercut/clean.hpp"

#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

namespace quartercut::cleaning {

inline constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();
inline constexpr double degrees_per_radian = 57.29577951308232;

/// Records [begin, end) of one pass. Dropped positions and copies may lie in between; they carry pass -1.
struct PassRange {
    std::size_t begin = 0, end = 0;
    double start_s = 0.0, end_s = 0.0; ///< on the work's clock: start of the first, end of the last record
    bool fills = true;                 ///< the machine came empty into the crop
    bool empties = true;               ///< it left the crop
};

/// Records [begin, end) of one machine; records are sorted by machine, then time.
struct MachineBlock {
    std::size_t begin = 0, end = 0;
    int machine = -1;
    double typical_step_s = 1.0;   ///< median time between records
    double gap_s = 5.0;            ///< a longer silence is a gap
    bool moisture_recorded = true; ///< false: no record of the block has a moisture
    double first_s = std::numeric_limits<double>::infinity(), last_s = -first_s; ///< of the times known
};

/// How far apart two passes of one method run that lie side by side.
struct Spacing {
    int method = -1;
    double width_m = 0.0, spacing_m = 0.0;
};

/// What places, times and widths say, whatever the options: the same in every cleaning of the same records.
struct Groundwork {
    std::vector<MachineBlock> blocks;
    std::vector<double> clock_s;           ///< end of each record; made up from durations where times lack
    std::vector<double> step_s;            ///< time each record stands for
    std::vector<double> dir_x, dir_y;      ///< unit vector of travel; 0, 0 where unknown
    std::vector<std::uint8_t> jump;        ///< 1: position is off
    std::vector<std::uint8_t> copy;        ///< 1: the same record once more
    std::vector<std::int32_t> pass;        ///< as in CleanedField
    std::vector<Pass> passes;              ///< likewise
    std::vector<PassRange> ranges;         ///< parallel to passes
    std::vector<std::int32_t> left, right; ///< nearest record of the pass on either side, -1: none
    std::vector<std::size_t> time_order;   ///< record numbers by clock over all machines
    std::vector<Spacing> spacings;         ///< of neighbouring passes, in the order of methods and passes
    std::vector<double> mapped_m2;         ///< land of each method area within the boundary; empty: not measured yet
    double position_noise_m = nan_value;   ///< cross-track, from the spacing of passes; NaN: not to be had
    std::vector<std::uint8_t> cutting; ///< 1: a pass that brought grain, so it took land; the next line is for these
    std::vector<double> new_share;     ///< share of each record's land that nobody had cut before
};

struct FieldWork : Groundwork {
    const StandardField* field = nullptr;
    CleanedField* out = nullptr;
    std::vector<std::uint8_t> unseen;  ///< 1: its grain arrived when nothing was logged; 2: before logging began
    std::vector<std::uint8_t> unread;  ///< 1: cutting, but the sensor gave no reading or a negative one
    std::vector<std::int32_t> owner;   ///< record that carries its mass and area: itself, or the one it was merged into
    std::vector<double> mass_kg;       ///< grain as logged, then lag-shifted
    std::vector<double> cover_share;   ///< share of the cut that was new land, 0..1
    std::vector<double> method_offset; ///< scratch of the calibration

    [[nodiscard]] const Records& records() const { return field->records; }
    [[nodiscard]] std::size_t size() const { return clock_s.size(); }
    [[nodiscard]] bool kept(std::size_t i) const { return out->removal[i] == Removal::kept; }
    [[nodiscard]] double yield_t_ha(std::size_t i) const {
        return out->area_m2[i] > 0.0 ? 10.0 * out->mass_basis_kg[i] / out->area_m2[i] : nan_value;
    }
    /// Marks a record that is still kept. The first reason stays.
    void remove(std::size_t i, Removal why) {
        if (kept(i)) out->removal[i] = why;
    }
};

/// Season-wide facts every step may need.
struct Setting {
    const Season* season = nullptr;
    const Standardised* input = nullptr;
    const CleanOptions* options = nullptr;
    /// Of a season that was cleaned before, with one thing changed: nobody reads its reports.
    [[nodiscard]] bool is_rerun() const { return options->earlier != nullptr; }
    [[nodiscard]] int groups() const { return static_cast<int>(input->machines.size() * season->methods.size()); }
    /// Machine x method; -1 for a record in no method.
    [[nodiscard]] int group(int machine, int method) const {
        return method < 0 ? -1 : machine * static_cast<int>(season->methods.size()) + method;
    }
    [[nodiscard]] const std::string& group_machine(int group_index) const {
        return input->machines[static_cast<std::size_t>(group_index) / season->methods.size()];
    }
    [[nodiscard]] const std::string& group_method(int group_index) const {
        return season->methods[static_cast<std::size_t>(group_index) % season->methods.size()].name;
    }
};

inline std::size_t at(std::int32_t index) { return static_cast<std::size_t>(index); }

} // namespace quartercut::cleaning
