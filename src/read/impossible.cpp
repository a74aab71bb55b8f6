// SPDX-License-Identifier: MIT
// Single numbers that no machine can have measured: a distance of 1e308 m, a moisture of 140 %. They are slips of the
// instrument or of the file, so they become "no reading", are counted and told with the row of the first. Negative
// flows and speeds stay: judging doubtful records is the cleaning's work, this is only about the impossible.
#include "read/records.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"

#include <array>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace quartercut::reading {
namespace {

/// Wide limits in the program's units (judgement): ten times what the largest machines do.
struct Possible {
    Meaning meaning;
    double low, high;
};
constexpr std::array<Possible, 8> possible{{{Meaning::yield, -100.0, 100.0},       // kg/m2: 1000 t/ha
                                            {Meaning::flow, -1000.0, 1000.0},      // kg/s
                                            {Meaning::moisture, 0.0, 99.999999},   // % of wet mass
                                            {Meaning::speed, -100.0, 100.0},       // m/s
                                            {Meaning::distance, -2000.0, 2000.0},  // m in one record
                                            {Meaning::duration, -3600.0, 3600.0},  // s of one record
                                            {Meaning::width, -200.0, 200.0},       // m
                                            {Meaning::heading, -3600.0, 3600.0}}}; // degrees

constexpr double first_gps_day_s = 315964800.0; // 1980-01-06T00:00:00Z
constexpr double last_day_s = 7258118400.0;     // 2200-01-01T00:00:00Z
constexpr double largest_place = 1e8;           // metres or degrees: the Earth is 4e7 m around

struct Slips {
    std::size_t count = 0, known = 0, first_row = 0;
    double first = 0.0;
    [[nodiscard]] bool are_most() const { return 2 * count > known; }
};

/// Finds what cannot be and, unless that is more than half, drops it: then the unit is wrong, not the values.
template <class IsPossible>
Slips drop(std::vector<double>& values, const IsPossible& is_possible) {
    Slips slips;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (std::isnan(values[i])) continue;
        ++slips.known;
        if (is_possible(values[i]) || slips.count++ > 0) continue;
        slips.first_row = i + 1;
        slips.first = values[i];
    }
    if (slips.count == 0 || slips.are_most()) return slips;
    for (double& value : values)
        if (!is_possible(value)) value = std::numeric_limits<double>::quiet_NaN();
    return slips;
}

/// Sizes that check_physics knows are refused there, with better words.
bool is_judged_later(Meaning meaning) { return meaning != Meaning::moisture && meaning != Meaning::heading; }

void judge_slips(Context& context, const std::string& shown, const NumberColumn& column, Meaning meaning,
                 const Slips& slips) {
    if (slips.count == 0 || (slips.are_most() && is_judged_later(meaning))) return;
    const std::string unit = meaning == Meaning::moisture && column.unit == "pct" ? "%" : column.unit;
    const std::string value = fmt::format("{} {}", format_shortest(slips.first), unit);
    if (slips.are_most())
        throw InputError(fmt::format("{}: more than half of column '{}' ({}) cannot be (row {}: {}). A unit or column "
                                     "is wrong; set it under [points.columns].",
                                     shown, column.name, meaning_word(meaning), slips.first_row, value));
    context.warn("value-impossible", shown,
                 fill(spoken().read.value_impossible,
                      fmt::arg("values", counted(slips.count, spoken().read.value_one, spoken().read.value_many)),
                      fmt::arg("column", column.name), fmt::arg("meaning", meaning_word(meaning)),
                      fmt::arg("row", slips.first_row), fmt::arg("value", value)));
}

void drop_impossible_times(Context& context, const std::string& shown, RawRecords& records) {
    // Seconds of an unknown week are small numbers, all of them.
    const auto is_absolute = [](double t) { return t >= 1e8; };
    std::size_t absolute = 0, known = 0;
    for (const double t : records.time_s) {
        known += std::isnan(t) ? 0U : 1U;
        absolute += is_absolute(t) ? 1U : 0U;
    }
    if (2 * absolute < known) return;
    const Slips slips = drop(records.time_s, [](double t) { return t >= first_gps_day_s && t <= last_day_s; });
    if (slips.count > 0)
        context.warn("time-impossible", shown,
                     fill(spoken().read.time_impossible,
                          fmt::arg("times", counted(slips.count, spoken().read.time_one, spoken().read.time_many)),
                          fmt::arg("row", slips.first_row)));
}

} // namespace

void drop_impossible(Context& context, const std::string& shown, RawRecords& records) {
    for (const Possible& range : possible) {
        const auto found = records.numbers.find(range.meaning);
        if (found == records.numbers.end()) continue;
        NumberColumn& column = found->second;
        const double factor =
            unit_factor(*dimension_of(range.meaning), column.unit, context.season.bushel_lb).value_or(1.0);
        const Slips slips =
            drop(column.values, [&](double v) { return v * factor >= range.low && v * factor <= range.high; });
        judge_slips(context, shown, column, range.meaning, slips);
    }
    // Records whose place cannot be have none; they are counted where records without a place are.
    for (auto* values : {&records.lon_deg, &records.lat_deg})
        (void)drop(*values, [](double v) { return std::abs(v) <= largest_place; });
    drop_impossible_times(context, shown, records);
}

} // namespace quartercut::reading
