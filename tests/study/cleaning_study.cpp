// SPDX-License-Identifier: MIT
// How near does cleaning come to the truth? Harvests are simulated with many seeds and cleaned; printed is what the
// cleaning makes of them beside what is known. Usage: cleaning_study [seeds, default 40]
#include "../clean/demo_records.hpp"

#include <cstdio>
#include <cstdlib>
#include <fmt/format.h>

namespace quartercut {
namespace {

using namespace test;

struct Mean {
    double n = 0.0, sum = 0.0, squares = 0.0, worst = 0.0;
    void add(double value) {
        n += 1.0;
        sum += value;
        squares += value * value;
        worst = std::max(worst, std::abs(value));
    }
    [[nodiscard]] double mean() const { return sum / n; }
    [[nodiscard]] double sd() const { return std::sqrt(std::max(0.0, squares / n - mean() * mean()) * n / (n - 1.0)); }
    [[nodiscard]] double se() const { return sd() / std::sqrt(n); }
};

struct LagTally {
    int groups = 0, applied = 0, close = 0, far = 0;
    Mean error_s;
};

double true_lag_s(const DemoSeason& season, const LagEstimate& lag) {
    for (const DemoMonitor& m : season.monitors)
        if (lag.machine == demo_machine_names[static_cast<std::size_t>(m.machine)] &&
            lag.method == demo_method_names[static_cast<std::size_t>(m.method)])
            return m.lag_s();
    std::abort();
}

void count_lags(LagTally& tally, const DemoSeason& truth, const Cleaned& cleaned) {
    for (const LagEstimate& lag : cleaned.lag) {
        ++tally.groups;
        if (!lag.applied) continue;
        ++tally.applied;
        const double off_s = lag.lag_s - true_lag_s(truth, lag);
        tally.error_s.add(off_s);
        tally.close += std::abs(off_s) <= 0.5;
        tally.far += std::abs(off_s) > 2.0;
    }
}

void print_lags(const std::string& what, const LagTally& tally) {
    fmt::print(
        "{:<44} {:>4} machine x method: {:.0f} % found, of these {:.0f} % within 0.5 s (mean error {:+.2f} s, sd "
        "{:.2f} s, {} beyond 2 s)\n",
        what, tally.groups, 100.0 * tally.applied / tally.groups,
        tally.applied > 0 ? 100.0 * tally.close / tally.applied : 0.0, tally.applied > 0 ? tally.error_s.mean() : 0.0,
        tally.applied > 1 ? tally.error_s.sd() : 0.0, tally.far);
    std::fflush(stdout);
}

void study_lags(int seeds, const char* field, const DemoFieldPlan& plan, double interval_s, bool structure) {
    LagTally tally;
    for (int seed = 1; seed <= seeds; ++seed) {
        DemoOptions options;
        options.seed = static_cast<std::uint64_t>(seed);
        options.record_interval_s = interval_s;
        if (!structure) options.structure = options.pass_sd = 0.0;
        const DemoSeason season = simulate_harvest({plan}, options);
        count_lags(tally, season, clean(plain_season(), standardised(season), CleanOptions{}));
    }
    print_lags(fmt::format("lag, {}{}, {:.0f} s", field, structure ? "" : ", even land", interval_s), tally);
}

struct MassTally {
    Mean error_pct;
    double close = 0.0;
    void add(const std::vector<double>& errors_pct) {
        for (const double error : errors_pct) {
            error_pct.add(error);
            close += std::abs(error) <= 1.0;
        }
    }
    void print(const std::string& what) const {
        fmt::print("{:<44} {:>4.0f} zones: {:.0f} % within 1 %, mean error {:+.2f} %, sd {:.2f} %, worst {:.2f} %\n",
                   what, error_pct.n, 100.0 * close / error_pct.n, error_pct.mean(), error_pct.sd(), error_pct.worst);
        std::fflush(stdout);
    }
};

void study_masses(int seeds, double interval_s) {
    MassTally methods, strips;
    for (int seed = 1; seed <= seeds; ++seed) {
        DemoOptions options;
        options.seed = static_cast<std::uint64_t>(seed);
        options.record_interval_s = interval_s;
        const DemoSeason season = simulate_harvest({strips_plan()}, options);
        const Standardised input = standardised(season);
        const Cleaned cleaned = clean(plain_season(), input, CleanOptions{});
        const MassErrors errors = mass_errors(season.fields[0], input.fields[0], cleaned.fields[0]);
        methods.add(errors.methods_pct);
        strips.add(errors.strips_pct);
    }
    methods.print(fmt::format("mass after tickets, by method, {:.0f} s", interval_s));
    strips.print(fmt::format("mass after tickets, by strip, {:.0f} s", interval_s));
}

/// Two halves of one field, cut alike and named differently.
void study_halves(int seeds) {
    Mean bias_pct, removed_points;
    std::ptrdiff_t found_on_even_land = 0;
    for (int seed = 1; seed <= seeds; ++seed) {
        const auto surface = rough_surface(static_cast<std::uint64_t>(seed) + 400);
        Harvest harvest;
        harvest.seed = static_cast<std::uint64_t>(seed);
        harvest.yield_t_ha = surface;
        harvest.method = [](double x, double) { return x < 200.0 ? 0 : 1; };
        StandardField field = simulate(harvest);
        field.method_areas = {{rectangle(0, 0, 200, 400), 0, "", 1}, {rectangle(200, 0, 400, 400), 1, "", 2}};
        const CleanedField cleaned = clean(plain_season(), season_of(field), CleanOptions{}).fields[0];
        std::array<double, 2> kept{}, all{}, truth{}, land{};
        const Records& r = field.records;
        for (std::size_t i = 0; i < r.size(); ++i) {
            if (r.method[i] < 0) continue;
            const auto m = static_cast<std::size_t>(r.method[i]);
            all[m] += 1.0;
            if (cleaned.removal[i] != Removal::kept) continue;
            kept[m] += 1.0;
            truth[m] += cleaned.area_m2[i] * surface(r.x_m[i], r.y_m[i]);
            land[m] += cleaned.area_m2[i];
        }
        const double gain = yield_of(field, cleaned, 1) - yield_of(field, cleaned, 0);
        bias_pct.add(100.0 * (gain - (truth[1] / land[1] - truth[0] / land[0])) / 2.5);
        harvest.yield_t_ha = [](double, double) { return 2.5; };
        const Cleaned even = clean(plain_season(), season_of(simulate(harvest)), CleanOptions{});
        found_on_even_land +=
            std::count_if(even.lag.begin(), even.lag.end(), [](const auto& lag) { return lag.applied; });
        removed_points.add(100.0 * (kept[0] / all[0] - kept[1] / all[1]));
    }
    fmt::print("{:<44} {:>4d} fields: {} found\n", "lag, even land at an even speed", seeds, found_on_even_land);
    fmt::print("{:<44} {:>4.0f} fields: mean {:+.3f} % of the yield (se {:.3f}), sd {:.2f} %\n",
               "gain between halves treated alike", bias_pct.n, bias_pct.mean(), bias_pct.se(), bias_pct.sd());
    fmt::print("{:<44} {:>4.0f} fields: mean {:+.2f} points (se {:.2f}), worst {:.2f}\n",
               "removal in halves treated alike", removed_points.n, removed_points.mean(), removed_points.se(),
               removed_points.worst);
}

} // namespace
} // namespace quartercut

int main(int argc, char** argv) {
    const int seeds = argc > 1 ? std::atoi(argv[1]) : 40;
    if (seeds < 2) {
        fmt::print(stderr, "Usage: cleaning_study [seeds, at least 2]\n");
        return 2;
    }
    quartercut::study_halves(seeds);
    for (const double interval_s : {1.0, 4.0}) {
        quartercut::study_masses(seeds, interval_s);
        quartercut::study_lags(seeds, "split quarter", quartercut::test::halves_plan(), interval_s, true);
        quartercut::study_lags(seeds, "strips", quartercut::test::strips_plan(), interval_s, true);
        quartercut::study_lags(seeds, "split quarter", quartercut::test::halves_plan(), interval_s, false);
    }
    return 0;
}
