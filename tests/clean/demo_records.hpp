// SPDX-License-Identifier: MIT
// Harvests of the demo's simulator as records ready for cleaning, with their truth beside them.
#pragma once

#include "harvest.hpp"
#include "quartercut/demo.hpp"

#include <algorithm>
#include <array>

namespace quartercut::test {

/// Six strip pairs over most of a quarter; two machines, each of which cuts both ways in three strips.
inline DemoFieldPlan strips_plan() {
    DemoFieldPlan plan;
    plan.name = "Trial";
    plan.across_m = 690.0;
    plan.along_m = 600.0;
    for (int pair = 0; pair < 6; ++pair) {
        const std::string block = std::to_string(pair + 1);
        const double by_a = pair % 2 == 0 ? 1.0 : 0.0;
        const DemoAreaPlan swathed{demo_swathed, 5, block, by_a}, standing{demo_standing, 5, block, 1.0 - by_a};
        plan.areas.push_back(pair % 3 == 0 ? swathed : standing);
        plan.areas.push_back(pair % 3 == 0 ? standing : swathed);
    }
    plan.areas.back().passes = 0; // takes what is left of the field
    return plan;
}

/// Half of a quarter swathed and cut by A, half standing and cut by B.
inline DemoFieldPlan halves_plan() {
    DemoFieldPlan plan;
    plan.name = "Halves";
    plan.areas = {{demo_swathed, 0, "", 1.0}, {demo_standing, 0, "", 0.0}};
    return plan;
}

inline MultiPolygon in_metres(const MultiPolygon& shape_deg, const Frame& frame) {
    MultiPolygon shape = shape_deg;
    const auto move = [&](Ring& ring) {
        for (Point& p : ring)
            p = frame.to_metres(p);
    };
    for (Polygon& part : shape) {
        move(part.shell);
        for (Ring& hole : part.holes)
            move(hole);
    }
    return shape;
}

inline void add(Records& records, const DemoRecord& from, const DemoField& field, const Frame& frame) {
    const DemoPass& pass = field.passes[static_cast<std::size_t>(from.pass)];
    const Point place = frame.to_metres(Point{from.lon_deg, from.lat_deg});
    Row row;
    row.x_m = place.x;
    row.y_m = place.y;
    row.time_s = from.time_s;
    row.duration_s = from.duration_s;
    row.distance_m = from.distance_m;
    row.width_m = from.width_m;
    row.speed_m_s = from.speed_m_s;
    row.mass_kg = from.flow_kg_s * from.duration_s;
    row.moisture_pct = from.moisture_pct;
    row.at_basis = false;
    row.header_up = from.header_up;
    row.machine = from.machine;
    row.method = pass.area >= 0 ? pass.method : -1;
    row.area = pass.area;
    add(records, row);
}

/// Each record in the area of its pass, or in none outside it: what the map of methods says.
inline void place_records(StandardField& field) {
    const PointLocator boundary(field.boundary_m);
    std::vector<PointLocator> areas;
    for (const MethodArea& area : field.method_areas)
        areas.emplace_back(area.shape_m);
    Records& r = field.records;
    for (std::size_t i = 0; i < r.size(); ++i) {
        const Point p{r.x_m[i], r.y_m[i]};
        r.off_field[i] = !boundary.contains(p);
        if (r.area[i] >= 0 && areas[static_cast<std::size_t>(r.area[i])].contains(p)) continue;
        r.area[i] = r.method[i] = -1;
        for (std::size_t a = 0; a < areas.size() && r.area[i] < 0; ++a)
            if (areas[a].contains(p))
                r.area[i] = static_cast<std::int32_t>(a), r.method[i] = field.method_areas[a].method;
    }
}

inline StandardField standard_field(const DemoField& from) {
    StandardField field;
    field.name = from.plan.name;
    const Point corner = from.boundary_deg.at(0).shell.at(0);
    field.frame = Frame(corner.x, corner.y);
    field.boundary_m = in_metres(from.boundary_deg, field.frame);
    field.area_m2 = from.area_m2;
    for (std::size_t a = 0; a < from.areas.size(); ++a)
        field.method_areas.push_back(
            {in_metres(from.areas[a].shape_deg, field.frame), from.areas[a].method, from.areas[a].block, a + 1});
    for (const DemoRecord& record : from.records)
        add(field.records, record, from, field.frame);
    place_records(field);
    return field;
}

inline Standardised standardised(const DemoSeason& season) {
    Standardised input;
    input.machines = {demo_machine_names[0], demo_machine_names[1]};
    for (const DemoField& field : season.fields)
        input.fields.push_back(standard_field(field));
    for (const DemoTicket& from : season.tickets) {
        Ticket ticket;
        ticket.id = from.id;
        ticket.field = season.fields[static_cast<std::size_t>(from.field)].plan.name;
        ticket.machine = input.machines[static_cast<std::size_t>(from.machine)];
        ticket.method = demo_method_names[static_cast<std::size_t>(from.method)];
        ticket.start_s = from.start_s;
        ticket.end_s = from.end_s;
        ticket.net_kg = from.net_kg;
        ticket.moisture_pct = from.moisture_pct;
        ticket.dockage_pct = from.dockage_pct;
        ticket.row = input.tickets.size() + 1;
        input.tickets.push_back(ticket);
    }
    return input;
}

/// Errors (%) of masses: yield found over the land that was cut, against what was cut.
struct MassErrors {
    std::vector<double> strips_pct, methods_pct; ///< per method area, and of all areas of a method together
};

inline MassErrors mass_errors(const DemoField& truth, const StandardField& field, const CleanedField& cleaned) {
    std::vector<double> mass(truth.areas.size(), 0.0), land(truth.areas.size(), 0.0);
    for (std::size_t i = 0; i < field.records.size(); ++i) {
        if (cleaned.removal[i] != Removal::kept || cleaned.edge[i] || field.records.area[i] < 0) continue;
        mass[static_cast<std::size_t>(field.records.area[i])] += cleaned.mass_basis_kg[i];
        land[static_cast<std::size_t>(field.records.area[i])] += cleaned.area_m2[i];
    }
    MassErrors errors;
    std::array<double, 2> found{}, cut{};
    for (std::size_t a = 0; a < mass.size(); ++a) {
        const DemoArea& area = truth.areas[a];
        const double kg = mass[a] / land[a] * area.cut_m2;
        errors.strips_pct.push_back(100.0 * (kg / area.cut_basis_kg - 1.0));
        found[static_cast<std::size_t>(area.method)] += kg;
        cut[static_cast<std::size_t>(area.method)] += area.cut_basis_kg;
    }
    for (std::size_t m = 0; m < found.size(); ++m)
        errors.methods_pct.push_back(100.0 * (found[m] / cut[m] - 1.0));
    return errors;
}

} // namespace quartercut::test
