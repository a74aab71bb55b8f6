// SPDX-License-Identifier: MIT
// A smooth random surface. See surface.hpp.
#include "demo/surface.hpp"

#include <cmath>
#include <numbers>

namespace quartercut::demo {

namespace {

constexpr std::size_t wave_count = 64;

}

Surface::Surface(Random& random, double scale_m, double sd)
    : height_(sd * std::sqrt(2.0 / static_cast<double>(wave_count))) {
    waves_.reserve(wave_count);
    for (std::size_t i = 0; i < wave_count; ++i) {
        const double kx = random.normal() / scale_m;
        const double ky = random.normal() / scale_m;
        waves_.push_back({kx, ky, random.uniform(0.0, 2.0 * std::numbers::pi)});
    }
}

double Surface::at(double x_m, double y_m) const {
    double sum = 0.0;
    for (const Wave& wave : waves_)
        sum += std::cos(wave.kx * x_m + wave.ky * y_m + wave.phase);
    return height_ * sum;
}

} // namespace quartercut::demo
