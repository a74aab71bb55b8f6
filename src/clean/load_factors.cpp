// SPDX-License-Identifier: MIT
// Closed forms throughout, except the ratio of the two variances, which a bracketed search finds.
#include "clean/load_factors.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace quartercut::cleaning {
namespace {

constexpr double stated_load_sd = 0.03; // load to load, where single loads show none (judgement)
constexpr std::size_t fewest_for_slope = 6;
constexpr double flow_range = 2.0, telling_t = 2.0;
constexpr double seconds_per_day = 86400.0;

struct GroupSums {
    double n = 0.0, mean = 0.0, within = 0.0;
};

std::map<int, GroupSums> sums_by_group(const std::vector<Load>& loads) {
    std::map<int, GroupSums> groups;
    for (const Load& load : loads) {
        GroupSums& g = groups[load.group];
        g.n += 1.0;
        const double step = load.log_ratio - g.mean;
        g.mean += step / g.n;
        g.within += step * (load.log_ratio - g.mean);
    }
    return groups;
}

/// Slope of the log ratio on a covariate within groups. nullopt where the covariate does not vary.
template <class Covariate>
std::optional<Slope> slope_within(const std::vector<Load>& loads, double df, Covariate covariate) {
    std::map<int, GroupSums> ratio = sums_by_group(loads);
    std::map<int, std::pair<double, double>> mean;
    for (const Load& load : loads) {
        mean[load.group].first += covariate(load);
        mean[load.group].second += 1.0;
    }
    double sxx = 0.0, sxy = 0.0, syy = 0.0;
    for (const Load& load : loads) {
        const double x = covariate(load) - mean[load.group].first / mean[load.group].second;
        const double y = load.log_ratio - ratio[load.group].mean;
        sxx += x * x;
        sxy += x * y;
        syy += y * y;
    }
    if (!(sxx > 0.0) || !(df > 1.0)) return std::nullopt;
    const double value = sxy / sxx;
    const double rest = std::max(0.0, syy - value * sxy) / (df - 1.0);
    return Slope{value, rest > 0.0 ? value / std::sqrt(rest / sxx) : 0.0};
}

bool flows_span_enough(const std::vector<Load>& loads) {
    double low = 1e300, high = 0.0;
    for (const Load& load : loads) {
        if (!(load.flow_kg_s > 0.0)) return false;
        low = std::min(low, load.flow_kg_s);
        high = std::max(high, load.flow_kg_s);
    }
    return loads.size() >= fewest_for_slope && high >= flow_range * low;
}

bool times_known(const std::vector<Load>& loads) {
    return loads.size() >= fewest_for_slope &&
           std::all_of(loads.begin(), loads.end(), [](const Load& load) { return std::isfinite(load.time_s); });
}

/// -2 x REML log likelihood (up to a constant) of one-way random effects at a ratio of variances, within variance
/// profiled out; also gives that variance and the mean.
struct Profile {
    double criterion = 0.0, within = 0.0, mean = 0.0;
};

Profile profile(const std::map<int, GroupSums>& groups, double ratio) {
    double weight = 0.0, weighted = 0.0, n = 0.0, squares = 0.0, log_det = 0.0;
    for (const auto& [name, g] : groups) {
        const double w = g.n / (1.0 + g.n * ratio);
        weight += w;
        weighted += w * g.mean;
        n += g.n;
        squares += g.within;
        log_det += std::log1p(g.n * ratio);
    }
    Profile p;
    p.mean = weighted / weight;
    for (const auto& [name, g] : groups)
        squares += g.n / (1.0 + g.n * ratio) * (g.mean - p.mean) * (g.mean - p.mean);
    p.within = squares / (n - 1.0);
    p.criterion = (n - 1.0) * std::log(p.within) + log_det + std::log(weight);
    return p;
}

double best_log_ratio(const std::map<int, GroupSums>& groups) {
    const auto value = [&](double log_ratio) { return profile(groups, std::exp(log_ratio)).criterion; };
    double best = -20.0;
    for (double x = -20.0; x <= 20.0; x += 0.25)
        if (value(x) < value(best)) best = x;
    double low = best - 0.25, high = best + 0.25;
    const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
    for (int step = 0; step < 80; ++step) {
        const double a = high - golden * (high - low), b = low + golden * (high - low);
        if (value(a) < value(b))
            high = b;
        else
            low = a;
    }
    return 0.5 * (low + high);
}

} // namespace

LoadFit fit_loads(const std::vector<Load>& loads) {
    LoadFit fit;
    const std::map<int, GroupSums> groups = sums_by_group(loads);
    double within = 0.0;
    for (const auto& [name, g] : groups)
        within += g.within;
    fit.df = static_cast<double>(loads.size()) - static_cast<double>(groups.size());
    if (flows_span_enough(loads))
        fit.flow = slope_within(loads, fit.df, [](const Load& load) { return std::log(load.flow_kg_s); });
    if (times_known(loads)) {
        const double first = loads.front().time_s;
        fit.drift_per_day =
            slope_within(loads, fit.df, [&](const Load& load) { return (load.time_s - first) / seconds_per_day; });
    }
    fit.load_sd = fit.df > 0.0 ? std::sqrt(within / fit.df) : stated_load_sd;
    if (fit.flow && std::abs(fit.flow->t) > telling_t) {
        // A group's factor at its own mean flow stays its mean ratio; only the scatter about it shrinks.
        const double t2 = fit.flow->t * fit.flow->t, df = fit.df - 1.0;
        fit.load_sd = std::sqrt(within / (df + t2));
        fit.df = df;
    }
    for (const auto& [name, g] : groups)
        fit.groups.push_back({name, static_cast<int>(g.n), g.mean, fit.load_sd / std::sqrt(g.n)});
    return fit;
}

RandomFactors fit_random_groups(const std::vector<Load>& loads) {
    RandomFactors random;
    const std::map<int, GroupSums> groups = sums_by_group(loads);
    if (groups.size() < 2 || groups.size() == loads.size()) {
        for (const auto& [name, g] : groups)
            random.predicted.push_back(g.mean);
        return random;
    }
    const double ratio = std::exp(best_log_ratio(groups));
    const Profile p = profile(groups, ratio);
    random.between_sd = std::sqrt(ratio * p.within);
    random.mean = p.mean;
    for (const auto& [name, g] : groups)
        random.predicted.push_back(p.mean + g.n * ratio / (1.0 + g.n * ratio) * (g.mean - p.mean));
    return random;
}

} // namespace quartercut::cleaning
