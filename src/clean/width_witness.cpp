// SPDX-License-Identifier: MIT
// Two witnesses must agree. Spacing alone may be wide where every other pass was cut by a machine without monitor, and
// area alone may be short where records are missing; narrow passes alone may be nothing but overlap.
#include "clean/width_witness.hpp"

#include "base/words/words.hpp"

#include "clean/cells.hpp"
#include "clean/coverage.hpp"
#include "clean/robust.hpp"
#include "quartercut/error.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <tbb/parallel_for.h>

namespace quartercut::cleaning {
namespace {

// Passes farther than three widths apart are strangers, not neighbours.
// Nobody leaves a tenth of the crop standing between passes, but drivers overlap (judgement).
constexpr double most_gap_pct = 10.0, most_overlap_pct = 15.0, closure_pct = 10.0;
constexpr double parallel_cosine = 0.906; // 25 degrees
constexpr double nearest_share = 0.2, farthest_share = 3.0, part_width = 0.9;
constexpr double next_strip = 1.5;   // a neighbour so much farther than that on the other side is of another strip
constexpr double most_spread = 0.25; // interquartile range over median: more, and the passes have no spacing
constexpr std::size_t fewest_passes = 5, fewest_samples = 25, samples_a_field = 300;

/// What one group's passes in the season say.
struct Witness {
    std::vector<double> own_m, own_ratio, any_m, any_ratio; ///< spacing, and spacing over width; to own passes, to any
    std::vector<double> widths_m;
    std::size_t own_passes = 0, any_passes = 0;
    double land_m2 = 0.0, mapped_m2 = 0.0; ///< of the method, in the fields the machine cut it in
};

/// Records of full cut, per group. Part-width passes say nothing of the cut.
std::vector<std::vector<std::size_t>> full_cut_records(const FieldWork& work, const Setting& setting) {
    const Records& r = work.records();
    std::vector<std::vector<std::size_t>> found(static_cast<std::size_t>(setting.groups()));
    for (std::size_t i = 0; i < work.size(); ++i) {
        const int group = setting.group(r.machine[i], r.method[i]);
        if (group >= 0 && usable(work, i) && !r.off_field[i]) found[at(group)].push_back(i);
    }
    for (std::vector<std::size_t>& records : found) {
        if (records.empty()) continue;
        std::vector<double> widths;
        for (const std::size_t i : records)
            widths.push_back(r.width_m[i]);
        const double full = quantile_in_place(widths, 0.75);
        std::erase_if(records, [&](std::size_t i) { return r.width_m[i] < part_width * full; });
    }
    return found;
}

struct Beside {
    double distance_m = nan_value;
    std::size_t record = 0;
};

/// The nearest record abreast on either side, of another pass over the same method area; of two as near, the earlier.
std::array<Beside, 2> abreast(const FieldWork& work, const Cells& cells, double longest_m, std::size_t i) {
    const Records& r = work.records();
    std::array<Beside, 2> sides;
    const double reach_m = std::hypot(farthest_share * r.width_m[i], longest_m);
    cells.around(r.x_m[i], r.y_m[i], reach_m, [&](std::size_t j) {
        const double dx = r.x_m[j] - r.x_m[i], dy = r.y_m[j] - r.y_m[i];
        const double along = std::abs(dx * work.dir_x[i] + dy * work.dir_y[i]);
        if (!(along <= std::max(r.distance_m[i], r.distance_m[j]))) return;
        if (work.out->pass[j] == work.out->pass[i] || r.area[j] != r.area[i] || r.method[j] != r.method[i]) return;
        if (std::abs(work.dir_x[i] * work.dir_x[j] + work.dir_y[i] * work.dir_y[j]) < parallel_cosine) return;
        const double side = dx * work.dir_y[i] - dy * work.dir_x[i], far = std::abs(side);
        if (far < nearest_share * r.width_m[i] || far > farthest_share * r.width_m[i]) return;
        Beside& best = sides[side > 0.0 ? 1 : 0];
        if (!(far > best.distance_m) && (far != best.distance_m || j < best.record)) best = {far, j};
    });
    for (const std::size_t side : {std::size_t{0}, std::size_t{1}})
        if (sides[side].distance_m > next_strip * sides[1 - side].distance_m) sides[side] = {};
    return sides;
}

/// Longest way between two records of a pass: no record abreast lies farther along.
double longest_step_m(const FieldWork& work) {
    double longest = 0.0;
    for (std::size_t i = 0; i < work.size(); ++i)
        if (usable(work, i)) longest = std::max(longest, work.records().distance_m[i]);
    return longest;
}

void hear_group(Witness& witness, const FieldWork& work, const Cells& cells, const std::vector<std::size_t>& records) {
    const Records& r = work.records();
    const std::size_t step = records.size() / samples_a_field + 1;
    const double longest_m = longest_step_m(work);
    std::vector<std::int32_t> own, any;
    for (std::size_t k = step / 2; k < records.size(); k += step) {
        const std::size_t i = records[k];
        witness.widths_m.push_back(r.width_m[i]);
        for (const Beside& beside : abreast(work, cells, longest_m, i)) {
            if (!std::isfinite(beside.distance_m)) continue;
            const double ratio = beside.distance_m / (0.5 * (r.width_m[i] + r.width_m[beside.record]));
            witness.any_m.push_back(beside.distance_m);
            witness.any_ratio.push_back(ratio);
            any.push_back(work.out->pass[i]);
            if (r.machine[beside.record] != r.machine[i]) continue;
            witness.own_m.push_back(beside.distance_m);
            witness.own_ratio.push_back(ratio);
            own.push_back(work.out->pass[i]);
        }
    }
    const auto count = [](std::vector<std::int32_t>& passes) {
        std::sort(passes.begin(), passes.end());
        return static_cast<std::size_t>(std::unique(passes.begin(), passes.end()) - passes.begin());
    };
    witness.own_passes += count(own);
    witness.any_passes += count(any);
}

/// Land per method as widths and distances alone say: overlaps, which the coverage step takes out, are the question.
std::vector<double> swept_m2(const FieldWork& work, std::size_t methods) {
    const Records& r = work.records();
    std::vector<double> land(methods, 0.0);
    for (std::size_t i = 0; i < work.size(); ++i) {
        const double m2 = r.distance_m[i] * r.width_m[i];
        if (m2 > 0.0 && r.method[i] >= 0 && work.out->pass[i] >= 0 && !work.copy[i] && !r.off_field[i])
            land[at(r.method[i])] += m2;
    }
    return land;
}

/// What one field says, by group.
std::map<std::size_t, Witness> hear_field(const FieldWork& work, const Setting& setting) {
    const std::size_t methods = setting.season->methods.size();
    std::map<std::size_t, Witness> heard;
    const auto records = full_cut_records(work, setting);
    if (std::all_of(records.begin(), records.end(), [](const auto& of_group) { return of_group.empty(); }))
        return heard;
    const std::vector<double> swept = swept_m2(work, methods),
                              mapped = mapped_area_m2(*work.field, work.mapped_m2, methods);
    const Cells cells(work, usual_width_m(work));
    for (std::size_t g = 0; g < records.size(); ++g) {
        if (records[g].empty()) continue;
        hear_group(heard[g], work, cells, records[g]);
        heard[g].land_m2 = swept[g % methods];
        heard[g].mapped_m2 = mapped[g % methods];
    }
    return heard;
}

void add(Witness& to, const Witness& from) {
    const auto append = [](std::vector<double>& all, const std::vector<double>& more) {
        all.insert(all.end(), more.begin(), more.end());
    };
    append(to.own_m, from.own_m);
    append(to.own_ratio, from.own_ratio);
    append(to.any_m, from.any_m);
    append(to.any_ratio, from.any_ratio);
    append(to.widths_m, from.widths_m);
    to.own_passes += from.own_passes;
    to.any_passes += from.any_passes;
    to.land_m2 += from.land_m2;
    to.mapped_m2 += from.mapped_m2;
}

std::vector<Witness> hear(const std::vector<FieldWork>& works, const Setting& setting) {
    std::vector<std::map<std::size_t, Witness>> heard(works.size());
    tbb::parallel_for(std::size_t{0}, works.size(), [&](std::size_t f) { heard[f] = hear_field(works[f], setting); });
    std::vector<Witness> witnesses(static_cast<std::size_t>(setting.groups()));
    for (const auto& field : heard)
        for (const auto& [group, witness] : field)
            add(witnesses[group], witness);
    return witnesses;
}

struct Verdict {
    bool wrong = false;
    double width_m = nan_value, spacing_m = nan_value, land_pct = nan_value;
};

Verdict judge(Witness& w) {
    Verdict verdict;
    const bool own = w.own_passes >= fewest_passes && w.own_m.size() >= fewest_samples;
    std::vector<double>& distances = own ? w.own_m : w.any_m;
    std::vector<double>& ratios = own ? w.own_ratio : w.any_ratio;
    if (!own && (w.any_passes < fewest_passes || w.any_m.size() < fewest_samples)) return verdict;
    if (!(w.mapped_m2 > 0.0)) return verdict;
    verdict.spacing_m = median_in_place(distances);
    const double spread = quantile_in_place(distances, 0.75) - quantile_in_place(distances, 0.25);
    if (spread > most_spread * verdict.spacing_m) return verdict;
    verdict.width_m = median_in_place(w.widths_m);
    verdict.land_pct = 100.0 * w.land_m2 / w.mapped_m2 - 100.0;
    const double off_pct = 100.0 * median_in_place(ratios) - 100.0;
    verdict.wrong = (off_pct > most_gap_pct && verdict.land_pct < -closure_pct) ||
                    (off_pct < -most_overlap_pct && verdict.land_pct > closure_pct);
    return verdict;
}

std::string in_words(const Setting& setting, int group, const Verdict& v) {
    const Method& method = setting.season->methods[static_cast<std::size_t>(group) % setting.season->methods.size()];
    const bool narrow = v.spacing_m > v.width_m;
    const auto& words = spoken().clean;
    const std::string from = method.cut_width_m ? "cut_width" : words.logged_width;
    const std::string cure =
        method.cut_width_m ? words.correct_width : fill(words.give_width, fmt::arg("method", method.name));
    return fill(narrow ? words.width_less : words.width_more, fmt::arg("machine", setting.group_machine(group)),
                fmt::arg("method", method.name), fmt::arg("from", from), fmt::arg("width", v.width_m),
                fmt::arg("spacing", v.spacing_m), fmt::arg("pct", std::abs(v.land_pct)), fmt::arg("cure", cure));
}

} // namespace

void judge_widths(const std::vector<FieldWork>& works, const Setting& setting, Cleaned& cleaned) {
    std::vector<Witness> witnesses = hear(works, setting);
    std::string faults;
    for (std::size_t g = 0; g < witnesses.size(); ++g) {
        const Verdict verdict = judge(witnesses[g]);
        if (!verdict.wrong) continue;
        const std::string words = in_words(setting, static_cast<int>(g), verdict);
        if (setting.options->steps.width_check)
            faults += (faults.empty() ? "" : "\n") + words +
                      "; if the width is right all the same, write width_check = false under [cleaning]";
        else
            cleaned.issues.push_back({"width-contradicted", Severity::warning, "", words});
    }
    if (!faults.empty()) throw DataError(faults);
}

} // namespace quartercut::cleaning
