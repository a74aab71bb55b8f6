// SPDX-License-Identifier: MIT
// Records to fields: a coarse grid of boxes picks the candidates, the boundary decides, in the field's own frame.
//
// A record outside every boundary but within 100 m of one belongs to the nearest field and is marked off-field, so
// that the removal table can count it; one farther away belongs to no field.
#include "standardise/work.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"

#include "base/faults.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace quartercut::standardise_room {

namespace {

constexpr double reach_m = 100.0;
constexpr std::int32_t nobody = -1;

/// Where record number n of all files stands.
struct Source {
    std::uint32_t file = 0; ///< index into Raw::records
    std::uint32_t row = 0;  ///< 0-based
};

/// The records that may belong to one field, with their place in its frame.
struct Candidates {
    std::vector<std::uint32_t> record; ///< running number over all files
    std::vector<double> x_m, y_m;
    std::vector<std::uint8_t> inside;
};

/// A box grown by `reach_m` on every side; generous in degrees.
Box within_reach(Box box, bool local_metres) {
    double reach_x = reach_m, reach_y = reach_m;
    if (!local_metres) {
        constexpr double metres_per_degree = 110000.0; // below the shortest degree of latitude, 110 574 m
        const double widest_lat = std::min(89.0, std::max(std::abs(box.min_y), std::abs(box.max_y)) + 0.01);
        reach_y = reach_m / metres_per_degree;
        reach_x = reach_y / std::cos(widest_lat * std::numbers::pi / 180.0);
    }
    return {box.min_x - reach_x, box.min_y - reach_y, box.max_x + reach_x, box.max_y + reach_y};
}

/// Cells over the farm; each lists the fields whose box reaches into it.
class BoxGrid {
public:
    explicit BoxGrid(const std::vector<Box>& boxes) : boxes_(boxes) {
        for (const Box& box : boxes)
            grow(all_, box);
        side_ = static_cast<std::size_t>(std::ceil(2.0 * std::sqrt(static_cast<double>(boxes.size()))));
        cells_.resize(side_ * side_);
        for (std::size_t b = 0; b < boxes.size(); ++b)
            for (std::size_t row = row_of(boxes[b].min_y); row <= row_of(boxes[b].max_y); ++row)
                for (std::size_t col = column_of(boxes[b].min_x); col <= column_of(boxes[b].max_x); ++col)
                    cells_[row * side_ + col].push_back(static_cast<std::uint32_t>(b));
    }
    /// Calls `visit(field)` for every box that holds the place, lowest number first.
    template <class Visit>
    void for_each_at(Point place, const Visit& visit) const {
        if (!all_.contains(place)) return;
        for (const std::uint32_t b : cells_[row_of(place.y) * side_ + column_of(place.x)])
            if (boxes_[b].contains(place)) visit(b);
    }

private:
    [[nodiscard]] std::size_t index_in(double value, double low, double high) const {
        const double share = high > low ? (value - low) / (high - low) : 0.0;
        const double cell = std::floor(share * static_cast<double>(side_));
        return static_cast<std::size_t>(std::clamp(cell, 0.0, static_cast<double>(side_ - 1)));
    }
    [[nodiscard]] std::size_t column_of(double x) const { return index_in(x, all_.min_x, all_.max_x); }
    [[nodiscard]] std::size_t row_of(double y) const { return index_in(y, all_.min_y, all_.max_y); }

    const std::vector<Box>& boxes_;
    Box all_;
    std::size_t side_ = 1;
    std::vector<std::vector<std::uint32_t>> cells_;
};

double distance_to_edge_m(Point p, Point a, Point b) {
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double length2 = dx * dx + dy * dy;
    const double along = length2 > 0.0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0.0, 1.0) : 0.0;
    return std::hypot(p.x - a.x - along * dx, p.y - a.y - along * dy);
}

double distance_to_ring_m(Point p, const Ring& ring) {
    double nearest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
        nearest = std::min(nearest, distance_to_edge_m(p, ring[j], ring[i]));
    return nearest;
}

double distance_to_shape_m(Point p, const MultiPolygon& shape) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const Polygon& polygon : shape) {
        nearest = std::min(nearest, distance_to_ring_m(p, polygon.shell));
        for (const Ring& hole : polygon.holes)
            nearest = std::min(nearest, distance_to_ring_m(p, hole));
    }
    return nearest;
}

std::vector<Candidates> gather_candidates(const Raw& raw, const Fields& fields) {
    std::vector<Box> boxes;
    for (const FieldWork& work : fields)
        boxes.push_back(within_reach(bounding_box(work.boundary_deg), raw.local_metres));
    const BoxGrid grid(boxes);
    std::vector<Candidates> candidates(fields.size());
    std::uint32_t number = 0;
    for (const RawRecords& file : raw.records)
        for (std::size_t row = 0; row < file.size(); ++row, ++number) {
            const Point place{file.lon_deg[row], file.lat_deg[row]};
            grid.for_each_at(place, [&](std::size_t field) {
                candidates[field].record.push_back(number);
                candidates[field].x_m.push_back(place.x);
                candidates[field].y_m.push_back(place.y);
            });
        }
    for (std::size_t f = 0; f < fields.size(); ++f)
        fields[f].field.frame.to_metres(candidates[f].x_m, candidates[f].y_m);
    return candidates;
}

/// The first field a record lies inside owns it; records inside a later one too are counted for the remark.
void own_inside(const Fields& fields, std::vector<Candidates>& candidates, std::vector<std::int32_t>& owner,
                Issues& issues) {
    std::map<std::pair<std::int32_t, std::int32_t>, std::size_t> shared;
    for (std::size_t f = 0; f < fields.size(); ++f) {
        Candidates& here = candidates[f];
        const PointLocator boundary(fields[f].field.boundary_m);
        here.inside.resize(here.record.size());
        for (std::size_t i = 0; i < here.record.size(); ++i) {
            here.inside[i] = boundary.contains({here.x_m[i], here.y_m[i]}) ? 1 : 0;
            if (here.inside[i] == 0) continue;
            std::int32_t& mine = owner[here.record[i]];
            if (mine == nobody)
                mine = static_cast<std::int32_t>(f);
            else
                ++shared[{mine, static_cast<std::int32_t>(f)}];
        }
    }
    for (const auto& [pair, count] : shared) {
        const std::string& first = fields[static_cast<std::size_t>(pair.first)].field.name;
        const std::string& second = fields[static_cast<std::size_t>(pair.second)].field.name;
        issues.push_back({"fields-overlap", Severity::warning, first,
                          fill(spoken().standardise.fields_overlap, fmt::arg("first", first),
                               fmt::arg("second", second), fmt::arg("records", count), fmt::arg("holder", first))});
    }
}

/// A record inside no field goes to the nearest within reach.
void own_nearby(const Fields& fields, const std::vector<Candidates>& candidates, std::vector<std::int32_t>& owner) {
    struct Nearest {
        double distance_m = reach_m;
        std::int32_t field = nobody;
    };
    std::map<std::uint32_t, Nearest> nearest;
    for (std::size_t f = 0; f < fields.size(); ++f)
        for (std::size_t i = 0; i < candidates[f].record.size(); ++i) {
            const std::uint32_t record = candidates[f].record[i];
            if (owner[record] != nobody) continue;
            const Point place{candidates[f].x_m[i], candidates[f].y_m[i]};
            const double distance_m = distance_to_shape_m(place, fields[f].field.boundary_m);
            Nearest& best = nearest[record];
            if (distance_m > reach_m || (best.field != nobody && distance_m >= best.distance_m)) continue;
            best = {distance_m, static_cast<std::int32_t>(f)};
        }
    for (const auto& [record, best] : nearest)
        owner[record] = best.field;
}

void hand_over(const Candidates& candidates, std::int32_t field_number, const std::vector<std::int32_t>& owner,
               const std::vector<Source>& sources, FieldWork& work) {
    Records& records = work.field.records;
    for (std::size_t i = 0; i < candidates.record.size(); ++i) {
        const std::uint32_t number = candidates.record[i];
        if (owner[number] != field_number) continue;
        records.x_m.push_back(candidates.x_m[i]);
        records.y_m.push_back(candidates.y_m[i]);
        records.off_field.push_back(candidates.inside[i] == 0 ? 1 : 0);
        work.file.push_back(sources[number].file);
        work.place.push_back(sources[number].row);
    }
}

std::vector<Source> number_records(const Raw& raw) {
    std::vector<Source> sources;
    for (std::uint32_t file = 0; file < raw.records.size(); ++file)
        for (std::uint32_t row = 0; row < raw.records[file].size(); ++row)
            sources.push_back({file, row});
    return sources;
}

/// Records of one file, or of all, that are in no field, and their extent.
struct Strays {
    Box box;
    std::size_t count = 0;
};

std::vector<Strays> strays_by_file(const Raw& raw, const std::vector<std::int32_t>& owner) {
    std::vector<Strays> files;
    std::size_t number = 0;
    for (const RawRecords& file : raw.records) {
        Strays& strays = files.emplace_back();
        for (std::size_t row = 0; row < file.size(); ++row, ++number) {
            if (owner[number] != nobody) continue;
            ++strays.count;
            const double x = file.lon_deg[row], y = file.lat_deg[row];
            if (std::isfinite(x) && std::isfinite(y)) grow(strays.box, {x, y, x, y});
        }
    }
    return files;
}

Strays all_of(const std::vector<Strays>& files) {
    Strays all;
    for (const Strays& strays : files) {
        all.count += strays.count;
        if (!strays.box.empty()) grow(all.box, strays.box);
    }
    return all;
}

Box extent_of(const Fields& fields) {
    Box land;
    for (const FieldWork& work : fields)
        grow(land, bounding_box(work.boundary_deg));
    return land;
}

[[noreturn]] void refuse_no_overlap(const Raw& raw, const Fields& fields, const Box& records) {
    const Box land = extent_of(fields);
    const Box swapped{records.min_y, records.min_x, records.max_y, records.max_x};
    const bool looks_swapped = records.max_x >= records.min_x && swapped.overlaps(land);
    throw DataError(fmt::format(
        "No record lies in any field. Records: {}. Fields: {}. {}", extent_text(records, raw.local_metres),
        extent_text(land, raw.local_metres),
        looks_swapped
            ? "With longitude and latitude exchanged they would meet: map the two columns the other way round."
            : "Check the coordinate system (crs) and that the files belong to the same farm and year."));
}

/// A whole file half a country away is not of another field: it is in another coordinate system, or of another farm.
void refuse_far_files(const Raw& raw, const Fields& fields, const std::vector<Strays>& strays) {
    constexpr double far_deg = 1.0;
    if (raw.local_metres) return;
    const Box land = extent_of(fields);
    const Box near = {land.min_x - far_deg, land.min_y - far_deg, land.max_x + far_deg, land.max_y + far_deg};
    Faults faults;
    for (std::size_t f = 0; f < strays.size(); ++f) {
        const RawRecords& file = raw.records[f];
        const Box& box = strays[f].box;
        if (strays[f].count < file.size() || box.empty() || box.overlaps(near)) continue;
        faults.attempt("", [&] {
            throw DataError(
                fmt::format("{}: all of its {} records lie far from every field ({}). If they are in another "
                            "coordinate system than the others, save the file in that of the others, or with "
                            "its own definition; if they are of another farm, leave it out of [points].",
                            file_text(raw, file), file.size(), extent_text(box, false)));
        });
    }
    faults.raise();
}

} // namespace

std::size_t place_records(const Raw& raw, Fields& fields, Issues& issues) {
    const std::vector<Source> sources = number_records(raw);
    if (sources.empty()) throw DataError("The files under [points] hold no record.");
    std::vector<std::int32_t> owner(sources.size(), nobody);
    std::vector<Candidates> candidates = gather_candidates(raw, fields);
    own_inside(fields, candidates, owner, issues);
    const bool any_inside = std::any_of(owner.begin(), owner.end(), [](std::int32_t o) { return o != nobody; });
    if (!any_inside) refuse_no_overlap(raw, fields, all_of(strays_by_file(raw, owner)).box);
    own_nearby(fields, candidates, owner);
    const std::vector<Strays> by_file = strays_by_file(raw, owner);
    refuse_far_files(raw, fields, by_file);
    for (std::size_t f = 0; f < fields.size(); ++f)
        hand_over(candidates[f], static_cast<std::int32_t>(f), owner, sources, fields[f]);
    const Strays strays = all_of(by_file);
    if (strays.count > 0)
        issues.push_back(
            {"records-outside", Severity::warning, "",
             fill(spoken().standardise.records_outside, fmt::arg("outside", strays.count),
                  fmt::arg("records", owner.size()), fmt::arg("where", extent_text(strays.box, raw.local_metres)))});
    return strays.count;
}

} // namespace quartercut::standardise_room
