// SPDX-License-Identifier: MIT
// Fields, records and cleaned records made by hand in local metres.
#pragma once

#include "quartercut/zone.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

namespace quartercut::by_hand {

inline constexpr double nan = std::numeric_limits<double>::quiet_NaN();

inline Polygon rectangle(double x0, double y0, double x1, double y1) {
    return {{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}};
}

inline Ring hole(double x0, double y0, double x1, double y1) { return {{x0, y0}, {x0, y1}, {x1, y1}, {x1, y0}}; }

inline Season season() {
    Season made;
    made.basis_pct = 10.0;
    made.bushel_lb = 50.0;
    made.baseline = "swathed";
    made.methods = {{"swathed", "Swathed", 10.0}, {"standing", "Standing", 12.0}};
    return made;
}

inline StandardField field(const MultiPolygon& boundary) {
    StandardField made;
    made.name = "home";
    made.boundary_m = boundary;
    made.area_m2 = planar_area(boundary);
    return made;
}

inline void add_area(StandardField& made, int method, const MultiPolygon& shape) {
    made.method_areas.push_back({shape, method, "", made.method_areas.size() + 1});
}

inline void add_stratum(StandardField& made, const std::string& name, const MultiPolygon& shape) {
    made.strata.push_back({shape, name, 0});
}

inline Season with_strata(StrataKind kind, double cell_m = 100.0) {
    Season made = season();
    made.strata.emplace();
    made.strata->kind = kind;
    made.strata->cell_m = cell_m;
    return made;
}

/// A record as the tests need it; the rest is filled in plainly.
struct Row {
    double x_m = 0.0, y_m = 0.0;
    int method = 0, area = -1, pass = 0;
    double distance_m = 2.0, mass_kg = 5.0, area_m2 = 20.0, moisture_pct = 10.0, time_s = nan;
    Removal removal = Removal::kept;
    bool edge = false, off_field = false;
};

inline void add_rows(const std::vector<Row>& rows, StandardField& made, CleanedField& cleaned) {
    Records& r = made.records;
    for (const Row& row : rows) {
        r.x_m.push_back(row.x_m);
        r.y_m.push_back(row.y_m);
        r.time_s.push_back(row.time_s);
        r.distance_m.push_back(row.distance_m);
        r.width_m.push_back(10.0);
        r.machine.push_back(0);
        r.method.push_back(row.method);
        r.area.push_back(row.area);
        r.header_up.push_back(0);
        r.off_field.push_back(row.off_field ? 1 : 0);
        cleaned.removal.push_back(row.removal);
        cleaned.pass.push_back(row.pass);
        cleaned.edge.push_back(row.edge ? 1 : 0);
        cleaned.mass_basis_kg.push_back(row.removal == Removal::kept ? row.mass_kg : 0.0);
        cleaned.moisture_pct.push_back(row.moisture_pct);
        cleaned.area_m2.push_back(row.area_m2);
    }
}

inline std::vector<Zone> zones_of(const Season& season, const StandardField& made) {
    return zone(season, made, CleanedField{}, ZoneOptions{}).zones;
}

inline double sum_of_areas(const std::vector<Zone>& zones) {
    double sum = 0.0;
    for (const Zone& each : zones)
        sum += each.area_m2;
    return sum;
}

inline std::vector<std::string> ids_of(const std::vector<Zone>& zones) {
    std::vector<std::string> ids;
    for (const Zone& each : zones)
        ids.push_back(each.id);
    return ids;
}

inline const Zone* find_zone(const std::vector<Zone>& zones, const std::string& id) {
    for (const Zone& each : zones)
        if (each.id == id) return &each;
    return nullptr;
}

inline bool has_issue(const Issues& issues, const std::string& code) {
    return std::any_of(issues.begin(), issues.end(), [&](const Issue& issue) { return issue.code == code; });
}

inline MultiPolygon turned(MultiPolygon shape, double angle_rad, Point by) {
    const double c = std::cos(angle_rad), s = std::sin(angle_rad);
    const auto turn = [&](Ring& ring) {
        for (Point& p : ring)
            p = {c * p.x - s * p.y + by.x, s * p.x + c * p.y + by.y};
    };
    for (Polygon& polygon : shape) {
        turn(polygon.shell);
        for (Ring& each : polygon.holes)
            turn(each);
    }
    return shape;
}

} // namespace quartercut::by_hand
