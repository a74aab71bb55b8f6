// SPDX-License-Identifier: MIT
// Semivariogram of segments within zones, and the exponential model with nugget that fits it best.
#include "write/covariance.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <vector>

namespace quartercut::write {

namespace {

constexpr double farthest_m = 300.0;
constexpr std::size_t lag_count = 15;      // 20 m each
constexpr std::size_t most_segments = 800; // of one zone; more are thinned evenly
constexpr double fewest_pairs = 30.0;      // in a lag, to be used (Journel and Huijbregts 1978, rule of thumb)

struct Lag {
    double pairs = 0.0, distance_m = 0.0, half_square = 0.0; // sums, then means
};
using Lags = std::array<Lag, lag_count>;

void add_pairs(Lags& lags, const std::vector<const Segment*>& segments) {
    const std::size_t stride = (segments.size() + most_segments - 1) / most_segments;
    for (std::size_t i = 0; i < segments.size(); i += stride) {
        for (std::size_t j = i + stride; j < segments.size(); j += stride) {
            const double h = std::hypot(segments[i]->x_m - segments[j]->x_m, segments[i]->y_m - segments[j]->y_m);
            if (h >= farthest_m) continue;
            const double difference = segments[i]->yield_t_ha() - segments[j]->yield_t_ha();
            Lag& lag = lags[static_cast<std::size_t>(h / farthest_m * lag_count)];
            lag.pairs += 1.0;
            lag.distance_m += h;
            lag.half_square += 0.5 * difference * difference;
        }
    }
}

std::vector<Lag> semivariogram(const ZonedField& field) {
    std::vector<std::vector<const Segment*>> by_zone(field.zones.size());
    for (const Segment& segment : field.segments) {
        if (segment.zone >= 0 && std::isfinite(segment.yield_t_ha())) {
            by_zone[static_cast<std::size_t>(segment.zone)].push_back(&segment);
        }
    }
    Lags lags{};
    for (const auto& segments : by_zone) {
        if (segments.size() > 1) add_pairs(lags, segments);
    }
    std::vector<Lag> used;
    for (const Lag& lag : lags) {
        if (lag.pairs >= fewest_pairs)
            used.push_back({lag.pairs, lag.distance_m / lag.pairs, lag.half_square / lag.pairs});
    }
    return used;
}

/// Best non-negative nugget and sill for one range, and their weighted squared error.
struct Candidate {
    double nugget = 0.0, sill = 0.0, error = std::numeric_limits<double>::infinity();
};

double weighted_error(const std::vector<Lag>& lags, double range_m, double nugget, double sill) {
    double error = 0.0;
    for (const Lag& lag : lags) {
        const double miss = lag.half_square - nugget - sill * (1.0 - std::exp(-lag.distance_m / range_m));
        error += lag.pairs * miss * miss;
    }
    return error;
}

Candidate best_for_range(const std::vector<Lag>& lags, double range_m) {
    double w = 0.0, wf = 0.0, wff = 0.0, wg = 0.0, wfg = 0.0;
    for (const Lag& lag : lags) {
        const double f = 1.0 - std::exp(-lag.distance_m / range_m);
        w += lag.pairs;
        wf += lag.pairs * f;
        wff += lag.pairs * f * f;
        wg += lag.pairs * lag.half_square;
        wfg += lag.pairs * f * lag.half_square;
    }
    const double determinant = w * wff - wf * wf;
    Candidate out;
    if (determinant <= 0.0) return out;
    out.sill = (w * wfg - wf * wg) / determinant;
    out.nugget = (wg - out.sill * wf) / w;
    if (out.sill <= 0.0) return out;
    if (out.nugget < 0.0) {
        out.nugget = 0.0;
        out.sill = wfg / wff;
    }
    out.error = weighted_error(lags, range_m, out.nugget, out.sill);
    return out;
}

} // namespace

Covariance fit_covariance(const ZonedField& field) {
    const std::vector<Lag> lags = semivariogram(field);
    Covariance best;
    if (lags.size() < 4) return best;
    double error = std::numeric_limits<double>::infinity();
    for (double range_m = 8.0; range_m < farthest_m; range_m *= 1.15) {
        const Candidate candidate = best_for_range(lags, range_m);
        if (candidate.error >= error) continue;
        error = candidate.error;
        best = {candidate.nugget, candidate.sill, range_m, true};
    }
    return best;
}

} // namespace quartercut::write
