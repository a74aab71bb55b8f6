// SPDX-License-Identifier: MIT
// Block kriging with small systems: 12 neighbours, a cell stood for by four points.
#include "write/surface.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quartercut::write {

namespace {

constexpr std::size_t neighbours = 12;
constexpr double bin_m = 40.0;
constexpr double farthest_m = 60.0;
constexpr int most_rings = 4;

using Vector = std::array<double, neighbours>;
using Matrix = std::array<Vector, neighbours>;

/// Cholesky factor in the lower triangle, in place. \returns false when not positive definite
bool factor(Matrix& k, std::size_t n) {
    for (std::size_t j = 0; j < n; ++j) {
        for (std::size_t i = j; i < n; ++i) {
            double sum = k[i][j];
            for (std::size_t m = 0; m < j; ++m)
                sum -= k[i][m] * k[j][m];
            if (i == j && !(sum > 0.0)) return false;
            k[i][j] = i == j ? std::sqrt(sum) : sum / k[j][j];
        }
    }
    return true;
}

void solve(const Matrix& lower, Vector& v, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t m = 0; m < i; ++m)
            v[i] -= lower[i][m] * v[m];
        v[i] /= lower[i][i];
    }
    for (std::size_t i = n; i-- > 0;) {
        for (std::size_t m = i + 1; m < n; ++m)
            v[i] -= lower[m][i] * v[m];
        v[i] /= lower[i][i];
    }
}

std::array<Point, 4> cell_points(Point p, double cell_m) {
    const double q = 0.25 * cell_m;
    return {Point{p.x - q, p.y - q}, Point{p.x + q, p.y - q}, Point{p.x - q, p.y + q}, Point{p.x + q, p.y + q}};
}

double covariance_at(const Covariance& c, double distance_m) { return c.sill * std::exp(-distance_m / c.range_m); }

} // namespace

Surface::Surface(const ZonedField& field, const Covariance& covariance, double cell_m)
    : cell_m_(cell_m), covariance_(covariance), zones_(field.zones.size()) {
    for (std::size_t z = 0; z < field.zones.size(); ++z) {
        Bins& bins = zones_[z];
        bins.box = bounding_box(field.zones[z].shape_m);
        bins.columns = static_cast<std::size_t>(std::max(0.0, bins.box.max_x - bins.box.min_x) / bin_m) + 1;
        bins.rows = static_cast<std::size_t>(std::max(0.0, bins.box.max_y - bins.box.min_y) / bin_m) + 1;
        bins.bins.resize(bins.columns * bins.rows);
    }
    for (const Segment& s : field.segments) {
        if (s.zone < 0 || !std::isfinite(s.yield_t_ha())) continue;
        Bins& bins = zones_[static_cast<std::size_t>(s.zone)];
        const double column = std::clamp((s.x_m - bins.box.min_x) / bin_m, 0.0, static_cast<double>(bins.columns - 1));
        const double row = std::clamp((s.y_m - bins.box.min_y) / bin_m, 0.0, static_cast<double>(bins.rows - 1));
        bins.bins[static_cast<std::size_t>(row) * bins.columns + static_cast<std::size_t>(column)].push_back(
            {s.x_m, s.y_m, s.yield_t_ha()});
    }
    if (!covariance_.fitted) return;
    const auto points = cell_points({0.0, 0.0}, cell_m_);
    for (const Point& a : points) {
        for (const Point& b : points) {
            block_variance_ += covariance_at(covariance_, std::hypot(a.x - b.x, a.y - b.y)) / 16.0;
        }
    }
}

std::vector<Surface::Near> Surface::nearest(const Bins& bins, Point p) const {
    std::vector<Near> found;
    const auto column = static_cast<int>(std::floor((p.x - bins.box.min_x) / bin_m));
    const auto row = static_cast<int>(std::floor((p.y - bins.box.min_y) / bin_m));
    const auto by_distance = [](const Near& a, const Near& b) {
        if (a.distance2_m2 != b.distance2_m2) return a.distance2_m2 < b.distance2_m2;
        return a.sample.x_m != b.sample.x_m ? a.sample.x_m < b.sample.x_m : a.sample.y_m < b.sample.y_m;
    };
    for (int ring = 0; ring <= most_rings; ++ring) {
        for (int r = row - ring; r <= row + ring; ++r) {
            for (int c = column - ring; c <= column + ring; ++c) {
                if (std::max(std::abs(r - row), std::abs(c - column)) != ring) continue;
                if (r < 0 || c < 0 || r >= static_cast<int>(bins.rows) || c >= static_cast<int>(bins.columns)) continue;
                for (const Sample& s :
                     bins.bins[static_cast<std::size_t>(r) * bins.columns + static_cast<std::size_t>(c)]) {
                    const double dx = s.x_m - p.x, dy = s.y_m - p.y;
                    found.push_back({dx * dx + dy * dy, s});
                }
            }
        }
        if (found.size() < neighbours) continue;
        std::sort(found.begin(), found.end(), by_distance);
        const double seen_m = bin_m * ring; // nothing nearer than this can be missing
        if (found[neighbours - 1].distance2_m2 <= seen_m * seen_m) break;
    }
    std::sort(found.begin(), found.end(), by_distance);
    if (found.size() > neighbours) found.resize(neighbours);
    return found;
}

SurfaceValue Surface::krige(const std::vector<Near>& near, Point p) const {
    const std::size_t n = near.size();
    Matrix k{};
    Vector ones{}, weights{}, to_cell{};
    const auto points = cell_points(p, cell_m_);
    for (std::size_t i = 0; i < n; ++i) {
        const Sample& a = near[i].sample;
        for (std::size_t j = 0; j <= i; ++j) {
            const Sample& b = near[j].sample;
            k[i][j] = covariance_at(covariance_, std::hypot(a.x_m - b.x_m, a.y_m - b.y_m));
        }
        k[i][i] += covariance_.nugget + 1e-9 * covariance_.sill; // a trace keeps two segments on one spot solvable
        for (const Point& q : points)
            to_cell[i] += 0.25 * covariance_at(covariance_, std::hypot(a.x_m - q.x, a.y_m - q.y));
        ones[i] = 1.0;
    }
    if (!factor(k, n)) return {};
    weights = to_cell;
    solve(k, weights, n);
    solve(k, ones, n);
    double sum_weights = 0.0, sum_ones = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        sum_weights += weights[i];
        sum_ones += ones[i];
    }
    const double lagrange = (sum_weights - 1.0) / sum_ones;
    SurfaceValue out{0.0, 0.0};
    double variance = block_variance_ - lagrange;
    for (std::size_t i = 0; i < n; ++i) {
        const double weight = weights[i] - lagrange * ones[i];
        out.yield_t_ha += weight * near[i].sample.yield_t_ha;
        variance -= weight * to_cell[i];
    }
    out.se_t_ha = std::sqrt(std::max(0.0, variance));
    return out;
}

SurfaceValue Surface::at(int zone, Point p) const {
    if (zone < 0) return {};
    const std::vector<Near> near = nearest(zones_.at(static_cast<std::size_t>(zone)), p);
    if (near.empty() || near.front().distance2_m2 > farthest_m * farthest_m) return {};
    if (covariance_.fitted) {
        const SurfaceValue kriged = krige(near, p);
        if (std::isfinite(kriged.yield_t_ha)) return kriged;
    }
    double sum = 0.0, weights = 0.0;
    for (const Near& n : near) {
        const double weight = 1.0 / (n.distance2_m2 + 1.0);
        sum += weight * n.sample.yield_t_ha;
        weights += weight;
    }
    return {sum / weights, std::numeric_limits<double>::quiet_NaN()};
}

} // namespace quartercut::write
