// SPDX-License-Identifier: MIT
// From delays of a machine under each method to those used: together where nothing speaks against it, as the same
// elevator and sensor stand behind them; apart where a pick-up clearly feeds slower or faster than a header.
#include "clean/lag.hpp"

#include "base/words/words.hpp"

#include <algorithm>
#include <tbb/parallel_for.h>

namespace quartercut::cleaning {
namespace {

constexpr double clear_t = 2.0, clear_s = 1.0;
constexpr double interval_to_se = 1.0 / 3.29; // a 90 % interval is 2 x 1.645 standard errors wide
constexpr double between_methods_s = 2.0;     // what pick-ups and headers differ by at most (judgement)

bool present(const LagEstimate& lag) { return !lag.machine.empty(); }
bool settled(const LagEstimate& lag) { return present(lag) && !lag.not_found; }

/// Of many pairs some lie twice the error apart by luck. A normal tail falls as exp(-t^2 / 2), so for n pairs t^2 grows
/// by 2 ln n (Bonferroni, nearly).
double clear_t_of(const std::vector<LagEstimate>& own) {
    const auto n = static_cast<double>(std::count_if(own.begin(), own.end(), present));
    return std::sqrt(clear_t * clear_t + 2.0 * std::log(0.5 * n * (n - 1.0)));
}

bool clearly_differ(const LagEstimate& a, const LagEstimate& b, double t) {
    const double se = interval_to_se * std::hypot(a.high_s - a.low_s, b.high_s - b.low_s);
    const double apart = std::abs(a.lag_s - b.lag_s);
    return apart > clear_s && apart > t * se;
}

bool any_clearly_differ(const std::vector<LagEstimate>& own) {
    const double t = clear_t_of(own);
    for (std::size_t a = 0; a < own.size(); ++a)
        for (std::size_t b = a + 1; b < own.size(); ++b)
            if (settled(own[a]) && settled(own[b]) && clearly_differ(own[a], own[b], t)) return true;
    return false;
}

LagEstimate judge_together(const std::vector<LagEstimate>& own, const std::vector<std::vector<PassPairCurve>>& curves,
                           std::uint64_t seed, bool (*wanted)(const LagEstimate&)) {
    std::vector<PassPairCurve> all;
    for (std::size_t g = 0; g < own.size(); ++g)
        if (wanted(own[g])) all.insert(all.end(), curves[g].begin(), curves[g].end());
    return judge_lag(all, seed);
}

void take(LagEstimate& lag, const LagEstimate& from, const std::string& why) {
    const std::string machine = lag.machine, method = lag.method;
    lag = from;
    lag.machine = machine;
    lag.method = method;
    lag.why = why;
}

/// The delay of the settled methods, as far apart as they lie and what methods differ by on either side; not_found
/// where some were shifted before and some were not.
LagEstimate of_the_others(const std::vector<LagEstimate>& own) {
    LagEstimate all;
    all.not_found = true;
    double n = 0.0, sum = 0.0;
    for (const LagEstimate& lag : own) {
        if (!settled(lag)) continue;
        if (n > 0.0 && lag.applied != all.applied) return LagEstimate{{}, {}, 0.0, 0.0, 0.0, false, {}, true};
        all.low_s = n > 0.0 ? std::min(all.low_s, lag.low_s) : lag.low_s;
        all.high_s = n > 0.0 ? std::max(all.high_s, lag.high_s) : lag.high_s;
        all.applied = lag.applied;
        all.not_found = false;
        n += 1.0;
        sum += lag.lag_s;
    }
    if (n > 0.0) all.lag_s = sum / n;
    all.low_s -= between_methods_s;
    all.high_s += between_methods_s;
    return all;
}

} // namespace

void share_lags(std::vector<LagEstimate>& own, const std::vector<std::vector<PassPairCurve>>& curves,
                std::uint64_t seed) {
    if (std::count_if(own.begin(), own.end(), present) < 2) return;
    const bool none_alone = std::none_of(own.begin(), own.end(), settled);
    const bool one_alone = std::count_if(own.begin(), own.end(), settled) == 1;
    if (!one_alone && !any_clearly_differ(own)) {
        // Passes too few or too even to speak for themselves would blur those that do.
        const LagEstimate together = judge_together(own, curves, seed, none_alone ? present : settled);
        for (LagEstimate& lag : own)
            if (!together.not_found && (settled(lag) || (none_alone && present(lag))))
                take(lag, together, fill(spoken().clean.together, fmt::arg("why", together.why)));
    }
    const LagEstimate others = of_the_others(own);
    for (LagEstimate& lag : own)
        if (present(lag) && lag.not_found && !others.not_found)
            take(lag, others, others.applied ? spoken().clean.from_others : spoken().clean.shifted_as_others);
}

std::vector<LagEstimate> estimate_lags(const std::vector<FieldWork>& works, const Setting& setting,
                                       const std::vector<std::vector<RecordPair>>& pairs, Sensor sensor) {
    const std::size_t methods = setting.season->methods.size();
    std::vector<LagEstimate> lags(static_cast<std::size_t>(setting.groups()));
    const std::vector<std::uint8_t> here = groups_present(works, setting);
    const CleaningChoice& on = setting.options->steps;
    const bool wanted = sensor == Sensor::flow ? on.lag : on.moisture_lag;
    for (std::size_t first = 0; first < lags.size(); first += methods) {
        std::vector<LagEstimate> own(methods);
        std::vector<std::vector<PassPairCurve>> curves(methods);
        tbb::parallel_for(std::size_t{0}, methods, [&](std::size_t m) {
            const auto group = static_cast<int>(first + m);
            if (!here[first + m]) return;
            if (wanted) curves[m] = opposite_curves(works, pairs[first + m], sensor);
            if (wanted) own[m] = judge_lag(curves[m], 1000 + first + m);
            if (!wanted) own[m].why = spoken().clean.switched_off;
            own[m].machine = setting.group_machine(group);
            own[m].method = setting.group_method(group);
        });
        if (wanted) share_lags(own, curves, 5000 + first);
        std::copy(own.begin(), own.end(), lags.begin() + static_cast<std::ptrdiff_t>(first));
    }
    return lags;
}

} // namespace quartercut::cleaning
