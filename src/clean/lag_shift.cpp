// SPDX-License-Identifier: MIT
// Brings readings back to where they were cut, and tells the reader what was done.
#include "clean/lag.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>

namespace quartercut::cleaning {
namespace {

/// What is added to the delays found, and what stands in where none was.
struct Change {
    double extra_s = 0.0, assumed_s = 0.0;
};

Change change_of(const CleanOptions& options) { return {options.extra_lag_s, options.assumed_lag_s.value_or(0.0)}; }

double shift_s(const std::vector<LagEstimate>& lags, int group, const Change& change) {
    if (group < 0) return 0.0;
    const LagEstimate& lag = lags[at(group)];
    return (lag.applied ? lag.lag_s : lag.not_found ? change.assumed_s : 0.0) + change.extra_s;
}

/// Group of every record of a block. Where a record lies in no method area its pass's method stands in, between passes
/// that of the pass before: the grain of one machine moves as one, turns and headlands included.
std::vector<int> groups_of(const FieldWork& work, const Setting& setting, const MachineBlock& block) {
    const Records& r = work.records();
    const auto method_of = [&](std::size_t i) {
        if (r.method[i] >= 0 || work.out->pass[i] < 0) return r.method[i];
        return work.out->passes[at(work.out->pass[i])].method;
    };
    int method = -1;
    for (std::size_t i = block.begin; i < block.end && method < 0; ++i)
        method = method_of(i);
    std::vector<int> groups;
    for (std::size_t i = block.begin; i < block.end; ++i) {
        if (method_of(i) >= 0) method = method_of(i);
        groups.push_back(setting.group(block.machine, method));
    }
    return groups;
}

void shift_block(FieldWork& work, const Setting& setting, const MachineBlock& block,
                 const std::vector<LagEstimate>& lags) {
    const Series series = flow_series(work, block);
    const std::vector<int> groups = groups_of(work, setting, block);
    const Change change = change_of(*setting.options);
    std::size_t near = 0;
    for (std::size_t i = block.begin; i < block.end; ++i) {
        const double shift = shift_s(lags, groups[i - block.begin], change);
        if (shift == 0.0 || work.copy[i]) continue;
        const double to = work.clock_s[i] + shift;
        // Grain logged before the first cut of a run can reach arrived still belongs to the run: its first record takes it.
        const bool opens = i == block.begin || work.clock_s[i] - work.clock_s[i - 1] > block.gap_s;
        const double begin = work.clock_s[i] - work.step_s[i];
        work.mass_kg[i] = series.between(opens ? std::min(begin, begin + shift) : begin + shift, to, near);
        work.unseen[i] = std::isnan(work.mass_kg[i]) ? (shift > 0.0 ? 1 : 2) : 0;
    }
}

void shift_moisture_block(FieldWork& work, const Setting& setting, const MachineBlock& block,
                          const std::vector<LagEstimate>& lags) {
    const Records& r = work.records();
    const std::vector<int> groups = groups_of(work, setting, block);
    std::size_t j = block.begin;
    for (std::size_t i = block.begin; i < block.end; ++i) {
        const double shift = shift_s(lags, groups[i - block.begin], Change{});
        if (shift == 0.0 || work.copy[i]) continue;
        const double moment = work.clock_s[i] - 0.5 * work.step_s[i] + shift;
        while (j + 1 < block.end && work.clock_s[j] < moment)
            ++j;
        while (j > block.begin && work.clock_s[j - 1] >= moment)
            --j;
        const bool read = moment > work.clock_s[j] - work.step_s[j] - 0.5 && moment <= work.clock_s[j] + 0.5;
        if (read && std::isfinite(r.moisture_pct[j])) work.out->moisture_pct[i] = r.moisture_pct[j];
    }
}

bool any_shift(const std::vector<LagEstimate>& lags, const Change& change) {
    for (std::size_t g = 0; g < lags.size(); ++g)
        if (shift_s(lags, static_cast<int>(g), change) != 0.0) return true;
    return false;
}

} // namespace

std::vector<std::uint8_t> groups_present(const std::vector<FieldWork>& works, const Setting& setting) {
    std::vector<std::uint8_t> present(static_cast<std::size_t>(setting.groups()), 0);
    for (const FieldWork& work : works) {
        const std::vector<std::uint8_t> here = groups_present(work, setting);
        for (std::size_t g = 0; g < here.size(); ++g)
            present[g] = present[g] | here[g];
    }
    return present;
}

std::vector<std::uint8_t> groups_present(const FieldWork& work, const Setting& setting) {
    std::vector<std::uint8_t> present(static_cast<std::size_t>(setting.groups()), 0);
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        const int group = setting.group(r.machine[i], r.method[i]);
        if (group >= 0) present[at(group)] = 1;
    }
    return present;
}

void shift_flow(FieldWork& work, const Setting& setting, const std::vector<LagEstimate>& lags) {
    if (!setting.options->steps.lag || !any_shift(lags, change_of(*setting.options))) return;
    for (const MachineBlock& block : work.blocks)
        shift_block(work, setting, block, lags);
}

void shift_moisture(FieldWork& work, const Setting& setting, const std::vector<LagEstimate>& lags) {
    if (!setting.options->steps.moisture_lag || !any_shift(lags, Change{})) return;
    for (const MachineBlock& block : work.blocks)
        shift_moisture_block(work, setting, block, lags);
}

void report_lags(FieldWork& work, const Setting& setting, const std::vector<LagEstimate>& flow,
                 const std::vector<LagEstimate>& moisture) {
    const std::vector<std::uint8_t> present = groups_present(work, setting);
    for (std::size_t g = 0; g < present.size(); ++g) {
        if (!present[g]) continue;
        work.out->lag.push_back(flow[g]);
        work.out->moisture_lag.push_back(moisture[g]);
    }
}

void note_lags(Cleaned& cleaned, const Setting& setting) {
    if (!setting.options->steps.lag) return;
    for (const LagEstimate& lag : cleaned.lag) {
        if (!lag.not_found) continue;
        cleaned.issues.push_back(
            {"lag-not-found", Severity::note,
             fill(spoken().places.machine_method, fmt::arg("machine", lag.machine), fmt::arg("method", lag.method)),
             fill(spoken().clean.lag_not_found, fmt::arg("why", lag.why))});
    }
}

} // namespace quartercut::cleaning
