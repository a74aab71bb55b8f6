// SPDX-License-Identifier: MIT
// A year goes round: strips are laid out, the simulated harvest cuts them, and the files come back as the method
// areas of a season whose true answer is known.
#include "quartercut/demo.hpp"
#include "quartercut/job.hpp"
#include "quartercut/plan_layout.hpp"
#include "quartercut/write.hpp"
#include "quartercut/write_plan.hpp"

#include "demo/demo_files.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <unistd.h>

namespace quartercut {
namespace {

constexpr double overlap_m = 0.10; // the simulator's machines overlap by this much
constexpr double header_spacing_m = 40.0 * m_per_foot - overlap_m;

DemoFieldPlan bare_field() {
    DemoFieldPlan plan;
    plan.name = "Home";
    plan.headland_m = 24.0;
    plan.areas = {{demo_standing, 0, "", 1.0}};
    return plan;
}

Season next_season() {
    Season season;
    season.title = "next year";
    season.methods = {{"swathed", "Swathed", 35.0 * m_per_foot}, {"standing", "Standing", 40.0 * m_per_foot}};
    season.baseline = "swathed";
    return season;
}

TrialLayout laid_out(const MultiPolygon& boundary_deg, std::uint64_t coins) {
    RawArea area;
    area.name = "Home";
    area.shape_deg = boundary_deg;
    TrialLand land = new_trial_land(area, false);
    land.model = LandModel{0.03, 90.0, 0.01, 0.001, 300.0, 1000};
    TrialWish wish;
    wish.method = "standing";
    wish.baseline = "swathed";
    wish.cut_m = 40.0 * m_per_foot;
    wish.baseline_cut_m = 35.0 * m_per_foot;
    wish.difference_t_ha = 0.09;
    wish.choice.direction_deg = 0.0;
    wish.choice.headland_m = 26.0;
    wish.choice.overlap_m = overlap_m;
    wish.choice.seed = coins;
    return lay_out_trial(land, wish);
}

/// The same strips as the simulator drives them: whole passes, the land between in standing passes, equal rests
/// outside.
DemoFieldPlan driven(const TrialLayout& layout) {
    DemoFieldPlan plan = bare_field();
    plan.areas = {{demo_standing, 0, "", 1.0}};
    double reached = bounding_box(layout.strips.front().shape_m).min_x;
    for (const TrialStrip& strip : layout.strips) {
        const Box box = bounding_box(strip.shape_m);
        const int between = static_cast<int>(std::lround((box.min_x - reached) / header_spacing_m));
        if (between > 0) plan.areas.push_back({demo_standing, between, "", 1.0});
        plan.areas.push_back({strip.method == "standing" ? demo_standing : demo_swathed, strip.passes, "", 1.0});
        reached = box.max_x;
    }
    plan.areas.push_back({demo_standing, 0, "", 1.0});
    return plan;
}

void write_text(const std::filesystem::path& file, const std::string& text) { std::ofstream(file) << text; }

const char* const season_text = R"(title = "The year after"
year = 2025
crop = "canola"
baseline = "swathed"
[fields]
file = "fields.geojson"
name = "name"
[points]
files = ["points.csv"]
crs = "EPSG:4326"
[methods]
file = "strips.gpkg"
layer = "strips"
column = "method"
[[method]]
name = "swathed"
cut_width = "35 ft"
[[method]]
name = "standing"
cut_width = "40 ft"
[tickets]
file = "tickets.csv"
[trial]
randomised = true
pairs = "block"
)";

class Feedback : public testing::TestWithParam<std::uint64_t> {};

// Three seasons, each of other land, other weather and other coins.
TEST_P(Feedback, LaidOutStripsComeBackWithTheTruth) {
    DemoOptions options;
    options.seed = GetParam();
    const MultiPolygon boundary = simulate_harvest({bare_field()}, options).fields[0].boundary_deg;
    const TrialLayout layout = laid_out(boundary, options.seed + 1);
    ASSERT_GE(layout.chosen, 0) << layout.answer;
    const DemoSeason season = simulate_harvest({driven(layout)}, options);

    const auto folder = std::filesystem::temp_directory_path() /
                        ("quartercut-feedback-" + std::to_string(::getpid()) + "-" + std::to_string(options.seed));
    std::filesystem::create_directories(folder);
    write_layer(demo::boundaries_layer(season), folder / "fields.geojson");
    write_text(folder / "points.csv", demo::records_csv(season.fields[0], 0));
    write_text(folder / "tickets.csv", demo::tickets_csv(season));
    write_text(folder / "season.toml", season_text);
    write_layout_maps(layout, next_season(), folder); // the very file, unedited

    const Results results = survey_season(folder / "season.toml", {});
    CompareOptions comparing;
    comparing.sensitivity = false;
    const Comparison comparison =
        compare(results.season, results.standardised, results.cleaned, results.zoned, comparing);
    std::filesystem::remove_all(folder);
    ASSERT_EQ(comparison.fields.size(), 1U);
    ASSERT_EQ(comparison.fields[0].contrasts.size(), 1U);
    const Contrast& c = comparison.fields[0].contrasts[0];
    EXPECT_EQ(c.evidence, Evidence::replicated_randomised);
    EXPECT_EQ(c.unit_n, layout.designs[static_cast<std::size_t>(layout.chosen)].pairs);
    ASSERT_TRUE(c.ci95_total_t_ha);
    EXPECT_LE((*c.ci95_total_t_ha)[0], options.true_gain_t_ha);
    EXPECT_GE((*c.ci95_total_t_ha)[1], options.true_gain_t_ha);
    EXPECT_LT((*c.ci95_total_t_ha)[1] - (*c.ci95_total_t_ha)[0], 1.0); // an interval that says something
}

INSTANTIATE_TEST_SUITE_P(Seeds, Feedback, testing::Values(4U, 21U, 1066U));

} // namespace
} // namespace quartercut
