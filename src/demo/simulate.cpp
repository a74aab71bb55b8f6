// SPDX-License-Identifier: MIT
// The harvest of a season: machines drive, land is cut in the order of time, monitors log, scales weigh.
#include "demo/monitor.hpp"
#include "demo/streams.hpp"

#include "base/slips.hpp"
#include "base/sum.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace quartercut {

namespace demo {
namespace {

constexpr double first_morning_s = 1757007000.0; // 2025-09-04T17:30:00Z, half past eleven at UTC-6
constexpr double day_s = 86400.0;
constexpr double between_fields_s = 2700.0;

// Everything about one field while it is being harvested.
struct Work {
    CropLand land;
    Layout layout;
    std::vector<Campaign> campaigns;
    std::vector<CutGrain> grain; // one per campaign
};

// What a crop of one method is like in one field.
struct CropState {
    double moisture_pct, dockage_pct;
};

CropState crop_state(const DemoOptions& options, std::size_t field, int method) {
    Random random = stream(options.seed, field, Purpose::weather, static_cast<std::uint64_t>(method));
    const bool swathed = method == demo_swathed;
    return {(swathed ? 8.3 : 9.9) + 0.35 * random.normal(), (swathed ? 1.8 : 2.3) + 0.2 * random.normal()};
}

// Grain dries through the afternoon: half a point from noon to late afternoon and back.
double moisture_now(const CropState& crop, double time_s) {
    const double hour = std::fmod(time_s - 6.0 * 3600.0, day_s) / 3600.0;
    return crop.moisture_pct - 0.5 * std::cos(2.0 * std::numbers::pi * (hour - 16.5) / 24.0);
}

void put_up(CutGrain& grain, const CropState& crop, std::size_t steps) {
    for (std::vector<double>* values : {&grain.area_m2, &grain.basis_kg, &grain.gross_kg, &grain.water_kg})
        values->assign(steps, 0.0);
    grain.dockage_pct = crop.dockage_pct;
}

// Clean grain at the basis -> the wet grain with dockage that went into the machine.
void cut_step(CutGrain& grain, std::size_t k, const Taken& taken, double moisture_pct) {
    const double dry = taken.basis_kg * (100.0 - demo_basis_pct) / 100.0;
    const double gross = dry / (1.0 - moisture_pct / 100.0) / (1.0 - grain.dockage_pct / 100.0);
    grain.area_m2[k] = taken.area_m2;
    grain.basis_kg[k] = taken.basis_kg;
    grain.gross_kg[k] = gross;
    grain.water_kg[k] = gross * moisture_pct / 100.0;
}

struct Turn {
    double time_s;
    std::size_t campaign, first, last; // steps of one pass
};

// Passes of all machines in the field in the order in which they began.
std::vector<Turn> in_order_of_time(const std::vector<Campaign>& campaigns) {
    std::vector<Turn> turns;
    for (std::size_t c = 0; c < campaigns.size(); ++c) {
        const std::vector<Step>& steps = campaigns[c].steps;
        for (std::size_t first = 0; first < steps.size();) {
            std::size_t last = first;
            while (last < steps.size() && steps[last].pass == steps[first].pass)
                ++last;
            turns.push_back({steps[first].time_s, c, first, last});
            first = last;
        }
    }
    std::stable_sort(turns.begin(), turns.end(), [](const Turn& a, const Turn& b) { return a.time_s < b.time_s; });
    return turns;
}

void cut_field(Work& work, const DemoOptions& options, std::size_t field) {
    work.grain.resize(work.campaigns.size());
    std::vector<CropState> crops;
    for (std::size_t c = 0; c < work.campaigns.size(); ++c) {
        crops.push_back(crop_state(options, field, work.campaigns[c].method));
        put_up(work.grain[c], crops[c], work.campaigns[c].steps.size());
    }
    for (const Turn& turn : in_order_of_time(work.campaigns)) {
        const Campaign& campaign = work.campaigns[turn.campaign];
        for (std::size_t k = turn.first; k < turn.last; ++k) {
            const Step& step = campaign.steps[k];
            if (step.header_up) continue;
            const double gain = campaign.method == demo_standing ? options.true_gain_t_ha : 0.0;
            const PassPlan& pass = work.layout.passes[static_cast<std::size_t>(step.pass)];
            const Taken taken = work.land.take(step.swept, gain + pass.effect_t_ha);
            cut_step(work.grain[turn.campaign], k, taken, moisture_now(crops[turn.campaign], step.time_s));
        }
    }
}

// All swathed land first, as it is ready first; each machine goes on when it is free and the day has come.
void drive_season(const std::vector<DemoFieldPlan>& plans, const DemoOptions& options, std::vector<Work>& works) {
    std::array<double, 2> free_s{first_morning_s, first_morning_s};
    for (const int method : {demo_swathed, demo_standing}) {
        const auto day = [&plans, method](std::size_t f) {
            return method == demo_swathed ? plans[f].first_day_swathed : plans[f].first_day_standing;
        };
        std::vector<std::size_t> order(plans.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(), [&day](std::size_t a, std::size_t b) { return day(a) < day(b); });
        for (const std::size_t f : order) {
            for (int machine = 0; machine < 2; ++machine) {
                double& clock = free_s[static_cast<std::size_t>(machine)];
                const double start = std::max(clock, first_morning_s + day(f) * day_s);
                Campaign campaign =
                    drive(works[f].land, plans[f], works[f].layout, {f, machine, method, start}, options);
                if (campaign.steps.empty()) continue;
                clock = campaign.end_s + between_fields_s;
                works[f].campaigns.push_back(std::move(campaign));
            }
        }
    }
}

void put_in_areas(DemoField& field, const Work& work, const FieldPlace& place) {
    for (std::size_t i = 0; i < field.plan.areas.size(); ++i) {
        const AreaSpan& span = work.layout.areas[i];
        DemoArea area;
        area.shape_deg = to_degrees(drawn_area_m(field.plan, span), place);
        area.method = field.plan.areas[i].method;
        area.block = field.plan.areas[i].block;
        area.land_m2 = work.land.crop_m2({span.across_lo, span.across_hi, span.along_lo, span.along_hi});
        field.areas.push_back(area);
    }
}

void put_in_passes(DemoField& field, const Work& work) {
    for (const PassPlan& plan : work.layout.passes) {
        DemoPass pass;
        pass.area = plan.area;
        pass.method = plan.method;
        pass.machine = plan.machine;
        pass.real_width_m = plan.real_width_m;
        pass.logged_width_m = plan.logged_width_m;
        field.passes.push_back(pass);
    }
    for (std::size_t c = 0; c < work.campaigns.size(); ++c) {
        for (std::size_t k = 0; k < work.campaigns[c].steps.size(); ++k) {
            const Step& step = work.campaigns[c].steps[k];
            DemoPass& pass = field.passes[static_cast<std::size_t>(step.pass)];
            if (step.header_up) continue;
            if (pass.cut_m2 == 0.0) pass.start_s = step.time_s;
            pass.end_s = step.time_s;
            pass.cut_m2 += work.grain[c].area_m2[k];
            pass.cut_basis_kg += work.grain[c].basis_kg[k];
        }
    }
    for (const DemoPass& pass : field.passes) {
        if (pass.area < 0) continue;
        DemoArea& area = field.areas[static_cast<std::size_t>(pass.area)];
        area.cut_m2 += pass.cut_m2;
        area.cut_basis_kg += pass.cut_basis_kg;
    }
}

void log_field(DemoSeason& season, DemoField& field, const Work& work, std::size_t f) {
    const FieldPlace place(field.plan);
    for (std::size_t c = 0; c < work.campaigns.size(); ++c) {
        const Campaign& campaign = work.campaigns[c];
        const DemoMonitor& monitor = season.monitors[static_cast<std::size_t>(campaign.machine * 2 + campaign.method)];
        const SensorGrain grain = at_sensor(work.grain[c], monitor, step_s(season.options));
        const LogContext context{season.options, monitor, campaign, work.grain[c], grain, f};
        const std::vector<DemoRecord> records = log_records(context, work.layout.passes, place);
        field.records.insert(field.records.end(), records.begin(), records.end());
        const std::vector<DemoTicket> tickets = weigh_loads(context);
        season.tickets.insert(season.tickets.end(), tickets.begin(), tickets.end());
    }
    std::stable_sort(field.records.begin(), field.records.end(), [](const DemoRecord& a, const DemoRecord& b) {
        return a.machine != b.machine ? a.machine < b.machine : a.time_s < b.time_s;
    });
}

double logged_basis_kg(const DemoRecord& r) {
    return r.flow_kg_s * r.duration_s * (100.0 - r.moisture_pct) / (100.0 - demo_basis_pct);
}

void sum_factors(DemoSeason& season) {
    for (DemoMonitor& monitor : season.monitors) {
        Sum truth, logged;
        for (const DemoField& field : season.fields) {
            for (const DemoRecord& r : field.records) {
                if (r.machine != monitor.machine ||
                    field.passes[static_cast<std::size_t>(r.pass)].method != monitor.method)
                    continue;
                truth += r.cut_basis_kg;
                logged += logged_basis_kg(r);
            }
        }
        monitor.cut_basis_kg = truth.value();
        monitor.true_factor = logged.value() > 0.0 ? truth.value() / logged.value() : 0.0;
    }
}

// The number the raw map suggests: plain means over records in the crop, logged width, no lag, no calibration.
double raw_gain(const DemoSeason& season) {
    std::array<std::vector<double>, 2> yields_t_ha;
    for (const DemoField& field : season.fields) {
        for (const DemoRecord& r : field.records) {
            const DemoPass& pass = field.passes[static_cast<std::size_t>(r.pass)];
            if (pass.area < 0 || r.header_up || r.flow_kg_s <= 0.0 || r.distance_m <= 0.0) continue;
            yields_t_ha.at(static_cast<std::size_t>(pass.method))
                .push_back(logged_basis_kg(r) / (r.width_m * r.distance_m) * 10.0);
        }
    }
    if (yields_t_ha[0].empty() || yields_t_ha[1].empty()) return 0.0;
    return mean_without_slips(yields_t_ha[1]) - mean_without_slips(yields_t_ha[0]);
}

} // namespace
} // namespace demo

DemoSeason simulate_harvest(const std::vector<DemoFieldPlan>& plans, const DemoOptions& options) {
    DemoSeason season;
    season.options = options;
    season.monitors = demo::monitors();
    std::vector<demo::Work> works;
    for (std::size_t f = 0; f < plans.size(); ++f)
        works.push_back({demo::CropLand(plans[f], options, f), demo::lay_out(plans[f], options, f), {}, {}});
    demo::drive_season(plans, options, works);
    for (std::size_t f = 0; f < plans.size(); ++f) {
        DemoField field;
        field.plan = plans[f];
        const demo::FieldPlace place(plans[f]);
        field.boundary_deg = demo::to_degrees(demo::boundary_m(plans[f]), place);
        field.area_m2 = planar_area(demo::boundary_m(plans[f]));
        demo::cut_field(works[f], options, f);
        demo::put_in_areas(field, works[f], place);
        demo::put_in_passes(field, works[f]);
        demo::log_field(season, field, works[f], f);
        season.fields.push_back(std::move(field));
    }
    std::stable_sort(season.tickets.begin(), season.tickets.end(),
                     [](const DemoTicket& a, const DemoTicket& b) { return a.start_s < b.start_s; });
    for (std::size_t t = 0; t < season.tickets.size(); ++t)
        season.tickets[t].id = std::to_string(1001 + t);
    demo::sum_factors(season);
    season.raw_gain_t_ha = demo::raw_gain(season);
    return season;
}

} // namespace quartercut
