// SPDX-License-Identifier: MIT
// Spatial models against R 4.2.2: nlme 3.1-162 (gls, REML) on Stroup & Baenziger's wheat (Wheat2) and on that of Mercer
// & Hall, and generalised least squares with stated covariances.
#include "compare/spatial_model.hpp"

#include "compare/boundary.hpp"
#include "csv.hpp"
#include "mercer_hall.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using testing::numbers;
using testing::read_csv;

void expect_close(double value, double expected, double tolerance) {
    EXPECT_LT(std::abs(value - expected), tolerance * std::abs(expected)) << value << " against " << expected;
}

VectorXd as_vector(const std::vector<double>& values) {
    return Eigen::Map<const VectorXd>(values.data(), static_cast<Index>(values.size()));
}

struct Wheat2 {
    Cells cells;
    std::vector<std::string> varieties; // column names
    [[nodiscard]] VectorXd contrast(const std::string& a, const std::string& b) const {
        VectorXd c = VectorXd::Zero(static_cast<Index>(varieties.size()));
        for (std::size_t i = 0; i < varieties.size(); ++i)
            c(static_cast<Index>(i)) = (varieties[i] == a ? 1.0 : 0.0) - (varieties[i] == b ? 1.0 : 0.0);
        return c;
    }
};

Wheat2 wheat2() {
    const auto csv = read_csv("wheat2.csv");
    Wheat2 out;
    out.cells.along_m = as_vector(numbers(csv, "latitude"));
    out.cells.across_m = as_vector(numbers(csv, "longitude"));
    out.cells.yield_t_ha = as_vector(numbers(csv, "yield"));
    const Index n = out.cells.size();
    out.cells.weight = VectorXd::Ones(n);
    out.cells.pass = std::vector<int>(static_cast<std::size_t>(n), 0);
    const auto variety = testing::codes(csv.at("variety"));
    out.cells.x = MatrixXd::Zero(n, 56);
    out.varieties.resize(56);
    for (Index i = 0; i < n; ++i) {
        out.cells.x(i, variety[static_cast<std::size_t>(i)]) = 1.0;
        out.varieties[static_cast<std::size_t>(variety[static_cast<std::size_t>(i)])] =
            csv.at("variety")[static_cast<std::size_t>(i)];
    }
    return out;
}

/// Mercer & Hall's plots; columns are the passes.
Cells mercer_cells() {
    const auto wheat = testing::mercer_hall();
    Cells cells;
    cells.across_m = as_vector(wheat.x_m);
    cells.along_m = as_vector(wheat.y_m);
    cells.yield_t_ha = as_vector(wheat.yield);
    cells.weight = VectorXd::Ones(cells.size());
    for (const int column : wheat.column)
        cells.pass.push_back(column - 1);
    cells.x = MatrixXd::Ones(cells.size(), 1);
    return cells;
}

constexpr SpatialForm exponential_nugget{Correlation::exponential, false, true, false};
constexpr SpatialForm exponential_nugget_pass{Correlation::exponential, false, true, true};
constexpr SpatialParameters without_pass{0.1383742112, 4.404959225, 0.0718553035, 0.0, 1.0};
constexpr SpatialParameters with_pass{0.10409339, 4.3760301, 0.059753369, 0.044087585, 1.0};

TEST(Wheat2Plots, AsIndependent) {
    const Wheat2 wheat = wheat2();
    const Gls fit = *fit_gls(MatrixXd::Identity(224, 224), wheat.cells.x, wheat.cells.yield_t_ha);
    expect_close(profiled_restricted_loglik(fit), -620.3708938, 1e-8);
    expect_close(std::sqrt(profiled_scale(fit)), 7.711373355, 1e-8);
    const VectorXd c = wheat.contrast("ARAPAHOE", "LANCER");
    expect_close(c.dot(fit.beta), 0.875, 1e-8);
    expect_close(std::sqrt(profiled_scale(fit) * c.dot(fit.phi * c)), 5.452764, 1e-6);
}

TEST(Wheat2Plots, WithSphericalCorrelationAndNugget) {
    const Wheat2 wheat = wheat2();
    const auto fit = fit_spatial(wheat.cells, {Correlation::spherical, false, true, false}, {600, 1e-8, {}});
    ASSERT_TRUE(fit.has_value());
    const double total = fit->at.sill + fit->at.nugget;
    expect_close(fit->at.range_m, 27.457477674, 1e-4);
    expect_close(fit->at.nugget / total, 0.209314353, 1e-4);
    expect_close(std::sqrt(total), 7.410598174, 1e-4);
    expect_close(fit->loglik, -533.9315427, 1e-6);
    expect_close(fit->aic, 1185.863085, 1e-6);
    const Gls gls = *fit_gls(covariance(wheat.cells, fit->form, fit->at), wheat.cells.x, wheat.cells.yield_t_ha);
    const VectorXd c = wheat.contrast("ARAPAHOE", "LANCER");
    expect_close(c.dot(gls.beta), 3.325809, 1e-4);
    expect_close(std::sqrt(c.dot(gls.phi * c)), 2.873814, 1e-4);
}

TEST(Wheat2Plots, WithExponentialCorrelationOnly) {
    const auto fit = fit_spatial(wheat2().cells, {Correlation::exponential, false, false, false}, {600, 1e-9, {}});
    ASSERT_TRUE(fit.has_value());
    expect_close(fit->at.range_m, 5.090631691, 1e-4);
    expect_close(fit->loglik, -549.1831056, 1e-7);
    EXPECT_TRUE(fit->range_found);
}

// nlme's fit runs away (range 1056 in a field of 40 m): only sill / range is known. We say so; the contrast is stable.
TEST(Wheat2Plots, SayWhenTheRangeCannotBeFound) {
    const Wheat2 wheat = wheat2();
    const auto fit = fit_spatial(wheat.cells, exponential_nugget, {600, 1e-6, {}});
    ASSERT_TRUE(fit.has_value());
    EXPECT_FALSE(fit->range_found);
    const Gls gls = *fit_gls(covariance(wheat.cells, fit->form, fit->at), wheat.cells.x, wheat.cells.yield_t_ha);
    const VectorXd c = wheat.contrast("ARAPAHOE", "LANCER");
    EXPECT_NEAR(c.dot(gls.beta), 3.435, 0.05);
    EXPECT_NEAR(std::sqrt(c.dot(gls.phi * c)), 2.883, 0.02);
}

TEST(MercerHall, MeanAndSpread) {
    const Cells cells = mercer_cells();
    expect_close(cells.yield_t_ha.mean(), 3.94864, 1e-9);
    const double variance = (cells.yield_t_ha.array() - cells.yield_t_ha.mean()).square().sum() / 499.0;
    expect_close(variance, 0.2100201908, 1e-8);
    EXPECT_NEAR(100.0 * std::sqrt(variance) / cells.yield_t_ha.mean(), 11.606, 5e-4);
}

TEST(MercerHall, ExactLikelihoodAtAStatedCovariance) {
    const Cells cells = mercer_cells();
    const SpatialParameters at{0.15, 10.0, 0.06, 0.0, 1.0};
    const Gls fit = *fit_gls(covariance(cells, exponential_nugget, at), cells.x, cells.yield_t_ha);
    expect_close(restricted_loglik(fit), -282.6582949816, 1e-9);
    const double ml = -0.5 * (500.0 * std::log(2.0 * M_PI) + fit.log_det_v + fit.quadratic);
    expect_close(ml, -281.3765473852, 1e-9);
    expect_close(fit.beta(0), 3.9247006474, 1e-9);
    expect_close(std::sqrt(fit.phi(0, 0)), 0.1107271591, 1e-8);
}

TEST(MercerHall, FitsWithoutPassEffect) {
    const Cells cells = mercer_cells();
    const auto fit = fit_spatial(cells, exponential_nugget, {300, 1e-7, {}});
    ASSERT_TRUE(fit.has_value());
    expect_close(fit->at.sill, without_pass.sill, 2e-4);
    expect_close(fit->at.range_m, without_pass.range_m, 4e-4);
    expect_close(fit->at.nugget, without_pass.nugget, 4e-4);
    expect_close(fit->loglik, -262.8280136, 1e-7);
    const Gls gls = *fit_gls(covariance(cells, fit->form, fit->at), cells.x, cells.yield_t_ha);
    expect_close(gls.beta(0), 3.940633072, 1e-5);
    expect_close(std::sqrt(gls.phi(0, 0)), 0.05768104446, 2e-4);
}

TEST(MercerHall, FitsWithPassEffect) {
    const Cells cells = mercer_cells();
    const auto fit = fit_spatial(cells, exponential_nugget_pass, {300, 1e-6, {}});
    ASSERT_TRUE(fit.has_value());
    expect_close(fit->at.sill, with_pass.sill, 1e-3);
    expect_close(fit->at.range_m, with_pass.range_m, 1e-3);
    expect_close(fit->at.nugget, with_pass.nugget, 1e-3);
    expect_close(fit->at.pass, with_pass.pass, 1e-3);
    expect_close(fit->loglik, -225.88951, 1e-6);
}

/// The row a with a'y = contrast of two methods by generalised least squares, and its error.
struct Row {
    VectorXd row;
    double se = 0.0;
};

Row gls_row(const MatrixXd& v, const MatrixXd& x, const VectorXd& c) {
    const Eigen::LLT<MatrixXd> llt(v);
    const MatrixXd vx = llt.solve(x);
    const MatrixXd phi = (x.transpose() * vx).inverse();
    return {vx * (phi * c), std::sqrt(c.dot(phi * c))};
}

TEST(MercerHall, SplitInTwoHasNoTreatmentYetPlainErrorsSeeOne) {
    const Cells cells = mercer_cells();
    MatrixXd x = MatrixXd::Zero(500, 2);
    for (Index i = 0; i < 500; ++i)
        x(i, cells.pass[static_cast<std::size_t>(i)] >= 12 ? 1 : 0) = 1.0;
    const VectorXd c = Eigen::Vector2d(-1.0, 1.0);
    const VectorXd row = least_squares_row(x, cells.weight, c);
    expect_close(row.dot(cells.yield_t_ha), -0.336108974, 1e-8);
    const MatrixXd smooth = covariance(cells, exponential_nugget, without_pass);
    // R's covariance is its own fit, ours the ten digits printed of it: 1e-5 apart
    expect_close(std::sqrt(row.dot(smooth * row)), 0.108737279, 2e-5);
    const Row gls = gls_row(smooth, x, c);
    expect_close(gls.row.dot(cells.yield_t_ha), -0.187247343, 2e-5);
    expect_close(gls.se, 0.090043396, 2e-5);
    const MatrixXd passes = covariance(cells, exponential_nugget_pass, with_pass);
    expect_close(std::sqrt(row.dot(passes * row)), 0.12618036, 1e-5);
    const Row with = gls_row(passes, x, c);
    expect_close(with.row.dot(cells.yield_t_ha), -0.33016689, 1e-5);
    expect_close(with.se, 0.12289861, 1e-5);
}

// All 4096 fake randomisations within the 12 column pairs (24 columns), covariances as fitted to the whole field and an
// error taken as known (1.96): without a pass effect 40 % and more are "found". R 4.2.2, full enumeration.
TEST(MercerHall, OnlyThePassEffectKeepsSpatialModelsHonest) {
    const Cells all = mercer_cells();
    std::vector<Index> kept;
    for (Index i = 0; i < all.size(); ++i)
        if (all.pass[static_cast<std::size_t>(i)] < 24) kept.push_back(i);
    const auto count = [&](const SpatialForm& form, const SpatialParameters& at) {
        Cells cells;
        cells.along_m = all.along_m(kept);
        cells.across_m = all.across_m(kept);
        cells.yield_t_ha = all.yield_t_ha(kept);
        cells.weight = VectorXd::Ones(480);
        for (const Index i : kept)
            cells.pass.push_back(all.pass[static_cast<std::size_t>(i)]);
        const MatrixXd v = covariance(cells, form, at);
        const MatrixXd inverse = v.llt().solve(MatrixXd::Identity(480, 480));
        // Everything an assignment needs, summed over columns: 24 x 24 blocks instead of 480 x 480 cells.
        MatrixXd z = MatrixXd::Zero(480, 24);
        for (Index i = 0; i < 480; ++i)
            z(i, cells.pass[static_cast<std::size_t>(i)]) = 1.0;
        const MatrixXd zvz = z.transpose() * v * z;
        const MatrixXd zwz = z.transpose() * inverse * z;
        const VectorXd zy = z.transpose() * cells.yield_t_ha;
        const VectorXd zwy = z.transpose() * (inverse * cells.yield_t_ha);
        int by_gls = 0;
        int by_ols = 0;
        for (unsigned bits = 0; bits < 4096U; ++bits) {
            MatrixXd x = MatrixXd::Zero(24, 2);
            VectorXd sign(24);
            for (Index column = 0; column < 24; ++column) {
                const bool second = (column % 2 == 1) != ((bits >> (column / 2) & 1U) != 0);
                x(column, second ? 1 : 0) = 1.0;
                sign(column) = second ? 1.0 / 240.0 : -1.0 / 240.0;
            }
            const MatrixXd phi = MatrixXd(x.transpose() * zwz * x).inverse();
            const VectorXd beta = phi * (x.transpose() * zwy);
            const double se = std::sqrt(phi(0, 0) + phi(1, 1) - 2.0 * phi(0, 1));
            if (std::abs(beta(1) - beta(0)) > 1.96 * se) ++by_gls;
            if (std::abs(sign.dot(zy)) > 1.96 * std::sqrt(sign.dot(zvz * sign))) ++by_ols;
        }
        return std::pair(by_gls / 4096.0, by_ols / 4096.0);
    };
    const auto without = count(exponential_nugget, without_pass);
    EXPECT_NEAR(without.first, 0.43359375, 1e-3);
    EXPECT_NEAR(without.second, 0.39990234, 1e-3);
    const auto with = count(exponential_nugget_pass, with_pass);
    EXPECT_NEAR(with.first, 0.015625, 1e-3);
    EXPECT_NEAR(with.second, 0.018066406, 1e-3);
}

TEST(MercerHall, SplitWithLinearTrends) {
    Cells cells = mercer_cells();
    cells.x = MatrixXd::Ones(500, 4);
    for (Index i = 0; i < 500; ++i)
        cells.x(i, 1) = cells.pass[static_cast<std::size_t>(i)] >= 12 ? 1.0 : 0.0;
    cells.x.col(2) = cells.across_m;
    cells.x.col(3) = cells.along_m;
    const auto fit = fit_spatial(cells, exponential_nugget, {300, 1e-6, {}});
    ASSERT_TRUE(fit.has_value());
    const Gls gls = *fit_gls(covariance(cells, fit->form, fit->at), cells.x, cells.yield_t_ha);
    expect_close(gls.beta(1), -0.2246322912, 3e-4);
    expect_close(std::sqrt(gls.phi(1, 1)), 0.1116975417, 3e-4);
}

TEST(MercerHall, AlongTheBorderOfTheSplit) {
    const auto wheat = testing::mercer_hall();
    const std::vector<std::pair<double, double>> expected{
        {0.0015, 0.119400}, {-0.186, 0.080147}, {-0.430833, 0.069917}};
    for (int side = 1; side <= 3; ++side) {
        std::map<double, double> rows; // by place along
        for (std::size_t i = 0; i < wheat.yield.size(); ++i) {
            const int column = wheat.column[i];
            if (column > 12 && column <= 12 + side) rows[wheat.y_m[i]] += wheat.yield[i] / side;
            if (column <= 12 && column > 12 - side) rows[wheat.y_m[i]] -= wheat.yield[i] / side;
        }
        std::vector<double> differences;
        for (const auto& [y, d] : rows)
            differences.push_back(d);
        const auto border = boundary_contrast(differences, 0.0, side);
        ASSERT_TRUE(border.has_value());
        EXPECT_NEAR(border->test.estimate, expected[static_cast<std::size_t>(side - 1)].first, 1e-6);
        EXPECT_NEAR(border->iid_se, expected[static_cast<std::size_t>(side - 1)].second, 1e-6);
        EXPECT_GE(border->test.se, border->iid_se - 1e-12);
        const auto shared = boundary_contrast(differences, with_pass.pass, side);
        EXPECT_GT(shared->test.se * shared->test.se, 2.0 * with_pass.pass / side);
    }
}

/// 24 passes of 12 m, 16 segments of 50 m, exponential 60 m with variance 0.06 and a nugget.
Cells planned_field(double (*method_of)(int pass)) {
    Cells cells;
    cells.along_m.resize(384);
    cells.across_m.resize(384);
    cells.yield_t_ha = VectorXd::Zero(384);
    cells.weight = VectorXd::Ones(384);
    cells.x = MatrixXd::Zero(384, 2);
    for (int pass = 0; pass < 24; ++pass)
        for (int s = 0; s < 16; ++s) {
            const Index i = pass * 16 + s;
            cells.across_m(i) = 12.0 * pass;
            cells.along_m(i) = 50.0 * s;
            cells.pass.push_back(pass);
            cells.x(i, 1) = method_of(pass);
            cells.x(i, 0) = 1.0 - cells.x(i, 1);
        }
    return cells;
}

// R 4.2.2, direct algebra on the same grid.
TEST(PlannedField, ErrorOfThreeLayouts) {
    const SpatialParameters at{0.06, 60.0, 0.03, 0.0, 1.0};
    struct Layout {
        double (*method_of)(int);
        double ols, gls;
    };
    const Layout layouts[] = {{[](int pass) { return pass >= 12 ? 1.0 : 0.0; }, 0.0885227, 0.0588751},
                              {[](int pass) { return pass / 2 % 2 == 1 ? 1.0 : 0.0; }, 0.0236295, 0.0215184},
                              {[](int pass) { return pass == 10 || pass == 11 ? 1.0 : 0.0; }, 0.0700665, 0.0479675}};
    for (const Layout& layout : layouts) {
        const Cells cells = planned_field(layout.method_of);
        const MatrixXd v = covariance(cells, exponential_nugget, at);
        const VectorXd c = Eigen::Vector2d(-1.0, 1.0);
        const VectorXd row = least_squares_row(cells.x, cells.weight, c);
        expect_close(std::sqrt(row.dot(v * row)), layout.ols, 2e-6);
        expect_close(gls_row(v, cells.x, c).se, layout.gls, 2e-6);
    }
}

TEST(PlannedField, GeneralisedLeastSquaresLeansOnContaminatedEdges) {
    const Cells cells = planned_field([](int pass) { return pass >= 12 ? 1.0 : 0.0; });
    const MatrixXd v = covariance(cells, exponential_nugget, {0.06, 60.0, 0.03, 0.0, 1.0});
    const VectorXd c = Eigen::Vector2d(-1.0, 1.0);
    const VectorXd ols = least_squares_row(cells.x, cells.weight, c);
    const VectorXd gls = gls_row(v, cells.x, c).row;
    const auto recovered = [&](const VectorXd& row, double share) {
        VectorXd y = cells.x.col(1);
        for (Index i = 0; i < 384; ++i) {
            const int pass = cells.pass[static_cast<std::size_t>(i)];
            if (pass == 11) y(i) = share;
            if (pass == 12) y(i) = 1.0 - share;
        }
        return row.dot(y);
    };
    EXPECT_NEAR(recovered(gls, 0.1), 0.891769, 2e-6);
    EXPECT_NEAR(recovered(gls, 0.3), 0.675306, 2e-6);
    EXPECT_NEAR(recovered(ols, 0.1), 0.983333, 2e-6);
    EXPECT_NEAR(recovered(ols, 0.3), 0.95, 1e-9);
}

TEST(Matern, AgreesWithClosedAndTabulatedForms) {
    EXPECT_NEAR(matern(1.0, 1.0, 1.0), 0.6019072302, 1e-10);
    EXPECT_NEAR(matern(0.25, 2.0, 1.5), 0.1350864179, 1e-10);
    EXPECT_NEAR(matern(1.5, 1.0, 1.0), 0.7357588823, 1e-10);
    EXPECT_NEAR(matern(2.5, 1.0, 1.0), 0.8583853627, 1e-10);
    EXPECT_NEAR(matern(0.5, 0.7, 1.0), correlation_at(Correlation::exponential, 0.7, 1.0), 1e-12);
}

// The derivatives the small-sample errors rest on, against central differences.
TEST(CovarianceMoves, AreTheDerivatives) {
    Cells cells = mercer_cells();
    const Index n = 60;
    cells.along_m = cells.along_m.head(n).eval();
    cells.across_m = cells.across_m.head(n).eval();
    cells.yield_t_ha = cells.yield_t_ha.head(n).eval();
    cells.weight = VectorXd::LinSpaced(n, 0.5, 1.5);
    cells.pass.resize(static_cast<std::size_t>(n));
    for (const Correlation correlation : {Correlation::exponential, Correlation::spherical}) {
        const SpatialForm form{correlation, true, true, true};
        const SpatialParameters at{0.1, 13.7, 0.05, 0.04, 1.7};
        const CovarianceMoves moves = covariance_moves(cells, form, at);
        ASSERT_EQ(moves.first.size(), 5U);
        const auto slope = [&](double SpatialParameters::*field) {
            SpatialParameters up = at;
            SpatialParameters down = at;
            const double step = 1e-5 * at.*field;
            up.*field += step;
            down.*field -= step;
            return MatrixXd((covariance(cells, form, up) - covariance(cells, form, down)) / (2.0 * step));
        };
        const MatrixXd identity = MatrixXd::Identity(n, n);
        EXPECT_LT((moves.first[0].times(identity) - slope(&SpatialParameters::sill)).cwiseAbs().maxCoeff(), 1e-7);
        EXPECT_LT((moves.first[1].times(identity) - slope(&SpatialParameters::range_m)).cwiseAbs().maxCoeff(), 1e-7);
        EXPECT_LT((moves.first[2].times(identity) - slope(&SpatialParameters::across_ratio)).cwiseAbs().maxCoeff(),
                  1e-7);
        EXPECT_LT((moves.first[3].times(identity) - slope(&SpatialParameters::nugget)).cwiseAbs().maxCoeff(), 1e-7);
        EXPECT_LT((moves.first[4].times(identity) - slope(&SpatialParameters::pass)).cwiseAbs().maxCoeff(), 1e-7);
    }
}

} // namespace
} // namespace quartercut::contrast
