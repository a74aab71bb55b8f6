// SPDX-License-Identifier: MIT
// Land whose yields are drawn, for measuring how often the comparison is wrong: five kinds of field on a grid of passes
// and segments. The draws are seeded and the same everywhere.
#pragma once

#include "base/random.hpp"
#include "compare/spatial_model.hpp"

#include <cmath>
#include <string>
#include <vector>

namespace quartercut::testing {

/// Standard normal draws and coins from one seeded stream.
class Normal {
public:
    explicit Normal(std::uint64_t seed) : random_(seed) {}
    double uniform() { return random_.uniform(); }
    double operator()() { return random_.normal(); }
    bool coin() { return (random_.bits() & 1U) != 0; }

private:
    Random random_;
};

/// What a kind of field is made of; standard deviations in t/ha around a mean of 2.4.
struct LandKind {
    std::string name;
    double near_sd = 0.245, near_range_m = 60.0; ///< short-range soil
    double far_sd = 0.0, far_range_m = 300.0;    ///< long-range soil
    double nugget_sd = 0.173;
    double pass_sd = 0.0;
    double trend = 0.0;   ///< t/ha over the field's width, plus three quarters of it squared
    bool patches = false; ///< saline patches and drowned spots: far from normal
};

inline std::vector<LandKind> land_kinds() {
    return {{"smooth", 0.0, 60.0, 0.30, 300.0, 0.10, 0.0, 0.0, false},
            {"rough", 0.245, 60.0, 0.0, 300.0, 0.173, 0.0, 0.0, false},
            {"trended", 0.245, 60.0, 0.0, 300.0, 0.173, 0.0, 0.4, false},
            {"pass effects", 0.245, 60.0, 0.0, 300.0, 0.173, 0.06, 0.0, false},
            {"patches and drowned spots", 0.20, 60.0, 0.0, 300.0, 0.15, 0.03, 0.0, true}};
}

struct Grid {
    int passes = 24, segments = 16;
    double pass_width_m = 12.0, segment_m = 50.0;
    [[nodiscard]] Eigen::Index size() const { return static_cast<Eigen::Index>(passes) * segments; }
};

/// Draws fields of one kind; the factor of the soil's covariance is made once.
class Land {
public:
    Land(const LandKind& kind, const Grid& grid) : kind_(kind), grid_(grid) {
        Eigen::MatrixXd v = Eigen::MatrixXd::Identity(grid.size(), grid.size()) * 1e-9;
        for (Eigen::Index i = 0; i < grid.size(); ++i)
            for (Eigen::Index j = 0; j < grid.size(); ++j)
                v(i, j) += soil_covariance(distance(i, j));
        factor_ = v.llt().matrixL();
    }

    /// Yield per pass x segment, pass by pass.
    [[nodiscard]] Eigen::VectorXd draw(Normal& normal) const {
        Eigen::VectorXd white(grid_.size());
        for (double& w : white)
            w = normal();
        Eigen::VectorXd yield = (factor_ * white).array() + 2.4;
        for (int pass = 0; pass < grid_.passes; ++pass) {
            const double effect = kind_.pass_sd * normal();
            const double across = static_cast<double>(pass) / grid_.passes;
            const double trend = kind_.trend * (across + 0.75 * across * across);
            for (int s = 0; s < grid_.segments; ++s)
                yield(index(pass, s)) += effect + trend + kind_.nugget_sd * normal();
        }
        if (kind_.patches) drown(yield, normal);
        return yield.cwiseMax(0.05);
    }

    [[nodiscard]] Eigen::Index index(int pass, int segment) const {
        return static_cast<Eigen::Index>(pass) * grid_.segments + segment;
    }

private:
    [[nodiscard]] double soil_covariance(double d) const {
        return kind_.near_sd * kind_.near_sd * std::exp(-d / kind_.near_range_m) +
               kind_.far_sd * kind_.far_sd * std::exp(-d / kind_.far_range_m);
    }
    [[nodiscard]] double distance(Eigen::Index i, Eigen::Index j) const {
        const double across = static_cast<double>(i / grid_.segments - j / grid_.segments) * grid_.pass_width_m;
        const double along = static_cast<double>(i % grid_.segments - j % grid_.segments) * grid_.segment_m;
        return std::hypot(across, along);
    }
    /// Four round spots of 30 to 60 m radius where two thirds of the crop are gone.
    void drown(Eigen::VectorXd& yield, Normal& normal) const {
        for (int spot = 0; spot < 4; ++spot) {
            const double x = normal.uniform() * grid_.passes * grid_.pass_width_m;
            const double y = normal.uniform() * grid_.segments * grid_.segment_m;
            const double radius = 30.0 + 30.0 * normal.uniform();
            for (int pass = 0; pass < grid_.passes; ++pass)
                for (int s = 0; s < grid_.segments; ++s) {
                    const double d = std::hypot((pass + 0.5) * grid_.pass_width_m - x, (s + 0.5) * grid_.segment_m - y);
                    if (d < radius) yield(index(pass, s)) *= 1.0 / 3.0;
                }
        }
    }

    LandKind kind_;
    Grid grid_;
    Eigen::MatrixXd factor_;
};

} // namespace quartercut::testing
