// SPDX-License-Identifier: MIT
// Records to zones, and the zones' numbers from the records used.
//
// Used are the records cleaning kept and that do not straddle two methods; where a zone has none of those, the kept
// ones that do. Yield is sum of mass over sum of harvested area, never a mean of record yields.
#include "zone/steps.hpp"

#include "base/sum.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace quartercut::zone_room {

namespace {

/// A record outside every zone of its method (on a merged sliver, or just over an edge drawn halfway) still belongs to
/// the nearest one within this distance.
constexpr double reach_m = 20.0;

double distance_to_edge_m(Point p, Point a, Point b) {
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double length2 = dx * dx + dy * dy;
    const double along = length2 > 0.0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0.0, 1.0) : 0.0;
    return std::hypot(p.x - a.x - along * dx, p.y - a.y - along * dy);
}

double distance_m(Point p, const MultiPolygon& shape) {
    double nearest = std::numeric_limits<double>::infinity();
    const auto ring_distance = [&](const Ring& ring) {
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
            nearest = std::min(nearest, distance_to_edge_m(p, ring[j], ring[i]));
    };
    for (const Polygon& polygon : shape) {
        ring_distance(polygon.shell);
        for (const Ring& hole : polygon.holes)
            ring_distance(hole);
    }
    return nearest;
}

class ZoneFinder {
public:
    explicit ZoneFinder(const std::vector<Zone>& zones) : zones_(zones) {
        for (const Zone& zone : zones)
            locators_.emplace_back(zone.shape_m);
    }

    /// `area`: the method area the record lies in, or -1. A record keeps to the zones of that area while it has any.
    [[nodiscard]] std::int32_t find(Point place, int method, int area) {
        if (fits(last_, method, area) && locators_[last_].contains(place)) return static_cast<std::int32_t>(last_);
        std::size_t candidates = 0;
        for (std::size_t z = 0; z < zones_.size(); ++z) {
            if (!fits(z, method, area)) continue;
            ++candidates;
            if (!locators_[z].contains(place)) continue;
            last_ = z;
            return static_cast<std::int32_t>(z);
        }
        if (candidates == 0 && area >= 0) return find(place, method, -1);
        return nearest(place, method, area);
    }

private:
    [[nodiscard]] bool fits(std::size_t z, int method, int area) const {
        return z < zones_.size() && (area >= 0 ? zones_[z].area_index == area : zones_[z].method == method);
    }
    [[nodiscard]] std::int32_t nearest(Point place, int method, int area) const {
        double best_m = reach_m;
        std::int32_t best = -1;
        for (std::size_t z = 0; z < zones_.size(); ++z) {
            if (!fits(z, method, area)) continue;
            const double found_m = distance_m(place, zones_[z].shape_m);
            if (found_m >= best_m) continue;
            best_m = found_m;
            best = static_cast<std::int32_t>(z);
        }
        return best;
    }

    const std::vector<Zone>& zones_;
    std::vector<PointLocator> locators_;
    std::size_t last_ = 0;
};

struct Totals {
    Sum area_m2, mass_kg, moist_mass_kg, water;
    double first_s = std::numeric_limits<double>::quiet_NaN(), last_s = first_s;
    std::size_t records = 0;

    void add(const Records& source, const CleanedField& cleaned, std::size_t i) {
        ++records;
        area_m2 += cleaned.area_m2[i];
        mass_kg += cleaned.mass_basis_kg[i];
        if (!std::isnan(cleaned.moisture_pct[i])) {
            moist_mass_kg += cleaned.mass_basis_kg[i];
            water += cleaned.mass_basis_kg[i] * cleaned.moisture_pct[i];
        }
        first_s = std::fmin(first_s, source.time_s[i]); // fmin and fmax pass over NaN
        last_s = std::fmax(last_s, source.time_s[i]);
    }
};

void store(const Totals& totals, Zone& zone) {
    zone.harvested_m2 = totals.area_m2.value();
    zone.records = totals.records;
    zone.mass_basis_kg = totals.mass_kg.value();
    const double moist_kg = totals.moist_mass_kg.value();
    zone.moisture_pct = moist_kg > 0.0 ? totals.water.value() / moist_kg : std::numeric_limits<double>::quiet_NaN();
    zone.first_s = totals.first_s;
    zone.last_s = totals.last_s;
}

} // namespace

std::vector<std::int32_t> zones_of_records(const Records& records, const std::vector<Zone>& zones) {
    ZoneFinder finder(zones);
    std::vector<std::int32_t> found(records.size(), -1);
    for (std::size_t i = 0; i < records.size(); ++i)
        if (records.method[i] >= 0 && records.off_field[i] == 0)
            found[i] = finder.find({records.x_m[i], records.y_m[i]}, records.method[i], records.area[i]);
    return found;
}

void fill_numbers(const StandardField& field, const CleanedField& cleaned, const std::vector<std::int32_t>& record_zone,
                  std::vector<Zone>& zones) {
    std::vector<Totals> inner(zones.size()), all(zones.size());
    for (std::size_t i = 0; i < record_zone.size(); ++i) {
        if (record_zone[i] < 0 || cleaned.removal[i] != Removal::kept) continue;
        const auto z = static_cast<std::size_t>(record_zone[i]);
        all[z].add(field.records, cleaned, i);
        if (cleaned.edge[i] == 0) inner[z].add(field.records, cleaned, i);
    }
    for (std::size_t z = 0; z < zones.size(); ++z)
        store(inner[z].records > 0 ? inner[z] : all[z], zones[z]);
}

} // namespace quartercut::zone_room

namespace quartercut {

/// Places come in the order they were driven, so the zone of the one before is asked first.
std::vector<std::int32_t> zones_at(const std::vector<Zone>& zones, const std::vector<double>& x_m,
                                   const std::vector<double>& y_m) {
    std::vector<PointLocator> locators;
    for (const Zone& zone : zones)
        locators.emplace_back(zone.shape_m);
    std::vector<std::int32_t> found(x_m.size(), -1);
    std::size_t last = 0;
    for (std::size_t i = 0; i < x_m.size(); ++i)
        for (std::size_t k = 0; k < locators.size(); ++k) {
            const std::size_t z = last + k < locators.size() ? last + k : last + k - locators.size();
            if (!locators[z].contains({x_m[i], y_m[i]})) continue;
            found[i] = static_cast<std::int32_t>(last = z);
            break;
        }
    return found;
}

} // namespace quartercut
