// SPDX-License-Identifier: MIT
// The recipe of the room: the same steps in the same order for every field, once. Lag, ramps and load factors are
// pooled over the season, so the fields are brought to the same stage together; within a stage they run in parallel.
#include "quartercut/clean.hpp"

#include "base/faults.hpp"
#include "clean/basic_rules.hpp"
#include "clean/calibrate.hpp"
#include "clean/coverage.hpp"
#include "clean/directions.hpp"
#include "clean/edges.hpp"
#include "clean/lag.hpp"
#include "clean/neighbours.hpp"
#include "clean/passes.hpp"
#include "clean/ramps.hpp"
#include "clean/screens.hpp"
#include "clean/step_report.hpp"
#include "clean/timing.hpp"
#include "clean/width_witness.hpp"

#include "quartercut/error.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <memory>
#include <numeric>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace quartercut {
namespace {

using namespace cleaning;

template <class Step>
void for_each_field(std::vector<FieldWork>& works, Step step) {
    tbb::parallel_for(std::size_t{0}, works.size(), [&](std::size_t f) { step(works[f]); });
}

/// A negative reading is a fault of the sensor, not grain that ran back: it counts as none. None is not zero.
void read_masses(FieldWork& work) {
    const Records& r = work.records();
    work.mass_kg = r.mass_kg;
    work.unread.assign(r.size(), 0);
    for (std::size_t i = 0; i < r.size(); ++i) {
        if (r.mass_kg[i] >= 0.0) continue;
        work.mass_kg[i] = nan_value;
        work.unread[i] = !r.header_up[i];
    }
}

void lay_out(FieldWork& work) {
    const std::size_t n = work.records().size();
    CleanedField& out = *work.out;
    out.removal.assign(n, Removal::kept);
    out.edge.assign(n, 0);
    out.mass_basis_kg.assign(n, 0.0);
    out.area_m2.assign(n, 0.0);
    out.moisture_pct = work.records().moisture_pct;
    read_masses(work);
    work.unseen.assign(n, 0);
    work.owner.resize(n);
    std::iota(work.owner.begin(), work.owner.end(), 0);
}

void lay_groundwork(FieldWork& work) {
    prepare_clock(work);
    find_jumps(work);
    find_directions(work);
    find_passes(work);
    find_neighbours(work);
    work.time_order = by_time(work);
    work.spacings = pass_spacings(work);
    work.position_noise_m = position_noise_m(work);
    work.mapped_m2 = mapped_by_area_m2(*work.field);
}

/// A copy, since painting may yet find other passes cutting.
void take_groundwork(FieldWork& work, const Groundwork& known) {
    static_cast<Groundwork&>(work) = known;
    work.out->pass = known.pass;
    work.out->passes = known.passes;
}

void keep_groundwork(Cleaned& cleaned, std::vector<FieldWork>& works) {
    auto all = std::make_shared<std::vector<Groundwork>>();
    for (FieldWork& work : works) {
        Groundwork& kept = all->emplace_back(std::move(static_cast<Groundwork&>(work)));
        kept.pass = work.out->pass;
        kept.passes = work.out->passes;
    }
    cleaned.groundwork = std::move(all);
}

void find_the_passes(FieldWork& work, const Setting& setting) {
    lay_out(work);
    const Cleaned* earlier = setting.options->earlier;
    if (earlier != nullptr && earlier->groundwork)
        take_groundwork(work,
                        (*earlier->groundwork)[static_cast<std::size_t>(work.field - setting.input->fields.data())]);
    else
        lay_groundwork(work);
    find_missing_moisture(work, setting);
    set_logged_area(work);
    set_basis_mass(work, setting);
    report_step(work, setting, "as logged", true);
    mark_off_the_crop(work);
    report_step(work, setting, "off the crop", true);
}

void shift(FieldWork& work, const Setting& setting, const Lags& lags) {
    const CleaningChoice& on = setting.options->steps;
    shift_flow(work, setting, lags.flow);
    set_basis_mass(work, setting);
    report_step(work, setting, "lag", on.lag);
    shift_moisture(work, setting, lags.moisture);
    set_basis_mass(work, setting);
    report_step(work, setting, "moisture_lag", on.moisture_lag);
    report_lags(work, setting, lags.flow, lags.moisture);
}

void screen_records(FieldWork& work, const Setting& setting) {
    const CleaningChoice& on = setting.options->steps;
    mark_without_reading(work, setting);
    report_step(work, setting, "no reading", true);
    merge_on_one_spot(work, on.merge);
    report_step(work, setting, "merge", on.merge);
    if (on.speed) screen_speed(work);
    report_step(work, setting, "speed", on.speed);
    if (on.turns) screen_turns(work);
    report_step(work, setting, "turns", on.turns);
}

void screen_yields(FieldWork& work, const Setting& setting, const std::vector<RampEstimate>& ramps) {
    const CleaningChoice& on = setting.options->steps;
    if (on.ramps) trim_ramps(work, setting, ramps);
    report_step(work, setting, "ramps", on.ramps);
    if (on.coverage) cover_land(work);
    report_step(work, setting, "coverage", on.coverage);
    check_widths(work, setting);
    if (on.short_passes) screen_short_passes(work);
    report_step(work, setting, "short_passes", on.short_passes);
    if (on.limits) screen_limits(work, setting);
    report_step(work, setting, "limits", on.limits);
    if (on.neighbours) screen_neighbours(work);
    report_step(work, setting, "neighbours", on.neighbours);
    if (on.edge_passes) mark_edges(work);
    report_step(work, setting, "edge_passes", on.edge_passes);
}

void finish(FieldWork& work, const Setting& setting) {
    for (std::size_t i = 0; i < work.size(); ++i)
        if (!work.kept(i)) work.out->mass_basis_kg[i] = 0.0;
    report_removals(work, setting);
}

constexpr std::size_t fewest_to_refuse = 100;

const char* cure_of(Removal why) {
    switch (why) {
    case Removal::no_flow:
        return "look at the column taken for flow or yield: it is empty, zero or negative throughout";
    case Removal::header_up:
        return "look at the column taken for the header: it says raised throughout";
    case Removal::no_travel:
        return "look at the columns taken for distance, speed and width";
    case Removal::speed:
        return "look at the unit of the column taken for speed (km/h read as m/s is 3.6 times too fast)";
    case Removal::impossible_moisture:
        return "look at the column taken for moisture";
    case Removal::yield_limits:
        return "look at the units of the columns taken for flow, yield and width";
    default:
        return "look at the columns and units of the records";
    }
}

/// \throws DataError  records lie in method areas, but none is left to compare
void refuse_without_any(const std::vector<FieldWork>& works) {
    std::array<std::size_t, removal_count> counts{};
    std::size_t judged = 0;
    for (const FieldWork& work : works)
        for (std::size_t i = 0; i < work.size(); ++i) {
            const auto why = static_cast<std::size_t>(work.out->removal[i]);
            if (work.out->removal[i] == Removal::off_field || work.records().method[i] < 0) continue;
            ++counts[why];
            ++judged;
        }
    if (judged < fewest_to_refuse || counts[0] > 0) return;
    const auto most = static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) - counts.begin());
    throw DataError(fmt::format("none of the {} records on land of a method can be used: {:.0f} % of them were removed "
                                "as {}; {}",
                                judged, 100.0 * static_cast<double>(counts[most]) / static_cast<double>(judged),
                                removal_word(static_cast<Removal>(most)), cure_of(static_cast<Removal>(most))));
}

Cleaned run(const Setting& setting) {
    Cleaned cleaned;
    cleaned.fields.resize(setting.input->fields.size());
    std::vector<FieldWork> works(cleaned.fields.size());
    for (std::size_t f = 0; f < works.size(); ++f) {
        works[f].field = &setting.input->fields[f];
        works[f].out = &cleaned.fields[f];
    }
    for_each_field(works, [&](FieldWork& work) { find_the_passes(work, setting); });
    const Lags lags = find_lags(works, setting);
    for_each_field(works, [&](FieldWork& work) {
        shift(work, setting, lags);
        screen_records(work, setting);
    });
    const std::vector<RampEstimate> ramps = find_ramps(works, setting);
    keep_timing(cleaned, setting, lags, ramps);
    for_each_field(works, [&](FieldWork& work) { screen_yields(work, setting, ramps); });
    Faults faults;
    if (!setting.is_rerun()) {
        refuse_without_any(works);
        faults.attempt("", [&] { judge_widths(works, setting, cleaned); });
    }
    faults.attempt("", [&] { calibrate(works, setting, cleaned); });
    faults.raise();
    for_each_field(works, [&](FieldWork& work) { finish(work, setting); });
    if (!setting.is_rerun()) keep_groundwork(cleaned, works);
    return cleaned;
}

} // namespace

Cleaned clean(const Season& season, const Standardised& input, const CleanOptions& options) {
    const Setting setting{&season, &input, &options};
    tbb::task_arena arena(options.jobs > 0 ? options.jobs : tbb::task_arena::automatic);
    Cleaned cleaned;
    arena.execute([&] { cleaned = run(setting); });
    return cleaned;
}

} // namespace quartercut
