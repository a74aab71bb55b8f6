// SPDX-License-Identifier: MIT
// Raw tables written by hand in local metres: one square field of 100 m, records where a test puts them.
#pragma once

#include "quartercut/error.hpp"
#include "quartercut/standardise.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <limits>
#include <string>
#include <utility>
#include <vector>

namespace quartercut::by_hand {

inline constexpr double nan = std::numeric_limits<double>::quiet_NaN();

inline Polygon rectangle(double x0, double y0, double x1, double y1) {
    return {{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}};
}

inline RawArea area(const std::string& name, const Polygon& shape, std::size_t row = 1) {
    RawArea made;
    made.name = name;
    made.shape_deg = {shape};
    made.row = row;
    return made;
}

/// Two methods, 10 m and 12 m wide; basis 10 %, bushel 50 lb.
inline Season season() {
    Season made;
    made.crop = "canola";
    made.basis_pct = 10.0;
    made.bushel_lb = 50.0;
    made.baseline = "swathed";
    made.methods = {{"swathed", "Swathed", 10.0}, {"standing", "Standing", 12.0}};
    return made;
}

/// Adds a column of numbers to the first file.
inline void add_numbers(Raw& raw, Meaning meaning, const std::string& unit, std::vector<double> values) {
    raw.records.front().numbers[meaning] = {meaning_word(meaning), unit, "", std::move(values)};
}

inline void add_words(Raw& raw, Meaning meaning, const std::vector<std::string>& cells) {
    TextColumn column;
    for (const std::string& cell : cells) {
        const auto found = std::find(column.words.begin(), column.words.end(), cell);
        column.codes.push_back(cell.empty() ? -1 : static_cast<std::int32_t>(found - column.words.begin()));
        if (!cell.empty() && found == column.words.end()) column.words.push_back(cell);
    }
    raw.records.front().texts[meaning] = std::move(column);
}

/// One field "home" (0..100 m) cut "swathed" west of x = 50 and "standing" east of it, and records at `places`, one a
/// second, 1 kg/s, 2 m long, 10 % moist, logged 10 m wide.
inline Raw raw(const std::vector<Point>& places) {
    Raw made;
    made.local_metres = true;
    made.fields = {area("home", rectangle(0, 0, 100, 100))};
    made.method_areas = {area("swathed", rectangle(0, 0, 50, 100), 1), area("standing", rectangle(50, 0, 100, 100), 2)};
    made.inputs = {{"yield.csv", "points", "", 0, "", places.size()}};
    RawRecords records;
    for (std::size_t i = 0; i < places.size(); ++i) {
        records.lon_deg.push_back(places[i].x);
        records.lat_deg.push_back(places[i].y);
        records.time_s.push_back(1000.0 + static_cast<double>(i));
    }
    made.records.push_back(std::move(records));
    const auto every = [&](double value) { return std::vector<double>(places.size(), value); };
    add_numbers(made, Meaning::flow, "kg/s", every(1.0));
    add_numbers(made, Meaning::moisture, "%", every(10.0));
    add_numbers(made, Meaning::distance, "m", every(2.0));
    add_numbers(made, Meaning::duration, "s", every(1.0));
    add_numbers(made, Meaning::width, "m", every(10.0));
    return made;
}

inline bool has_issue(const Issues& issues, const std::string& code) {
    return std::any_of(issues.begin(), issues.end(), [&](const Issue& issue) { return issue.code == code; });
}

/// The message of the error thrown, or "" when nothing of that kind is.
template <class Thrown>
std::string error_of(const Season& season, const Raw& raw) {
    try {
        static_cast<void>(standardise(season, raw));
    } catch (const Thrown& error) {
        return error.what();
    }
    return {};
}

} // namespace quartercut::by_hand
