// SPDX-License-Identifier: MIT
// Candidate designs, played one by one, cheapest first; the first that shows the difference is laid out.
#include "quartercut/plan_layout.hpp"

#include "base/words/words.hpp"

#include "base/random.hpp"
#include "plan/land_model.hpp"
#include "plan/trial_play.hpp"
#include "quartercut/error.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quartercut {
namespace planning {
namespace {

constexpr double too_turned_deg = 15.0; // passes that cross the map's own carry their own pass effects
constexpr int fewest_pairs = 4;         // four replicates are advised on farms; three leave 2 degrees of freedom
constexpr std::size_t fewest_points = 100;
constexpr double most_false_findings = 0.07; // 5 % are promised; a layout the land misleads more often is passed over

struct Shape {
    int passes = 2, baseline_passes = 2;
    PairWidths widths;
};

/// Whole passes of each machine whose strips are nearly as wide as each other.
std::vector<Shape> shapes_for(const TrialWish& wish) {
    const double a = wish.cut_m - wish.choice.overlap_m, b = wish.baseline_cut_m - wish.choice.overlap_m;
    const int guards = wish.choice.guard_passes;
    std::vector<Shape> shapes;
    for (int passes = guards > 0 ? 1 : 2; passes <= 4; ++passes) {
        const int nearest = std::max(guards > 0 ? 1 : 2, static_cast<int>(std::lround(passes * a / b)));
        shapes.push_back({passes, nearest, {passes * a, nearest * b, guards * a, guards * b}});
    }
    return shapes;
}

std::string length_words(const TrialWish& wish, double length_m) {
    return fmt::format("{:.0f} {}", from_m(length_m, wish.units), length_unit_word(wish.units));
}

double turned_between(double a_deg, double b_deg) {
    const double apart = std::fmod(std::abs(a_deg - b_deg), 180.0);
    return std::min(apart, 180.0 - apart);
}

class Planner {
public:
    Planner(const TrialLand& land, const TrialWish& wish, TrialLayout& out)
        : land_(land), wish_(wish), out_(out), turn_(out.direction_deg), free_(land.boundary_m, turn_, wish.choice) {
        for (const PastMap& map : land.earlier)
            if (map.points.size() >= fewest_points)
                earlier_.push_back({map.name, MapGrid(map.points, turn_, free_.box()), own_pass(map.direction_deg)});
        if (land.map.size() >= fewest_points)
            now_.emplace(OneMap{"", MapGrid(land.map, turn_, free_.box()), own_pass(land.map_direction_deg)});
    }

    void refuse_if_narrow(const Shape& narrowest) const {
        const double across = free_.box().max_y - free_.box().min_y;
        if (across >= narrowest.widths.total_m()) return;
        throw InputError(fmt::format("Field '{}' is {} wide across the passes; two strips side by side need {}. Choose "
                                     "another field or direction.",
                                     land_.name, length_words(wish_, across),
                                     length_words(wish_, narrowest.widths.total_m())));
    }

    DesignResult evaluate(const Shape& shape, int pairs) {
        DesignResult result;
        result.pairs = pairs;
        result.passes = shape.passes;
        result.baseline_passes = shape.baseline_passes;
        const auto placed = places(shape, pairs);
        if (placed.empty()) {
            result.why_not = fill(spoken().advice.pairs_do_not_fit, fmt::arg("pairs", pairs),
                                  fmt::arg("length", length_words(wish_, wish_.choice.min_length_m)));
            return result;
        }
        for (const PlacedPair& pair : placed.front())
            result.area_ha += pair.length_m() * (shape.widths.method_m + shape.widths.baseline_m) / m2_per_hectare;
        if (wish_.choice.minutes_per_strip) result.minutes = 2.0 * pairs * *wish_.choice.minutes_per_strip;
        const DrawDifferences draw = differences(shape, placed, result.judged_on);
        const Played played = play(draw, wish_);
        result.se_t_ha = played.se_t_ha;
        result.false_finding = played.false_finding;
        result.power = played.power;
        result.detectable_t_ha = played.detectable_t_ha;
        if (on_a_map(result)) believe_these_strips(shape, placed, result);
        result.power_weighed = result.power;
        if (wish_.u_instruments_t_ha <= 0.0) return result;
        TrialWish weighed = wish_;
        weighed.u_instruments_t_ha = 0.0;
        result.power_weighed = play(draw, weighed).power;
        return result;
    }

    void lay_out(const Shape& shape, int pairs) {
        const Placement placement = places(shape, pairs).front();
        Random coin(stream_seed(wish_.choice.seed, 1000003));
        for (std::size_t k = 0; k < placement.size(); ++k) {
            const bool method_first = coin.below(2) == 0;
            const double first = method_first ? shape.widths.method_total_m() : shape.widths.baseline_total_m();
            add_strip(placement[k], placement[k].v0, shape, method_first, static_cast<int>(k) + 1);
            add_strip(placement[k], placement[k].v0 + first, shape, !method_first, static_cast<int>(k) + 1);
        }
    }

private:
    [[nodiscard]] bool on_a_map(const DesignResult& result) const {
        return result.judged_on != spoken().advice.variogram;
    }

    /// Strips moved about say what such land does; these very strips say what their own places do. The lesser counts.
    void believe_these_strips(const Shape& shape, const std::vector<Placement>& placed, DesignResult& result) const {
        std::string on;
        const Played here = play(differences(shape, {placed.front()}, on), wish_);
        result.power = std::min(result.power, here.power);
        result.detectable_t_ha = std::max(result.detectable_t_ha, here.detectable_t_ha);
    }

    std::vector<Placement> places(const Shape& shape, int pairs) const {
        const double unit_m = std::max(wish_.cut_m, wish_.baseline_cut_m) - wish_.choice.overlap_m;
        return placements(free_, shape.widths, pairs, unit_m, wish_.choice.min_length_m);
    }

    struct OneMap {
        std::string name;
        MapGrid grid;
        double pass = 0.0; ///< variance of a pass to be added, (t/ha)^2
    };

    /// Strips along the map's own passes hold their effects already; strips across them do not.
    [[nodiscard]] double own_pass(std::optional<double> map_direction_deg) const {
        const bool crosses =
            map_direction_deg && turned_between(*map_direction_deg, out_.direction_deg) > too_turned_deg;
        return crosses && land_.model ? land_.model->pass : 0.0;
    }

    static std::optional<DrawDifferences> played_on(const OneMap& map, const Shape& shape,
                                                    const std::vector<Placement>& placed) {
        const double sd = std::sqrt(map.pass / shape.passes + map.pass / shape.baseline_passes);
        return from_map(map.grid, placed, shape.widths, sd);
    }

    /// Degrees of freedom of a map about the spread of pair differences: the pairs that lie in it side by side.
    [[nodiscard]] int pairs_seen(const Shape& shape) const {
        const double across = free_.box().max_y - free_.box().min_y;
        return std::max(3, static_cast<int>(across / shape.widths.total_m()) - 1);
    }

    /// Earlier years first: this season's map holds one year's weather only.
    DrawDifferences differences(const Shape& shape, const std::vector<Placement>& placed, std::string& on) const {
        std::vector<DrawDifferences> draws;
        std::vector<std::string> names;
        for (const OneMap& map : earlier_)
            if (auto draw = played_on(map, shape, placed)) {
                draws.push_back(std::move(*draw));
                names.push_back(map.name);
            }
        if (!draws.empty()) {
            on = fill(names.size() == 1 ? spoken().advice.own_map_earlier : spoken().advice.own_maps_earlier,
                      fmt::arg("maps", fmt::join(names, ", ")));
            return with_unsure_spread(one_of(std::move(draws)), pairs_seen(shape));
        }
        if (now_)
            if (const auto draw = played_on(*now_, shape, placed)) {
                on = spoken().advice.own_map_now;
                return with_unsure_spread(*draw, pairs_seen(shape));
            }
        if (!land_.model)
            throw InputError(
                fmt::format("Field '{}' has no yield map that covers the strips, and the farm's records are "
                            "too few for a variogram; a layout cannot be judged.",
                            land_.name));
        on = spoken().advice.variogram;
        return from_model(*land_.model, placed.front(), shape.widths, shape.passes, shape.baseline_passes);
    }

    void add_strip(const PlacedPair& pair, double v0, const Shape& shape, bool is_method, int number) {
        TrialStrip strip;
        strip.pair = number;
        strip.order = static_cast<int>(out_.strips.size()) + 1;
        strip.method = is_method ? wish_.method : wish_.baseline;
        strip.passes = is_method ? shape.passes : shape.baseline_passes;
        strip.guards = wish_.choice.guard_passes;
        strip.width_m = is_method ? shape.widths.method_m : shape.widths.baseline_m;
        strip.length_m = pair.length_m();
        const double spacing = strip.width_m / strip.passes, guard = strip.guards * spacing;
        for (const Stretch& stretch : pair.stretches)
            strip.shape_m.push_back(rectangle(stretch, v0 + guard, v0 + guard + strip.width_m));
        for (int pass = 0; pass < strip.passes + 2 * strip.guards; ++pass) {
            const double v = v0 + (pass + 0.5) * spacing;
            strip.lines_m.push_back(
                {turn_.to_m({pair.stretches.front()[0], v}), turn_.to_m({pair.stretches.back()[1], v})});
        }
        out_.strips.push_back(std::move(strip));
    }

    [[nodiscard]] Polygon rectangle(const Stretch& u, double v0, double v1) const {
        Ring ring{turn_.to_m({u[0], v0}), turn_.to_m({u[1], v0}), turn_.to_m({u[1], v1}), turn_.to_m({u[0], v1})};
        if (signed_area(ring) < 0.0) std::reverse(ring.begin(), ring.end());
        return {ring, {}};
    }

    const TrialLand& land_;
    const TrialWish& wish_;
    TrialLayout& out_;
    Turn turn_;
    FreeLand free_;
    std::vector<OneMap> earlier_;
    std::optional<OneMap> now_;
};

/// Direction of the longest side of the boundary.
double longest_side_deg(const MultiPolygon& boundary) {
    double longest = -1.0, direction = 0.0;
    for (const Polygon& polygon : boundary)
        for (std::size_t i = 0; i < polygon.shell.size(); ++i) {
            const Point a = polygon.shell[i], b = polygon.shell[(i + 1) % polygon.shell.size()];
            const double length = std::hypot(b.x - a.x, b.y - a.y);
            if (length <= longest + 1e-6) continue;
            longest = length;
            direction = std::atan2(b.x - a.x, b.y - a.y) * 180.0 / std::numbers::pi;
        }
    return std::fmod(direction + 360.0, 180.0);
}

void choose_direction(const TrialLand& land, const TrialWish& wish, TrialLayout& out) {
    if (wish.choice.direction_deg) {
        out.direction_deg = *wish.choice.direction_deg;
        out.direction_from = spoken().advice.as_season_file;
    } else if (land.map_direction_deg) {
        out.direction_deg = *land.map_direction_deg;
        out.direction_from = spoken().advice.as_passes;
    } else if (!land.earlier.empty() && land.earlier.front().direction_deg) {
        out.direction_deg = *land.earlier.front().direction_deg;
        out.direction_from = spoken().advice.as_earlier_passes;
    } else {
        out.direction_deg = longest_side_deg(land.boundary_m);
        out.direction_from = spoken().advice.along_longest_side;
    }
}

struct Candidate {
    Shape shape;
    DesignResult result;
};

/// A map is one draw of the land, and the design that looks best on it has had luck: more pairs of a shape cannot show
/// less, so a design is believed only as far as every larger one of its shape bears it out.
void believe_no_luck(std::vector<Candidate>& of_shape) {
    const Candidate* larger = nullptr;
    for (auto it = of_shape.rbegin(); it != of_shape.rend(); ++it) {
        DesignResult& here = it->result;
        if (!here.why_not.empty()) continue;
        if (larger != nullptr) {
            here.power = std::min(here.power, larger->result.power);
            here.power_weighed = std::min(here.power_weighed, larger->result.power_weighed);
            here.detectable_t_ha = std::max(here.detectable_t_ha, larger->result.detectable_t_ha);
        }
        larger = &*it;
    }
}

std::vector<Candidate> candidates_of(Planner& planner, const std::vector<Shape>& shapes, const TrialWish& wish) {
    std::vector<Candidate> out;
    for (const Shape& shape : shapes) {
        std::vector<Candidate> of_shape;
        for (int pairs = fewest_pairs; pairs <= wish.choice.most_pairs; pairs += pairs < 6 ? 1 : 2)
            of_shape.push_back({shape, planner.evaluate(shape, pairs)});
        believe_no_luck(of_shape);
        out.insert(out.end(), of_shape.begin(), of_shape.end());
    }
    std::stable_sort(out.begin(), out.end(), [](const Candidate& a, const Candidate& b) {
        return std::pair(a.result.pairs, a.result.area_ha) < std::pair(b.result.pairs, b.result.area_ha);
    });
    return out;
}

std::string yield_words(const TrialWish& wish, double t_ha) {
    const int decimals = wish.units == YieldUnit::t_ha ? 3 : wish.units == YieldUnit::bu_ac ? 1 : 0;
    return fmt::format("{:.{}f} {}", from_t_ha(t_ha, wish.units, wish.bushel_lb), decimals,
                       yield_unit_word(wish.units));
}

void say_answer(TrialLayout& out) {
    const TrialWish& wish = out.wish;
    const std::string shown = yield_words(wish, wish.difference_t_ha);
    const std::string difference =
        wish.from_break_even ? fill(spoken().advice.from_break_even, fmt::arg("difference", shown)) : shown;
    if (out.best < 0) {
        out.answer = spoken().advice.no_design_fits;
        return;
    }
    const DesignResult& d = out.designs[static_cast<std::size_t>(out.chosen >= 0 ? out.chosen : out.best)];
    out.simulated_on = d.judged_on;
    if (out.chosen < 0) {
        out.answer =
            fill(spoken().advice.no_design_shows, fmt::arg("difference", difference), fmt::arg("pairs", d.pairs),
                 fmt::arg("power", 100.0 * d.power), fmt::arg("detectable", yield_words(wish, d.detectable_t_ha)));
        if (d.power_weighed >= wish.wanted_power)
            out.answer += " " + fill(spoken().advice.if_weighed, fmt::arg("power", 100.0 * d.power_weighed));
        return;
    }
    out.answer = fill(spoken().advice.design_shows, fmt::arg("pairs", d.pairs), fmt::arg("passes", d.passes),
                      fmt::arg("method", wish.method), fmt::arg("baseline_passes", d.baseline_passes),
                      fmt::arg("baseline", wish.baseline), fmt::arg("difference", difference),
                      fmt::arg("power", 100.0 * d.power), fmt::arg("false_findings", 100.0 * d.false_finding));
}

} // namespace
} // namespace planning

TrialLayout lay_out_trial(const TrialLand& land, const TrialWish& wish) {
    using namespace planning;
    if (!(wish.difference_t_ha > 0.0)) throw InputError("A layout needs a difference to show that is above 0.");
    TrialLayout out;
    out.field = land.name;
    out.frame = land.frame;
    out.boundary_m = land.boundary_m;
    out.wish = wish;
    choose_direction(land, wish, out);
    Planner planner(land, wish, out);
    const std::vector<Shape> shapes = shapes_for(wish);
    planner.refuse_if_narrow(shapes.front());
    const std::vector<Candidate> candidates = candidates_of(planner, shapes, wish);
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const DesignResult& result = candidates[i].result;
        out.designs.push_back(result);
        if (!result.why_not.empty()) continue;
        const int at = static_cast<int>(i);
        if (out.best < 0 || result.power > out.designs[static_cast<std::size_t>(out.best)].power) out.best = at;
        const bool honest = result.false_finding <= most_false_findings;
        if (out.chosen < 0 && honest && result.power >= wish.wanted_power) out.chosen = at;
    }
    if (out.chosen >= 0) {
        const Candidate& chosen = candidates[static_cast<std::size_t>(out.chosen)];
        planner.lay_out(chosen.shape, chosen.result.pairs);
    }
    say_answer(out);
    if (!wish.why_difference.empty()) out.notes.push_back(wish.why_difference);
    if (wish.choice.weighed) out.notes.emplace_back(spoken().advice.counted_on_weighing);
    if (!wish.choice.minutes_per_strip) out.notes.emplace_back(spoken().advice.extra_time_unknown);
    return out;
}

} // namespace quartercut
