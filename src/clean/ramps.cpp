// SPDX-License-Identifier: MIT
// The curve is grain per land after the flow was shifted, second by second from the cut-in, relative to the middle of
// the same pass. A slow start is no ramp: land goes slowly too.
#include "clean/ramps.hpp"

#include "clean/lag.hpp"
#include "clean/robust.hpp"

#include <algorithm>

namespace quartercut::cleaning {
namespace {

constexpr std::size_t curve_s = 31, fewest_passes = 10;
constexpr double full_share = 0.95, longest_s = 20.0;
constexpr double default_start_s = 10.0, default_end_s = 6.0;
constexpr double level_from_s = 25.0, level_to_s = 45.0;

/// Ratios of one end of the passes, one list a second.
using Curve = std::vector<std::vector<double>>;

struct GroupCurves {
    Curve start{curve_s}, end{curve_s};
};

/// Usable for the curve: in the pass, down, with land; masses may still be zero while the machine fills.
bool usable(const FieldWork& work, std::size_t i) {
    const Removal why = work.out->removal[i];
    const bool cut = why == Removal::kept || why == Removal::no_flow;
    return cut && work.out->pass[i] >= 0 && work.out->area_m2[i] > 0.0 && std::isfinite(work.mass_kg[i]);
}

/// Grain per land between 25 and 45 s from one end of the pass; NaN where the pass is too short for it.
double level_of(const FieldWork& work, const PassRange& range, bool from_start) {
    double mass = 0.0, area = 0.0, seconds = 0.0;
    for (std::size_t i = range.begin; i < range.end; ++i) {
        const double in = from_start ? work.clock_s[i] - range.start_s : range.end_s - work.clock_s[i];
        if (in < level_from_s || in > level_to_s || !usable(work, i)) continue;
        mass += work.mass_kg[i];
        area += work.out->area_m2[i];
        seconds += work.step_s[i];
    }
    const bool clear = range.end_s - range.start_s > level_to_s + level_from_s;
    return clear && seconds >= 0.5 * (level_to_s - level_from_s) && mass > 0.0 ? mass / area : nan_value;
}

/// Puts a record's ratio into every second it covers.
void spread_over_seconds(Curve& curve, double from_s, double to_s, double ratio) {
    for (std::size_t k = 0; k < curve_s; ++k) {
        const double middle = static_cast<double>(k) + 0.5;
        if (middle > from_s && middle <= to_s) curve[k].push_back(ratio);
    }
}

void add_pass(GroupCurves& curves, const FieldWork& work, const PassRange& range) {
    const double start_level = level_of(work, range, true), end_level = level_of(work, range, false);
    for (std::size_t i = range.begin; i < range.end; ++i) {
        if (!usable(work, i)) continue;
        const double grain = work.mass_kg[i] / work.out->area_m2[i];
        const double since = work.clock_s[i] - range.start_s, left = range.end_s - work.clock_s[i];
        if (range.fills && start_level > 0.0 && since < static_cast<double>(curve_s) + 5.0)
            spread_over_seconds(curves.start, since - work.step_s[i], since, grain / start_level);
        if (range.empties && end_level > 0.0 && left < static_cast<double>(curve_s))
            spread_over_seconds(curves.end, left, left + work.step_s[i], grain / end_level);
    }
}

/// First second from which three in a row are full; the cap where none is; NaN with too few passes. A second that few
/// passes reach (its grain came after logging had stopped) is not full.
double first_full_s(Curve& curve) {
    std::vector<double> ratio;
    std::size_t seconds = 0;
    for (std::vector<double>& second : curve) {
        const bool enough = second.size() >= fewest_passes;
        ratio.push_back(enough ? median_in_place(second) : 0.0);
        if (enough) ++seconds;
    }
    if (seconds < 5) return nan_value;
    for (std::size_t k = 0; k + 2 < ratio.size(); ++k)
        if (ratio[k] >= full_share && ratio[k + 1] >= full_share && ratio[k + 2] >= full_share)
            return std::min(static_cast<double>(k), longest_s);
    return longest_s;
}

RampEstimate judge(GroupCurves& curves) {
    RampEstimate ramp;
    const double start = first_full_s(curves.start), end = first_full_s(curves.end);
    ramp.from_data = std::isfinite(start) && std::isfinite(end);
    ramp.start_s = ramp.from_data ? start : default_start_s;
    ramp.end_s = ramp.from_data ? end : default_end_s;
    return ramp;
}

GroupCurves together(const std::vector<GroupCurves>& curves, std::size_t first, std::size_t methods) {
    GroupCurves all;
    for (std::size_t g = first; g < first + methods; ++g)
        for (std::size_t k = 0; k < curve_s; ++k) {
            all.start[k].insert(all.start[k].end(), curves[g].start[k].begin(), curves[g].start[k].end());
            all.end[k].insert(all.end[k].end(), curves[g].end[k].begin(), curves[g].end[k].end());
        }
    return all;
}

/// The methods of one machine are trimmed alike, by the longer of their ramps: a trial must not lose more of the field's
/// ends under one method than under the other. What the passes show outranks the stated ramps: a method with too few
/// passes has no say, and where every method has too few their passes are taken together.
RampEstimate of_machine(std::vector<GroupCurves>& curves, std::size_t first, std::size_t methods) {
    RampEstimate longest;
    for (std::size_t g = first; g < first + methods; ++g) {
        const RampEstimate ramp = judge(curves[g]);
        if (!ramp.from_data) continue;
        longest.from_data = true;
        longest.start_s = std::max(longest.start_s, ramp.start_s);
        longest.end_s = std::max(longest.end_s, ramp.end_s);
    }
    if (longest.from_data) return longest;
    GroupCurves all = together(curves, first, methods);
    return judge(all);
}

void trim_record(FieldWork& work, std::size_t i, const RampEstimate& ramp) {
    if (work.out->pass[i] < 0) return;
    const PassRange& range = work.ranges[at(work.out->pass[i])];
    const double middle = work.clock_s[i] - 0.5 * work.step_s[i];
    if (range.fills && middle - range.start_s < ramp.start_s)
        work.remove(i, Removal::pass_start);
    else if (range.empties && range.end_s - middle < ramp.end_s)
        work.remove(i, Removal::pass_end);
}

} // namespace

std::vector<RampEstimate> estimate_ramps(const std::vector<FieldWork>& works, const Setting& setting) {
    std::vector<GroupCurves> curves(static_cast<std::size_t>(setting.groups()));
    for (const FieldWork& work : works)
        for (std::size_t p = 0; p < work.ranges.size(); ++p) {
            const Pass& pass = work.out->passes[p];
            const int group = setting.group(pass.machine, pass.method);
            if (group >= 0) add_pass(curves[at(group)], work, work.ranges[p]);
        }
    const std::vector<std::uint8_t> here = groups_present(works, setting);
    const std::size_t methods = setting.season->methods.size();
    std::vector<RampEstimate> ramps(curves.size());
    for (std::size_t first = 0; first < ramps.size(); first += methods) {
        const RampEstimate machine = of_machine(curves, first, methods);
        for (std::size_t g = first; g < first + methods; ++g) {
            if (!here[g]) continue;
            ramps[g] = machine;
            ramps[g].machine = setting.group_machine(static_cast<int>(g));
            ramps[g].method = setting.group_method(static_cast<int>(g));
        }
    }
    return ramps;
}

void lengthen(std::vector<RampEstimate>& ramps, double extra_s) {
    for (RampEstimate& ramp : ramps) {
        if (ramp.machine.empty()) continue;
        ramp.start_s = std::max(0.0, ramp.start_s + extra_s);
        ramp.end_s = std::max(0.0, ramp.end_s + extra_s);
    }
}

void trim_ramps(FieldWork& work, const Setting& setting, const std::vector<RampEstimate>& ramps) {
    const std::vector<std::uint8_t> present = groups_present(work, setting);
    for (std::size_t g = 0; g < present.size(); ++g)
        if (present[g]) work.out->ramps.push_back(ramps[g]);
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        const int group = setting.group(r.machine[i], r.method[i]);
        if (group >= 0 && work.kept(i)) trim_record(work, i, ramps[at(group)]);
    }
}

} // namespace quartercut::cleaning
