// SPDX-License-Identifier: MIT
// How often is the comparison wrong? Fields of five kinds are drawn, cut by every layout, read by instruments that are
// out by as much as the budget says, and compared. Printed: how often a difference is found where there is none, and
// how often the intervals hold the truth. Usage: calibration_study [fields per row, default 1000]
//
// "sampling" speaks of the 95 % interval of sampling error and the difference as the instruments read it; "total" of
// the interval with all errors and the true difference.
#include "../compare/field_builder.hpp"
#include "../compare/simulated_land.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>

namespace quartercut::testing {
namespace {

constexpr double mean_t_ha = 2.4;
// Relative errors of one method's readings, as instrument_lines takes them: calibration, moisture, dockage, width, lag.
constexpr double calibration_u = 0.01;
constexpr double other_u = 0.00715;

enum class Design { pairs, pairs_not_random, split, whole };

const char* design_word(Design design) {
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
Grid grid_of(Design design) { return design == Design::split ? Grid{16, 12, 12.0, 50.0} : Grid{}; }

std::vector<int> strips_of(Design design, Normal& normal) {
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
void calibrate_each(Built& field) {
    int loads = 10;
    for (Calibration& c : field.cleaned.calibration) {
        c.u_rel = calibration_u;
        c.loads = loads++;
    }
}

struct Drawn {
    Built field;
    double read_gain = 0.0; ///< difference as the instruments show it
};

Drawn draw_field(const Land& land, Design design, double gain, Normal& normal, const Season& season) {
    FieldPlan plan;
    plan.strips = strips_of(design, normal);
    const Grid grid = grid_of(design);
    plan.passes_per_strip = grid.passes / static_cast<int>(plan.strips.size());
    plan.segments = grid.segments;
    const double u = std::hypot(calibration_u, other_u);
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

void print_row(const LandKind& kind, Design design, double gain, const Tally& tally) {
    const double with = std::max(1, tally.n - tally.none);
    fmt::print("{:<26} {:<22} {:>6.1f} %  {:>8.1f} %  {:>9.1f} %  {:>8.1f} %  {:>5}\n", kind.name, design_word(design),
               100.0 * gain / mean_t_ha, 100.0 * tally.found / with, 100.0 * tally.sampling_holds / with,
               100.0 * tally.total_holds / with, tally.none);
    std::fflush(stdout);
}

Tally study_within(const LandKind& kind, Design design, double gain, int fields) {
    Season season = two_method_season();
    season.trial.randomised = design == Design::pairs;
    const Land land(kind, grid_of(design));
    Normal normal(2025);
    std::vector<Built> built;
    std::vector<double> read;
    for (int i = 0; i < fields; ++i) {
        Drawn drawn = draw_field(land, design, gain, normal, season);
        built.push_back(std::move(drawn.field));
        read.push_back(drawn.read_gain);
    }
    CompareOptions options;
    options.sensitivity = false;
    const Comparison result = compare_farm(season, built, options);
    Tally tally;
    for (std::size_t i = 0; i < built.size(); ++i) {
        const Contrast& c = result.fields[i].contrasts.at(0);
        tally.add(c.ci95_t_ha, c.ci95_total_t_ha, c.finding, read[i], gain);
    }
    return tally;
}

/// Geometric mean yield of every other field from the first.
double baseline_mean(const std::vector<Built>& fields) {
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
Tally study_whole(const LandKind& kind, double gain, int farms) {
    const Season season = two_method_season();
    const Land land(kind, Grid{});
    Normal normal(2026);
    Tally tally;
    for (int farm = 0; farm < farms; ++farm) {
        const double u = std::hypot(calibration_u, other_u);
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
        const FarmContrast& row = result.farm.at(0);
        // In t/ha at this farm's own baseline mean, which the interval is stated at.
        const double baseline = baseline_mean(fields);
        tally.add(row.ci95_t_ha, row.ci95_total_t_ha, row.finding,
                  baseline * (factor[1] / factor[0] * (1.0 + gain / mean_t_ha) - 1.0), baseline * gain / mean_t_ha);
    }
    return tally;
}

} // namespace
} // namespace quartercut::testing

int main(int argc, char** argv) {
    using namespace quartercut::testing;
    const int fields = argc > 1 ? std::atoi(argv[1]) : 1000;
    if (fields < 1) {
        fmt::print(stderr, "Usage: calibration_study [fields per row, at least 1]\n");
        return 2;
    }
    fmt::print("{:<26} {:<22} {:>8}  {:>10}  {:>11}  {:>10}  {:>5}\n", "field", "layout", "effect", "found", "sampling",
               "total", "none");
    for (const LandKind& kind : land_kinds())
        for (const double gain : {0.0, 0.05 * mean_t_ha})
            for (const Design design : {Design::pairs, Design::pairs_not_random, Design::split, Design::whole})
                print_row(kind, design, gain,
                          design == Design::whole ? study_whole(kind, gain, fields)
                                                  : study_within(kind, design, gain, fields));
    return 0;
}
