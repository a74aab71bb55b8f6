// SPDX-License-Identifier: MIT
// A simulation of trials that shares no code with the planner; used by the test and by the study.
#pragma once

#include "base/random.hpp"
#include "plan/chances.hpp"
#include "quartercut/plan_layout.hpp"

#include <cmath>
#include <vector>

namespace quartercut::independent {

// The claim of a proposed layout, checked by a simulation that shares no code with the planner: a Gaussian surface made
// of random waves (its covariance is exponential in the limit of many waves), strips averaged point by point, Student's
// paired test from the textbook.
struct Wave {
    double ku, kv, phase;
};

inline std::vector<Wave> waves(Random& random, double range_m) {
    std::vector<Wave> out;
    for (int i = 0; i < 150; ++i) {
        // Spectrum of exp(-h / r) in the plane: |k| = sqrt(1 / q^2 - 1) / r for uniform q.
        const double q = 1.0 - random.uniform(), k = std::sqrt(1.0 / (q * q) - 1.0) / range_m;
        const double direction = 2.0 * M_PI * random.uniform();
        out.push_back({k * std::cos(direction), k * std::sin(direction), 2.0 * M_PI * random.uniform()});
    }
    return out;
}

inline double strip_mean(const std::vector<Wave>& surface, const TrialStrip& strip, const LandModel& model,
                         Random& random) {
    double sum = 0.0;
    int n = 0;
    for (const Polygon& part : strip.shape_m) {
        const Box box = bounding_box({part});
        for (double y = box.min_y + 25.0; y < box.max_y; y += 50.0)
            for (int pass = 0; pass < strip.passes; ++pass) {
                const double x = box.min_x + (box.max_x - box.min_x) * (pass + 0.5) / strip.passes;
                for (const Wave& wave : surface)
                    sum += std::cos(wave.ku * x + wave.kv * y + wave.phase);
                ++n;
            }
    }
    const double smooth = std::sqrt(2.0 * model.sill / static_cast<double>(surface.size())) * sum / n;
    const double nugget = model.nugget * model.cell_m2 / (strip.length_m * strip.width_m);
    return smooth + std::sqrt(nugget + model.pass / strip.passes) * random.normal();
}

struct Claim {
    double found_without = 0.0, found_with = 0.0;
};

inline Claim simulate(const TrialLayout& layout, const LandModel& model, double difference, int trials) {
    Random random(77);
    const double t = planning::t95(static_cast<double>(layout.strips.size()) / 2.0 - 1.0);
    Claim claim;
    for (int trial = 0; trial < trials; ++trial) {
        const std::vector<Wave> surface = waves(random, model.range_m);
        std::vector<double> d;
        for (std::size_t i = 0; i < layout.strips.size(); i += 2) {
            const double first = strip_mean(surface, layout.strips[i], model, random);
            const double second = strip_mean(surface, layout.strips[i + 1], model, random);
            d.push_back(random.below(2) == 0 ? first - second : second - first);
        }
        double mean = 0.0, squares = 0.0;
        for (const double value : d)
            mean += value / static_cast<double>(d.size());
        for (const double value : d)
            squares += (value - mean) * (value - mean);
        const auto n = static_cast<double>(d.size());
        const double se = std::sqrt(squares / (n - 1.0) / n);
        claim.found_without += std::abs(mean) > t * se ? 1.0 / trials : 0.0;
        claim.found_with += std::abs(mean + difference) > t * se ? 1.0 / trials : 0.0;
    }
    return claim;
}

} // namespace quartercut::independent
