// SPDX-License-Identifier: MIT
// What the results of this season say to a layout: the land, the machines, the difference that matters.
#include "plan/earlier_land.hpp"

#include "base/words/words.hpp"
#include "plan/land_model.hpp"

#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quartercut {
namespace planning {

std::optional<double> direction_of(const CleanedField& cleaned) {
    double sine = 0.0, cosine = 0.0;
    for (const Pass& pass : cleaned.passes) {
        if (!std::isfinite(pass.heading_deg)) continue;
        const double doubled = 2.0 * pass.heading_deg * std::numbers::pi / 180.0;
        sine += pass.length_m * std::sin(doubled);
        cosine += pass.length_m * std::cos(doubled);
    }
    if (std::hypot(sine, cosine) <= 0.0) return std::nullopt;
    const double degrees = std::atan2(sine, cosine) * 90.0 / std::numbers::pi;
    return std::fmod(degrees + 180.0, 180.0);
}

TrialLand season_land(const Season& season, const StandardField& standard, const CleanedField& cleaned,
                      const ZonedField& zoned, const FieldComparison& comparison) {
    TrialLand land;
    land.name = standard.name;
    land.frame = standard.frame;
    land.boundary_m = standard.boundary_m;
    land.map_direction_deg = direction_of(cleaned);
    double mass_kg = 0.0, area_m2 = 0.0;
    for (const Segment& segment : zoned.segments) {
        if (segment.edge || segment.zone < 0 || !(segment.area_m2 > 0.0)) continue;
        const int method = zoned.zones[static_cast<std::size_t>(segment.zone)].method;
        const double shift = method_shift_t_ha(comparison, season, method);
        land.map.push_back({segment.x_m, segment.y_m, segment.yield_t_ha() - shift});
        mass_kg += segment.mass_basis_kg;
        area_m2 += segment.area_m2;
    }
    if (area_m2 > 0.0) land.mean_yield_t_ha = yield(Kilograms{mass_kg}, SquareMetres{area_m2}).value();
    return land;
}

double farm_yield_t_ha(const std::vector<ZonedField>& zoned) {
    double mass_kg = 0.0, area_m2 = 0.0;
    for (const ZonedField& field : zoned)
        for (const Segment& segment : field.segments) {
            mass_kg += segment.mass_basis_kg;
            area_m2 += segment.area_m2;
        }
    return area_m2 > 0.0 ? yield(Kilograms{mass_kg}, SquareMetres{area_m2}).value() : 0.0;
}

} // namespace planning

namespace {

bool is_replicated(const Contrast& c) {
    return !c.stratum && (c.evidence == Evidence::replicated || c.evidence == Evidence::replicated_randomised);
}

struct Instruments {
    double u_t_ha = 0.0, df = 50.0;
};

/// What strips do not average, as this season's trials had it: the middle one of them.
Instruments instruments_of(const Comparison& comparison, const std::string& method) {
    std::vector<std::pair<double, double>> found;
    for (const FieldComparison& field : comparison.fields)
        for (const Contrast& c : field.contrasts) {
            if (!is_replicated(c) || c.method != method) continue;
            double square = 0.0, quartic = 0.0;
            for (const BudgetLine& line : c.budget) {
                if (line.source == error_source::sampling) continue;
                square += line.u_t_ha * line.u_t_ha;
                if (line.df > 0.0) quartic += std::pow(line.u_t_ha, 4.0) / line.df;
            }
            found.emplace_back(std::sqrt(square), quartic > 0.0 ? square * square / quartic : 50.0);
        }
    if (found.empty()) return {};
    std::sort(found.begin(), found.end());
    return {found[found.size() / 2].first, found[found.size() / 2].second};
}

double cut_width(const Season& season, const std::string& name) {
    const int code = season.method_code(name);
    const auto& width = season.methods[static_cast<std::size_t>(code)].cut_width_m;
    if (!width)
        throw InputError(fmt::format("{}: [[method]] \"{}\" has no cut_width; strips are laid out in whole passes, so "
                                     "the real width of both machines is needed.",
                                     season.file.string(), name));
    return *width;
}

/// What a trial must show, and why.
struct Distance {
    double t_ha = 0.0;
    std::string why;
};

/// The farm's row of the money, or any field's.
const NetDifference* money_row(const std::optional<MoneyResult>& money, const std::string& method) {
    if (!money) return nullptr;
    for (const auto* rows : {&money->farm, &money->fields})
        for (const NetDifference& row : *rows)
            if (row.method == method && row.break_even_t_ha) return &row;
    return nullptr;
}

std::string signed_yield(const Season& season, double t_ha) {
    const int decimals = season.units == YieldUnit::t_ha ? 2 : season.units == YieldUnit::bu_ac ? 1 : 0;
    return fmt::format("{:+.{}f} {}", from_t_ha(t_ha, season.units, season.bushel_lb), decimals,
                       yield_unit_word(season.units));
}

/// A trial decides once it tells the true difference from the break-even, on whichever side of 0 that lies. What it is
/// expected to be is the replicated trials' best guess; other evidence is no guide to it, so none (0) is expected then.
std::optional<Distance> from_break_even(const Season& season, const std::optional<MoneyResult>& money,
                                        const std::string& method) {
    const NetDifference* row = money_row(money, method);
    if (row == nullptr) return std::nullopt;
    const bool guessed = row->gain_t_ha && row->evidence.rfind("replicated", 0) == 0;
    const double expected = guessed ? *row->gain_t_ha : 0.0;
    const auto& words = spoken().advice;
    const std::string guess =
        guessed ? fill(words.best_guess_is, fmt::arg("gain", signed_yield(season, expected))) : words.no_trial_says;
    return Distance{std::abs(expected - *row->break_even_t_ha),
                    fill(spoken().advice.told_apart, fmt::arg("method", method), fmt::arg("baseline", season.baseline),
                         fmt::arg("even", signed_yield(season, *row->break_even_t_ha)), fmt::arg("guess", guess))};
}

} // namespace

TrialLand trial_land(const Season& season, const StandardField& standard, const CleanedField& cleaned,
                     const ZonedField& zoned, const FieldComparison& comparison) {
    TrialLand land = planning::season_land(season, standard, cleaned, zoned, comparison);
    planning::add_earlier(land, planning::read_earlier_land(season, {}), land.mean_yield_t_ha);
    return land;
}

TrialLand new_trial_land(const RawArea& area, bool local_metres) {
    TrialLand land;
    land.name = area.name;
    const Box box = bounding_box(area.shape_deg);
    if (!local_metres) land.frame = Frame(0.5 * (box.min_x + box.max_x), 0.5 * (box.min_y + box.max_y));
    const auto turned = [&land](const Ring& ring) {
        Ring out;
        for (const Point p : ring)
            out.push_back(land.frame.to_metres(p));
        return out;
    };
    for (const Polygon& polygon : area.shape_deg) {
        land.boundary_m.push_back({turned(polygon.shell), {}});
        for (const Ring& hole : polygon.holes)
            land.boundary_m.back().holes.push_back(turned(hole));
    }
    return land;
}

TrialLand new_trial_land(const Season& season, const std::vector<ZonedField>& zoned, const RawArea& area,
                         bool local_metres) {
    TrialLand land = new_trial_land(area, local_metres);
    planning::add_earlier(land, planning::read_earlier_land(season, {area}), planning::farm_yield_t_ha(zoned));
    return land;
}

TrialWish trial_wish(const Season& season, const Comparison& comparison, const std::optional<MoneyResult>& money) {
    TrialWish wish;
    if (season.next_year) wish.choice = season.next_year->layout;
    wish.baseline = season.baseline;
    wish.units = season.units;
    wish.bushel_lb = season.bushel_lb;
    for (const Method& method : season.methods)
        if (wish.method.empty() && method.name != season.baseline) wish.method = method.name;
    if (wish.choice.methods.size() == 2) {
        wish.method = wish.choice.methods[0];
        wish.baseline = wish.choice.methods[1];
        if (wish.method == season.baseline) std::swap(wish.method, wish.baseline);
    }
    wish.cut_m = cut_width(season, wish.method);
    wish.baseline_cut_m = cut_width(season, wish.baseline);
    const auto distance = from_break_even(season, money, wish.method);
    if (wish.choice.difference_t_ha) {
        wish.difference_t_ha = *wish.choice.difference_t_ha;
    } else if (distance) {
        wish.difference_t_ha = distance->t_ha;
        wish.why_difference = distance->why;
        wish.from_break_even = true;
    }
    if (!(wish.difference_t_ha > 1e-6))
        throw InputError(
            fmt::format("{}: what a trial must show is not known. Write difference = \"1.5 bu/ac\" under "
                        "[next_year.layout], or give price and costs under [money] for the break-even gain.",
                        season.file.string()));
    if (wish.choice.weighed) return wish;
    const Instruments instruments = instruments_of(comparison, wish.method);
    wish.u_instruments_t_ha = instruments.u_t_ha;
    wish.df_instruments = instruments.df;
    return wish;
}

} // namespace quartercut
