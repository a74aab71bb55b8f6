// SPDX-License-Identifier: MIT
// Grain of each record: flow times duration where there is flow, else the logged yield times the land it was logged
// for; then the yield at the basis as the raw map shows it, and the plain means of it.
#include "standardise/work.hpp"

#include "quartercut/error.hpp"

#include "base/faults.hpp"
#include "base/slips.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace quartercut::standardise_room {

namespace {

constexpr double t_ha_per_kg_m2 = 10.0;

bool yields_are_dry(const RawRecords& file) {
    const NumberColumn* yield = number_column(file, Meaning::yield);
    return yield != nullptr && yield->moisture == "dry";
}

bool has_reading(const NumberColumn* column) {
    return column != nullptr &&
           std::any_of(column->values.begin(), column->values.end(), [](double v) { return !std::isnan(v); });
}

/// How a file's masses are had.
struct Source {
    bool flow = false; ///< from flow and duration
    bool dry = false;  ///< the yield column is at the basis already
};

bool has_durations(const RawRecords& file) {
    return has_reading(number_column(file, Meaning::duration)) ||
           std::any_of(file.time_s.begin(), file.time_s.end(), [](double t) { return !std::isnan(t); });
}

Source source_of(const Raw& raw, const RawRecords& file) {
    const bool flow = has_reading(number_column(file, Meaning::flow));
    if (flow && has_durations(file)) return {true, false};
    if (has_reading(number_column(file, Meaning::yield))) return {false, yields_are_dry(file)};
    if (flow)
        throw DataError(
            fmt::format("{}: the file holds flow but neither duration nor time, so the mass of a record is not known; "
                        "map one of them under [points.columns].",
                        file_text(raw, file)));
    throw DataError(fmt::format("{}: the file holds neither flow nor yield; map one of them under [points.columns].",
                                file_text(raw, file)));
}

/// Factor from the mass at that moisture to the mass at the basis; NaN where the moisture cannot be.
double dry_matter_factor(double moisture_pct, double basis_pct) {
    if (!(moisture_pct >= 0.0 && moisture_pct < 100.0)) return unknown;
    return mass_at_moisture(1.0, moisture_pct, basis_pct);
}

/// Width the monitor reckoned with: the logged one, or the cut where none was logged.
double monitor_width_m(const FieldWork& work, std::size_t i) {
    const double logged_m = work.logged_width_m[i];
    return std::isnan(logged_m) ? work.field.records.width_m[i] : logged_m;
}

void fill_record(double basis_pct, Source source, std::size_t i, FieldWork& work) {
    Records& records = work.field.records;
    const double land_m2 = monitor_width_m(work, i) * records.distance_m[i];
    const double to_basis = source.dry ? 1.0 : dry_matter_factor(records.moisture_pct[i], basis_pct);
    const double mass_kg = source.flow ? work.flow_kg_s[i] * records.duration_s[i] : work.yield_kg_m2[i] * land_m2;
    const double yield_kg_m2 = source.flow ? (land_m2 > 0.0 ? mass_kg / land_m2 : unknown) : work.yield_kg_m2[i];
    records.mass_kg[i] = mass_kg;
    records.at_basis[i] = source.dry ? 1 : 0;
    records.logged_yield_t_ha[i] = yield_kg_m2 * to_basis * t_ha_per_kg_m2;
}

/// \throws DataError  wet grain without moisture, or no grain at all
bool holds_wet_grain(const Season& season, const Raw& raw, const RawRecords& file) {
    if (file.size() == 0 || source_of(raw, file).dry) return false;
    if (has_reading(number_column(file, Meaning::moisture))) return true;
    throw DataError(
        fmt::format("{}: the file holds wet grain but no moisture, so its yields cannot be brought to {} %. "
                    "Map the moisture column under [points.columns], or write moisture = \"dry\" "
                    "at the yield column if the yields are at that moisture already.",
                    file_text(raw, file), season.basis_pct));
}

std::vector<RawMean> plain_means(const Records& records) {
    struct Means {
        std::vector<double> yield_t_ha, moisture_pct; ///< those there are
        std::size_t records = 0;
    };
    std::map<std::int32_t, Means> by_method;
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (records.method[i] < 0) continue;
        Means& means = by_method[records.method[i]];
        ++means.records;
        if (!std::isnan(records.logged_yield_t_ha[i])) means.yield_t_ha.push_back(records.logged_yield_t_ha[i]);
        if (!std::isnan(records.moisture_pct[i])) means.moisture_pct.push_back(records.moisture_pct[i]);
    }
    std::vector<RawMean> result;
    for (const auto& [method, means] : by_method)
        result.push_back(
            {method, means.records, mean_without_slips(means.yield_t_ha), mean_without_slips(means.moisture_pct)});
    return result;
}

} // namespace

void check_moisture(const Season& season, const Raw& raw) {
    std::vector<std::string> impossible;
    bool any_possible = false;
    Faults faults;
    for (const RawRecords& file : raw.records) {
        bool wet = false;
        if (!faults.attempt("", [&] { wet = holds_wet_grain(season, raw, file); }) || !wet) continue;
        const NumberColumn* moisture = number_column(file, Meaning::moisture);
        const double factor = unit_factor(Dimension::moisture, moisture->unit).value_or(1.0);
        const bool possible = std::any_of(moisture->values.begin(), moisture->values.end(),
                                          [&](double v) { return v * factor > 0.0 && v * factor < 100.0; });
        any_possible = any_possible || possible;
        if (!possible) impossible.push_back(fmt::format("column \"{}\" of {}", moisture->name, file_text(raw, file)));
    }
    faults.raise();
    if (!impossible.empty() && !any_possible)
        throw DataError(
            fmt::format("The moisture of every record ({}) is 0 %, below 0 % or at least 100 %; no grain is "
                        "like that. Map the right column and unit under [points.columns].",
                        join_with(impossible, "and")));
}

void fill_masses(const Season& season, const Raw& raw, FieldWork& work) {
    Records& records = work.field.records;
    std::vector<Source> sources;
    for (const RawRecords& file : raw.records)
        sources.push_back(file.size() > 0 ? source_of(raw, file) : Source{});
    records.mass_kg.resize(records.size());
    records.at_basis.resize(records.size());
    records.logged_yield_t_ha.resize(records.size());
    for (std::size_t i = 0; i < records.size(); ++i)
        fill_record(season.basis_pct, sources[work.file[i]], i, work);
    work.field.raw_means = plain_means(records);
}

} // namespace quartercut::standardise_room
