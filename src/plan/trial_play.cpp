// SPDX-License-Identifier: MIT
#include "plan/trial_play.hpp"

#include "base/random.hpp"
#include "plan/chances.hpp"
#include "quartercut/error.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

namespace quartercut::planning {
namespace {

constexpr double grid_m = 5.0;
constexpr double reach_m = 40.0; // a place farther from every segment was not seen
constexpr double least_seen = 0.8;

/// Two-sided 5 % points of t, worked once; between whole quarters of df they are interpolated.
class TTable {
public:
    TTable() {
        for (double df = 1.0; df <= 200.0; df += 0.25)
            values_.push_back(t95(df));
    }
    [[nodiscard]] double operator()(double df) const {
        const double at = (std::clamp(df, 1.0, 199.5) - 1.0) * 4.0;
        const auto i = static_cast<std::size_t>(at);
        const double part = at - static_cast<double>(i);
        return (1.0 - part) * values_[i] + part * values_[i + 1];
    }

private:
    std::vector<double> values_;
};

struct Trial {
    double mean = 0.0, u = 0.0, df = 0.0;
};

Trial trial_of(const std::vector<double>& differences, const TrialWish& wish) {
    const auto n = static_cast<double>(differences.size());
    double mean = 0.0, squares = 0.0;
    for (const double d : differences)
        mean += d / n;
    for (const double d : differences)
        squares += (d - mean) * (d - mean);
    const double sampling = squares / (n - 1.0) / n;
    const double instruments = wish.u_instruments_t_ha * wish.u_instruments_t_ha;
    const double all = sampling + instruments;
    const double quartic = sampling * sampling / (n - 1.0) + instruments * instruments / wish.df_instruments;
    return {mean, std::sqrt(all), quartic > 0.0 ? all * all / quartic : n - 1.0};
}

/// Share of the trials found with a true difference added.
double share_found(const std::vector<Trial>& trials, const TTable& critical, double difference) {
    std::size_t found = 0;
    for (const Trial& trial : trials)
        found += std::abs(trial.mean + difference) > critical(trial.df) * trial.u ? 1U : 0U;
    return static_cast<double>(found) / static_cast<double>(trials.size());
}

double detectable_in(const std::vector<Trial>& trials, const TTable& critical, double power) {
    double low = 0.0, high = 0.01;
    while (share_found(trials, critical, high) < power && high < 100.0)
        high *= 2.0;
    for (int i = 0; i < 20; ++i) {
        const double middle = 0.5 * (low + high);
        (share_found(trials, critical, middle) < power ? low : high) = middle;
    }
    return high;
}

/// Lower triangle L with L L' = m. \throws InternalError  not positive definite
std::vector<double> cholesky(std::vector<double> m, std::size_t n) {
    for (std::size_t j = 0; j < n; ++j) {
        for (std::size_t k = 0; k < j; ++k)
            for (std::size_t i = j; i < n; ++i)
                m[i * n + j] -= m[i * n + k] * m[j * n + k];
        if (!(m[j * n + j] > 0.0)) throw InternalError("The strips' covariance is not positive definite.");
        const double root = std::sqrt(m[j * n + j]);
        for (std::size_t i = j; i < n; ++i)
            m[i * n + j] /= root;
    }
    return m;
}

struct Cell {
    double u, v;
};

/// Places that stand for a strip: a line in each pass, a point every 50 m along.
std::vector<Cell> cells_of(double v0, double width, int passes, const std::vector<Stretch>& stretches) {
    std::vector<Cell> cells;
    for (const Stretch& stretch : stretches) {
        const double length = stretch[1] - stretch[0];
        const int n = std::max(1, static_cast<int>(std::lround(length / 50.0)));
        for (int i = 0; i < n; ++i)
            for (int line = 0; line < passes; ++line)
                cells.push_back({stretch[0] + length * (i + 0.5) / n, v0 + width * (line + 0.5) / passes});
    }
    return cells;
}

double mean_correlation(const std::vector<Cell>& a, const std::vector<Cell>& b, double range_m) {
    double sum = 0.0;
    for (const Cell& p : a)
        for (const Cell& q : b)
            sum += std::exp(-std::hypot(p.u - q.u, p.v - q.v) / range_m);
    return sum / static_cast<double>(a.size() * b.size());
}

} // namespace

Played play(const DrawDifferences& draw, const TrialWish& wish) {
    static const TTable critical;
    std::vector<Trial> trials;
    std::vector<double> differences;
    double mean = 0.0, squares = 0.0;
    for (int i = 0; i < wish.simulations; ++i) {
        const std::uint64_t seed = stream_seed(wish.choice.seed, static_cast<std::uint64_t>(i));
        draw(seed, differences);
        Trial trial = trial_of(differences, wish);
        mean += trial.mean / wish.simulations;
        squares += trial.mean * trial.mean / wish.simulations;
        Random random(stream_seed(seed, 1));
        trial.mean += wish.u_instruments_t_ha * random.normal();
        trials.push_back(trial);
    }
    return {std::sqrt(std::max(0.0, squares - mean * mean)), share_found(trials, critical, 0.0),
            share_found(trials, critical, wish.difference_t_ha), detectable_in(trials, critical, wish.wanted_power)};
}

MapGrid::MapGrid(const std::vector<YieldPoint>& map, const Turn& turn, const Box& box)
    : u0_(box.min_x), v0_(box.min_y) {
    columns_ = static_cast<std::size_t>((box.max_x - box.min_x) / grid_m) + 1;
    rows_ = static_cast<std::size_t>((box.max_y - box.min_y) / grid_m) + 1;
    std::vector<double> nearest(columns_ * rows_, reach_m * reach_m), value(columns_ * rows_, 0.0);
    const auto reach = static_cast<long>(reach_m / grid_m);
    for (const YieldPoint& point : map) {
        const Point uv = turn.to_uv({point.x_m, point.y_m});
        const long c0 = std::lround((uv.x - u0_) / grid_m - 0.5), r0 = std::lround((uv.y - v0_) / grid_m - 0.5);
        for (long r = std::max(0L, r0 - reach); r <= std::min(static_cast<long>(rows_) - 1, r0 + reach); ++r)
            for (long c = std::max(0L, c0 - reach); c <= std::min(static_cast<long>(columns_) - 1, c0 + reach); ++c) {
                const double du = u0_ + (static_cast<double>(c) + 0.5) * grid_m - uv.x;
                const double dv = v0_ + (static_cast<double>(r) + 0.5) * grid_m - uv.y;
                const std::size_t at = static_cast<std::size_t>(r) * columns_ + static_cast<std::size_t>(c);
                if (du * du + dv * dv >= nearest[at]) continue;
                nearest[at] = du * du + dv * dv;
                value[at] = point.yield_t_ha;
            }
    }
    sum_.assign((columns_ + 1) * rows_, 0.0);
    count_ = sum_;
    for (std::size_t r = 0; r < rows_; ++r)
        for (std::size_t c = 0; c < columns_; ++c) {
            const bool seen = nearest[r * columns_ + c] < reach_m * reach_m;
            const std::size_t at = r * (columns_ + 1) + c;
            sum_[at + 1] = sum_[at] + (seen ? value[r * columns_ + c] : 0.0);
            count_[at + 1] = count_[at] + (seen ? 1.0 : 0.0);
        }
}

std::optional<double> MapGrid::mean(double v0, double v1, const std::vector<Stretch>& stretches) const {
    double sum = 0.0, seen = 0.0, all = 0.0;
    for (std::size_t r = 0; r < rows_; ++r) {
        const double v = v0_ + (static_cast<double>(r) + 0.5) * grid_m;
        if (v < v0 || v >= v1) continue;
        for (const Stretch& stretch : stretches) {
            const auto column = [&](double u) {
                return static_cast<std::size_t>(
                    std::clamp(std::lround((u - u0_) / grid_m), 0L, static_cast<long>(columns_)));
            };
            const std::size_t from = r * (columns_ + 1) + column(stretch[0]),
                              to = r * (columns_ + 1) + column(stretch[1]);
            sum += sum_[to] - sum_[from];
            seen += count_[to] - count_[from];
            all += static_cast<double>(to - from);
        }
    }
    if (!(all > 0.0) || seen < least_seen * all) return std::nullopt;
    return sum / seen;
}

std::optional<DrawDifferences> from_map(const MapGrid& grid, const std::vector<Placement>& placements,
                                        const PairWidths& widths, double pass_sd_t_ha) {
    // [placement][pair][coin]
    auto table = std::make_shared<std::vector<std::vector<std::array<double, 2>>>>();
    for (const Placement& placement : placements) {
        std::vector<std::array<double, 2>> pairs;
        for (const PlacedPair& pair : placement) {
            const auto mean = [&](double from, double width) {
                return grid.mean(pair.v0 + from, pair.v0 + from + width, pair.stretches);
            };
            const auto a0 = mean(widths.method_guard_m, widths.method_m);
            const auto b0 = mean(widths.method_total_m() + widths.baseline_guard_m, widths.baseline_m);
            const auto b1 = mean(widths.baseline_guard_m, widths.baseline_m);
            const auto a1 = mean(widths.baseline_total_m() + widths.method_guard_m, widths.method_m);
            if (!a0 || !b0 || !a1 || !b1) return std::nullopt;
            pairs.push_back({*a0 - *b0, *a1 - *b1});
        }
        table->push_back(std::move(pairs));
    }
    return [table, pass_sd_t_ha](std::uint64_t seed, std::vector<double>& out) {
        Random random(seed);
        const auto& pairs = (*table)[random.below(table->size())];
        out.clear();
        for (const auto& pair : pairs) {
            const double d = pair[random.below(2)];
            out.push_back(pass_sd_t_ha > 0.0 ? d + pass_sd_t_ha * random.normal() : d);
        }
    };
}

DrawDifferences one_of(std::vector<DrawDifferences> draws) {
    if (draws.size() == 1) return draws.front();
    return [all = std::move(draws)](std::uint64_t seed, std::vector<double>& out) {
        Random which(stream_seed(seed, 2)); // a stream of its own: the coins do not depend on the map
        all[which.below(all.size())](seed, out);
    };
}

DrawDifferences with_unsure_spread(DrawDifferences draw, int df) {
    return [inner = std::move(draw), df](std::uint64_t seed, std::vector<double>& out) {
        inner(seed, out);
        Random random(stream_seed(seed, 3));
        double squares = 0.0;
        for (int i = 0; i < df; ++i)
            squares += std::pow(random.normal(), 2.0);
        const double factor = std::sqrt(df / squares); // the spread given its estimate: scaled inverse chi-square
        for (double& d : out)
            d *= factor;
    };
}

std::vector<double> strip_covariance(const LandModel& model, const Placement& placement, const PairWidths& widths,
                                     int passes, int baseline_passes) {
    const std::size_t n = 2 * placement.size();
    std::vector<std::vector<Cell>> strips;
    std::vector<double> own;
    for (const PlacedPair& pair : placement) {
        const double length = pair.length_m();
        strips.push_back(cells_of(pair.v0 + widths.method_guard_m, widths.method_m, passes, pair.stretches));
        own.push_back(model.nugget * model.cell_m2 / (length * widths.method_m) + model.pass / passes);
        strips.push_back(cells_of(pair.v0 + widths.method_total_m() + widths.baseline_guard_m, widths.baseline_m,
                                  baseline_passes, pair.stretches));
        own.push_back(model.nugget * model.cell_m2 / (length * widths.baseline_m) + model.pass / baseline_passes);
    }
    std::vector<double> covariance(n * n);
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j <= i; ++j) {
            const double value = model.sill * mean_correlation(strips[i], strips[j], model.range_m);
            covariance[i * n + j] = covariance[j * n + i] = value + (i == j ? own[i] + 1e-9 : 0.0);
        }
    return covariance;
}

DrawDifferences from_model(const LandModel& model, const Placement& placement, const PairWidths& widths, int passes,
                           int baseline_passes) {
    const std::size_t n = 2 * placement.size();
    const auto lower = std::make_shared<const std::vector<double>>(
        cholesky(strip_covariance(model, placement, widths, passes, baseline_passes), n));
    return [lower, n](std::uint64_t seed, std::vector<double>& out) {
        Random random(seed);
        std::vector<double> z(n), strip(n, 0.0);
        for (double& value : z)
            value = random.normal();
        for (std::size_t i = 0; i < n; ++i)
            for (std::size_t j = 0; j <= i; ++j)
                strip[i] += (*lower)[i * n + j] * z[j];
        out.clear();
        for (std::size_t k = 0; k < n; k += 2)
            out.push_back((random.below(2) == 0 ? 1.0 : -1.0) * (strip[k] - strip[k + 1]));
    };
}

} // namespace quartercut::planning
