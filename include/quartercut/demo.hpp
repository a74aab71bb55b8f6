// SPDX-License-Identifier: MIT
// An invented season on invented land whose true answer is known, for the demo, for tests and for trying the program.
//
// Two doors: `write_demo` writes a season as files; `simulate_harvest` gives the same season, or one over fields of the
// caller's own making, as plain data together with the truth. The simulator cuts land: every kilogram a monitor or a
// scale sees was taken from a square metre that nobody had cut before.
#pragma once

#include "quartercut/geometry.hpp"

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace quartercut {

/// What the harvest simulator is told. Defaults give the demo season.
struct DemoOptions {
    std::uint64_t seed = 1;
    double true_gain_t_ha = 0.09;   ///< standing minus swathed, in truth
    double record_interval_s = 4.0; ///< logging interval of the monitors
    double structure = 1.0;         ///< 1: as on the demo farm; 0: fields without any pattern
    double pass_sd = 0.012;         ///< real differences from pass to pass, share of the field's mean yield
    double noise = 1.0;             ///< multiplies every sensor, position, scale and sample error; 0: none
};

struct DemoTruth {
    double gain_t_ha = 0.0;
    double raw_gain_t_ha = 0.0; ///< what plain record means would say
    std::vector<std::string> fields;
};

/// Writes the season file, layers, records, tickets and a README with the truth into `folder`.
/// \throws WriteError  the folder exists and is not empty, or cannot be written
DemoTruth write_demo(const std::filesystem::path& folder, const DemoOptions& options);

// ---- the simulator -----------------------------------------------------------------------------------------------

inline constexpr int demo_swathed = 0, demo_standing = 1; ///< codes of the two methods
inline constexpr std::array<const char*, 2> demo_method_names{"swathed", "standing"};
inline constexpr std::array<const char*, 2> demo_machine_names{"A", "B"};
inline constexpr double demo_basis_pct = 10.0;

/// Land to be cut one way, side by side across the field from its west (or south) edge on.
struct DemoAreaPlan {
    int method = demo_swathed;
    int passes = 0;       ///< whole passes wide; 0: an equal share of what the others leave
    std::string block;    ///< strip pair it belongs to, or empty
    double share_a = 1.0; ///< 0..1 of its passes cut by machine A, the rest by B
};

/// A round hollow: a slough that was never seeded, or a wet spot where the crop is thin.
struct DemoHollow {
    double across_m = 0.0, along_m = 0.0, radius_m = 0.0;
    double loss = 1.0; ///< wet spot: share of the yield lost in its middle
};

struct DemoFieldPlan {
    std::string name, legal, variety;
    double across_m = 790.0, along_m = 790.0; ///< sides, across and along the passes
    bool east_west = false;                   ///< passes run east-west instead of north-south
    double east_m = 0.0, north_m = 0.0;       ///< south-west corner on the farm
    double corner_cut_m = 0.0;                ///< legs of a corner cut off by a road, at (0, 0)
    double headland_m = 0.0;                  ///< cut first, around the ends, in no method area
    double mean_yield_t_ha = 2.4;
    double trend_t_ha = 0.0;                            ///< rise from one side to the other, across the passes
    int first_day_swathed = 0, first_day_standing = 10; ///< days after the season's first
    std::vector<DemoAreaPlan> areas;
    std::vector<DemoHollow> sloughs, wet_spots;
};

/// The invented farm: replicated randomised strips, split fields, whole fields.
[[nodiscard]] std::vector<DemoFieldPlan> demo_farm(const DemoOptions& options);

/// One logged record with, beside it, what really happened in its interval.
struct DemoRecord {
    double time_s = 0.0;                        ///< end of the interval, seconds since 1970-01-01 UTC
    double lon_deg = 0.0, lat_deg = 0.0;        ///< logged position at that time, middle of the header
    double across_m = 0.0, along_m = 0.0;       ///< true position in the field's own frame
    double flow_kg_s = 0.0, moisture_pct = 0.0; ///< as logged: late, smeared, biased, noisy; mean over the interval
    double distance_m = 0.0, duration_s = 0.0, speed_m_s = 0.0;
    double width_m = 0.0; ///< as logged
    bool header_up = false;
    int machine = 0;
    int pass = 0;                            ///< index into DemoField::passes
    double cut_m2 = 0.0, cut_basis_kg = 0.0; ///< truth: land newly cut and clean dry grain taken in the interval
};

struct DemoPass {
    int area = -1; ///< index into DemoField::areas; -1: headland or margin
    int method = demo_swathed, machine = 0;
    double real_width_m = 0.0; ///< land left for it, less than the cut width on part-width passes
    double logged_width_m = 0.0;
    double start_s = 0.0, end_s = 0.0;
    double cut_m2 = 0.0, cut_basis_kg = 0.0;
};

/// A method area with its true harvest.
struct DemoArea {
    MultiPolygon shape_deg;
    int method = demo_swathed;
    std::string block;
    double land_m2 = 0.0;                    ///< crop land inside it, sloughs off
    double cut_m2 = 0.0, cut_basis_kg = 0.0; ///< what was cut and gathered, clean, at 10 % moisture
    [[nodiscard]] double yield_t_ha() const { return cut_m2 > 0.0 ? cut_basis_kg / cut_m2 * 10.0 : 0.0; }
};

struct DemoField {
    DemoFieldPlan plan;
    MultiPolygon boundary_deg;
    double area_m2 = 0.0; ///< of the boundary polygon, sloughs off
    std::vector<DemoArea> areas;
    std::vector<DemoPass> passes;
    std::vector<DemoRecord> records; ///< by machine, then time
};

struct DemoTicket {
    std::string id;
    int field = 0, machine = 0, method = 0;
    double start_s = 0.0, end_s = 0.0;
    double net_kg = 0.0, moisture_pct = 0.0, dockage_pct = 0.0; ///< as weighed and sampled, dockage still in
    double true_basis_kg = 0.0; ///< clean dry grain that passed the sensor in the window
};

/// How one machine's monitor is out while it cuts one way.
struct DemoMonitor {
    int machine = 0, method = 0;
    double transport_s = 0.0;   ///< from the cut to the first grain at the sensor
    double mixing_s = 0.0;      ///< mean of the exponential smear after it
    double reading = 1.0;       ///< monitor mass / mass that passed
    double moisture_bias = 0.0; ///< points
    double true_factor = 0.0;   ///< true clean dry mass / logged dry mass over the season; 0: never met
    double cut_basis_kg = 0.0;
    [[nodiscard]] double lag_s() const { return transport_s + mixing_s; }
};

struct DemoSeason {
    DemoOptions options;
    std::vector<DemoField> fields;
    std::vector<DemoTicket> tickets;
    std::vector<DemoMonitor> monitors; ///< A swathed, A standing, B swathed, B standing
    double raw_gain_t_ha = 0.0;        ///< difference of plain record means over the whole season
};

/// Harvests the fields. Same plans and options: same season to the last bit.
/// \throws DataError  a plan whose areas do not fit into its field
[[nodiscard]] DemoSeason simulate_harvest(const std::vector<DemoFieldPlan>& plans, const DemoOptions& options);

} // namespace quartercut
