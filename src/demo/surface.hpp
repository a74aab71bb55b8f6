// SPDX-License-Identifier: MIT
// A smooth random surface with a known scale: the fertility of invented land.
#pragma once

#include "base/random.hpp"

#include <vector>

namespace quartercut::demo {

/// Sum of cosines with normally drawn wave numbers: its covariance over distance r is sd^2 exp(-r^2 / (2 scale^2)) on
/// average over draws (spectral representation, Shinozuka and Jan 1972, J. Sound Vib. 25, 111-128).
class Surface {
public:
    Surface(Random& random, double scale_m, double sd);
    [[nodiscard]] double at(double x_m, double y_m) const;

private:
    struct Wave {
        double kx, ky, phase;
    };
    std::vector<Wave> waves_;
    double height_;
};

} // namespace quartercut::demo
