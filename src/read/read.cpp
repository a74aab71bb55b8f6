// SPDX-License-Identifier: MIT
// The room's door: reads everything the season file names, in a fixed order, and looks at the whole once more.
#include "quartercut/read.hpp"

#include "quartercut/plan_inputs.hpp"
#include "read/areas.hpp"
#include "read/gdal_access.hpp"
#include "read/input_files.hpp"
#include "read/records.hpp"
#include "read/tickets.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut {
namespace {

using reading::Context;

void add_season_file(Context& context) {
    InputFile input;
    input.path = context.season.file.filename().string();
    input.role = "season";
    input.bytes = context.season.text.size();
    input.sha256 = reading::sha256_of(context.season.text);
    input.rows = static_cast<std::size_t>(std::count(context.season.text.begin(), context.season.text.end(), '\n'));
    context.raw.inputs.push_back(std::move(input));
}

/// Share of points that lie in the box.
double share_within(const std::vector<double>& x, const std::vector<double>& y, const Box& box) {
    std::size_t inside = 0;
    for (std::size_t i = 0; i < x.size(); ++i)
        inside += box.contains({x[i], y[i]}) ? 1U : 0U;
    return x.empty() ? 0.0 : static_cast<double>(inside) / static_cast<double>(x.size());
}

/// Records that fall into the fields only with x and y exchanged have them exchanged.
void check_swapped_axes(const Context& context) {
    Box land;
    for (const RawArea& field : context.raw.fields) {
        const Box box = bounding_box(field.shape_deg);
        reading::grow(land, box.min_x, box.min_y);
        reading::grow(land, box.max_x, box.max_y);
    }
    for (const RawRecords& records : context.raw.records) {
        if (share_within(records.lon_deg, records.lat_deg, land) > 0.0) continue;
        if (share_within(records.lat_deg, records.lon_deg, land) < 0.5) continue;
        throw InputError(
            fmt::format("{}: longitude and latitude seem exchanged: only the other way round do the records lie in "
                        "the fields. Mend the columns under [points.columns].",
                        context.raw.inputs[records.input].path));
    }
}

/// Loads find their records by time, so both must mean the same clock.
void check_time_zones(const Context& context) {
    const bool by_time = std::any_of(context.raw.tickets.begin(), context.raw.tickets.end(),
                                     [](const Ticket& ticket) { return ticket.start_s || ticket.end_s; });
    if (!by_time || context.zoned_from.empty() || context.zoneless_from.empty()) return;
    if (!context.season.points.time_zone.empty()) return;
    throw InputError(
        fmt::format("The times of {} state their zone and those of {} do not, so loads cannot be matched. Add "
                    "time_zone = \"-06:00\" (or what it was) under [points].",
                    context.zoned_from, context.zoneless_from));
}

void read_all(Context& context) {
    const reading::GdalWords quiet; // nothing is printed while this room is at work
    const Season& season = context.season;
    const auto tickets_file = season.tickets ? season.tickets->file : std::string();
    const auto methods_file =
        season.methods_from.source == MethodSource::polygons ? season.methods_from.file : season.fields.file;
    add_season_file(context);
    context.attempt(season.fields.file, [&] { reading::read_fields(context); });
    context.attempt(methods_file, [&] { reading::read_method_areas(context); });
    context.attempt(season.strata ? season.strata->file : "", [&] { reading::read_strata(context); });
    context.attempt("[points]", [&] { reading::read_records(context); });
    context.attempt("[strata]", [&] { reading::check_class_layers(context); });
    context.attempt(tickets_file, [&] { reading::read_tickets(context); });
    context.attempt("[points]", [&] { check_swapped_axes(context); });
    context.attempt("[points]", [&] { reading::check_records_have_times(context); });
    context.attempt(tickets_file, [&] { check_time_zones(context); });
    context.attempt(tickets_file, [&] { reading::check_ticket_names(context); });
    for (const reading::FoundFile& file : context.files)
        context.attempt(file.shown, [&] { reading::require_unchanged(file); });
}

} // namespace

Raw read(const Season& season) {
    Raw raw;
    Context context{season, raw};
    read_all(context);
    return raw;
}

Raw read_land(const Season& season) {
    const reading::GdalWords quiet;
    Raw raw;
    Context context{season, raw};
    add_season_file(context);
    reading::read_fields(context);
    reading::read_method_areas(context);
    reading::read_strata(context);
    for (const reading::FoundFile& file : context.files)
        reading::require_unchanged(file);
    return raw;
}

Raw read_for_faults(const Season& season) {
    Raw raw;
    Context context{season, raw, true};
    read_all(context);
    for (Issue& issue : plan_table_faults(season))
        raw.issues.push_back(std::move(issue));
    return raw;
}

} // namespace quartercut
