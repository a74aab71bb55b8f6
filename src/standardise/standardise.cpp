// SPDX-License-Identifier: MIT
// Raw tables -> standardised fields, step by step; each step is a file of this room (work.hpp lists them).
#include "standardise/work.hpp"

#include "base/words/words.hpp"

#include "base/faults.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

namespace quartercut {

namespace room = standardise_room;

namespace {

void note_empty_fields(Standardised& result) {
    for (const StandardField& field : result.fields)
        if (field.records.size() == 0)
            result.issues.push_back({"field-without-records", Severity::warning, field.name,
                                     fill(spoken().standardise.no_record, fmt::arg("field", field.name))});
}

/// The year's first and last second, a day of slack at each end: the records' zone may not be UTC.
bool in_year(double time_s, int year) {
    using namespace std::chrono;
    const auto start_of = [](int y) {
        return static_cast<double>(
            sys_seconds{sys_days{std::chrono::year{y} / January / 1}}.time_since_epoch().count());
    };
    constexpr double day_s = 86400.0;
    return time_s >= start_of(year) - day_s && time_s < start_of(year + 1) + day_s;
}

/// Records of another year than the season's: usually a wrong `year`, or an old card left in the machine.
void note_other_years(const Season& season, const Raw& raw, Issues& issues) {
    for (const RawRecords& file : raw.records) {
        const auto elsewhere = [&](double t) { return std::isfinite(t) && !in_year(t, season.year); };
        const auto count = std::count_if(file.time_s.begin(), file.time_s.end(), elsewhere);
        if (count == 0) continue;
        issues.push_back({"other-year", Severity::warning, raw.inputs[file.input].path,
                          fill(spoken().standardise.other_year, fmt::arg("elsewhere", count),
                               fmt::arg("records", file.size()), fmt::arg("year", season.year))});
    }
}

/// Order, methods, motion and widths of records whose columns are filled.
void fill_records(const Season& season, Standardised& result, room::Fields& fields) {
    for (room::FieldWork& work : fields) {
        room::sort_records(work);
        room::assign_methods(season, work);
        room::fill_motion(work);
    }
    room::fill_widths(season, result.machines, fields, result.issues);
}

/// Everything but the masses. What does not need what failed is still done, so that its faults are told as well.
/// \throws InputError, DataError
room::Fields lay_out(const Season& season, const Raw& raw, Standardised& result) {
    room::Fields fields;
    Faults faults;
    const auto attempt = [&](const auto& work) { return faults.attempt("", work); };
    attempt([&] { room::check_moisture(season, raw); });
    const bool land = attempt([&] { fields = room::lay_out_fields(season, raw, result.issues); });
    const bool areas = land && attempt([&] { room::add_areas(season, raw, fields); });
    const bool places =
        land && attempt([&] { result.records_outside = room::place_records(raw, fields, result.issues); });
    const bool columns = attempt([&] { room::fill_columns(season, raw, result, fields); });
    if (areas && places && columns) attempt([&] { fill_records(season, result, fields); });
    faults.raise();
    return fields;
}

} // namespace

Standardised standardise_land(const Season& season, Raw raw) {
    Standardised result;
    result.issues = std::move(raw.issues);
    room::Fields fields = room::lay_out_fields(season, raw, result.issues);
    room::add_areas(season, raw, fields);
    for (room::FieldWork& work : fields)
        result.fields.push_back(std::move(work.field));
    result.inputs = std::move(raw.inputs);
    return result;
}

Standardised standardise(const Season& season, Raw raw) {
    Standardised result;
    result.issues = std::move(raw.issues);
    for (const RawRecords& file : raw.records)
        result.records_read += file.size();
    room::Fields fields = lay_out(season, raw, result);
    for (room::FieldWork& work : fields) {
        room::fill_masses(season, raw, work);
        result.fields.push_back(std::move(work.field));
    }
    room::check_twins(result.fields, raw.inputs, result.issues);
    note_empty_fields(result);
    note_other_years(season, raw, result.issues);
    result.tickets = std::move(raw.tickets);
    result.inputs = std::move(raw.inputs);
    return result;
}

} // namespace quartercut
