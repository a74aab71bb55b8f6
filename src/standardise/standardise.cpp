// SPDX-License-Identifier: MIT
// Raw tables -> standardised fields, step by step; each step is a file of this room (work.hpp lists them).
#include "standardise/work.hpp"

#include <fmt/format.h>

namespace quartercut {

namespace room = standardise_room;

namespace {

void note_empty_fields(Standardised& result) {
    for (const StandardField& field : result.fields)
        if (field.records.size() == 0)
            result.issues.push_back(
                {"field-without-records", Severity::warning, field.name,
                 fmt::format("No record lies in field \"{}\"; it takes part in no comparison.", field.name)});
}

} // namespace

Standardised standardise(const Season& season, Raw raw) {
    Standardised result;
    for (const RawRecords& file : raw.records)
        result.records_read += file.size();
    room::check_moisture(season, raw);
    room::Fields fields = room::lay_out_fields(season, raw, result.issues);
    room::add_areas(season, raw, fields);
    result.records_outside = room::place_records(raw, fields, result.issues);
    room::fill_columns(season, raw, result, fields);
    for (room::FieldWork& work : fields) {
        room::sort_records(work);
        room::assign_methods(season, work);
        room::fill_motion(work);
    }
    room::fill_widths(season, result.machines, fields, result.issues);
    for (room::FieldWork& work : fields) {
        room::fill_masses(season, raw, work);
        result.fields.push_back(std::move(work.field));
    }
    note_empty_fields(result);
    result.tickets = std::move(raw.tickets);
    result.inputs = std::move(raw.inputs);
    return result;
}

} // namespace quartercut
