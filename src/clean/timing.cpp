// SPDX-License-Identifier: MIT
// What a delay depends on: the records alone, as no step before it can be switched off. What a ramp depends on: the
// delays and the screens before it. Whatever else a re-run changes, both would come out the same to the last bit.
#include "clean/timing.hpp"

#include "clean/lag.hpp"
#include "clean/ramps.hpp"

#include <tbb/parallel_invoke.h>

namespace quartercut::cleaning {
namespace {

template <class Estimate>
std::vector<Estimate> by_group(const std::vector<Estimate>& present, const Setting& setting) {
    std::vector<Estimate> all(static_cast<std::size_t>(setting.groups()));
    for (std::size_t g = 0; g < all.size(); ++g)
        for (const Estimate& estimate : present)
            if (estimate.machine == setting.group_machine(static_cast<int>(g)) &&
                estimate.method == setting.group_method(static_cast<int>(g)))
                all[g] = estimate;
    return all;
}

template <class Estimate>
std::vector<Estimate> present_only(const std::vector<Estimate>& all) {
    std::vector<Estimate> present;
    for (const Estimate& estimate : all)
        if (!estimate.machine.empty()) present.push_back(estimate);
    return present;
}

bool same_lags(const CleanOptions& a, const CleanOptions& b) {
    return a.steps.lag == b.steps.lag && a.steps.moisture_lag == b.steps.moisture_lag;
}

bool same_ramps(const CleanOptions& a, const CleanOptions& b) {
    return same_lags(a, b) && a.extra_lag_s == b.extra_lag_s && a.assumed_lag_s == b.assumed_lag_s &&
           a.moisture_correction == b.moisture_correction && a.steps.ramps == b.steps.ramps &&
           a.steps.merge == b.steps.merge && a.steps.speed == b.steps.speed && a.steps.turns == b.steps.turns;
}

} // namespace

Lags find_lags(const std::vector<FieldWork>& works, const Setting& setting) {
    const Cleaned* earlier = setting.options->earlier;
    if (earlier != nullptr && same_lags(earlier->made_with, *setting.options))
        return {by_group(earlier->lag, setting), by_group(earlier->moisture_lag, setting)};
    const std::vector<std::vector<RecordPair>> pairs = opposite_pairs(works, setting);
    Lags lags;
    tbb::parallel_invoke([&] { lags.flow = estimate_lags(works, setting, pairs, Sensor::flow); },
                         [&] { lags.moisture = estimate_lags(works, setting, pairs, Sensor::moisture); });
    return lags;
}

std::vector<RampEstimate> find_ramps(const std::vector<FieldWork>& works, const Setting& setting) {
    const Cleaned* earlier = setting.options->earlier;
    const bool known = earlier != nullptr && same_ramps(earlier->made_with, *setting.options) &&
                       earlier->made_with.extra_ramp_s == 0.0;
    std::vector<RampEstimate> ramps = known ? by_group(earlier->ramps, setting) : estimate_ramps(works, setting);
    lengthen(ramps, setting.options->extra_ramp_s);
    return ramps;
}

void keep_timing(Cleaned& cleaned, const Setting& setting, const Lags& lags, const std::vector<RampEstimate>& ramps) {
    cleaned.lag = present_only(lags.flow);
    cleaned.moisture_lag = present_only(lags.moisture);
    cleaned.ramps = present_only(ramps);
    cleaned.made_with = *setting.options;
    cleaned.made_with.earlier = nullptr;
    note_lags(cleaned, setting);
}

} // namespace quartercut::cleaning
