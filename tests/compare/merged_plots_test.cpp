// SPDX-License-Identifier: MIT
// Mercer & Hall's plots, merged and in sequence: how fast means of more plots become steadier, and the likelihood written
// as plots one after the other.
#include "compare/cells.hpp"
#include "compare/gls.hpp"
#include "mercer_hall.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The plots as segments: rows of plots are the passes, so that plots of a row are merged.
ZonedField mercer_segments() {
    const auto wheat = testing::mercer_hall();
    ZonedField zoned;
    zoned.zones.emplace_back();
    zoned.zones[0].method = 0;
    std::map<double, int> rows;
    for (std::size_t i = 0; i < wheat.yield.size(); ++i) {
        Segment segment;
        segment.pass = rows.emplace(wheat.y_m[i], static_cast<int>(rows.size())).first->second;
        segment.zone = 0;
        segment.x_m = wheat.x_m[i];
        segment.y_m = wheat.y_m[i];
        segment.length_m = 2.51;
        segment.area_m2 = 2.51 * 3.30;
        segment.mass_basis_kg = wheat.yield[i] * segment.area_m2 / 10.0;
        zoned.segments.push_back(segment);
    }
    return zoned;
}

double variance_of(const VectorXd& values) {
    return (values.array() - values.mean()).square().sum() / static_cast<double>(values.size() - 1);
}

/// Means of `rows` rows of merged plots.
VectorXd means_over_rows(const CellSet& merged, int rows) {
    std::map<std::pair<int, long>, double> sums;
    const Cells& cells = merged.cells;
    for (Index i = 0; i < cells.size(); ++i)
        sums[{cells.pass[static_cast<std::size_t>(i)] / rows, std::lround(100.0 * cells.along_m(i))}] +=
            cells.yield_t_ha(i) / rows;
    VectorXd means(static_cast<Index>(sums.size()));
    Index next = 0;
    for (const auto& [place, mean] : sums)
        means(next++) = mean;
    return means;
}

/// Plots merged as the comparison merges segments: `along` of a row.
CellSet merged_plots(const ZonedField& zoned, int along) {
    std::vector<int> all(500);
    std::iota(all.begin(), all.end(), 0);
    return make_cells({zoned, all, 0.0}, static_cast<std::size_t>(500 / along));
}

// tapply and var, R 4.2.2. The comparison merges within passes only; the larger ones are means of its merged cells.
TEST(MercerHall, MergedPlotsVaryLessTheMoreThereAre) {
    const ZonedField zoned = mercer_segments();
    const CellSet single = merged_plots(zoned, 1);
    const CellSet merged = merged_plots(zoned, 5);
    ASSERT_EQ(merged.merged, 5);
    ASSERT_EQ(merged.cells.size(), 100);
    EXPECT_NEAR(variance_of(single.cells.yield_t_ha), 0.21002019, 1e-8);
    EXPECT_NEAR(variance_of(merged.cells.yield_t_ha), 0.07689930, 1e-8);
    EXPECT_NEAR(variance_of(means_over_rows(merged, 5)), 0.04845582, 1e-8);
    EXPECT_NEAR(variance_of(means_over_rows(merged, 10)), 0.04225119, 1e-8);
}

// Smith (1938): the variance falls with size to the power -b. lm of log variance on log size over 1 and 5 plots of a row
// times 1, 2, 4, 5 and 10 rows, R 4.2.2; weighted: by the number of means less one.
TEST(MercerHall, MergedPlotsFollowSmithsLaw) {
    const ZonedField zoned = mercer_segments();
    MatrixXd x(10, 2);
    VectorXd log_variance(10), weight(10);
    Index next = 0;
    for (const int along : {1, 5})
        for (const int rows : {1, 2, 4, 5, 10}) {
            const VectorXd means = means_over_rows(merged_plots(zoned, along), rows);
            x.row(next) << 1.0, std::log(along * rows);
            log_variance(next) = std::log(variance_of(means));
            weight(next++) = static_cast<double>(means.size() - 1);
        }
    const VectorXd slope = VectorXd::Unit(2, 1);
    EXPECT_NEAR(-least_squares_row(x, VectorXd::Ones(10), slope).dot(log_variance), 0.4349266982, 1e-9);
    EXPECT_NEAR(-least_squares_row(x, weight, slope).dot(log_variance), 0.4498077852, 1e-9);
}

/// The plots, each as far as can be from those before it.
std::vector<Index> far_apart_first(const Cells& cells) {
    const auto n = static_cast<std::size_t>(cells.size());
    std::vector<double> nearest(n, std::numeric_limits<double>::infinity());
    std::vector<Index> order;
    Index next = 0;
    while (order.size() < n) {
        order.push_back(next);
        for (std::size_t i = 0; i < n; ++i) {
            const auto at = static_cast<Index>(i);
            nearest[i] = std::min(nearest[i], std::hypot(cells.along_m(at) - cells.along_m(next),
                                                         cells.across_m(at) - cells.across_m(next)));
        }
        next = std::max_element(nearest.begin(), nearest.end()) - nearest.begin();
    }
    return order;
}

/// Vecchia (1988): each plot given the `most` nearest of those before it.
double loglik_in_sequence(const Cells& cells, const MatrixXd& v, const VectorXd& residual, std::size_t most) {
    const std::vector<Index> order = far_apart_first(cells);
    double sum = 0.0;
    for (std::size_t k = 0; k < order.size(); ++k) {
        const Index i = order[k];
        std::vector<Index> given(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(k));
        std::sort(given.begin(), given.end(), [&](Index a, Index b) { return v(a, i) > v(b, i); });
        given.resize(std::min(most, given.size()));
        double mean = 0.0, variance = v(i, i);
        if (!given.empty()) {
            const VectorXd to_given = v(given, given).eval().llt().solve(VectorXd(v(given, i)));
            mean = to_given.dot(residual(given));
            variance -= to_given.dot(v(given, i));
        }
        const double off = residual(i) - mean;
        sum -= 0.5 * (std::log(2.0 * M_PI * variance) + off * off / variance);
    }
    return sum;
}

// Given all plots before it is the likelihood itself (direct algebra, R 4.2.2); given 30 it is near, as published for
// this order by Guinness (2018).
TEST(MercerHall, LikelihoodIsThatOfPlotsInSequence) {
    const auto wheat = testing::mercer_hall();
    Cells cells;
    cells.along_m = Eigen::Map<const VectorXd>(wheat.y_m.data(), 500);
    cells.across_m = Eigen::Map<const VectorXd>(wheat.x_m.data(), 500);
    cells.yield_t_ha = Eigen::Map<const VectorXd>(wheat.yield.data(), 500);
    cells.weight = VectorXd::Ones(500);
    cells.pass.assign(500, 0);
    cells.x = MatrixXd::Ones(500, 1);
    const MatrixXd v = covariance(cells, {Correlation::exponential, false, true, false}, {0.15, 10.0, 0.06, 0.0, 1.0});
    const auto fit = fit_gls(v, cells.x, cells.yield_t_ha);
    ASSERT_TRUE(fit.has_value());
    const double exact = -0.5 * (500.0 * std::log(2.0 * M_PI) + fit->log_det_v + fit->quadratic);
    const double in_sequence = loglik_in_sequence(cells, v, fit->residual, 499);
    EXPECT_NEAR(in_sequence, exact, 1e-7);
    EXPECT_NEAR(in_sequence, -281.3765473852, 1e-6);
    EXPECT_NEAR(loglik_in_sequence(cells, v, fit->residual, 30), exact, 1.0);
    EXPECT_GT(std::abs(loglik_in_sequence(cells, v, fit->residual, 1) - exact), 1.0) << "the check can fail";
}

} // namespace
} // namespace quartercut::contrast
