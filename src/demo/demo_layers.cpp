// SPDX-License-Identifier: MIT
// Layers, records and tickets of the simulated season. See demo_files.hpp.
#include "demo/demo_files.hpp"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cmath>
#include <iterator>

namespace quartercut::demo {

namespace {

const char* method_word(int method) { return demo_method_names[static_cast<std::size_t>(method)]; }
const char* machine_word(int machine) { return demo_machine_names[static_cast<std::size_t>(machine)]; }

double rounded(double value, double decimals) {
    const double scale = std::pow(10.0, decimals);
    return std::round(value * scale) / scale;
}

std::string day_text(int days_after_may_first) {
    const std::chrono::year_month_day day =
        std::chrono::sys_days{std::chrono::year{2025} / 5 / 1} + std::chrono::days{days_after_may_first};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                       static_cast<unsigned>(day.day()));
}

} // namespace

std::string utc_text(double time_s) {
    const auto tenths = static_cast<long long>(std::llround(time_s * 10.0));
    const std::chrono::sys_seconds moment{std::chrono::seconds{tenths / 10}};
    const auto midnight = std::chrono::floor<std::chrono::days>(moment);
    const std::chrono::year_month_day day{midnight};
    const std::chrono::hh_mm_ss clock{moment - midnight};
    const std::string fraction = tenths % 10 == 0 ? "" : fmt::format(".{}", tenths % 10);
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{}Z", static_cast<int>(day.year()),
                       static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()), clock.hours().count(),
                       clock.minutes().count(), clock.seconds().count(), fraction);
}

std::string tickets_csv(const DemoSeason& season) {
    std::string text = "ticket,field,machine,method,start,end,net_kg,moisture_pct,dockage_pct\n";
    for (const DemoTicket& t : season.tickets) {
        fmt::format_to(std::back_inserter(text), "{},{},{},{},{},{},{:.0f},{:.1f},{:.1f}\n", t.id,
                       season.fields[static_cast<std::size_t>(t.field)].plan.name, machine_word(t.machine),
                       method_word(t.method), utc_text(t.start_s), utc_text(t.end_s), t.net_kg, t.moisture_pct,
                       t.dockage_pct);
    }
    return text;
}

std::string records_csv(const DemoField& field, int machine) {
    const std::string head = "time,lon,lat,flow_kg_s,moisture_pct,speed_m_s,dist_m,dur_s,width_m,header_up,combine\n";
    std::string text = head;
    for (const DemoRecord& r : field.records) {
        if (r.machine != machine) continue;
        fmt::format_to(std::back_inserter(text), "{},{:.6f},{:.6f},{:.2f},{:.1f},{:.2f},{:.2f},{:g},{:.2f},{:d},{}\n",
                       utc_text(r.time_s), r.lon_deg, r.lat_deg, r.flow_kg_s, r.moisture_pct, r.speed_m_s, r.distance_m,
                       r.duration_s, r.width_m, r.header_up ? 1 : 0, machine_word(machine));
    }
    return text == head ? std::string() : text;
}

bool is_strip_trial(const DemoField& field) { return !field.plan.areas.front().block.empty(); }

Layer trial_records_layer(const DemoSeason& season, int machine) {
    Layer layer;
    layer.name = "records";
    LayerColumn time{"time", {}, {}}, combine{"combine", {}, {}};
    std::array<LayerColumn, 7> numbers{{{"flow_kg_s", {}, {}},
                                        {"moisture_pct", {}, {}},
                                        {"speed_m_s", {}, {}},
                                        {"dist_m", {}, {}},
                                        {"dur_s", {}, {}},
                                        {"width_m", {}, {}},
                                        {"header_up", {}, {}}}};
    for (const DemoField& field : season.fields) {
        if (!is_strip_trial(field)) continue;
        for (const DemoRecord& r : field.records) {
            if (r.machine != machine) continue;
            layer.points_deg.push_back({rounded(r.lon_deg, 7), rounded(r.lat_deg, 7)});
            time.texts.push_back(utc_text(r.time_s));
            combine.texts.emplace_back(machine_word(machine));
            const std::array<double, 7> values{rounded(r.flow_kg_s, 2),
                                               rounded(r.moisture_pct, 1),
                                               rounded(r.speed_m_s, 2),
                                               rounded(r.distance_m, 2),
                                               r.duration_s,
                                               rounded(r.width_m, 2),
                                               r.header_up ? 1.0 : 0.0};
            for (std::size_t i = 0; i < values.size(); ++i)
                numbers[i].numbers.push_back(values[i]);
        }
    }
    layer.columns.push_back(time);
    for (const LayerColumn& column : numbers)
        layer.columns.push_back(column);
    layer.columns.push_back(combine);
    return layer;
}

Layer boundaries_layer(const DemoSeason& season) {
    Layer layer;
    layer.name = "boundaries";
    LayerColumn name{"name", {}, {}}, legal{"legal", {}, {}}, variety{"variety", {}, {}}, seeded{"seeded", {}, {}};
    int number = 0;
    for (const DemoField& field : season.fields) {
        layer.shapes_deg.push_back(field.boundary_deg);
        name.texts.push_back(field.plan.name);
        legal.texts.push_back(field.plan.legal);
        variety.texts.push_back(field.plan.variety);
        seeded.texts.push_back(day_text(8 + number++ % 7));
    }
    layer.columns = {name, legal, variety, seeded};
    return layer;
}

Layer methods_layer(const DemoSeason& season) {
    Layer layer;
    layer.name = "methods";
    LayerColumn method{"method", {}, {}}, block{"block", {}, {}};
    for (const DemoField& field : season.fields) {
        for (const DemoArea& area : field.areas) {
            layer.shapes_deg.push_back(area.shape_deg);
            method.texts.emplace_back(method_word(area.method));
            block.texts.push_back(area.block);
        }
    }
    layer.columns = {method, block};
    return layer;
}

} // namespace quartercut::demo
