// SPDX-License-Identifier: MIT
// The invented farm of the demo: which fields it has and how they were cut.
//
// Quarters are 790 m a side inside their fences, on a grid with road allowances between. The legal labels have the
// form of the Dominion Land Survey, but township 128 would lie north of 60 degrees, where no township was surveyed.
// Machine B cut most of the swathed land and machine A most of the standing crop: the raw map mixes machine and method.
#include "demo/streams.hpp"
#include "quartercut/demo.hpp"

#include <fmt/format.h>

namespace quartercut {

namespace {

constexpr double quarter_m = 790.0;
constexpr double half_m = 392.0;
constexpr double pitch_m = 825.0;
constexpr double two_headland_passes_m = 24.184;

// Strip pairs in random order within each pair: the coin is tossed once per pair.
struct Strips {
    int pairs = 8;
    int swathed_passes = 3, standing_passes = 3;
    int swathed_by_a = 0, standing_by_a = 0; // how many of the pairs' strips machine A cuts
};

std::vector<DemoAreaPlan> strip_pairs(const Strips& strips, Random random) {
    std::vector<DemoAreaPlan> areas;
    std::vector<int> swathed_turn, standing_turn;
    for (int k = 0; k < strips.pairs; ++k) {
        swathed_turn.push_back(k);
        standing_turn.push_back(k);
    }
    random.shuffle(swathed_turn);
    random.shuffle(standing_turn);
    for (int k = 0; k < strips.pairs; ++k) {
        const auto at = static_cast<std::size_t>(k);
        const std::string block = fmt::format("{}", k + 1);
        const DemoAreaPlan swathed{demo_swathed, strips.swathed_passes, block,
                                   swathed_turn[at] < strips.swathed_by_a ? 1.0 : 0.0};
        const DemoAreaPlan standing{demo_standing, strips.standing_passes, block,
                                    standing_turn[at] < strips.standing_by_a ? 1.0 : 0.0};
        const bool swathed_first = random.uniform() < 0.5;
        areas.push_back(swathed_first ? swathed : standing);
        areas.push_back(swathed_first ? standing : swathed);
    }
    return areas;
}

DemoFieldPlan quarter(const char* name, const char* legal, int column, int row) {
    DemoFieldPlan plan;
    plan.name = name;
    plan.legal = legal;
    plan.variety = "early yellow";
    plan.across_m = plan.along_m = quarter_m;
    plan.east_m = column * pitch_m;
    plan.north_m = row * pitch_m;
    return plan;
}

// The west half (passes north-south) or, with `east_west`, the south half of a quarter.
DemoFieldPlan half(const char* name, const char* legal, int column, int row, bool east_west) {
    DemoFieldPlan plan = quarter(name, legal, column, row);
    plan.across_m = half_m;
    plan.east_west = east_west;
    return plan;
}

void add_replicated(const DemoOptions& options, std::vector<DemoFieldPlan>& farm) {
    const auto draws = [&options, &farm] { return demo::stream(options.seed, farm.size(), demo::Purpose::layout); };
    DemoFieldPlan home = quarter("Home", "SW-15-128-5-W3", 0, 0);
    home.mean_yield_t_ha = 2.55;
    home.sloughs = {{210.0, 560.0, 34.0}, {585.0, 240.0, 26.0}};
    home.areas = strip_pairs({11, 3, 3, 4, 9}, draws());
    farm.push_back(home);

    DemoFieldPlan willow = quarter("Willow", "SE-15-128-5-W3", 1, 0);
    willow.mean_yield_t_ha = 2.30;
    willow.headland_m = two_headland_passes_m;
    willow.sloughs = {{470.0, 610.0, 40.0}};
    willow.wet_spots = {{260.0, 300.0, 75.0, 0.6}};
    willow.first_day_swathed = 1;
    willow.first_day_standing = 11;
    willow.areas = strip_pairs({8, 4, 4, 3, 6}, draws());
    farm.push_back(willow);

    DemoFieldPlan long_half = half("Long Half", "NW-15-128-5-W3", 0, 1, false);
    long_half.mean_yield_t_ha = 2.75;
    long_half.trend_t_ha = 0.35;
    long_half.areas = strip_pairs({8, 2, 2, 0, 8}, draws()); // B cuts all swathed, A all standing
    farm.push_back(long_half);

    DemoFieldPlan hill = half("Hill", "NE-15-128-5-W3", 1, 1, true);
    hill.mean_yield_t_ha = 2.10;
    hill.variety = "late brown";
    hill.areas = strip_pairs({6, 3, 2, 2, 4}, draws());
    farm.push_back(hill);
}

// One boundary down the middle, and the land gets better towards one side: nothing a split field can tell apart.
void add_split(std::vector<DemoFieldPlan>& farm) {
    DemoFieldPlan road = quarter("Road", "SW-14-128-5-W3", 2, 0);
    road.mean_yield_t_ha = 2.45;
    road.trend_t_ha = -0.25;
    road.corner_cut_m = 120.0;
    road.areas = {{demo_swathed, 0, "", 0.2}, {demo_standing, 0, "", 0.7}};
    farm.push_back(road);

    DemoFieldPlan stone = half("Stone", "SE-14-128-5-W3", 3, 0, false);
    stone.mean_yield_t_ha = 2.20;
    stone.trend_t_ha = 0.20;
    stone.first_day_swathed = 2;
    stone.first_day_standing = 13;
    stone.areas = {{demo_standing, 0, "", 1.0}, {demo_swathed, 0, "", 1.0}};
    farm.push_back(stone);
}

DemoFieldPlan whole(DemoFieldPlan plan, double mean_yield_t_ha, int method, double share_a) {
    plan.mean_yield_t_ha = mean_yield_t_ha;
    plan.first_day_swathed = 3;
    plan.first_day_standing = 12;
    plan.areas = {{method, 0, "", share_a}};
    return plan;
}

void add_whole(std::vector<DemoFieldPlan>& farm) {
    DemoFieldPlan north_flat = quarter("North Flat", "NW-14-128-5-W3", 2, 1);
    north_flat.sloughs = {{300.0, 420.0, 45.0}, {640.0, 150.0, 24.0}};
    farm.push_back(whole(north_flat, 2.70, demo_swathed, 0.0));
    farm.push_back(whole(half("Gravel", "NE-14-128-5-W3", 3, 1, false), 1.95, demo_swathed, 0.4));
    farm.push_back(whole(half("Bush", "SW-22-128-5-W3", 0, 2, true), 2.35, demo_swathed, 1.0));
    DemoFieldPlan south_flat = quarter("South Flat", "SE-22-128-5-W3", 1, 2);
    south_flat.sloughs = {{520.0, 330.0, 38.0}};
    farm.push_back(whole(south_flat, 2.50, demo_standing, 1.0));
    DemoFieldPlan corner = quarter("Corner", "NW-22-128-5-W3", 0, 3);
    corner.corner_cut_m = 180.0;
    farm.push_back(whole(corner, 2.15, demo_standing, 1.0));
    farm.push_back(whole(half("Birch", "NE-22-128-5-W3", 1, 3, true), 2.60, demo_standing, 0.6));
}

} // namespace

std::vector<DemoFieldPlan> demo_farm(const DemoOptions& options) {
    std::vector<DemoFieldPlan> farm;
    add_replicated(options, farm);
    add_split(farm);
    add_whole(farm);
    return farm;
}

} // namespace quartercut
