// SPDX-License-Identifier: MIT
// Crossing tables and what is confounded with the method, in words.
#include "compare/crossings.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <map>

namespace quartercut::contrast {
namespace {

/// level -> method -> m2
using Table = std::map<std::string, std::map<int, double>>;

/// Hours east of Greenwich written as "-06:00"; 0 where nothing is written.
double zone_offset_s(const std::string& text) {
    if (text.size() < 3) return 0.0;
    int hours = 0;
    int minutes = 0;
    const bool west = text.front() == '-';
    const std::string digits = text.substr(text.front() == '-' || text.front() == '+' ? 1 : 0);
    if (digits.size() < 2 || std::sscanf(digits.c_str(), "%2d:%2d", &hours, &minutes) < 1) return 0.0;
    const double seconds = 3600.0 * hours + 60.0 * minutes;
    return west ? -seconds : seconds;
}

std::string day_of(double time_s) {
    const auto whole = static_cast<std::time_t>(std::floor(time_s));
    std::tm parts{};
    gmtime_r(&whole, &parts);
    return fmt::format("{:04}-{:02}-{:02}", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday);
}

Crossing crossing_from(const std::string& what, const Table& table, const Season& season) {
    Crossing out;
    out.what = what;
    std::vector<int> codes;
    for (std::size_t m = 0; m < season.methods.size(); ++m) {
        const auto met = std::any_of(table.begin(), table.end(),
                                     [&](const auto& row) { return row.second.contains(static_cast<int>(m)); });
        if (!met) continue;
        codes.push_back(static_cast<int>(m));
        out.methods.push_back(season.methods[m].name);
    }
    for (const auto& [level, row] : table) {
        out.levels.push_back(level);
        std::vector<double>& areas = out.area_ha.emplace_back();
        for (const int code : codes) {
            const auto found = row.find(code);
            areas.push_back(found == row.end() ? 0.0 : found->second / m2_per_hectare);
        }
    }
    return out;
}

/// Methods i and j share no level of the crossing.
bool apart(const Crossing& crossing, std::size_t i, std::size_t j) {
    return std::none_of(crossing.area_ha.begin(), crossing.area_ha.end(),
                        [&](const std::vector<double>& row) { return row[i] > 0.0 && row[j] > 0.0; });
}

std::string sentence(const Crossing& crossing, const std::string& a, const std::string& b) {
    if (crossing.what == "machine")
        return fill(spoken().compare.apart_machine, fmt::arg("method", a), fmt::arg("baseline", b));
    if (crossing.what == "date")
        return fill(spoken().compare.apart_date, fmt::arg("method", a), fmt::arg("baseline", b));
    return fill(spoken().compare.apart_other, fmt::arg("method", a), fmt::arg("baseline", b),
                fmt::arg("what", crossing_word(crossing.what)));
}

} // namespace

std::vector<Crossing> field_crossings(const FieldContext& field) {
    Table machines;
    Table days;
    const double offset_s = zone_offset_s(field.season.points.time_zone);
    for (const int i : field.layout.usable) {
        const Segment& s = field.segment(i);
        const int method = field.zone_of(i).method;
        if (s.machine >= 0 && static_cast<std::size_t>(s.machine) < field.standardised.machines.size())
            machines[field.standardised.machines[static_cast<std::size_t>(s.machine)]][method] += s.area_m2;
        if (std::isfinite(s.time_s)) days[day_of(s.time_s + offset_s)][method] += s.area_m2;
    }
    std::vector<Crossing> out;
    if (!machines.empty()) out.push_back(crossing_from("machine", machines, field.season));
    if (!days.empty()) out.push_back(crossing_from("date", days, field.season));
    return out;
}

std::vector<Crossing> season_crossings(const Season& season, const Standardised& standardised,
                                       const std::vector<ZonedField>& zoned) {
    Table varieties;
    for (std::size_t f = 0; f < zoned.size() && f < standardised.fields.size(); ++f) {
        const auto& attributes = standardised.fields[f].attributes;
        const auto variety = attributes.find("variety");
        if (variety == attributes.end() || variety->second.empty()) continue;
        for (const Zone& zone : zoned[f].zones)
            if (zone.method >= 0 && zone.harvested_m2 > 0.0)
                varieties[variety->second][zone.method] += zone.harvested_m2;
    }
    if (varieties.empty()) return {};
    return {crossing_from("variety", varieties, season)};
}

std::vector<std::string> confounding_words(const std::vector<Crossing>& crossings) {
    std::vector<std::string> out;
    for (const Crossing& crossing : crossings)
        for (std::size_t i = 0; i < crossing.methods.size(); ++i)
            for (std::size_t j = i + 1; j < crossing.methods.size(); ++j)
                if (apart(crossing, i, j)) out.push_back(sentence(crossing, crossing.methods[i], crossing.methods[j]));
    return out;
}

} // namespace quartercut::contrast
