// SPDX-License-Identifier: MIT
// Boundaries, method areas and strata: out of degrees into each field's metric frame.
#include "standardise/work.hpp"

#include "base/words/words.hpp"

#include "quartercut/error.hpp"

#include "base/faults.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut::standardise_room {

namespace {

Ring ring_in(const Frame& frame, const Ring& ring) {
    std::vector<double> x, y;
    x.reserve(ring.size());
    y.reserve(ring.size());
    for (const Point& vertex : ring) {
        x.push_back(vertex.x);
        y.push_back(vertex.y);
    }
    frame.to_metres(x, y);
    Ring projected(ring.size());
    for (std::size_t i = 0; i < ring.size(); ++i)
        projected[i] = {x[i], y[i]};
    return projected;
}

MultiPolygon shape_in(const Frame& frame, const MultiPolygon& shape) {
    MultiPolygon projected;
    for (const Polygon& polygon : shape) {
        Polygon part{ring_in(frame, polygon.shell), {}};
        for (const Ring& hole : polygon.holes)
            part.holes.push_back(ring_in(frame, hole));
        projected.push_back(std::move(part));
    }
    return projected;
}

/// Rounded to 1e-5 degrees (a metre) so that the definition stays readable in inputs.json.
Frame frame_for(const MultiPolygon& boundary_deg) {
    const Box box = bounding_box(boundary_deg);
    const auto rounded = [](double degrees) { return std::round(degrees * 1e5) / 1e5; };
    return {rounded(0.5 * (box.min_x + box.max_x)), rounded(0.5 * (box.min_y + box.max_y))};
}

FieldWork* find_field(Fields& fields, const std::string& name) {
    for (FieldWork& work : fields)
        if (work.field.name == name) return &work;
    return nullptr;
}

void add_attributes(const Season& season, const RawArea& area, StandardField& field) {
    for (const auto& [column, text] : area.attributes)
        field.attributes.emplace(column, text);
    for (const auto& [meaning, column] : season.fields.columns)
        if (const auto found = area.attributes.find(column); found != area.attributes.end())
            field.attributes[meaning] = found->second;
}

void join_rows(const RawArea& area, FieldWork& work, Issues& issues) {
    work.boundary_deg.insert(work.boundary_deg.end(), area.shape_deg.begin(), area.shape_deg.end());
    issues.push_back({"field-in-several-rows", Severity::note, area.name,
                      fill(spoken().standardise.several_rows, fmt::arg("name", area.name), fmt::arg("row", area.row))});
}

void place_in_frame(bool local_metres, FieldWork& work) {
    StandardField& field = work.field;
    if (!local_metres) field.frame = frame_for(work.boundary_deg);
    field.boundary_m = shape_in(field.frame, work.boundary_deg);
    field.area_m2 = local_metres ? planar_area(field.boundary_m) : geodesic_area_m2(work.boundary_deg);
    if (field.area_m2 > 0.0) return;
    throw DataError(fmt::format("The boundary of field \"{}\" encloses no area; draw it anew.", field.name));
}

std::string block_of(const Season& season, const RawArea& area) {
    if (season.trial.pairs == "auto" || season.trial.pairs == "none") return {};
    const auto found = area.attributes.find(season.trial.pairs);
    return found == area.attributes.end() ? std::string{} : found->second;
}

void add_method_areas(const Season& season, const Raw& raw, FieldWork& work, Faults& faults) {
    const Box box = bounding_box(work.boundary_deg);
    for (const RawArea& area : raw.method_areas) {
        if (!bounding_box(area.shape_deg).overlaps(box)) continue;
        const std::string where = fmt::format("Row {} of the method areas", area.row);
        faults.attempt(area.name, [&] {
            work.field.method_areas.push_back({shape_in(work.field.frame, area.shape_deg),
                                               method_of_value(season, area.name, where), block_of(season, area),
                                               area.row});
        });
    }
}

/// Methods from a column of the boundaries: the whole field is one method area.
void add_whole_field(const Season& season, FieldWork& work) {
    StandardField& field = work.field;
    const std::string& column = season.methods_from.column;
    const auto found = field.attributes.find(column);
    if (found == field.attributes.end())
        throw InputError(fmt::format("The boundaries have no column \"{}\", which [methods] names.", column));
    if (found->second.empty()) {
        field.issues.push_back({"field-without-method", Severity::warning, field.name,
                                fill(spoken().standardise.method_blank, fmt::arg("column", column))});
        return;
    }
    const std::string where = fmt::format("Field \"{}\"", field.name);
    field.method_areas.push_back({field.boundary_m, method_of_value(season, found->second, where), {}, 0});
}

/// Numbers in the field's bounding box, a tenth wider all round, in its frame.
LandNumbers numbers_near(const FieldWork& work, const RawNumbers& numbers) {
    Box box = bounding_box(work.boundary_deg);
    const double margin = 0.1 * std::max(box.max_x - box.min_x, box.max_y - box.min_y);
    box = {box.min_x - margin, box.min_y - margin, box.max_x + margin, box.max_y + margin};
    LandNumbers near;
    near.name = numbers.name;
    near.table = numbers.table;
    for (std::size_t i = 0; i < numbers.values.size(); ++i) {
        if (!box.contains({numbers.lon_deg[i], numbers.lat_deg[i]})) continue;
        near.x_m.push_back(numbers.lon_deg[i]);
        near.y_m.push_back(numbers.lat_deg[i]);
        near.values.push_back(numbers.values[i]);
    }
    work.field.frame.to_metres(near.x_m, near.y_m);
    return near;
}

/// Areas drawn elsewhere, or in another coordinate system than they claim.
[[noreturn]] void refuse_no_area(const Raw& raw, const Fields& fields) {
    Box land, areas;
    for (const FieldWork& work : fields)
        grow(land, bounding_box(work.boundary_deg));
    for (const RawArea& area : raw.method_areas)
        grow(areas, bounding_box(area.shape_deg));
    throw DataError(fmt::format(
        "No method area under [methods] meets any field. Method areas: {}. Fields: {}. Check the coordinate system "
        "(crs) and that both layers belong to the same farm.",
        extent_text(areas, raw.local_metres), extent_text(land, raw.local_metres)));
}

} // namespace

void grow(Box& box, const Box& other) {
    if (other.max_x < other.min_x) return;
    if (box.max_x < box.min_x) {
        box = other;
        return;
    }
    box = {std::min(box.min_x, other.min_x), std::min(box.min_y, other.min_y), std::max(box.max_x, other.max_x),
           std::max(box.max_y, other.max_y)};
}

std::string extent_text(const Box& box, bool local_metres) {
    if (box.max_x < box.min_x) return spoken().standardise.nowhere;
    if (local_metres)
        return fill(spoken().standardise.extent_m, fmt::arg("x0", format_fixed(box.min_x, 1)),
                    fmt::arg("x1", format_fixed(box.max_x, 1)), fmt::arg("y0", format_fixed(box.min_y, 1)),
                    fmt::arg("y1", format_fixed(box.max_y, 1)));
    return fill(spoken().standardise.extent_deg, fmt::arg("x0", format_fixed(box.min_x, 5)),
                fmt::arg("x1", format_fixed(box.max_x, 5)), fmt::arg("y0", format_fixed(box.min_y, 5)),
                fmt::arg("y1", format_fixed(box.max_y, 5)));
}

Fields lay_out_fields(const Season& season, const Raw& raw, Issues& issues) {
    Fields fields;
    fields.reserve(raw.fields.size());
    for (const RawArea& area : raw.fields) {
        if (FieldWork* earlier = find_field(fields, area.name)) {
            join_rows(area, *earlier, issues);
            continue;
        }
        FieldWork& work = fields.emplace_back();
        work.field.name = area.name;
        work.boundary_deg = area.shape_deg;
        add_attributes(season, area, work.field);
    }
    if (fields.empty()) throw DataError("The boundary layer holds no field.");
    Faults faults;
    for (FieldWork& work : fields)
        faults.attempt("", [&] { place_in_frame(raw.local_metres, work); });
    faults.raise();
    return fields;
}

void add_areas(const Season& season, const Raw& raw, Fields& fields) {
    Faults faults;
    for (FieldWork& work : fields) {
        if (season.methods_from.source == MethodSource::polygons) add_method_areas(season, raw, work, faults);
        if (season.methods_from.source == MethodSource::fields)
            faults.attempt("", [&] { add_whole_field(season, work); });
        const Box box = bounding_box(work.boundary_deg);
        for (const RawArea& stratum : raw.strata)
            if (bounding_box(stratum.shape_deg).overlaps(box))
                work.field.strata.push_back(
                    {shape_in(work.field.frame, stratum.shape_deg), stratum.name, stratum.table});
        for (const RawNumbers& numbers : raw.numbers)
            work.field.numbers.push_back(numbers_near(work, numbers));
    }
    faults.raise();
    if (!raw.method_areas.empty() && season.methods_from.source == MethodSource::polygons &&
        std::all_of(fields.begin(), fields.end(), [](const FieldWork& w) { return w.field.method_areas.empty(); }))
        refuse_no_area(raw, fields);
}

} // namespace quartercut::standardise_room
