// SPDX-License-Identifier: MIT
// How often is the comparison wrong? A short form of tests/study/calibration_study.cpp: nothing is done to the land,
// and 300 drawn fields of each kind may show a difference in about 5 % of cases, no more. The last test leaves the pass
// effect out of the model and must fail to keep the promise: it shows that this check has teeth.
#include "compare/paired.hpp"
#include "compare/spatial_model.hpp"
#include "study_rows.hpp"

#include <gtest/gtest.h>

namespace quartercut::contrast {
namespace {

using testing::Grid;
using testing::Land;
using testing::LandKind;
using testing::Normal;

constexpr int fields = 300;

/// Method of each pass: pairs of two-pass strips in random order.
std::vector<int> random_strips(const Grid& grid, Normal& normal) {
    std::vector<int> method;
    for (int pair = 0; pair < grid.passes / 4; ++pair) {
        const int first = normal.coin() ? 1 : 0;
        for (const int m : {first, first, 1 - first, 1 - first})
            method.push_back(m);
    }
    return method;
}

std::vector<double> pair_differences(const Eigen::VectorXd& yield, const std::vector<int>& method, const Grid& grid) {
    std::vector<double> out;
    for (std::size_t first = 0; first + 3 < method.size(); first += 4) {
        double d = 0.0;
        for (std::size_t pass = first; pass < first + 4; ++pass)
            d += (method[pass] == 1 ? 0.5 : -0.5) *
                 yield.segment(static_cast<Eigen::Index>(pass) * grid.segments, grid.segments).mean();
        out.push_back(d);
    }
    return out;
}

Cells cells_of(const Eigen::VectorXd& yield, const std::vector<int>& method, const Grid& grid) {
    Cells cells;
    cells.yield_t_ha = yield;
    cells.along_m.resize(grid.size());
    cells.across_m.resize(grid.size());
    cells.weight = Eigen::VectorXd::Ones(grid.size());
    cells.x = Eigen::MatrixXd::Zero(grid.size(), 2);
    for (Eigen::Index i = 0; i < grid.size(); ++i) {
        const Eigen::Index pass = i / grid.segments;
        cells.along_m(i) = grid.segment_m * static_cast<double>(i % grid.segments);
        cells.across_m(i) = grid.pass_width_m * static_cast<double>(pass);
        cells.pass.push_back(static_cast<int>(pass));
        cells.x(i, method[static_cast<std::size_t>(pass)]) = 1.0;
    }
    return cells;
}

bool found_by_model(const Cells& cells, bool pass_effect) {
    const SpatialForm form{Correlation::exponential, false, true, pass_effect};
    const auto fit = fit_spatial(cells, form, {60, 1e-3, SpatialParameters{0.06, 60.0, 0.03, 0.004, 1.0}});
    if (!fit) return false;
    const KenwardRoger model(cells.x, cells.yield_t_ha, covariance_moves(cells, form, fit->at));
    return model.contrast(Eigen::Vector2d(-1.0, 1.0)).p() < 0.05;
}

TEST(Calibration, PairedStripsKeepTheirPromiseOnEveryKindOfField) {
    const Grid grid;
    std::uint64_t seed = 11;
    for (const LandKind& kind : testing::land_kinds()) {
        const Land land(kind, grid);
        Normal normal(seed++);
        int by_t = 0;
        int by_flip = 0;
        for (int field = 0; field < fields; ++field) {
            const Eigen::VectorXd yield = land.draw(normal);
            const auto differences = pair_differences(yield, random_strips(grid, normal), grid);
            if (paired_t(differences)->p() < 0.05) ++by_t;
            if (sign_flip(differences, 1).p() <= 0.05) ++by_flip;
        }
        EXPECT_NEAR(static_cast<double>(by_t) / fields, 0.05, 0.03) << kind.name;
        EXPECT_LE(static_cast<double>(by_flip) / fields, 0.05 + 0.03) << kind.name;
    }
}

TEST(Calibration, TheSpatialModelKeepsItsPromiseOnlyWithThePassEffect) {
    const Grid grid{12, 8, 12.0, 50.0};
    const LandKind kind = testing::land_kinds()[3];
    const Land land(kind, grid);
    Normal normal(5);
    int with = 0;
    int without = 0;
    for (int field = 0; field < fields; ++field) {
        const Cells cells = cells_of(land.draw(normal), random_strips(grid, normal), grid);
        if (found_by_model(cells, true)) ++with;
        if (found_by_model(cells, false)) ++without;
    }
    EXPECT_NEAR(static_cast<double>(with) / fields, 0.05, 0.035);
    EXPECT_GT(static_cast<double>(without) / fields, 0.10);
}

// The whole way, instruments and all, for every kind of evidence: a row of the study with few fields. What is allowed is
// 5 % and three standard deviations of the count.
TEST(Calibration, EveryKindOfEvidenceKeepsItsPromise) {
    using testing::Design;
    using testing::StudyRow;
    const LandKind rough = testing::land_kinds()[1];
    for (const auto& [design, count] : std::vector<std::pair<Design, int>>{
             {Design::pairs, 200}, {Design::pairs_not_random, 200}, {Design::split, 60}, {Design::whole, 100}}) {
        const double allowed = 0.05 * count + 3.0 * std::sqrt(0.05 * 0.95 * count);
        const testing::Tally nothing = testing::study(StudyRow{rough, design, 0.0, count});
        EXPECT_LE(nothing.found, allowed) << testing::design_word(design);
        EXPECT_EQ(nothing.none, 0);
        const testing::Tally five = testing::study(StudyRow{rough, design, 0.12, count});
        EXPECT_LE(five.n - five.total_holds, allowed) << testing::design_word(design);
        EXPECT_LE(five.n - five.sampling_holds, allowed) << testing::design_word(design);
    }
}

TEST(Calibration, TheStudysInstrumentsAreOutByWhatTheBudgetSays) {
    testing::Normal normal(1);
    const testing::Land land(testing::land_kinds()[1], testing::Grid{});
    const Season season = testing::two_method_season();
    const auto drawn = testing::draw_field(land, testing::StudyRow{testing::land_kinds()[1]}, normal, season);
    const Contrast c = testing::compare_farm(season, {drawn.field}).fields[0].contrasts.at(0);
    double u2 = 0.0;
    for (const BudgetLine& line : c.budget)
        if (line.source != "sampling") u2 += line.u_t_ha * line.u_t_ha;
    const double size = std::hypot(*c.yield_t_ha, *c.baseline_yield_t_ha);
    EXPECT_NEAR(std::sqrt(u2) / size, std::hypot(testing::calibration_u, testing::other_u), 1e-4);
}

TEST(Calibration, InstrumentsFurtherOutThanTheBudgetSaysAreFoundOut) {
    const testing::Tally tally = testing::study({testing::land_kinds()[1], testing::Design::pairs, 0.0, 200, 5.0});
    EXPECT_GT(tally.n - tally.total_holds, 40) << "or this check could not fail";
}

} // namespace
} // namespace quartercut::contrast
