// SPDX-License-Identifier: MIT
// Boundary contrast of a split field.
#include "compare/boundary.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace quartercut::contrast {
namespace {

constexpr std::size_t fewest_points = 4;
constexpr double step_m = 50.0;
constexpr double reach_in_passes = 2.0;

/// Cells of one step along the passes, by side.
struct Step {
    std::vector<std::pair<double, double>> method, baseline; // across, yield
};

double nearest_mean(const std::vector<std::pair<double, double>>& side, double edge, double reach) {
    double sum = 0.0;
    double count = 0.0;
    for (const auto& [across, yield] : side) {
        if (std::abs(across - edge) >= reach) continue;
        sum += yield;
        count += 1.0;
    }
    return sum / count;
}

/// Difference of one step, or nothing when the methods are not on two sides of one line or are far apart.
std::optional<double> difference_of(const Step& step, double width) {
    if (step.method.empty() || step.baseline.empty()) return std::nullopt;
    const auto [m_low, m_high] = std::minmax_element(step.method.begin(), step.method.end());
    const auto [b_low, b_high] = std::minmax_element(step.baseline.begin(), step.baseline.end());
    const bool method_above = m_low->first > b_high->first;
    if (!method_above && !(b_low->first > m_high->first)) return std::nullopt;
    const double method_edge = method_above ? m_low->first : m_high->first;
    const double baseline_edge = method_above ? b_high->first : b_low->first;
    if (std::abs(method_edge - baseline_edge) > 6.0 * width) return std::nullopt;
    const double reach = (reach_in_passes - 0.5) * width;
    return nearest_mean(step.method, method_edge, reach) - nearest_mean(step.baseline, baseline_edge, reach);
}

} // namespace

std::optional<BoundaryContrast> boundary_contrast(std::span<const double> differences, double pass_variance,
                                                  double passes_per_side) {
    if (differences.size() < fewest_points) return std::nullopt;
    const auto s = static_cast<double>(differences.size());
    const double mean = std::accumulate(differences.begin(), differences.end(), 0.0) / s;
    double square = 0.0;
    double lagged = 0.0;
    for (std::size_t i = 0; i < differences.size(); ++i) {
        square += (differences[i] - mean) * (differences[i] - mean);
        if (i > 0) lagged += (differences[i] - mean) * (differences[i - 1] - mean);
    }
    if (!(square > 0.0)) return std::nullopt;
    BoundaryContrast out;
    out.serial = std::clamp(lagged / square + 1.0 / s, 0.0, 0.95);
    const double independent = s * (1.0 - out.serial) / (1.0 + out.serial);
    const double variance = square / (s - 1.0);
    out.iid_se = std::sqrt(variance / s);
    const double se = std::sqrt(variance / independent + 2.0 * pass_variance / passes_per_side);
    out.test = {mean, se, std::max(1.0, independent - 1.0)};
    return out;
}

std::vector<double> boundary_differences(const CellSet& set, int method, int baseline) {
    std::map<long, Step> steps;
    for (Eigen::Index i = 0; i < set.cells.size(); ++i) {
        const int of = set.method[static_cast<std::size_t>(i)];
        if (of != method && of != baseline) continue;
        Step& step = steps[std::lround(std::floor(set.cells.along_m(i) / std::max(step_m, set.length_m)))];
        (of == method ? step.method : step.baseline).emplace_back(set.cells.across_m(i), set.cells.yield_t_ha(i));
    }
    std::vector<double> differences;
    for (const auto& [place, step] : steps)
        if (const auto d = difference_of(step, set.width_m)) differences.push_back(*d);
    return differences;
}

} // namespace quartercut::contrast
