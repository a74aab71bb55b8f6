// SPDX-License-Identifier: MIT
// A small season of results made by hand, for the tests of the rooms that write and report.
//
// Three fields of 400 m x 400 m on invented land: strips in pairs, a field split in two with a slough and a headland in
// no method, and a whole field that cannot be compared. The second field's name tries to break out of HTML, XML and CSV.
// Every number is arithmetic on the grid below; nothing is drawn at random.
#pragma once

#include "quartercut/results.hpp"

#include <cmath>
#include <limits>
#include <string>
#include <utility>
#include <vector>

namespace quartercut::sample {

inline constexpr double nan = std::numeric_limits<double>::quiet_NaN();
inline constexpr int swathed = 0, standing = 1;
inline constexpr double half_side_m = 200.0;  // fields run from -200 m to 200 m both ways
inline constexpr double pass_width_m = 10.0;  // 40 passes a field
inline constexpr double record_step_m = 10.0; // 40 records a pass, 100 m2 each
inline constexpr const char* strips_field = "Home quarter";
inline constexpr const char* split_field = "<script>alert(1)</script> & Söhne";
inline constexpr const char* whole_field = "=Far, \"quarter\"";

/// An axis-parallel rectangle, counter-clockwise.
inline Polygon rectangle(double x0, double y0, double x1, double y1) {
    return Polygon{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}};
}

/// The same rectangle clockwise: a hole.
inline Ring hole(double x0, double y0, double x1, double y1) { return {{x0, y0}, {x0, y1}, {x1, y1}, {x1, y0}}; }

/// Yield of a place (t/ha): a base, a wave across the field, and 0.09 t/ha more where cut standing.
inline double yield_at(int method, double x_m, double y_m) {
    const double base = method == standing ? 2.59 : 2.50;
    return base + 0.20 * std::sin(x_m / 80.0) + 0.10 * std::cos(y_m / 60.0);
}

inline Season season() {
    Season out;
    out.file = "season.toml";
    out.text = "title = \"Invented farm\"\n";
    out.title = "Invented farm, canola";
    out.year = 2025;
    out.crop = "canola";
    out.basis_pct = 10.0;
    out.bushel_lb = 50.0;
    out.baseline = "swathed";
    out.methods = {{"swathed", "Swathed, then picked up", 10.668}, {"standing", "Cut standing", 12.192}};
    out.fields.file = "fields.gpkg";
    out.fields.layer = "boundaries";
    out.fields.name_column = "name";
    out.points.files = {"yield/*.csv"};
    out.trial.randomised = true;
    return out;
}

/// A zone over the given shape; records and mass are filled by `fill_field`.
inline Zone zone(std::string id, int method, MultiPolygon shape_m) {
    Zone out;
    out.id = std::move(id);
    out.method = method;
    out.shape_m = std::move(shape_m);
    out.area_m2 = planar_area(out.shape_m);
    out.moisture_pct = out.first_s = out.last_s = nan;
    return out;
}

struct SampleField {
    StandardField standard;
    CleanedField cleaned;
    ZonedField zoned;
};

/// Why the record is dropped: pass ends, one slow record in every fourth pass, and land in no zone or no method.
inline Removal removal_of(const ZonedField& zoned, int zone_index, int pass, int step) {
    if (zone_index < 0) return Removal::off_field;
    if (zoned.zones[static_cast<std::size_t>(zone_index)].method < 0) return Removal::no_method;
    if (step == 0) return Removal::pass_start;
    if (step == 39) return Removal::pass_end;
    if (pass % 4 == 0 && step == 20) return Removal::speed;
    return Removal::kept;
}

inline int zone_of(const ZonedField& zoned, Point p) {
    for (std::size_t z = 0; z < zoned.zones.size(); ++z) {
        if (PointLocator(zoned.zones[z].shape_m).contains(p)) return static_cast<int>(z);
    }
    return -1;
}

inline void add_record(SampleField& field, int pass, int step, Point p) {
    const int z = zone_of(field.zoned, p);
    const int method = z < 0 ? -1 : field.zoned.zones[static_cast<std::size_t>(z)].method;
    const Removal removal = removal_of(field.zoned, z, pass, step);
    const double area_m2 = pass_width_m * record_step_m;
    const double yield = yield_at(method, p.x, p.y);
    const double mass_kg = removal == Removal::kept ? yield * area_m2 / 10.0 : 0.0;
    const double time_s = 1757000000.0 + 200.0 * pass + 5.0 * step;
    Records& r = field.standard.records;
    r.x_m.push_back(p.x);
    r.y_m.push_back(p.y);
    r.time_s.push_back(time_s);
    r.duration_s.push_back(5.0);
    r.distance_m.push_back(record_step_m);
    r.width_m.push_back(pass_width_m);
    r.speed_m_s.push_back(2.0);
    r.heading_deg.push_back(pass % 2 == 0 ? 0.0 : 180.0);
    r.mass_kg.push_back(yield * area_m2 / 10.0);
    r.moisture_pct.push_back(method == standing ? 9.5 : 8.5);
    r.logged_yield_t_ha.push_back(yield);
    r.at_basis.push_back(0);
    r.header_up.push_back(0);
    r.machine.push_back(0);
    r.method.push_back(method);
    r.area.push_back(z);
    r.load.push_back(-1);
    r.off_field.push_back(removal == Removal::off_field ? 1 : 0);
    r.input.push_back(1);
    r.row.push_back(static_cast<std::uint32_t>(r.row.size() + 1));
    CleanedField& c = field.cleaned;
    c.removal.push_back(removal);
    c.pass.push_back(removal == Removal::kept ? pass : -1);
    c.edge.push_back(0);
    c.mass_basis_kg.push_back(mass_kg);
    c.moisture_pct.push_back(method == standing ? 9.5 : 8.5);
    c.area_m2.push_back(area_m2);
    c.removed[static_cast<std::size_t>(method + 1)][static_cast<std::size_t>(removal)] += 1;
    field.zoned.record_zone.push_back(removal == Removal::kept ? z : -1);
    if (removal != Removal::kept) return;
    Zone& owner = field.zoned.zones[static_cast<std::size_t>(z)];
    owner.moisture_pct = method == standing ? 9.5 : 8.5;
    if (owner.records == 0) owner.first_s = time_s;
    owner.last_s = time_s;
    owner.records += 1;
    owner.harvested_m2 += area_m2;
    owner.mass_basis_kg += mass_kg;
}

/// Joins three kept records of one pass and zone into a segment of 30 m.
inline void add_segments(SampleField& field) {
    const Records& r = field.standard.records;
    Segment open;
    const auto close = [&](Segment& segment) {
        if (segment.records > 0) field.zoned.segments.push_back(segment);
        segment = Segment{};
    };
    for (std::size_t i = 0; i < r.size(); ++i) {
        const int z = field.zoned.record_zone[i], pass = field.cleaned.pass[i];
        if (open.records == 3 || (open.records > 0 && (open.zone != z || open.pass != pass))) close(open);
        if (z < 0) continue;
        const double n = static_cast<double>(open.records);
        open.pass = pass;
        open.zone = z;
        open.machine = 0;
        open.x_m = (open.x_m * n + r.x_m[i]) / (n + 1.0);
        open.y_m = (open.y_m * n + r.y_m[i]) / (n + 1.0);
        open.length_m += record_step_m;
        open.area_m2 += field.cleaned.area_m2[i];
        open.mass_basis_kg += field.cleaned.mass_basis_kg[i];
        open.moisture_pct = field.cleaned.moisture_pct[i];
        open.time_s = r.time_s[i];
        open.records += 1;
    }
    close(open);
}

inline void add_cleaning_facts(CleanedField& cleaned) {
    for (const char* method : {"swathed", "standing"}) {
        cleaned.lag.push_back({"red", method, 12.0, 11.2, 12.9, true, "found from opposite passes"});
        cleaned.calibration.push_back({"red", method, 1.031, 0.008, 5.0, 6, "tickets"});
        cleaned.ramps.push_back({"red", method, 8.0, 6.0, true});
        cleaned.widths.push_back({method, 10.668, 10.61, -0.4, 0.02});
    }
    StepReport step;
    step.step = "pass ends";
    step.records_before = 1600;
    step.records_after = 1520;
    step.cv_before_pct = 18.0;
    step.cv_after_pct = 14.5;
    step.nugget_before = 0.04;
    step.nugget_after = 0.03;
    step.mean_before_t_ha = {2.48, nan};
    step.mean_after_t_ha = {2.52, nan};
    cleaned.steps = {step};
}

/// Lays 40 passes of 40 records over the field and sums them into its zones.
inline void fill_field(SampleField& field) {
    field.cleaned.removed.assign(3, {});
    for (int pass = 0; pass < 40; ++pass) {
        Pass run;
        run.machine = 0;
        run.method = swathed;
        run.heading_deg = pass % 2 == 0 ? 0.0 : 180.0;
        run.length_m = 380.0;
        run.start_s = 1757000000.0 + 200.0 * pass;
        field.cleaned.passes.push_back(run);
        const double x = -half_side_m + (pass + 0.5) * pass_width_m;
        for (int step = 0; step < 40; ++step) {
            const int along = pass % 2 == 0 ? step : 39 - step;
            add_record(field, pass, step, {x, -half_side_m + (along + 0.5) * record_step_m});
        }
    }
    add_segments(field);
    add_cleaning_facts(field.cleaned);
    field.standard.raw_means = {{swathed, 800, 2.47, 8.5}, {standing, 800, 2.61, 9.5}};
}

inline SampleField empty_field(const std::string& name, double lon_deg, MultiPolygon boundary_m) {
    SampleField out;
    out.standard.name = name;
    out.standard.attributes = {{"legal", "NE-16-74-20-W4"}, {"variety", "invented A"}};
    out.standard.frame = Frame(lon_deg, 52.5);
    out.standard.area_m2 = planar_area(boundary_m);
    out.standard.boundary_m = std::move(boundary_m);
    return out;
}

/// Eight strips of 50 m, swathed and standing in turn, four pairs.
inline SampleField make_strips() {
    SampleField out = empty_field(strips_field, -112.50, {rectangle(-200, -200, 200, 200)});
    for (int strip = 0; strip < 8; ++strip) {
        const int method = strip % 2 == 0 ? swathed : standing;
        const double x0 = -half_side_m + 50.0 * strip;
        const MultiPolygon shape = {rectangle(x0, -200, x0 + 50, 200)};
        std::string id = std::string(strips_field) + "/" + (method == swathed ? "swathed/" : "standing/");
        Zone strip_zone = zone(id + std::to_string(strip / 2 + 1), method, shape);
        strip_zone.block = std::to_string(strip / 2 + 1);
        strip_zone.area_index = strip;
        out.zoned.zones.push_back(strip_zone);
        out.standard.method_areas.push_back({shape, method, strip_zone.block, static_cast<std::size_t>(strip) + 1});
    }
    fill_field(out);
    return out;
}

/// West half swathed, east half standing with a slough in it, a 20 m headland in the south in no method.
inline SampleField make_split() {
    Polygon boundary = rectangle(-200, -200, 200, 200);
    boundary.holes = {hole(80, 20, 140, 100)};
    SampleField out = empty_field(split_field, -112.49, {boundary});
    Polygon east = rectangle(0, -180, 200, 200);
    east.holes = boundary.holes;
    const std::string name = split_field;
    out.zoned.zones = {zone(name + "/swathed/1", swathed, {rectangle(-200, -180, 0, 200)}),
                       zone(name + "/standing/1", standing, {east}),
                       zone(name + "/none/1", -1, {rectangle(-200, -200, 200, -180)})};
    out.zoned.zones[2].reason = "no method area";
    fill_field(out);
    out.cleaned.issues.push_back({"lag-not-found", Severity::warning, name, "No lag was found for \"red\" & others."});
    return out;
}

/// The whole field swathed, in two parts that touch nowhere.
inline SampleField make_whole() {
    const MultiPolygon boundary = {rectangle(-200, -200, 200, -20), rectangle(-200, 20, 200, 200)};
    SampleField out = empty_field(whole_field, -112.48, boundary);
    out.zoned.zones = {zone(std::string(whole_field) + "/swathed/1", swathed, boundary)};
    out.zoned.zones[0].stratum = "loam";
    fill_field(out);
    return out;
}

inline Contrast strips_contrast() {
    Contrast c;
    c.method = "standing";
    c.baseline = "swathed";
    c.gain_t_ha = 0.09;
    c.se_t_ha = 0.012;
    c.df = 3.0;
    c.ci95_t_ha = Interval{0.0518, 0.1282};
    c.p = 0.0049;
    c.p_randomisation = 0.125;
    c.u_calibration_t_ha = 0.02;
    c.u_total_t_ha = 0.0245;
    c.ci95_total_t_ha = Interval{0.037, 0.143};
    c.df_total = 12.5;
    c.break_even_calibration_pct = 3.5;
    c.break_even_moisture_pct = 3.2;
    c.fragile = "moderate";
    c.detectable_t_ha = 0.06;
    c.unit_what = "pairs";
    c.unit_n = 4;
    c.estimator = "paired strips, t";
    c.finding = Finding::gain;
    c.yield_t_ha = 2.61;
    c.baseline_yield_t_ha = 2.52;
    c.raw_gain_t_ha = 0.14;
    c.also = {{"paired strips, sign flip", 0.09, std::nullopt, std::nullopt, Interval{0.05, 0.13}, "16 layouts"}};
    c.robustness = {{"without lag shift", 0.085, 0.02, 3.0, Interval{0.021, 0.149}, ""}};
    for (int pair = 1; pair <= 4; ++pair) {
        const std::string n = std::to_string(pair), home = strips_field;
        const double difference = 0.09 + 0.01 * (pair - 2.5);
        c.pairs.push_back({n, home + "/standing/" + n, home + "/swathed/" + n, 2.52 + difference, 2.52, difference});
    }
    c.budget = {{"sampling", 0.012, 3.0, false}, {"calibration", 0.02, 10.0, true}, {"moisture", 0.006, 50.0, true}};
    c.placebo = Placebo{200, 0.02, 0.045};
    c.leaves_out = {"grain shelled before the combine came"};
    return c;
}

inline Contrast split_contrast() {
    Contrast c = strips_contrast();
    c.gain_t_ha = 0.05;
    c.se_t_ha = 0.06;
    c.df = 9.0;
    c.ci95_t_ha = Interval{-0.086, 0.186};
    c.ci95_total_t_ha = Interval{-0.10, 0.20};
    c.p = 0.43;
    c.p_randomisation = std::nullopt;
    c.unit_what = "segments of one split";
    c.unit_n = 9;
    c.estimator = "segments, spatial errors";
    c.finding = Finding::not_shown;
    c.pairs.clear();
    c.placebo = std::nullopt;
    return c;
}

/// A contrast that cannot be made: every number unknown, one of them NaN as a careless room might leave it.
inline Contrast whole_contrast() {
    Contrast c;
    c.method = "standing";
    c.baseline = "swathed";
    c.stratum = "loam";
    c.se_t_ha = nan;
    c.unit_what = "fields";
    c.unit_n = 1;
    c.finding = Finding::not_comparable;
    c.leaves_out = {"the field was cut one way only"};
    return c;
}

inline Comparison comparison() {
    Comparison out;
    const Crossing machines{"machine", {"red"}, {"swathed", "standing"}, {{8.0, 8.0}}};
    out.fields.push_back({strips_field, Evidence::replicated_randomised, {strips_contrast()}, {machines}, {}, {}});
    out.fields.push_back({split_field, Evidence::split, {split_contrast()}, {machines}, {}, {}});
    out.fields.push_back({whole_field, Evidence::whole_field, {whole_contrast()}, {}, {}, {}});
    out.fields[2].issues.push_back({"one-method", Severity::note, whole_field, "Only one method was found here."});
    FarmContrast farm;
    farm.method = "standing";
    farm.baseline = "swathed";
    farm.gain_t_ha = 0.09;
    farm.ci95_t_ha = Interval{0.0518, 0.1282};
    farm.ci95_total_t_ha = Interval{0.037, 0.143};
    farm.tau_t_ha = 0.0;
    farm.fields = 1;
    farm.evidence = "replicated-randomised";
    farm.estimator = "one field";
    farm.finding = Finding::gain;
    farm.field_names = {strips_field};
    out.farm = {farm};
    out.issues.push_back({"few-fields", Severity::note, "", "Only one field has replicated strips."});
    return out;
}

/// The whole season.
inline Results results() {
    Results out;
    out.season = season();
    out.version = "0.1.0";
    out.standardised.machines = {"red"};
    out.standardised.inputs = {{"season.toml", "season", "", 25, std::string(64, 'a'), 1},
                               {"yield/red.csv", "points", "", 120000, std::string(64, 'b'), 4800}};
    for (SampleField& field : std::vector<SampleField>{make_strips(), make_split(), make_whole()}) {
        out.standardised.records_read += field.standard.records.size();
        out.standardised.fields.push_back(std::move(field.standard));
        out.cleaned.fields.push_back(std::move(field.cleaned));
        out.zoned.push_back(std::move(field.zoned));
    }
    out.cleaned.calibration = out.cleaned.fields[0].calibration;
    out.cleaned.loads = {{"17", "red", "swathed", strips_field, 1757001000.0, 8100.0, 7850.0, 4.2}};
    out.comparison = comparison();
    return out;
}

} // namespace quartercut::sample
