// SPDX-License-Identifier: MIT
// Fields made by hand for the comparison's tests and study: strips side by side along north, passes along the strips,
// segments along the passes, a yield for every segment.
#pragma once

#include "quartercut/compare.hpp"

#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <vector>

namespace quartercut::testing {

struct Built {
    StandardField standard;
    CleanedField cleaned;
    ZonedField zoned;
};

struct FieldPlan {
    std::string name = "field";
    std::vector<int> strips;         ///< method of each strip, west to east
    std::vector<std::string> blocks; ///< pairs column per strip, or empty
    int passes_per_strip = 2;
    int segments = 16;
    double pass_width_m = 12.0;
    double segment_m = 50.0;
    int machine = 0;
    std::vector<std::string> strata; ///< south to north, equal lengths; empty: none
    std::function<double(int pass, int segment, int method)> yield_t_ha;
};

inline Ring rectangle(double x0, double y0, double x1, double y1) { return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}; }

inline Season two_method_season() {
    Season season;
    season.title = "Invented";
    season.crop = "canola";
    season.basis_pct = 10.0;
    season.baseline = "swathed";
    season.methods = {{"swathed", "Swathed", {}}, {"standing", "Cut standing", {}}};
    season.trial.randomised = true;
    return season;
}

inline std::size_t zones_per_strip(const FieldPlan& plan) { return plan.strata.empty() ? 1 : plan.strata.size(); }

inline void add_strip(const FieldPlan& plan, std::size_t strip, Built& out) {
    const double width = plan.passes_per_strip * plan.pass_width_m;
    const double x0 = static_cast<double>(strip) * width;
    const double length = plan.segments * plan.segment_m;
    const std::size_t parts = zones_per_strip(plan);
    for (std::size_t part = 0; part < parts; ++part) {
        Zone zone;
        zone.id = plan.name + "/" + std::to_string(strip) + (parts > 1 ? "/" + plan.strata[part] : "");
        zone.method = plan.strips[strip];
        zone.area_index = static_cast<int>(strip);
        if (!plan.blocks.empty()) zone.block = plan.blocks[strip];
        if (!plan.strata.empty()) zone.stratum = plan.strata[part];
        const double step = length / static_cast<double>(parts);
        const double y0 = step * static_cast<double>(part);
        zone.shape_m = {{rectangle(x0, y0, x0 + width, y0 + step), {}}};
        zone.area_m2 = width * step;
        zone.first_s = zone.last_s = std::numeric_limits<double>::quiet_NaN();
        out.zoned.zones.push_back(zone);
    }
}

inline void add_segments(const FieldPlan& plan, int pass, Built& out) {
    const auto strip = static_cast<std::size_t>(pass / plan.passes_per_strip);
    const auto parts = static_cast<int>(zones_per_strip(plan));
    for (int s = 0; s < plan.segments; ++s) {
        Segment segment;
        segment.pass = pass;
        segment.zone = static_cast<int>(strip) * parts + s * parts / plan.segments;
        segment.machine = plan.machine;
        segment.x_m = (pass + 0.5) * plan.pass_width_m;
        segment.y_m = (s + 0.5) * plan.segment_m;
        segment.length_m = plan.segment_m;
        segment.area_m2 = plan.segment_m * plan.pass_width_m;
        segment.moisture_pct = 10.0;
        segment.time_s = 1.7e9 + 60.0 * pass;
        segment.records = 10;
        segment.mass_basis_kg = plan.yield_t_ha(pass, s, plan.strips[strip]) * segment.area_m2 / 10.0;
        Zone& zone = out.zoned.zones[static_cast<std::size_t>(segment.zone)];
        zone.harvested_m2 += segment.area_m2;
        zone.mass_basis_kg += segment.mass_basis_kg;
        zone.records += segment.records;
        out.zoned.segments.push_back(segment);
    }
}

/// Both methods calibrated so well that sampling decides.
inline std::vector<Calibration> good_calibration(const Season& season, const std::string& machine) {
    std::vector<Calibration> out;
    for (const Method& method : season.methods)
        out.push_back({machine, method.name, 1.0, 0.002, 20.0, 12, "tickets"});
    return out;
}

inline Built build(const FieldPlan& plan, const Season& season) {
    Built out;
    out.standard.name = plan.name;
    for (std::size_t strip = 0; strip < plan.strips.size(); ++strip)
        add_strip(plan, strip, out);
    const int passes = static_cast<int>(plan.strips.size()) * plan.passes_per_strip;
    for (int pass = 0; pass < passes; ++pass) {
        Pass p;
        p.heading_deg = pass % 2 == 0 ? 0.0 : 180.0;
        p.length_m = plan.segments * plan.segment_m;
        out.cleaned.passes.push_back(p);
        add_segments(plan, pass, out);
    }
    out.cleaned.calibration = good_calibration(season, "north");
    for (const Method& method : season.methods) {
        WidthCheck check;
        check.method = method.name;
        check.u_rel = 0.002;
        out.cleaned.widths.push_back(check);
    }
    return out;
}

struct Farm {
    Standardised standardised;
    Cleaned cleaned;
    std::vector<ZonedField> zoned;
};

inline Farm farm_of(const std::vector<Built>& fields) {
    Farm farm;
    farm.standardised.machines = {"north", "south"};
    for (const Built& field : fields) {
        farm.standardised.fields.push_back(field.standard);
        farm.cleaned.fields.push_back(field.cleaned);
        farm.zoned.push_back(field.zoned);
    }
    return farm;
}

inline Comparison compare_farm(const Season& season, const std::vector<Built>& fields,
                               const CompareOptions& options = {}) {
    const Farm farm = farm_of(fields);
    return compare(season, farm.standardised, farm.cleaned, farm.zoned, options);
}

/// A number in (-1, 1) that looks like chance and is the same on every machine.
inline double rough(int a, int b, int c = 0) {
    auto bits = static_cast<unsigned>(a) * 73856093U ^ static_cast<unsigned>(b) * 19349663U ^
                static_cast<unsigned>(c) * 83492791U;
    bits ^= bits >> 13U;
    bits *= 0x5bd1e995U;
    bits ^= bits >> 15U;
    return static_cast<double>(bits % 20001U) / 10000.0 - 1.0;
}

/// 2.4 t/ha, a pass effect, noise, and `gain` for method 1.
inline std::function<double(int, int, int)> plain_yield(double gain, int salt = 0) {
    return [gain, salt](int pass, int segment, int method) {
        return 2.4 + 0.05 * rough(pass, 7, salt) + 0.15 * rough(pass, segment + 100, salt) + (method == 1 ? gain : 0.0);
    };
}

} // namespace quartercut::testing
