// SPDX-License-Identifier: MIT
// How the machines drive. See drive.hpp.
#include "demo/drive.hpp"

#include "demo/streams.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quartercut::demo {

namespace {

constexpr double approach_m = 4.0;        // driven with the header up before the crop begins and after it ends
constexpr double look_ahead_m = 4.0;      // the operator lowers the header this far before the crop
constexpr double log_after_lift_s = 32.0; // the monitor stops logging when the header has been up this long
constexpr double unload_stop_s = 48.0;    // longer than the grain takes to leave the machine
constexpr double tank_kg = 9500.0;
constexpr double day_s = 86400.0;
constexpr double zone_offset_s = -6.0 * 3600.0;
constexpr double stop_hour = 20.5, start_hour = 11.5;
constexpr double steering_sd_m = 0.02;
constexpr std::array<double, 2> cruise_m_s{2.20, 1.95}; // swathed, standing

double local_hour(double time_s) { return std::fmod(time_s + zone_offset_s, day_s) / 3600.0; }

double next_morning(double time_s) {
    return (std::floor((time_s + zone_offset_s) / day_s) + 1.0) * day_s + start_hour * 3600.0 - zone_offset_s;
}

// What disturbs an even speed on a pass.
struct Hitch {
    double at_m = 0.0, length_m = 0.0;
    double slow = 1.0;   // share of the speed left
    double stop_s = 0.0; // stands still this long first
};

class Driver {
public:
    Driver(const CropLand& land, const DemoFieldPlan& plan, const Layout& layout, const DriveOrder& order,
           const DemoOptions& options)
        : land_(land), plan_(plan), layout_(layout), order_(order), step_(step_s(options)),
          per_record_(static_cast<std::size_t>(steps_per_record(options))),
          random_(stream(options.seed, order.field, Purpose::driving,
                         static_cast<std::uint64_t>(order.machine * 2 + order.method))) {
        campaign_.machine = order.machine;
        campaign_.method = order.method;
        time_ = order.start_s;
    }

    Campaign run() {
        for (std::size_t p = 0; p < layout_.passes.size(); ++p) {
            const PassPlan& pass = layout_.passes[p];
            if (pass.machine == order_.machine && pass.method == order_.method) run_pass(static_cast<int>(p));
        }
        if (!campaign_.steps.empty()) unload();
        campaign_.end_s = time_;
        return std::move(campaign_);
    }

private:
    [[nodiscard]] bool crop_under(const PassPlan& pass, double way_lo, double way_hi) const;
    [[nodiscard]] bool crop_reach(const PassPlan& pass, double& first, double& last) const;
    [[nodiscard]] Hitch draw_hitch(double first, double last);
    void run_pass(int index);
    void cut_along(const PassPlan& pass, double start, double end);
    void turn_to(double across, double along);
    void stand(double seconds);
    void unload();
    void push(double across, double along, double moved, const Rect& swept, bool header_up);

    const CropLand& land_;
    const DemoFieldPlan& plan_;
    const Layout& layout_;
    DriveOrder order_;
    double step_;
    std::size_t per_record_;
    Random random_;
    Campaign campaign_;
    double time_ = 0.0, across_ = 0.0, along_ = 0.0;
    double lifted_s_ = -1e9, load_kg_ = 0.0;
    std::size_t load_first_ = 0;
    int pass_ = 0;
    bool forward_ = true;
};

bool Driver::crop_under(const PassPlan& pass, double way_lo, double way_hi) const {
    constexpr int side_samples = 7;
    for (double way = way_lo; way <= way_hi; way += 1.0) {
        if (way < pass.from || way > pass.to) continue;
        for (int s = 0; s < side_samples; ++s) {
            const double side = pass.side_lo + (pass.side_hi - pass.side_lo) * (s + 0.5) / side_samples;
            if (pass.crosswise ? land_.is_crop(way, side) : land_.is_crop(side, way)) return true;
        }
    }
    return false;
}

bool Driver::crop_reach(const PassPlan& pass, double& first, double& last) const {
    first = last = -1.0;
    for (double way = pass.from + 0.25; way < pass.to; way += 0.5) {
        if (!crop_under(pass, way, way)) continue;
        if (first < 0.0) first = way - 0.25;
        last = way + 0.25;
    }
    return first >= 0.0;
}

Hitch Driver::draw_hitch(double first, double last) {
    Hitch hitch{random_.uniform(first, last), 40.0, 1.0, 0.0};
    const double draw = random_.uniform();
    if (draw < 0.04) hitch.stop_s = random_.uniform(12.0, 35.0);
    if (draw < 0.20) hitch.slow = random_.uniform(0.45, 0.75);
    return hitch;
}

void Driver::push(double across, double along, double moved, const Rect& swept, bool header_up) {
    time_ += step_;
    if (!header_up) lifted_s_ = time_;
    across_ = across;
    along_ = along;
    campaign_.steps.push_back(
        {time_, across, along, moved, swept, pass_, header_up, time_ - lifted_s_ < log_after_lift_s});
}

void Driver::cut_along(const PassPlan& pass, double start, double end) {
    const double side = 0.5 * (pass.side_lo + pass.side_hi), half_width = 0.5 * (pass.side_hi - pass.side_lo);
    const double sign = end > start ? 1.0 : -1.0;
    const double cruise = cruise_m_s[static_cast<std::size_t>(pass.method)] * (1.0 + 0.04 * random_.normal());
    const Hitch hitch = draw_hitch(std::min(start, end), std::max(start, end));
    double way = start, speed = 1.2, drift = 0.0, wander = 0.0, stopped_s = 0.0;
    while (sign * (end - way) > 0.0) {
        drift = 0.97 * drift + 0.01 * random_.normal();
        wander = 0.97 * wander + std::sqrt(1.0 - 0.97 * 0.97) * steering_sd_m * random_.normal();
        double aim = cruise * (1.0 + drift);
        if (std::abs(way - hitch.at_m) < 0.5 * hitch.length_m) aim *= hitch.slow;
        if (std::abs(way - hitch.at_m) < 3.0 && stopped_s < hitch.stop_s) {
            aim = 0.0;
            stopped_s += step_;
        }
        speed += std::clamp(aim - speed, -0.6 * step_, 0.35 * step_);
        const double next = way + sign * speed * step_;
        const bool down = crop_under(pass, std::min(way, next) - 1.0 - (sign < 0.0 ? look_ahead_m : 0.0),
                                     std::max(way, next) + 1.0 + (sign > 0.0 ? look_ahead_m : 0.0));
        const double lo = side + wander - half_width, hi = side + wander + half_width;
        const double from = std::clamp(std::min(way, next), pass.from, pass.to);
        const double to = std::clamp(std::max(way, next), pass.from, pass.to);
        Rect swept;
        if (down) swept = pass.crosswise ? Rect{from, to, lo, hi} : Rect{lo, hi, from, to};
        const double middle = side + wander;
        push(pass.crosswise ? next : middle, pass.crosswise ? middle : next, std::abs(next - way), swept, !down);
        way = next;
    }
}

void Driver::turn_to(double across, double along) {
    const double from_across = across_, from_along = along_;
    const double distance = std::hypot(across - from_across, along - from_along);
    const double seconds = std::max(random_.uniform(17.0, 25.0), distance / 4.0);
    const auto count = static_cast<int>(seconds / step_);
    // Turns swing out of the field: down the nearer end.
    const double swing = from_along > 0.5 * plan_.along_m ? 11.0 : -11.0;
    for (int k = 1; k <= count; ++k) {
        const double share = static_cast<double>(k) / count;
        const double smooth = share * share * (3.0 - 2.0 * share);
        const double to_across = from_across + (across - from_across) * smooth;
        const double to_along = from_along + (along - from_along) * smooth + swing * std::sin(std::numbers::pi * share);
        push(to_across, to_along, std::hypot(to_across - across_, to_along - along_), {}, true);
    }
}

void Driver::stand(double seconds) {
    for (double waited = 0.5 * step_; waited < seconds; waited += step_)
        push(across_, along_, 0.0, {}, true);
}

void Driver::unload() {
    stand(unload_stop_s);
    while (campaign_.steps.size() % per_record_ != 0) // no record may straddle two loads or the night
        stand(step_);
    campaign_.loads.push_back({load_first_, campaign_.steps.size()});
    load_first_ = campaign_.steps.size();
    load_kg_ = 0.0;
}

void Driver::run_pass(int index) {
    const PassPlan& pass = layout_.passes[static_cast<std::size_t>(index)];
    double first = 0.0, last = 0.0;
    if (!crop_reach(pass, first, last)) return;
    const double start = forward_ ? first - approach_m : last + approach_m;
    const double end = forward_ ? last + approach_m : first - approach_m;
    const double side = 0.5 * (pass.side_lo + pass.side_hi);
    const double across = pass.crosswise ? start : side, along = pass.crosswise ? side : start;
    if (campaign_.steps.empty()) {
        across_ = across;
        along_ = along;
    } else {
        const bool evening = local_hour(time_) > stop_hour;
        if (load_kg_ > tank_kg || evening) unload();
        if (evening) time_ = next_morning(time_) + random_.uniform(0.0, 1800.0);
        pass_ = index;
        turn_to(across, along);
    }
    pass_ = index;
    cut_along(pass, start, end);
    // How full the tank is, as the operator guesses it from land and field.
    load_kg_ += (last - first) * pass.real_width_m * plan_.mean_yield_t_ha * 0.1;
    forward_ = !forward_;
}

} // namespace

int steps_per_record(const DemoOptions& options) {
    return std::max(1, static_cast<int>(std::ceil(options.record_interval_s - 1e-9)));
}

double step_s(const DemoOptions& options) { return options.record_interval_s / steps_per_record(options); }

Campaign drive(const CropLand& land, const DemoFieldPlan& plan, const Layout& layout, const DriveOrder& order,
               const DemoOptions& options) {
    return Driver(land, plan, layout, order, options).run();
}

} // namespace quartercut::demo
