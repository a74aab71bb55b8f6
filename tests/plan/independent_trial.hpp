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

// ---- designs judged on the field's own earlier maps -----------------------------------------------------------------

inline double smooth_at(const std::vector<Wave>& surface, double sill, double x, double y) {
    double sum = 0.0;
    for (const Wave& wave : surface)
        sum += std::cos(wave.ku * x + wave.kv * y + wave.phase);
    return std::sqrt(2.0 * sill / static_cast<double>(surface.size())) * sum;
}

/// What a monitor would show of this land in one year: passes of 12 m northward in segments of 30 m, 800 m square.
inline std::vector<YieldPoint> map_of(const std::vector<Wave>& surface, const LandModel& model, Random& random) {
    std::vector<YieldPoint> map;
    const double nugget_sd = std::sqrt(model.nugget * model.cell_m2 / (12.0 * 30.0));
    for (double x = 6.0; x < 800.0; x += 12.0) {
        const double pass = std::sqrt(model.pass) * random.normal();
        for (double y = 15.0; y < 800.0; y += 30.0) {
            double mean = 0.0;
            for (const double dx : {-3.0, 3.0})
                for (const double dy : {-7.5, 7.5})
                    mean += 0.25 * smooth_at(surface, model.sill, x + dx, y + dy);
            map.push_back({x, y, 2.4 + mean + pass + nugget_sd * random.normal()});
        }
    }
    return map;
}

/// Mean of the land itself over a strip, a point every 6 m across and 15 m along.
inline double land_under(const std::vector<Wave>& surface, const TrialStrip& strip, double sill) {
    double sum = 0.0;
    int n = 0;
    for (const Polygon& part : strip.shape_m) {
        const Box box = bounding_box({part});
        for (double y = box.min_y + 7.5; y < box.max_y; y += 15.0)
            for (double x = box.min_x + 3.0; x < box.max_x; x += 6.0, ++n)
                sum += smooth_at(surface, sill, x, y);
    }
    return sum / n;
}

/// The trial cut on this very land: the strips' places fixed, coins, nuggets and passes new each time.
inline Claim cut_on(const std::vector<Wave>& surface, const TrialLayout& layout, const LandModel& model, int trials,
                    Random& random) {
    std::vector<double> land, noise;
    for (const TrialStrip& strip : layout.strips) {
        land.push_back(land_under(surface, strip, model.sill));
        noise.push_back(
            std::sqrt(model.nugget * model.cell_m2 / (strip.length_m * strip.width_m) + model.pass / strip.passes));
    }
    const auto n = static_cast<double>(land.size() / 2);
    const double t = planning::t95(n - 1.0), difference = layout.wish.difference_t_ha;
    Claim claim;
    for (int trial = 0; trial < trials; ++trial) {
        double sum = 0.0, squares = 0.0;
        for (std::size_t k = 0; k < land.size(); k += 2) {
            const double d = land[k] - land[k + 1] + std::hypot(noise[k], noise[k + 1]) * random.normal();
            const double coin = random.below(2) == 0 ? d : -d;
            sum += coin;
            squares += coin * coin;
        }
        const double mean = sum / n, se = std::sqrt((squares - n * mean * mean) / (n - 1.0) / n);
        claim.found_without += std::abs(mean) > t * se ? 1.0 / trials : 0.0;
        claim.found_with += std::abs(mean + difference) > t * se ? 1.0 / trials : 0.0;
    }
    return claim;
}

/// Mean over fields of what the planner promised and of what came.
struct OwnMaps {
    int fields = 0, refused = 0;
    Claim promised, came;
    double power_se = 0.0; ///< of the mean difference between the two powers
};

/// Fields of their own, each with `years` earlier maps of its land, laid out and cut.
inline OwnMaps play_own_maps(const LandModel& model, const TrialWish& wish, int years, int fields, int trials) {
    OwnMaps out;
    Random random(91);
    double sum = 0.0, squares = 0.0;
    for (int f = 0; f < fields; ++f) {
        TrialLand land;
        land.name = "own";
        land.boundary_m = {{{{0.0, 0.0}, {800.0, 0.0}, {800.0, 800.0}, {0.0, 800.0}}, {}}};
        const std::vector<Wave> surface = waves(random, model.range_m);
        for (int y = 0; y < years; ++y)
            land.earlier.push_back({"y" + std::to_string(y), map_of(surface, model, random), 0.0});
        const TrialLayout layout = lay_out_trial(land, wish);
        if (layout.chosen < 0) {
            ++out.refused;
            continue;
        }
        const DesignResult& d = layout.designs[static_cast<std::size_t>(layout.chosen)];
        const Claim came = cut_on(surface, layout, model, trials, random);
        ++out.fields;
        out.promised.found_without += d.false_finding;
        out.promised.found_with += d.power;
        out.came.found_without += came.found_without;
        out.came.found_with += came.found_with;
        sum += came.found_with - d.power;
        squares += std::pow(came.found_with - d.power, 2.0);
    }
    for (Claim* claim : {&out.promised, &out.came}) {
        claim->found_without /= out.fields;
        claim->found_with /= out.fields;
    }
    const double n = out.fields;
    out.power_se = std::sqrt((squares - sum * sum / n) / (n - 1.0) / n);
    return out;
}

} // namespace quartercut::independent
