// SPDX-License-Identifier: MIT
// Brings readings back to where they were cut, and tells the reader what was done.
#include "clean/lag.hpp"

#include <fmt/format.h>

namespace quartercut::cleaning {
namespace {

double shift_s(const std::vector<LagEstimate>& lags, int group, double extra_s) {
    if (group < 0) return 0.0;
    const LagEstimate& lag = lags[at(group)];
    return (lag.applied ? lag.lag_s : 0.0) + extra_s;
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
    for (std::size_t i = block.begin; i < block.end; ++i) {
        const double shift = shift_s(lags, groups[i - block.begin], setting.options->extra_lag_s);
        if (shift == 0.0 || work.copy[i]) continue;
        const double to = work.clock_s[i] + shift;
        // Grain logged before the first cut of a run can reach arrived still belongs to the run: its first record takes it.
        const bool opens = i == block.begin || work.clock_s[i] - work.clock_s[i - 1] > block.gap_s;
        const double begin = work.clock_s[i] - work.step_s[i];
        work.mass_kg[i] = series.between(opens ? std::min(begin, begin + shift) : begin + shift, to);
        work.unseen[i] = std::isnan(work.mass_kg[i]) ? (shift > 0.0 ? 1 : 2) : 0;
    }
}

void shift_moisture_block(FieldWork& work, const Setting& setting, const MachineBlock& block,
                          const std::vector<LagEstimate>& lags) {
    const Records& r = work.records();
    const std::vector<int> groups = groups_of(work, setting, block);
    std::size_t j = block.begin;
    for (std::size_t i = block.begin; i < block.end; ++i) {
        const double shift = shift_s(lags, groups[i - block.begin], 0.0);
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

bool any_shift(const std::vector<LagEstimate>& lags, double extra_s) {
    if (extra_s != 0.0) return true;
    for (const LagEstimate& lag : lags)
        if (lag.applied) return true;
    return false;
}

bool declined(const LagEstimate& lag) { return !lag.applied && lag.why.rfind("kept as logged", 0) == 0; }

} // namespace

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
    if (!setting.options->steps.lag || !any_shift(lags, setting.options->extra_lag_s)) return;
    for (const MachineBlock& block : work.blocks)
        shift_block(work, setting, block, lags);
}

void shift_moisture(FieldWork& work, const Setting& setting, const std::vector<LagEstimate>& lags) {
    if (!setting.options->steps.moisture_lag || !any_shift(lags, 0.0)) return;
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
        if (!declined(flow[g]) || !setting.options->steps.lag) continue;
        work.out->issues.push_back(
            {"lag-not-found", Severity::note,
             fmt::format("field {}, machine {}, method {}", work.field->name, flow[g].machine, flow[g].method),
             fmt::format("the delay between cut and sensor could not be found ({}); readings may lie some 8 to 14 "
                         "seconds of travel behind their place",
                         flow[g].why)});
    }
}

} // namespace quartercut::cleaning
