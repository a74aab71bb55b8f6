// SPDX-License-Identifier: MIT
// What the weather did while each crop was out. A list beside the result: no threshold, no correction.
#include "quartercut/plan.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut {
namespace {

constexpr double seconds_per_day = 86400.0;
constexpr long unknown_day = -1000000;

/// Day a method's land in a field was first combined; nullopt without times.
std::optional<long> combined_on(const ZonedField& field, int method, double offset_s) {
    std::optional<double> last;
    for (const Zone& zone : field.zones)
        if (zone.method == method && zone.records > 0 && std::isfinite(zone.last_s))
            last = std::max(last.value_or(zone.last_s), zone.last_s);
    if (!last) return std::nullopt;
    return static_cast<long>(std::floor((*last + offset_s) / seconds_per_day));
}

/// "-06:00" as seconds; the season file has checked its shape.
double offset_of(const std::string& zone) {
    if (zone.size() != 6) return 0.0;
    const double hours = std::stod(zone.substr(1, 2)), minutes = std::stod(zone.substr(4, 2));
    return (zone[0] == '-' ? -1.0 : 1.0) * (3600.0 * hours + 60.0 * minutes);
}

void fill(WeatherWindow& window, const std::vector<WeatherDay>& days) {
    for (const WeatherDay& day : days) {
        if (day.day < window.first_day || day.day > window.last_day) continue;
        ++window.days_known;
        window.rain_mm += day.rain_mm.value_or(0.0);
        window.rain_days += day.rain_mm.value_or(0.0) > 0.0 ? 1 : 0;
        if (day.gust_km_h && (!window.gust_km_h || *day.gust_km_h > *window.gust_km_h)) {
            window.gust_km_h = day.gust_km_h;
            window.gust_day = day.day;
        }
        if (day.rain_mm.value_or(0.0) > 0.0 || day.gust_km_h) window.days.push_back(day);
    }
}

struct Start {
    std::string column, state;
};

Start start_of(const WeatherInput& input, const std::string& method) {
    const bool swath = std::find(input.in_swath.begin(), input.in_swath.end(), method) != input.in_swath.end();
    return swath ? Start{input.swathed_column, spoken().advice.in_swath}
                 : Start{input.ripe_column, spoken().advice.standing_ripe};
}

/// Only the fields where something was counted: a loss goes with the yield of the same land. All of them where the
/// counts name no field.
std::vector<ZonedField> where_counted(const std::vector<LossCount>& counts, const Standardised& standardised,
                                      const std::vector<ZonedField>& zoned) {
    std::vector<ZonedField> out;
    for (std::size_t f = 0; f < zoned.size(); ++f) {
        const std::string& name = standardised.fields[f].name;
        if (std::none_of(counts.begin(), counts.end(), [&](const LossCount& c) { return c.field == name; })) continue;
        out.emplace_back();
        out.back().zones = zoned[f].zones;
    }
    const bool unnamed = std::any_of(counts.begin(), counts.end(), [](const LossCount& c) { return c.field.empty(); });
    return unnamed ? zoned : out;
}

/// Counts in a field the season does not have: told, and kept without a yield beside them.
void tell_unknown_fields(const std::vector<LossCount>& counts, const Standardised& standardised, Issues& issues) {
    for (const LossCount& count : counts) {
        const bool known = std::any_of(standardised.fields.begin(), standardised.fields.end(),
                                       [&](const StandardField& field) { return field.name == count.field; });
        if (count.field.empty() || known) continue;
        issues.push_back({"loss-field-unknown", Severity::warning,
                          quartercut::fill(spoken().places.loss_row, fmt::arg("row", count.row)),
                          quartercut::fill(spoken().advice.unknown_field, fmt::arg("field", count.field))});
        return;
    }
}

} // namespace

WeatherResult list_weather(const Season& season, const Standardised& standardised, const std::vector<ZonedField>& zoned,
                           const std::vector<WeatherDay>& days) {
    WeatherResult out;
    const double offset_s = offset_of(season.points.time_zone);
    for (std::size_t f = 0; f < zoned.size(); ++f)
        for (std::size_t m = 0; m < season.methods.size(); ++m) {
            const StandardField& field = standardised.fields[f];
            const std::string& method = season.methods[m].name;
            const bool cut_here = std::any_of(zoned[f].zones.begin(), zoned[f].zones.end(), [&](const Zone& zone) {
                return zone.method == static_cast<int>(m) && zone.records > 0;
            });
            if (!cut_here) continue;
            const Start start = start_of(*season.weather, method);
            const auto attribute = field.attributes.find(start.column);
            const auto first = start.column.empty() || attribute == field.attributes.end()
                                   ? std::nullopt
                                   : day_number(attribute->second);
            const auto last = combined_on(zoned[f], static_cast<int>(m), offset_s);
            const long first_day = first.value_or(unknown_day), last_day = last.value_or(unknown_day);
            if (!first || !last || first_day > last_day) {
                const char* why = !last    ? spoken().advice.no_times
                                  : !first ? spoken().advice.no_start
                                           : spoken().advice.starts_late;
                out.gaps.push_back(quartercut::fill(spoken().advice.days_unknown, fmt::arg("field", field.name),
                                                    fmt::arg("method", method), fmt::arg("state", start.state),
                                                    fmt::arg("why", why)));
                continue;
            }
            WeatherWindow window;
            window.field = field.name;
            window.method = method;
            window.state = start.state;
            window.first_day = first_day;
            window.last_day = last_day;
            fill(window, days);
            if (window.days_known < last_day - first_day + 1)
                out.gaps.push_back(quartercut::fill(spoken().advice.station_gap, fmt::arg("field", field.name),
                                                    fmt::arg("method", method), fmt::arg("days", window.days_known),
                                                    fmt::arg("all", last_day - first_day + 1)));
            out.windows.push_back(std::move(window));
        }
    return out;
}

PlanResults plan_beside(const Season& season, const Standardised& standardised, const std::vector<ZonedField>& zoned,
                        const Comparison& comparison) {
    PlanResults out;
    if (season.money) out.money = price_comparison(season, standardised, zoned, comparison);
    if (!season.loss_counts && !season.weather) return out;
    PlanTables tables = read_plan_tables(season);
    out.inputs = std::move(tables.inputs);
    out.issues = std::move(tables.issues);
    if (!tables.losses.empty()) {
        out.losses = count_losses(season, tables.losses, where_counted(tables.losses, standardised, zoned));
        tell_unknown_fields(tables.losses, standardised, out.issues);
    }
    if (out.losses) out.issues.insert(out.issues.end(), out.losses->issues.begin(), out.losses->issues.end());
    out.samples = compare_samples(season, tables.samples);
    if (season.weather) out.weather = list_weather(season, standardised, zoned, tables.weather);
    return out;
}

} // namespace quartercut
