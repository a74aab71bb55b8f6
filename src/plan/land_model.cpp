// SPDX-License-Identifier: MIT
// The farm's variogram from its segments: within passes it holds no pass effect, between passes it does.
//
// gamma(h) = nugget + sill (1 - exp(-h / range)), plus the pass variance between passes. Binned (Matheron), the range
// searched, the three variances by least squares that never go below zero, bins weighted by their pairs.
#include "plan/land_model.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quartercut {
namespace planning {
namespace {

constexpr double bin_m = 20.0, farthest_m = 400.0;
constexpr std::size_t bins = 20;
constexpr std::size_t fewest_pairs = 500;

struct Bin {
    double squares = 0.0, distance = 0.0, n = 0.0;
};

/// [0]: same pass, [1]: different passes.
using Bins = std::array<std::array<Bin, bins>, 2>;

void add_field(Bins& into, const std::vector<Segment>& segments, const std::vector<double>& yields) {
    // Enough pairs to see the variogram; a stride keeps large fields quick.
    const std::size_t stride = std::max<std::size_t>(1, segments.size() / 900);
    for (std::size_t i = 0; i < segments.size(); i += stride)
        for (std::size_t j = i + 1; j < segments.size(); ++j) {
            const double h = std::hypot(segments[i].x_m - segments[j].x_m, segments[i].y_m - segments[j].y_m);
            if (h <= 0.0 || h >= farthest_m) continue;
            Bin& bin = into[segments[i].pass == segments[j].pass ? 0 : 1][static_cast<std::size_t>(h / bin_m)];
            bin.squares += 0.5 * (yields[i] - yields[j]) * (yields[i] - yields[j]);
            bin.distance += h;
            bin.n += 1.0;
        }
}

struct Row {
    std::array<double, 3> x; ///< nugget, sill, pass
    double y = 0.0, weight = 0.0;
};

/// Solves the normal equations of the wanted columns by Gauss elimination; false when they do not stand alone.
bool solve(const std::vector<Row>& rows, const std::array<bool, 3>& used, std::array<double, 3>& out) {
    std::array<std::array<double, 4>, 3> m{};
    for (const Row& row : rows)
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t j = 0; j < 3; ++j)
                m[i][j] += row.weight * row.x[i] * row.x[j];
            m[i][3] += row.weight * row.x[i] * row.y;
        }
    for (std::size_t i = 0; i < 3; ++i)
        if (!used[i])
            for (std::size_t j = 0; j < 4; ++j)
                m[i][j] = i == j ? 1.0 : 0.0;
    for (std::size_t i = 0; i < 3; ++i) {
        if (!(std::abs(m[i][i]) > 1e-12)) return false;
        for (std::size_t k = 0; k < 3; ++k) {
            if (k == i) continue;
            const double factor = m[k][i] / m[i][i];
            for (std::size_t j = i; j < 4; ++j)
                m[k][j] -= factor * m[i][j];
        }
    }
    for (std::size_t i = 0; i < 3; ++i)
        out[i] = m[i][3] / m[i][i];
    return true;
}

double misfit(const std::vector<Row>& rows, const std::array<double, 3>& at) {
    double sum = 0.0;
    for (const Row& row : rows)
        sum += row.weight * std::pow(row.y - row.x[0] * at[0] - row.x[1] * at[1] - row.x[2] * at[2], 2.0);
    return sum;
}

/// Best of all subsets of columns whose solution is nowhere negative: exact for three columns.
std::pair<double, std::array<double, 3>> least_squares(const std::vector<Row>& rows) {
    std::pair<double, std::array<double, 3>> best{misfit(rows, {0.0, 0.0, 0.0}), {0.0, 0.0, 0.0}};
    for (unsigned subset = 1; subset < 8; ++subset) {
        const std::array<bool, 3> used{(subset & 1U) != 0, (subset & 2U) != 0, (subset & 4U) != 0};
        std::array<double, 3> at{};
        if (!solve(rows, used, at) || *std::min_element(at.begin(), at.end()) < 0.0) continue;
        const double here = misfit(rows, at);
        if (here < best.first) best = {here, at};
    }
    return best;
}

std::vector<Row> rows_for(const Bins& bins_of, double range_m) {
    std::vector<Row> rows;
    for (std::size_t kind = 0; kind < 2; ++kind)
        for (const Bin& bin : bins_of[kind]) {
            if (bin.n < 30.0) continue;
            const double h = bin.distance / bin.n, gamma = bin.squares / bin.n;
            // Cressie 1985: pairs over gamma squared; near distances count for what they are.
            rows.push_back({{1.0, 1.0 - std::exp(-h / range_m), kind == 1 ? 1.0 : 0.0},
                            gamma,
                            bin.n / std::max(1e-9, gamma * gamma)});
        }
    return rows;
}

LandModel fitted(const Bins& bins_of) {
    LandModel model;
    double least = -1.0;
    for (double range_m = 15.0; range_m < 600.0; range_m *= 1.1) {
        const auto [here, at] = least_squares(rows_for(bins_of, range_m));
        if (least >= 0.0 && here >= least) continue;
        least = here;
        model.nugget = at[0];
        model.sill = at[1];
        model.pass = at[2];
        model.range_m = range_m;
    }
    return model;
}

} // namespace

double method_shift_t_ha(const FieldComparison& field, const Season& season, int method) {
    for (const Contrast& c : field.contrasts) {
        const bool replicated = c.evidence == Evidence::replicated || c.evidence == Evidence::replicated_randomised;
        if (!c.stratum && replicated && c.gain_t_ha && c.baseline == season.baseline &&
            season.method_code(c.method) == method)
            return *c.gain_t_ha;
    }
    return 0.0;
}

} // namespace planning

std::optional<LandModel> fit_land(const std::vector<ZonedField>& zoned, const Comparison& comparison,
                                  const Season& season) {
    using namespace planning;
    Bins all{};
    double area_m2 = 0.0, segments = 0.0;
    for (std::size_t f = 0; f < zoned.size(); ++f) {
        std::vector<Segment> kept;
        std::vector<double> yields;
        for (const Segment& segment : zoned[f].segments) {
            if (segment.edge || segment.zone < 0 || !(segment.area_m2 > 0.0)) continue;
            const int method = zoned[f].zones[static_cast<std::size_t>(segment.zone)].method;
            kept.push_back(segment);
            yields.push_back(segment.yield_t_ha() - method_shift_t_ha(comparison.fields[f], season, method));
            area_m2 += segment.area_m2;
            segments += 1.0;
        }
        add_field(all, kept, yields);
    }
    double pairs = 0.0;
    for (const auto& kind : all)
        for (const Bin& bin : kind)
            pairs += bin.n;
    if (pairs < static_cast<double>(fewest_pairs)) return std::nullopt;
    LandModel model = fitted(all);
    model.cell_m2 = area_m2 / segments;
    model.pairs = static_cast<std::size_t>(pairs);
    return model;
}

} // namespace quartercut
