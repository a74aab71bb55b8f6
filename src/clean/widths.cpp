// SPDX-License-Identifier: MIT
// A wrong width is a wrong yield, and it hits one method alone. Two witnesses speak about it: how far apart
// neighbouring passes run, and whether the harvested land adds up to the mapped land.

#include "base/words/words.hpp"
#include "clean/coverage.hpp"
#include "clean/neighbours.hpp"
#include "clean/robust.hpp"

#include <fmt/format.h>
#include <tuple>

namespace quartercut::cleaning {
namespace {

constexpr double width_tolerance_pct = 2.0, closure_tolerance_pct = 3.0;
constexpr double one_area_tolerance_pct = 10.0, smallest_area_m2 = 5000.0; // half a hectare
constexpr double u_when_closed = 0.005, u_otherwise = 0.02;
constexpr double part_width = 0.9; // records cut with less than the full width say nothing of the spacing
constexpr std::size_t fewest_pairs = 5, fewest_records_in_pair = 5;
constexpr double scan_step_m = 0.5;
constexpr double unknown_noise_m = 0.2;

struct SpacingRecord {
    std::int32_t pass = 0, beside = 0;
    int method = -1;
    double width_m = 0.0, spacing_m = 0.0;
};

std::vector<double> full_width_m(const FieldWork& work) {
    std::vector<std::vector<double>> widths;
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (r.method[i] < 0 || work.out->pass[i] < 0 || !(r.width_m[i] > 0.0)) continue;
        if (widths.size() <= at(r.method[i])) widths.resize(at(r.method[i]) + 1);
        widths[at(r.method[i])].push_back(r.width_m[i]);
    }
    std::vector<double> full;
    for (auto& list : widths)
        full.push_back(quantile_in_place(list, 0.75));
    return full;
}

std::vector<SpacingRecord> spacing_records(const FieldWork& work) {
    const Records& r = work.records();
    const std::vector<double> full = full_width_m(work);
    std::vector<SpacingRecord> found;
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (work.out->pass[i] < 0 || r.method[i] < 0 || r.width_m[i] < part_width * full[at(r.method[i])]) continue;
        for (const std::int32_t beside : {work.left[i], work.right[i]}) {
            if (beside < 0 || work.out->pass[at(beside)] <= work.out->pass[i]) continue;
            const std::size_t j = at(beside);
            if (r.method[j] != r.method[i] || r.width_m[j] < part_width * full[at(r.method[j])]) continue;
            found.push_back({work.out->pass[i], work.out->pass[j], r.method[i], 0.5 * (r.width_m[i] + r.width_m[j]),
                             std::abs(sideways_m(work, i, j))});
        }
    }
    std::stable_sort(found.begin(), found.end(), [](const SpacingRecord& a, const SpacingRecord& b) {
        return std::tie(a.method, a.pass, a.beside) < std::tie(b.method, b.pass, b.beside);
    });
    return found;
}

/// Sideways play of positions against the line through the records before and after; 1.5 variances.
double jitter_m(const FieldWork& work) {
    const Records& r = work.records();
    std::vector<double> play;
    for (std::size_t i = 1; i + 1 < work.size(); ++i) {
        if (work.out->pass[i] < 0 || work.out->pass[i - 1] != work.out->pass[i] ||
            work.out->pass[i + 1] != work.out->pass[i])
            continue;
        const double x = r.x_m[i] - 0.5 * (r.x_m[i - 1] + r.x_m[i + 1]);
        const double y = r.y_m[i] - 0.5 * (r.y_m[i - 1] + r.y_m[i + 1]);
        play.push_back(std::abs(x * work.dir_y[i] - y * work.dir_x[i]));
    }
    return play.empty() ? nan_value : mad_to_sd * median_in_place(play) / std::sqrt(1.5);
}

using Crossings = std::vector<double>;

void add_crossings(const Ring& ring, double y, Crossings& crossings) {
    for (std::size_t k = 0; k < ring.size(); ++k) {
        const Point a = ring[k], b = ring[(k + 1) % ring.size()];
        if ((a.y <= y) != (b.y <= y)) crossings.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
    }
}

Crossings crossings_of(const MultiPolygon& shape, double y) {
    Crossings crossings;
    for (const Polygon& part : shape) {
        add_crossings(part.shell, y, crossings);
        for (const Ring& hole : part.holes)
            add_crossings(hole, y, crossings);
    }
    std::sort(crossings.begin(), crossings.end());
    return crossings;
}

/// Length of the stretches that lie in both shapes.
double common_length(const Crossings& a, const Crossings& b) {
    double length = 0.0;
    for (std::size_t i = 0, j = 0; i + 1 < a.size() && j + 1 < b.size();) {
        length += std::max(0.0, std::min(a[i + 1], b[j + 1]) - std::max(a[i], b[j]));
        if (a[i + 1] < b[j + 1])
            i += 2;
        else
            j += 2;
    }
    return length;
}

/// Land harvested per method, or per method area.
std::vector<double> harvested_m2(const FieldWork& work, std::size_t count, std::vector<std::int32_t> Records::*by) {
    std::vector<double> area(count, 0.0);
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        const Removal why = work.out->removal[i];
        if (why == Removal::off_field || why == Removal::header_up || why == Removal::merged) continue;
        if ((r.*by)[i] >= 0 && work.out->pass[i] >= 0) area[at((r.*by)[i])] += work.out->area_m2[i];
    }
    return area;
}

/// One strip may be short of records although its method closes; small areas are left to chance.
void warn_areas(FieldWork& work, const Setting& setting) {
    const auto& areas = work.field->method_areas;
    const std::vector<double>& mapped = work.mapped_m2;
    const std::vector<double> harvested = harvested_m2(work, areas.size(), &Records::area);
    for (std::size_t a = 0; a < areas.size(); ++a) {
        const double off_pct = 100.0 * harvested[a] / mapped[a] - 100.0;
        if (!(mapped[a] > smallest_area_m2 && harvested[a] > 0.0 && std::abs(off_pct) > one_area_tolerance_pct))
            continue;
        work.out->issues.push_back(
            {"zone-does-not-close", Severity::note,
             fill(spoken().places.field_area, fmt::arg("field", work.field->name), fmt::arg("area", areas[a].row),
                  fmt::arg("method", setting.season->methods[at(areas[a].method)].name)),
             fill(off_pct > 0.0 ? spoken().clean.area_more : spoken().clean.area_less,
                  fmt::arg("pct", std::abs(off_pct)))});
    }
}

void warn_width(FieldWork& work, const WidthCheck& check) {
    const double off = 100.0 * check.measured_width_m / check.set_width_m - 100.0;
    if (!(std::abs(off) > width_tolerance_pct)) return;
    work.out->issues.push_back(
        {"width-doubtful", Severity::warning,
         fill(spoken().places.field_method, fmt::arg("field", work.field->name), fmt::arg("method", check.method)),
         fill(off > 0.0 ? spoken().clean.passes_apart : spoken().clean.passes_overlap,
              fmt::arg("width", check.set_width_m), fmt::arg("spacing", check.measured_width_m),
              fmt::arg("pct", off))});
}

void warn_closure(FieldWork& work, const WidthCheck& check) {
    if (!(std::abs(check.closure_pct) > closure_tolerance_pct)) return;
    work.out->issues.push_back(
        {"area-does-not-close", Severity::warning,
         fill(spoken().places.field_method, fmt::arg("field", work.field->name), fmt::arg("method", check.method)),
         fill(check.closure_pct > 0.0 ? spoken().clean.method_more : spoken().clean.method_less,
              fmt::arg("pct", std::abs(check.closure_pct)))});
}

/// Standard uncertainty of the area: half a percent where nothing speaks against it, two where something does or
/// nothing is known, and a spacing off by more as a rectangular error (JCGM 100: half-width over the root of three).
double u_of(const WidthCheck& check) {
    const double off = check.measured_width_m / check.set_width_m - 1.0;
    const bool width_known = std::isfinite(off), closure_known = std::isfinite(check.closure_pct);
    const bool width_good = 100.0 * std::abs(off) <= width_tolerance_pct;
    const bool closed = std::abs(check.closure_pct) <= closure_tolerance_pct;
    if ((closed && (width_good || !width_known)) || (width_good && !closure_known)) return u_when_closed;
    const double from_width = width_known && !closed ? std::abs(off) / std::sqrt(3.0) : 0.0;
    return std::max(u_otherwise, from_width);
}

} // namespace

std::vector<Spacing> pass_spacings(const FieldWork& work) {
    const std::vector<SpacingRecord> records = spacing_records(work);
    std::vector<Spacing> spacings;
    std::vector<double> widths, distances;
    for (std::size_t k = 0; k < records.size(); ++k) {
        widths.push_back(records[k].width_m);
        distances.push_back(records[k].spacing_m);
        const bool last = k + 1 == records.size() || records[k + 1].pass != records[k].pass ||
                          records[k + 1].beside != records[k].beside || records[k + 1].method != records[k].method;
        if (!last) continue;
        if (widths.size() >= fewest_records_in_pair)
            spacings.push_back({records[k].method, median_in_place(widths), median_in_place(distances)});
        widths.clear();
        distances.clear();
    }
    return spacings;
}

double position_noise_m(const FieldWork& work) {
    const double jitter = jitter_m(work);
    std::vector<double> beyond;
    for (const Spacing& spacing : work.spacings)
        beyond.push_back(spacing.spacing_m - spacing.width_m);
    double noise = unknown_noise_m;
    if (beyond.size() >= fewest_pairs) noise = std::max(0.0, quantile_in_place(beyond, 0.95)) / 1.645 / std::sqrt(2.0);
    return std::isfinite(jitter) ? std::max(jitter, noise) : noise;
}

std::vector<double> mapped_by_area_m2(const StandardField& field) {
    std::vector<double> area(field.method_areas.size(), 0.0);
    const Box box = bounding_box(field.boundary_m);
    std::vector<Box> boxes;
    for (const MethodArea& part : field.method_areas)
        boxes.push_back(bounding_box(part.shape_m));
    for (double y = box.min_y + 0.5 * scan_step_m; y < box.max_y; y += scan_step_m) {
        const Crossings boundary = crossings_of(field.boundary_m, y);
        for (std::size_t a = 0; a < field.method_areas.size(); ++a) {
            const MethodArea& part = field.method_areas[a];
            if (part.method < 0 || y < boxes[a].min_y || y > boxes[a].max_y) continue;
            area[a] += scan_step_m * common_length(boundary, crossings_of(part.shape_m, y));
        }
    }
    return area;
}

std::vector<double> mapped_area_m2(const StandardField& field, const std::vector<double>& by_area_m2,
                                   std::size_t methods) {
    std::vector<double> area(methods, 0.0);
    for (std::size_t a = 0; a < by_area_m2.size(); ++a)
        if (field.method_areas[a].method >= 0) area[at(field.method_areas[a].method)] += by_area_m2[a];
    return area;
}

void check_widths(FieldWork& work, const Setting& setting) {
    const std::size_t methods = setting.season->methods.size();
    const std::vector<double> full = full_width_m(work);
    const std::vector<double> mapped = mapped_area_m2(*work.field, work.mapped_m2, methods);
    const std::vector<double> harvested = harvested_m2(work, methods, &Records::method);
    for (std::size_t m = 0; m < full.size(); ++m) {
        if (!std::isfinite(full[m])) continue;
        WidthCheck check;
        check.method = setting.season->methods[m].name;
        check.set_width_m = full[m];
        std::vector<double> distances;
        for (const Spacing& spacing : work.spacings)
            if (at(spacing.method) == m) distances.push_back(spacing.spacing_m);
        check.measured_width_m = distances.size() >= fewest_pairs ? median_in_place(distances) : nan_value;
        check.closure_pct = mapped[m] > 0.0 ? 100.0 * harvested[m] / mapped[m] - 100.0 : nan_value;
        check.u_rel = u_of(check);
        warn_width(work, check);
        warn_closure(work, check);
        work.out->widths.push_back(check);
    }
    if (work.field->method_areas.size() > full.size()) warn_areas(work, setting);
}

} // namespace quartercut::cleaning
