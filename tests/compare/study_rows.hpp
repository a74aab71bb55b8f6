// SPDX-License-Identifier: MIT
// One row of the calibration study: fields of one kind are drawn, cut by one layout, read by instruments that are out by
// as much as the budget says, and compared. The study runs it for a thousand fields a row, the tests for a few.
#pragma once

#include "field_builder.hpp"
#include "simulated_land.hpp"

#include <algorithm>

namespace quartercut::testing {

constexpr double mean_t_ha = 2.4;
// Relative errors of one method's readings, as instrument_lines takes them for these fields: calibration as stated below;
// moisture 0.3 point / sqrt(2) in 90, dockage 0.5 %, width 0.2 %, lag and ramps 0.3 %, as the root of their squares.
constexpr double calibration_u = 0.01;
constexpr double other_u = 0.0066;

enum class Design { pairs, pairs_not_random, split, whole };

inline const char* design_word(Design design) {
    switch (design) {
    case Design::pairs:
        return "replicated-randomised";
    case Design::pairs_not_random:
        return "replicated (ABBA)";
    case Design::split:
        return "split";
    case Design::whole:
        break;
    }
    return "whole-field, 5 + 5";
}

/// A split field goes through the spatial model, whose cost grows with the cube of the segments: a smaller field.
inline Grid grid_of(Design design) { return design == Design::split ? Grid{12, 10, 12.0, 50.0} : Grid{}; }

inline std::vector<int> strips_of(Design design, Normal& normal) {
    switch (design) {
    case Design::pairs: {
        std::vector<int> strips;
        for (int pair = 0; pair < 6; ++pair) {
            const int first = normal.coin() ? 1 : 0;
            strips.push_back(first);
            strips.push_back(1 - first);
        }
        return strips;
    }
    case Design::pairs_not_random:
        return {0, 1, 1, 0, 0, 1, 1, 0, 0, 1, 1, 0};
    case Design::split:
        return {0, 1};
    case Design::whole:
        break;
    }
    return {0};
}

/// Each method has a factor of its own, from its own loads: equal entries would be read as one common factor.
inline void calibrate_each(Built& field) {
    int loads = 10;
    for (Calibration& c : field.cleaned.calibration) {
        c.u_rel = calibration_u;
        c.loads = loads++;
    }
}

struct StudyRow {
    LandKind kind;
    Design design = Design::pairs;
    double gain_t_ha = 0.0;
    int fields = 1000;
    double out_by = 1.0; ///< how far the instruments are out, as a multiple of what the budget says
};

/// Every row has draws of its own, so that rows may be judged together.
inline std::uint64_t seed_of(const StudyRow& row) {
    std::uint64_t seed = 2025;
    for (const char c : row.kind.name)
        seed = 31 * seed + static_cast<std::uint64_t>(c);
    return 31 * (31 * seed + static_cast<std::uint64_t>(row.design)) + (row.gain_t_ha > 0.0 ? 1U : 0U);
}

struct Drawn {
    Built field;
    double read_gain = 0.0; ///< difference as the instruments show it
};

inline Drawn draw_field(const Land& land, const StudyRow& row, Normal& normal, const Season& season) {
    FieldPlan plan;
    plan.strips = strips_of(row.design, normal);
    const Grid grid = grid_of(row.design);
    plan.passes_per_strip = grid.passes / static_cast<int>(plan.strips.size());
    plan.segments = grid.segments;
    const double u = row.out_by * std::hypot(calibration_u, other_u);
    const double gain = row.gain_t_ha;
    const double factor[2] = {1.0 + u * normal(), 1.0 + u * normal()};
    const Eigen::VectorXd yield = land.draw(normal);
    plan.yield_t_ha = [&](int pass, int segment, int method) {
        return factor[method] * (yield(land.index(pass, segment)) + (method == 1 ? gain : 0.0));
    };
    Drawn out{build(plan, season), 0.0};
    out.read_gain = factor[1] * (yield.mean() + gain) - factor[0] * yield.mean();
    calibrate_each(out.field);
    return out;
}

struct Tally {
    int n = 0, found = 0, sampling_holds = 0, total_holds = 0, none = 0;
    void add(const std::optional<Interval>& sampling, const std::optional<Interval>& total, Finding finding,
             double read_gain, double gain) {
        ++n;
        if (!sampling || !total) {
            ++none;
            return;
        }
        if (finding != Finding::not_shown) ++found;
        if ((*sampling)[0] <= read_gain && read_gain <= (*sampling)[1]) ++sampling_holds;
        if ((*total)[0] <= gain && gain <= (*total)[1]) ++total_holds;
    }
};

inline Tally study_within(const StudyRow& row) {
    Season season = two_method_season();
    season.trial.randomised = row.design == Design::pairs;
    const Land land(row.kind, grid_of(row.design));
    Normal normal(seed_of(row));
    std::vector<Built> built;
    std::vector<double> read;
    for (int i = 0; i < row.fields; ++i) {
        Drawn drawn = draw_field(land, row, normal, season);
        built.push_back(std::move(drawn.field));
        read.push_back(drawn.read_gain);
    }
    CompareOptions options;
    options.sensitivity = false;
    const Comparison result = compare_farm(season, built, options);
    Tally tally;
    for (std::size_t i = 0; i < built.size(); ++i) {
        const Contrast& c = result.fields[i].contrasts.at(0);
        tally.add(c.ci95_t_ha, c.ci95_total_t_ha, c.finding, read[i], row.gain_t_ha);
    }
    return tally;
}

/// Geometric mean yield of every other field from the first.
inline double baseline_mean(const std::vector<Built>& fields) {
    double sum = 0.0;
    for (std::size_t f = 0; f < fields.size(); f += 2) {
        double mass = 0.0;
        double area = 0.0;
        for (const Segment& s : fields[f].zoned.segments) {
            mass += s.mass_basis_kg;
            area += s.area_m2;
        }
        sum += std::log(10.0 * mass / area);
    }
    return std::exp(sum / (static_cast<double>(fields.size()) / 2.0));
}

/// Ten whole fields a farm, 12 % between fields; the gain is a share of each field's yield.
inline Tally study_whole(const StudyRow& row) {
    const double gain = row.gain_t_ha;
    const Season season = two_method_season();
    const Land land(row.kind, Grid{});
    Normal normal(seed_of(row));
    Tally tally;
    for (int farm = 0; farm < row.fields; ++farm) {
        const double u = row.out_by * std::hypot(calibration_u, other_u);
        const double factor[2] = {1.0 + u * normal(), 1.0 + u * normal()};
        std::vector<Built> fields;
        for (int f = 0; f < 10; ++f) {
            const int method = f % 2;
            const double level = std::exp(0.12 * normal()) * (method == 1 ? 1.0 + gain / mean_t_ha : 1.0);
            const Eigen::VectorXd yield = land.draw(normal);
            FieldPlan plan;
            plan.strips = {method};
            plan.passes_per_strip = 24;
            plan.yield_t_ha = [&](int pass, int segment, int m) {
                return factor[m] * level * yield(land.index(pass, segment));
            };
            fields.push_back(build(plan, season));
            calibrate_each(fields.back());
        }
        const Comparison result = compare_farm(season, fields);
        const FarmContrast& answer = result.farm.at(0);
        // In t/ha at this farm's own baseline mean, which the interval is stated at.
        const double baseline = baseline_mean(fields);
        tally.add(answer.ci95_t_ha, answer.ci95_total_t_ha, answer.finding,
                  baseline * (factor[1] / factor[0] * (1.0 + gain / mean_t_ha) - 1.0), baseline * gain / mean_t_ha);
    }
    return tally;
}

inline Tally study(const StudyRow& row) { return row.design == Design::whole ? study_whole(row) : study_within(row); }

} // namespace quartercut::testing
