// SPDX-License-Identifier: MIT
// Random-effects pooling: tau2 by three estimators, modified Hartung-Knapp, Q profile, prediction interval.
#include "compare/pooling.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace quartercut::contrast {
namespace {

struct Data {
    std::span<const double> y, v;
    [[nodiscard]] double k() const { return static_cast<double>(y.size()); }
};

struct Weighted {
    double mean = 0.0, sum_w = 0.0, q = 0.0;
};

Weighted weighted(const Data& data, double tau2) {
    Weighted out;
    double sum_wy = 0.0;
    for (std::size_t i = 0; i < data.y.size(); ++i) {
        const double w = 1.0 / (data.v[i] + tau2);
        out.sum_w += w;
        sum_wy += w * data.y[i];
    }
    out.mean = sum_wy / out.sum_w;
    for (std::size_t i = 0; i < data.y.size(); ++i)
        out.q += (data.y[i] - out.mean) * (data.y[i] - out.mean) / (data.v[i] + tau2);
    return out;
}

double sum_w_squared(const Data& data) {
    double sum = 0.0;
    for (const double v : data.v)
        sum += 1.0 / (v * v);
    return sum;
}

double der_simonian_laird(const Data& data) {
    const Weighted common = weighted(data, 0.0);
    return std::max(0.0, (common.q - (data.k() - 1.0)) / (common.sum_w - sum_w_squared(data) / common.sum_w));
}

/// The tau2 where Q(tau2) equals `target`; 0 when Q(0) is below it. Q falls with tau2.
double tau2_where_q_is(const Data& data, double target) {
    if (weighted(data, 0.0).q <= target) return 0.0;
    double low = 0.0;
    double high = 1.0;
    for (const double v : data.v)
        high = std::max(high, v);
    while (weighted(data, high).q > target && high < 1e300)
        high *= 2.0;
    for (int step = 0; step < 200; ++step) {
        const double middle = 0.5 * (low + high);
        (weighted(data, middle).q > target ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

double restricted_loglik(const Data& data, double tau2) {
    const Weighted at = weighted(data, tau2);
    double sum_log = 0.0;
    for (const double v : data.v)
        sum_log += std::log(v + tau2);
    return -0.5 * (sum_log + at.q + std::log(at.sum_w));
}

/// Fisher scoring from tau2, with the step held at 0: fast near the maximum.
double polish_reml(const Data& data, double tau2) {
    for (int step = 0; step < 200; ++step) {
        const Weighted at = weighted(data, tau2);
        double gain = 0.0;
        double w2 = 0.0;
        for (std::size_t i = 0; i < data.y.size(); ++i) {
            const double w = 1.0 / (data.v[i] + tau2);
            const double r = data.y[i] - at.mean;
            gain += w * w * (r * r - data.v[i]);
            w2 += w * w;
        }
        const double next = std::max(0.0, gain / w2 + 1.0 / at.sum_w);
        const bool done = std::abs(next - tau2) <= 1e-14 * (1.0 + next);
        tau2 = next;
        if (done) break;
    }
    return tau2;
}

/// The likelihood may have a hump away from zero, so a coarse look over the whole range comes first.
double reml(const Data& data) {
    const double mean = std::accumulate(data.y.begin(), data.y.end(), 0.0) / data.k();
    double spread = 0.0;
    for (const double y : data.y)
        spread += (y - mean) * (y - mean) / (data.k() - 1.0);
    double best = 0.0;
    double best_loglik = restricted_loglik(data, 0.0);
    for (int step = 1; step <= 60; ++step) {
        const double tau2 = 10.0 * spread * std::pow(10.0, -0.15 * (60 - step));
        const double loglik = restricted_loglik(data, tau2);
        if (loglik > best_loglik) {
            best = tau2;
            best_loglik = loglik;
        }
    }
    const double polished = polish_reml(data, best);
    return restricted_loglik(data, polished) >= best_loglik - 1e-12 ? polished : best;
}

double between_variance(const Data& data, TauMethod method) {
    switch (method) {
    case TauMethod::der_simonian_laird:
        return der_simonian_laird(data);
    case TauMethod::paule_mandel:
        return tau2_where_q_is(data, data.k() - 1.0);
    case TauMethod::reml:
        break;
    }
    return reml(data);
}

} // namespace

Pooled pool(std::span<const double> effect, std::span<const double> variance, TauMethod method) {
    const Data data{effect, variance};
    Pooled out;
    out.tau2 = between_variance(data, method);
    const Weighted at = weighted(data, out.tau2);
    out.mean = at.mean;
    out.df = data.k() - 1.0;
    out.se = 1.0 / std::sqrt(at.sum_w);
    const double q = at.q / out.df;
    out.se_hk = std::sqrt(q) * out.se;
    out.se_mhk = std::sqrt(std::max(1.0, q)) * out.se;
    const Weighted common = weighted(data, 0.0);
    out.q0 = common.q;
    const double typical = out.df * common.sum_w / (common.sum_w * common.sum_w - sum_w_squared(data));
    out.i2_pct = 100.0 * out.tau2 / (out.tau2 + typical);
    out.h2 = (out.tau2 + typical) / typical;
    for (const double v : variance)
        out.weight.push_back(1.0 / (v + out.tau2) / at.sum_w);
    return out;
}

Shrunk shrink(const Pooled& pooled, double effect, double variance) {
    const double keep = pooled.tau2 / (pooled.tau2 + variance);
    const double se2 = keep * variance + (1.0 - keep) * (1.0 - keep) * pooled.se * pooled.se;
    return {keep * effect + (1.0 - keep) * pooled.mean, std::sqrt(se2)};
}

Interval tau2_interval(std::span<const double> effect, std::span<const double> variance) {
    const Data data{effect, variance};
    const double df = data.k() - 1.0;
    return {tau2_where_q_is(data, chi_squared_quantile(0.975, df)),
            tau2_where_q_is(data, chi_squared_quantile(0.025, df))};
}

Interval prediction_interval(const Pooled& pooled) {
    const double half = t_critical(pooled.df) * std::sqrt(pooled.tau2 + pooled.se_mhk * pooled.se_mhk);
    return {pooled.mean - half, pooled.mean + half};
}

} // namespace quartercut::contrast
