// SPDX-License-Identifier: MIT
// Grain cut -> logged records. See monitor.hpp.
#include "demo/monitor.hpp"

#include "demo/streams.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace quartercut::demo {

namespace {

constexpr double moisture_late_s = 4.0;  // the moisture sensor sits further along than the flow sensor
constexpr double least_flow_kg_s = 0.10; // below this the flow sensor sees nothing
constexpr double flow_noise_share = 0.04, flow_noise_kg_s = 0.10;
constexpr double moisture_noise = 0.20;
constexpr double drift_share = 0.005;
constexpr std::array<double, 2> wander_m{0.06, 0.15}; // slow position error of machine A and B
constexpr double jitter_m = 0.02;
constexpr double wander_time_s = 300.0;
constexpr double jump_share = 1.0 / 5000.0, jump_m = 30.0;

// Slow drift of the flow sensor over the day: three waves with random phases.
struct Drift {
    explicit Drift(Random& random) {
        for (double& phase : phases_)
            phase = random.uniform(0.0, 2.0 * std::numbers::pi);
    }
    [[nodiscard]] double at(double time_s) const {
        constexpr std::array<double, 3> periods_s{3100.0, 7300.0, 16900.0};
        double sum = 0.0;
        for (std::size_t i = 0; i < periods_s.size(); ++i)
            sum += std::cos(2.0 * std::numbers::pi * std::fmod(time_s, periods_s[i]) / periods_s[i] + phases_[i]);
        return drift_share * std::sqrt(2.0 / 3.0) * sum;
    }

private:
    std::array<double, 3> phases_{};
};

// Position error: a slow wander, a little jitter, now and then a jump.
class PositionError {
public:
    PositionError(double sd_m, double hop_s) : sd_m_(sd_m), keep_(std::exp(-hop_s / wander_time_s)) {}
    Point next(Random& random, bool may_jump) {
        const double fresh = sd_m_ * std::sqrt(1.0 - keep_ * keep_);
        slow_.x = keep_ * slow_.x + fresh * random.normal();
        slow_.y = keep_ * slow_.y + fresh * random.normal();
        const bool jumps = random.uniform() < jump_share && may_jump;
        return {slow_.x + jitter_m * random.normal() + (jumps ? jump_m : 0.0), slow_.y + jitter_m * random.normal()};
    }

private:
    double sd_m_, keep_;
    Point slow_;
};

std::vector<double> convolve(const std::vector<double>& cut, const std::vector<double>& kernel) {
    std::vector<double> out(cut.size(), 0.0);
    for (std::size_t i = 0; i < cut.size(); ++i) {
        if (cut[i] == 0.0) continue;
        // What would arrive after the last step arrives in it: machines stand long enough for this to be nothing.
        for (std::size_t k = 0; k < kernel.size(); ++k)
            out[std::min(i + k, out.size() - 1)] += cut[i] * kernel[k];
    }
    return out;
}

double sum_over(const std::vector<double>& values, std::size_t first, std::size_t last) {
    double sum = 0.0;
    for (std::size_t i = first; i < last; ++i)
        sum += values[i];
    return sum;
}

// Writes the records of one campaign, one after the other.
class Logger {
public:
    Logger(const LogContext& context, const std::vector<PassPlan>& passes, const FieldPlace& place)
        : c_(context), passes_(passes), place_(place),
          random_(stream(context.options.seed, context.field, Purpose::sensor,
                         static_cast<std::uint64_t>(context.monitor.machine * 2 + context.monitor.method))),
          drift_(random_),
          position_(wander_m[static_cast<std::size_t>(context.monitor.machine)], context.options.record_interval_s),
          moisture_steps_(static_cast<std::size_t>(std::lround(moisture_late_s / step_s(context.options)))) {}

    DemoRecord record(std::size_t first, std::size_t last) {
        const Step& end = c_.campaign.steps[last - 1];
        DemoRecord r;
        r.time_s = end.time_s;
        r.across_m = end.across_m;
        r.along_m = end.along_m;
        r.machine = c_.monitor.machine;
        r.pass = end.pass;
        r.width_m = passes_[static_cast<std::size_t>(end.pass)].logged_width_m;
        r.duration_s = c_.options.record_interval_s;
        r.header_up = true;
        for (std::size_t k = first; k < last; ++k) {
            r.distance_m += c_.campaign.steps[k].moved_m;
            r.header_up = r.header_up && c_.campaign.steps[k].header_up;
        }
        r.cut_m2 = sum_over(c_.cut.area_m2, first, last);
        r.cut_basis_kg = sum_over(c_.cut.basis_kg, first, last);
        sense(r, first, last);
        return r;
    }

private:
    void sense(DemoRecord& r, std::size_t first, std::size_t last) {
        const double noise = c_.options.noise;
        const double flow = sum_over(c_.grain.gross_kg, first, last) / r.duration_s;
        const double spread = std::hypot(flow_noise_share * flow, flow_noise_kg_s);
        const double wrong = c_.monitor.reading * (1.0 + noise * drift_.at(r.time_s));
        const double error = noise * spread * random_.normal();
        r.flow_kg_s = flow < least_flow_kg_s * noise ? 0.0 : std::max(0.0, wrong * flow + error);
        r.moisture_pct = moisture(first, last);
        r.speed_m_s = std::max(0.0, r.distance_m / r.duration_s);
        const Point off = position_.next(random_, c_.monitor.machine == 1);
        const Point p = place_.to_degrees(r.across_m + noise * off.x, r.along_m + noise * off.y);
        r.lon_deg = p.x;
        r.lat_deg = p.y;
    }

    double moisture(std::size_t first, std::size_t last) {
        const std::size_t late = std::min(moisture_steps_, first);
        const double gross = sum_over(c_.grain.gross_kg, first - late, last - late);
        if (gross > least_flow_kg_s * c_.options.record_interval_s)
            true_moisture_ = 100.0 * sum_over(c_.grain.water_kg, first - late, last - late) / gross;
        return true_moisture_ + c_.monitor.moisture_bias + c_.options.noise * moisture_noise * random_.normal();
    }

    const LogContext& c_;
    const std::vector<PassPlan>& passes_;
    const FieldPlace& place_;
    Random random_;
    Drift drift_;
    PositionError position_;
    std::size_t moisture_steps_;
    double true_moisture_ = 9.0; // what the sensor shows before the first grain
};

} // namespace

std::vector<DemoMonitor> monitors() {
    // Machine A reads low and B high; the pick-up brings grain to the sensor sooner than the header does.
    return {{0, demo_swathed, 8.6, 2.6, 0.935, 0.35},
            {0, demo_standing, 10.2, 3.0, 0.925, 0.25},
            {1, demo_swathed, 9.2, 2.8, 1.065, -0.30},
            {1, demo_standing, 10.7, 3.2, 1.050, -0.40}};
}

std::vector<double> arrival_kernel(const DemoMonitor& monitor, double step_s) {
    const double mixing = std::max(monitor.mixing_s, 1e-6);
    // Integral of the exponential's distribution function from 0 to x.
    const auto summed = [mixing](double x) { return x <= 0.0 ? 0.0 : x - mixing * (1.0 - std::exp(-x / mixing)); };
    const auto arrived = [&](double t) {
        return (summed(t - monitor.transport_s) - summed(t - monitor.transport_s - step_s)) / step_s;
    };
    const auto count = static_cast<std::size_t>((monitor.transport_s + 12.0 * mixing) / step_s) + 2;
    std::vector<double> kernel(count);
    for (std::size_t k = 0; k < count; ++k)
        kernel[k] = arrived(static_cast<double>(k + 1) * step_s) - arrived(static_cast<double>(k) * step_s);
    const double total = arrived(static_cast<double>(count) * step_s);
    for (double& share : kernel)
        share /= total;
    return kernel;
}

SensorGrain at_sensor(const CutGrain& cut, const DemoMonitor& monitor, double step_s) {
    const std::vector<double> kernel = arrival_kernel(monitor, step_s);
    return {convolve(cut.gross_kg, kernel), convolve(cut.water_kg, kernel), convolve(cut.basis_kg, kernel)};
}

std::vector<DemoRecord> log_records(const LogContext& context, const std::vector<PassPlan>& passes,
                                    const FieldPlace& place) {
    const auto per_record = static_cast<std::size_t>(steps_per_record(context.options));
    Logger logger(context, passes, place);
    std::vector<DemoRecord> records;
    for (std::size_t first = 0; first + per_record <= context.campaign.steps.size(); first += per_record) {
        const DemoRecord record = logger.record(first, first + per_record);
        if (context.campaign.steps[first + per_record - 1].logged) records.push_back(record);
    }
    return records;
}

std::vector<DemoTicket> weigh_loads(const LogContext& context) {
    constexpr double least_load_kg = 3000.0, scale_share = 0.001, scale_step_kg = 10.0;
    constexpr double moisture_sd = 0.10, dockage_sd = 0.12;
    constexpr std::size_t most_weighed = 4;
    const double noise = context.options.noise;
    Random random = stream(context.options.seed, context.field, Purpose::scale,
                           static_cast<std::uint64_t>(context.monitor.machine * 2 + context.monitor.method));
    const auto grid = [noise](double value, double step) {
        return noise > 0.0 ? std::round(value / step) * step : value;
    };
    std::vector<DemoTicket> all;
    for (const Load& load : context.campaign.loads) {
        const double gross = sum_over(context.grain.gross_kg, load.first, load.last);
        if (gross < least_load_kg) continue;
        DemoTicket ticket;
        ticket.field = static_cast<int>(context.field);
        ticket.machine = context.monitor.machine;
        ticket.method = context.monitor.method;
        ticket.start_s = context.campaign.steps[load.first].time_s - step_s(context.options);
        ticket.end_s = context.campaign.steps[load.last - 1].time_s;
        ticket.net_kg = grid(gross * (1.0 + noise * scale_share * random.normal()), scale_step_kg);
        const double moisture = 100.0 * sum_over(context.grain.water_kg, load.first, load.last) / gross;
        ticket.moisture_pct = grid(moisture + noise * moisture_sd * random.normal(), 0.1);
        ticket.dockage_pct = std::max(0.0, grid(context.cut.dockage_pct + noise * dockage_sd * random.normal(), 0.1));
        ticket.true_basis_kg = sum_over(context.grain.basis_kg, load.first, load.last);
        all.push_back(ticket);
    }
    if (all.size() <= most_weighed) return all;
    std::vector<DemoTicket> weighed;
    for (std::size_t k = 0; k < most_weighed; ++k)
        weighed.push_back(all[k * (all.size() - 1) / (most_weighed - 1)]);
    return weighed;
}

} // namespace quartercut::demo
