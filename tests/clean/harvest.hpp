// SPDX-License-Identifier: MIT
// A small harvest simulator for the tests of cleaning: one square field, passes back and forth, a machine that delays
// and mixes the grain, a monitor that logs. The truth is known for every record.
#pragma once

#include "base/random.hpp"
#include "quartercut/clean.hpp"

#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <vector>

namespace quartercut::test {

inline constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

inline MultiPolygon rectangle(double x0, double y0, double x1, double y1) {
    return {Polygon{Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

/// Two methods, canola, no units to think about: basis 10 %.
inline Season plain_season() {
    Season season;
    season.crop = "canola";
    season.basis_pct = 10.0;
    season.bushel_lb = 50.0;
    season.baseline = "swathed";
    season.methods = {{"swathed", "swathed", {}}, {"standing", "standing", {}}};
    season.yield_low_t_ha = 0.1;
    season.yield_high_t_ha = 6.0;
    return season;
}

/// One record; defaults are a machine at 2 m/s, 10 m wide, heading north, 2.5 t/ha at the basis, one record a second.
struct Row {
    double x_m = 0.0, y_m = 0.0, time_s = 0.0;
    double duration_s = 1.0, distance_m = 2.0, width_m = 10.0, speed_m_s = 2.0;
    double mass_kg = 5.0, moisture_pct = 10.0;
    bool at_basis = true, header_up = false, off_field = false;
    int machine = 0, method = 0, area = 0, load = -1;
};

inline void add(Records& r, const Row& row) {
    r.x_m.push_back(row.x_m);
    r.y_m.push_back(row.y_m);
    r.time_s.push_back(row.time_s);
    r.duration_s.push_back(row.duration_s);
    r.distance_m.push_back(row.distance_m);
    r.width_m.push_back(row.width_m);
    r.speed_m_s.push_back(row.speed_m_s);
    r.heading_deg.push_back(no_number);
    r.mass_kg.push_back(row.mass_kg);
    r.moisture_pct.push_back(row.moisture_pct);
    r.logged_yield_t_ha.push_back(10.0 * row.mass_kg / (row.distance_m * row.width_m));
    r.at_basis.push_back(row.at_basis);
    r.header_up.push_back(row.header_up);
    r.machine.push_back(row.machine);
    r.method.push_back(row.method);
    r.area.push_back(row.area);
    r.load.push_back(row.load);
    r.off_field.push_back(row.off_field);
    r.input.push_back(0);
    r.row.push_back(static_cast<std::uint32_t>(r.row.size() + 1));
}

/// A field of one method area (method 0) and no records yet.
inline StandardField plain_field(double width_m, double height_m) {
    StandardField field;
    field.name = "Home quarter";
    field.boundary_m = rectangle(0.0, 0.0, width_m, height_m);
    field.area_m2 = width_m * height_m;
    field.method_areas = {{field.boundary_m, 0, "", 1}};
    return field;
}

inline Standardised season_of(StandardField field) {
    Standardised input;
    input.machines = {"red"};
    input.fields.push_back(std::move(field));
    return input;
}

/// `count` records of one pass heading north (or south) from (x, y), one a second, 2 m apart.
inline void add_pass(Records& r, double x_m, double y_m, int count, double start_s, double step_m = 2.0) {
    for (int k = 1; k <= count; ++k) {
        Row row;
        row.x_m = x_m;
        row.y_m = y_m + step_m * k;
        row.time_s = start_s + k;
        row.distance_m = std::abs(step_m);
        row.speed_m_s = std::abs(step_m);
        row.mass_kg = 2.5 * row.distance_m;
        add(r, row);
    }
}

/// What a simulated harvest is told.
struct Harvest {
    double width_m = 400.0, height_m = 400.0; ///< field; passes run north and south
    double cut_m = 10.0;
    double speed_m_s = 2.0;
    double interval_s = 1.0;               ///< between records
    double delay_s = 12.0, mixing_s = 3.0; ///< transport, and time constant of the mixing after it
    double noise = 0.05;                   ///< of one second's flow, relative
    bool logs_turns = true;                ///< records with the header up between passes
    double turn_s = 20.0;
    std::uint64_t seed = 1;
    std::function<double(double, double)> yield_t_ha = [](double, double) { return 2.5; };
    std::function<int(double, double)> method = [](double, double) { return 0; };
    std::function<double(double, double)> factor = [](double, double) { return 1.0; }; ///< monitor over truth
};

/// A surface with structure at 40 to 200 m, mean 2.5, spread about 0.4 t/ha: eight waves from the seed.
inline std::function<double(double, double)> rough_surface(std::uint64_t seed) {
    Random random(seed);
    struct Wave {
        double kx, ky, phase, height;
    };
    std::vector<Wave> waves;
    for (int k = 0; k < 8; ++k) {
        const double length = random.uniform(40.0, 200.0), turn = random.uniform(0.0, 6.283185307);
        waves.push_back({6.283185307 / length * std::cos(turn), 6.283185307 / length * std::sin(turn),
                         random.uniform(0.0, 6.283185307), 0.2});
    }
    return [waves](double x, double y) {
        double value = 2.5;
        for (const Wave& wave : waves)
            value += wave.height * std::sin(wave.kx * x + wave.ky * y + wave.phase);
        return std::max(value, 0.3);
    };
}

/// One second of the machine's life.
struct Second {
    double x_m, y_m;
    bool up;
    double grain_kg; ///< cut in this second
};

inline std::vector<Second> drive(const Harvest& h) {
    std::vector<Second> life;
    const int passes = static_cast<int>(h.width_m / h.cut_m);
    const int seconds = static_cast<int>(h.height_m / h.speed_m_s);
    for (int p = 0; p < passes; ++p) {
        const double x = (p + 0.5) * h.cut_m;
        const bool north = p % 2 == 0;
        for (int s = 1; s <= seconds; ++s) {
            const double y = north ? s * h.speed_m_s : h.height_m - s * h.speed_m_s;
            const double middle = north ? y - 0.5 * h.speed_m_s : y + 0.5 * h.speed_m_s;
            const double grain = h.yield_t_ha(x, middle) / 10.0 * h.cut_m * h.speed_m_s;
            life.push_back({x, y, false, grain});
        }
        for (int s = 1; s <= static_cast<int>(h.turn_s); ++s) {
            const double y = north ? h.height_m + 0.5 : -0.5;
            life.push_back({x + h.cut_m * s / h.turn_s, y, true, 0.0});
        }
    }
    return life;
}

/// Flow at the sensor: delayed by whole seconds, then mixed by the exact exponential response of one-second steps.
inline std::vector<double> sensed(const Harvest& h, const std::vector<Second>& life) {
    std::vector<double> flow(life.size(), 0.0);
    const auto delay = static_cast<std::size_t>(h.delay_s);
    const double keep = h.mixing_s > 0.0 ? std::exp(-1.0 / h.mixing_s) : 0.0;
    // A first-order mixer fed evenly over a second: level at the end, and what left during it.
    double held = 0.0;
    for (std::size_t s = 0; s < life.size(); ++s) {
        const double fed = s >= delay ? life[s - delay].grain_kg : 0.0;
        const double next = h.mixing_s > 0.0 ? held * keep + fed * h.mixing_s * (1.0 - keep) : 0.0;
        flow[s] = held + fed - next;
        held = next;
    }
    return flow;
}

/// The field with its records as a monitor would have logged them. Mass is at the basis.
inline StandardField simulate(const Harvest& h) {
    StandardField field = plain_field(h.width_m, h.height_m);
    const std::vector<Second> life = drive(h);
    const std::vector<double> flow = sensed(h, life);
    Random random(h.seed + 77);
    const auto interval = static_cast<std::size_t>(h.interval_s);
    double grain = 0.0, travelled = 0.0;
    for (std::size_t s = 0; s < life.size(); ++s) {
        grain += std::max(0.0, flow[s] * h.factor(life[s].x_m, life[s].y_m) * (1.0 + h.noise * random.normal()));
        travelled += life[s].up ? 10.0 / h.turn_s : h.speed_m_s;
        if ((s + 1) % interval != 0) continue;
        const bool inside = life[s].y_m >= 0.0 && life[s].y_m <= h.height_m;
        Row row;
        row.x_m = life[s].x_m;
        row.y_m = life[s].y_m;
        row.time_s = 1.0e9 + static_cast<double>(s + 1);
        row.duration_s = h.interval_s;
        row.distance_m = travelled;
        row.speed_m_s = travelled / h.interval_s;
        row.width_m = h.cut_m;
        row.mass_kg = grain;
        row.header_up = life[s].up;
        row.off_field = !inside;
        row.method = inside ? h.method(row.x_m, row.y_m) : -1;
        row.area = row.method >= 0 ? row.method : -1;
        if (h.logs_turns || !life[s].up) add(field.records, row);
        grain = travelled = 0.0;
    }
    return field;
}

inline std::size_t count_of(const CleanedField& cleaned, Removal why) {
    std::size_t count = 0;
    for (const Removal removal : cleaned.removal)
        count += removal == why;
    return count;
}

/// Sum of mass over sum of area of kept records with a method (t/ha).
inline double yield_of(const StandardField& field, const CleanedField& cleaned, int method) {
    double mass = 0.0, area = 0.0;
    for (std::size_t i = 0; i < cleaned.removal.size(); ++i) {
        if (cleaned.removal[i] != Removal::kept || field.records.method[i] != method) continue;
        mass += cleaned.mass_basis_kg[i];
        area += cleaned.area_m2[i];
    }
    return 10.0 * mass / area;
}

} // namespace quartercut::test
