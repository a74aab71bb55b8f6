// SPDX-License-Identifier: MIT
// Tray and pan counts -> grain lost per hectare, by method and stage.
//
// A tray in the crop sees what falls on its own land. Behind the machine the loss of the whole cut falls in the width
// of the discharge, so it is divided by cut width over discharge width. The swathed crop's cut is the swather's.
#include "plan/losses.hpp"

#include "base/words/words.hpp"

#include "plan/chances.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace quartercut {
namespace planning {

double tray_loss_kg_ha(const LossCount& count) {
    const double grams = count.grams.value_or(count.seeds.value_or(0.0) * count.seed_weight_g.value_or(0.0) / 1000.0);
    const double g_m2 = grams / count.area_m2;
    const double gathered =
        count.stage == LossStage::behind_machine ? *count.cut_width_m / *count.discharge_width_m : 1.0;
    return g_m2 / gathered * 10.0; // 1 g/m2 is 10 kg/ha
}

Interval poisson_interval(double seeds) {
    // Garwood 1936, Biometrika 28:437-442.
    using boost::math::chi_squared;
    const double low = seeds > 0.0 ? 0.5 * quantile(chi_squared(2.0 * seeds), 0.025) : 0.0;
    return {low, 0.5 * quantile(chi_squared(2.0 * seeds + 2.0), 0.975)};
}

namespace {

constexpr std::array<LossStage, 3> stages{LossStage::before_cutting, LossStage::behind_header,
                                          LossStage::behind_machine};

struct Place {
    double sum_kg_ha = 0.0, seeds = 0.0;
    int trays = 0;
    bool all_counted = true; ///< seeds, not grams
    [[nodiscard]] double mean_kg_ha() const { return sum_kg_ha / trays; }
};

using Places = std::map<std::pair<std::string, std::string>, Place>;

Places places_of(const std::vector<LossCount>& counts, const std::string& method, LossStage stage) {
    Places places;
    for (const LossCount& count : counts) {
        if (count.method != method || count.stage != stage) continue;
        Place& place = places[{count.field, count.place}];
        place.sum_kg_ha += tray_loss_kg_ha(count);
        place.seeds += count.seeds.value_or(0.0);
        place.all_counted = place.all_counted && count.seeds.has_value();
        ++place.trays;
    }
    return places;
}

void add_spread(StageLoss& out, const Places& places) {
    double squares = 0.0;
    for (const auto& [key, place] : places)
        squares += std::pow(place.mean_kg_ha() - out.loss_kg_ha, 2.0);
    const double n = out.places;
    out.df = n - 1.0;
    out.u_kg_ha = std::sqrt(squares / (n - 1.0) / n);
    const double half = t95(*out.df) * *out.u_kg_ha;
    out.ci95_kg_ha = Interval{std::max(0.0, out.loss_kg_ha - half), out.loss_kg_ha + half};
    out.interval_from = spoken().advice.between_places;
}

/// One place says nothing about other places: only how well its own seeds were counted.
void add_counting_error(StageLoss& out, const Place& place) {
    if (!place.all_counted || !(place.seeds > 0.0)) {
        out.interval_from = spoken().advice.one_place_weighed;
        return;
    }
    const Interval seeds = poisson_interval(place.seeds);
    out.ci95_kg_ha = Interval{out.loss_kg_ha * seeds[0] / place.seeds, out.loss_kg_ha * seeds[1] / place.seeds};
    out.interval_from = spoken().advice.one_place_counted;
}

std::optional<StageLoss> stage_loss(const std::vector<LossCount>& counts, const std::string& method, LossStage stage) {
    const Places places = places_of(counts, method, stage);
    if (places.empty()) return std::nullopt;
    StageLoss out;
    out.stage = stage;
    out.places = static_cast<int>(places.size());
    for (const auto& [key, place] : places) {
        out.trays += place.trays;
        out.loss_kg_ha += place.mean_kg_ha() / out.places;
    }
    if (out.places > 1)
        add_spread(out, places);
    else
        add_counting_error(out, places.begin()->second);
    return out;
}

/// Errors of several stages together (JCGM 100:2008, G.4).
struct Together {
    double square = 0.0, quartic_over_df = 0.0;
    bool known = true;
    void add(const StageLoss& stage) {
        known = known && stage.u_kg_ha.has_value();
        if (!stage.u_kg_ha) return;
        const double square_of = *stage.u_kg_ha * *stage.u_kg_ha;
        square += square_of;
        quartic_over_df += square_of * square_of / *stage.df;
    }
    [[nodiscard]] double u() const { return std::sqrt(square); }
    [[nodiscard]] double df() const { return quartic_over_df > 0.0 ? square * square / quartic_over_df : 1e6; }
};

std::optional<double> yield_of(const Season& season, const std::vector<ZonedField>& zoned, const std::string& method) {
    double mass_kg = 0.0, area_m2 = 0.0;
    for (const ZonedField& field : zoned)
        for (const Zone& zone : field.zones)
            if (zone.method == season.method_code(method)) {
                mass_kg += zone.mass_basis_kg;
                area_m2 += zone.harvested_m2;
            }
    if (!(area_m2 > 0.0)) return std::nullopt;
    return yield(Kilograms{mass_kg}, SquareMetres{area_m2}).value();
}

MethodLoss method_loss(const Season& season, const std::vector<LossCount>& counts, const std::string& method,
                       const std::vector<ZonedField>& zoned) {
    MethodLoss out;
    out.method = method;
    Together together;
    for (const LossStage stage : stages) {
        const auto loss = stage_loss(counts, method, stage);
        if (!loss) {
            out.not_counted.emplace_back(loss_stage_word(stage));
            continue;
        }
        out.total_kg_ha += loss->loss_kg_ha;
        together.add(*loss);
        out.stages.push_back(*loss);
    }
    if (together.known && !out.stages.empty()) {
        out.u_kg_ha = together.u();
        out.df = together.df();
        const double half = t95(*out.df) * *out.u_kg_ha;
        out.ci95_kg_ha = Interval{std::max(0.0, out.total_kg_ha - half), out.total_kg_ha + half};
    }
    out.yield_t_ha = yield_of(season, zoned, method);
    if (!out.yield_t_ha || !(*out.yield_t_ha > 0.0)) return out;
    const double loss_t_ha = out.total_kg_ha / kg_per_tonne;
    out.crop_had_t_ha = *out.yield_t_ha + loss_t_ha;
    out.loss_of_yield_pct = 100.0 * loss_t_ha / *out.yield_t_ha;
    out.loss_of_crop_pct = 100.0 * loss_t_ha / *out.crop_had_t_ha;
    return out;
}

const StageLoss* find_stage(const MethodLoss& loss, LossStage stage) {
    for (const StageLoss& found : loss.stages)
        if (found.stage == stage) return &found;
    return nullptr;
}

const char* stage_said(LossStage stage) {
    const auto& words = spoken().counting;
    if (stage == LossStage::before_cutting) return words.at_before;
    return stage == LossStage::behind_header ? words.at_header : words.at_machine;
}

std::optional<LossDifference> difference_of(const MethodLoss& method, const MethodLoss& baseline) {
    LossDifference out{method.method, baseline.method, 0.0, std::nullopt, ""};
    Together together;
    for (const LossStage stage : stages) {
        const StageLoss *a = find_stage(method, stage), *b = find_stage(baseline, stage);
        if (a == nullptr || b == nullptr) continue;
        out.difference_kg_ha += a->loss_kg_ha - b->loss_kg_ha;
        together.add(*a);
        together.add(*b);
        out.over += (out.over.empty() ? "" : ", ") + std::string(stage_said(stage));
    }
    if (out.over.empty()) return std::nullopt;
    if (together.known) {
        const double half = t95(together.df()) * together.u();
        out.ci95_kg_ha = Interval{out.difference_kg_ha - half, out.difference_kg_ha + half};
    }
    return out;
}

/// The cut of a swathed crop is the swather's, not the pick-up's: a count that says otherwise is told.
void check_cut_widths(const Season& season, const std::vector<LossCount>& counts, Issues& issues) {
    for (const Method& method : season.methods) {
        if (!method.cut_width_m) continue;
        for (const LossCount& count : counts) {
            if (count.method != method.name || !count.cut_width_m) continue;
            if (std::abs(*count.cut_width_m / *method.cut_width_m - 1.0) <= 0.1) continue;
            issues.push_back({"loss-cut-width", Severity::warning,
                              fill(spoken().places.loss_row, fmt::arg("row", count.row)),
                              fill(spoken().advice.cut_width_differs, fmt::arg("width", *count.cut_width_m),
                                   fmt::arg("method", method.name), fmt::arg("cut", *method.cut_width_m))});
            break;
        }
    }
}

} // namespace
} // namespace planning

LossResult count_losses(const Season& season, const std::vector<LossCount>& counts,
                        const std::vector<ZonedField>& zoned) {
    using namespace planning;
    LossResult out;
    const MethodLoss* baseline = nullptr;
    for (const Method& method : season.methods) {
        MethodLoss loss = method_loss(season, counts, method.name, zoned);
        if (!loss.stages.empty()) out.methods.push_back(std::move(loss));
    }
    for (const MethodLoss& loss : out.methods)
        if (loss.method == season.baseline) baseline = &loss;
    for (const MethodLoss& loss : out.methods)
        if (baseline != nullptr && &loss != baseline)
            if (const auto difference = difference_of(loss, *baseline)) out.differences.push_back(*difference);
    check_cut_widths(season, counts, out.issues);
    return out;
}

} // namespace quartercut
