// SPDX-License-Identifier: MIT
// Units checked against the world: flow, width, travel and yield must agree with each other, and no crop yields
// twenty tonnes of canola a hectare. Also finds out whether a yield column is wet or dry where nothing says so.
//
// Tolerances (judgement): medians of the yield column and of flow / (width x speed) further apart than 25 %, beyond
// what the moisture explains, are two different units; further than 8 % is worth a word.
#include "read/records.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace quartercut::reading {
namespace {

constexpr double different_units = 1.25;
constexpr double worth_a_word = 1.08;
constexpr double different_travel =
    1.4; ///< miles an hour are 1.6 kilometres an hour; a wheel that slips is a tenth out
constexpr std::size_t enough_rows = 10;
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
constexpr double t_ha_per_kg_m2 = 10.0;

/// A column in the program's units; NaN everywhere where the file has none.
class SiColumn {
public:
    SiColumn(const Season& season, const RawRecords& records, Meaning meaning) {
        const auto found = records.numbers.find(meaning);
        if (found == records.numbers.end()) return;
        column_ = &found->second;
        factor_ = unit_factor(*dimension_of(meaning), column_->unit, season.bushel_lb).value_or(nothing);
    }
    [[nodiscard]] bool there() const { return column_ != nullptr; }
    [[nodiscard]] double at(std::size_t i) const { return column_ == nullptr ? nothing : column_->values[i] * factor_; }
    /// "'Flow' (lb/s)"
    [[nodiscard]] std::string words() const { return fmt::format("'{}' ({})", column_->name, column_->unit); }

private:
    const NumberColumn* column_ = nullptr;
    double factor_ = 1.0;
};

struct Columns {
    SiColumn yield, flow, moisture, speed, distance, duration, width;
    Columns(const Season& season, const RawRecords& r)
        : yield(season, r, Meaning::yield), flow(season, r, Meaning::flow), moisture(season, r, Meaning::moisture),
          speed(season, r, Meaning::speed), distance(season, r, Meaning::distance),
          duration(season, r, Meaning::duration), width(season, r, Meaning::width) {}
    [[nodiscard]] bool has_travel() const { return speed.there() || (distance.there() && duration.there()); }
    /// Travel in m/s.
    [[nodiscard]] double travel(std::size_t i) const {
        return distance.there() && duration.there() ? distance.at(i) / duration.at(i) : speed.at(i);
    }
    /// Names and units of what goes into the yield from flow.
    [[nodiscard]] std::string flow_words() const {
        std::vector<std::string> parts{flow.words()};
        if (width.there()) parts.push_back(width.words());
        if (distance.there() && duration.there()) {
            parts.push_back(distance.words());
            parts.push_back(duration.words());
        } else {
            parts.push_back(speed.words());
        }
        return join_with(parts, "and");
    }
};

double apart(double ratio) { return ratio > 1.0 ? ratio : 1.0 / ratio; }

double median(std::vector<double> values) {
    if (values.empty()) return nothing;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Yield (kg/m2, wet) of a record from its flow; NaN where it does not move or nothing flows.
double yield_from_flow(const Columns& columns, std::size_t i, double width_m) {
    const double travel = columns.travel(i), flow = columns.flow.at(i);
    if (!(travel > 0.2) || !(flow > 0.0) || !(width_m > 0.0)) return nothing;
    return flow / (travel * width_m);
}

/// A width to judge by where the file has none: that of the season's methods.
double width_of_methods(const Season& season) {
    double sum = 0.0, count = 0.0;
    for (const Method& method : season.methods) {
        if (!method.cut_width_m) continue;
        sum += *method.cut_width_m;
        count += 1.0;
    }
    return count > 0.0 ? sum / count : nothing;
}

void refuse_impossible(const Season& season, const std::string& shown, double yield_kg_m2, const std::string& from) {
    const double yield_t_ha = yield_kg_m2 * t_ha_per_kg_m2;
    if (std::isnan(yield_t_ha) || (yield_t_ha >= season.yield_low_t_ha && yield_t_ha <= season.yield_high_t_ha)) return;
    throw InputError(
        fmt::format("{}: with the units of {} half of the records would yield {} {} t/ha, which {} does not ({} "
                    "to {} t/ha is believable). A unit or column is wrong; set it under [points.columns].",
                    shown, from, yield_t_ha > season.yield_high_t_ha ? "more than" : "less than",
                    format_fixed(yield_t_ha, yield_t_ha < 1.0 ? 3 : 1), season.crop.empty() ? "this crop" : season.crop,
                    format_shortest(season.yield_low_t_ha), format_shortest(season.yield_high_t_ha)));
}

void check_yields(const Season& season, const std::string& shown, const Columns& columns, std::size_t rows) {
    std::vector<double> from_column, from_flow;
    const double set_width_m = width_of_methods(season);
    for (std::size_t i = 0; i < rows; ++i) {
        if (columns.yield.there() && columns.yield.at(i) > 0.0) from_column.push_back(columns.yield.at(i));
        if (!columns.flow.there() || !columns.has_travel()) continue;
        const double value = yield_from_flow(columns, i, columns.width.there() ? columns.width.at(i) : set_width_m);
        if (!std::isnan(value)) from_flow.push_back(value);
    }
    if (!from_flow.empty()) refuse_impossible(season, shown, median(std::move(from_flow)), columns.flow_words());
    if (!from_column.empty()) refuse_impossible(season, shown, median(std::move(from_column)), columns.yield.words());
}

/// Sizes no machine and no log has, whatever the crop.
struct Believable {
    Meaning meaning;
    double low, high;
    const char* unit;
};
constexpr std::array<Believable, 4> believable{{{Meaning::width, 0.2, 60.0, "m"},
                                                {Meaning::speed, 0.05, 15.0, "m/s"},
                                                {Meaning::duration, 0.05, 120.0, "s"},
                                                {Meaning::distance, 0.02, 300.0, "m"}}};

/// Grain in percent is never below 1: such numbers are fractions under the wrong unit.
void check_moisture_unit(const Season& season, const std::string& shown, const RawRecords& records) {
    const SiColumn column(season, records, Meaning::moisture);
    std::vector<double> values;
    for (std::size_t i = 0; column.there() && i < records.size(); ++i)
        if (column.at(i) > 0.0) values.push_back(column.at(i));
    const double middle = median(std::move(values));
    constexpr double least_pct = 1.0;
    if (std::isnan(middle) || middle >= least_pct) return;
    throw InputError(
        fmt::format("{}: half of the moistures in column {} are below {} %, which no grain is. If they are "
                    "parts of one (0.09 for 9 %), say so under [points.columns]: moisture = {{ column = "
                    "\"{}\", unit = \"fraction\" }}.",
                    shown, column.words(), format_shortest(std::max(0.001, std::ceil(middle * 1e3) / 1e3)),
                    records.numbers.at(Meaning::moisture).name));
}

void check_sizes(const Season& season, const std::string& shown, const RawRecords& records) {
    for (const Believable& range : believable) {
        const SiColumn column(season, records, range.meaning);
        if (!column.there()) continue;
        std::vector<double> values;
        for (std::size_t i = 0; i < records.size(); ++i)
            if (column.at(i) > 0.0) values.push_back(column.at(i));
        const double middle = median(std::move(values));
        if (std::isnan(middle) || (middle >= range.low && middle <= range.high)) continue;
        throw InputError(fmt::format(
            "{}: column {} would make the {} of a record {} {} in the middle, which cannot be ({} to "
            "{} {}). A unit or column is wrong; set it under [points.columns].",
            shown, column.words(), meaning_word(range.meaning), format_shortest(std::round(middle * 1000.0) / 1000.0),
            range.unit, format_shortest(range.low), format_shortest(range.high), range.unit));
    }
}

/// A distance that speed and duration do not make is in another unit than they are.
void check_travel(const std::string& shown, const Columns& columns, std::size_t rows) {
    std::vector<double> ratios;
    for (std::size_t i = 0; i < rows; ++i) {
        const double way_m = columns.speed.at(i) * columns.duration.at(i);
        if (columns.speed.at(i) > 0.2 && columns.distance.at(i) > 0.0 && way_m > 0.0)
            ratios.push_back(columns.distance.at(i) / way_m);
    }
    if (ratios.size() < enough_rows) return;
    const double middle = median(std::move(ratios));
    if (apart(middle) <= different_travel) return;
    throw InputError(fmt::format(
        "{}: the distances in column {} are {} times the way that {} and {} make, in the middle "
        "of the records. One of the units is wrong; set it under [points.columns].",
        shown, columns.distance.words(), format_fixed(middle, 2), columns.speed.words(), columns.duration.words()));
}

/// How the yield column stands to the yield from flow, record by record.
struct Agreement {
    double wet_ratio = nothing;                        ///< median of yield / wet yield from flow
    double dry_ratio = nothing;                        ///< the same against the dry yield; NaN without moisture
    double wet_spread = nothing, dry_spread = nothing; ///< median distance from 1, relative
    std::size_t rows = 0;
};

Agreement agreement(const Season& season, const Columns& columns, std::size_t rows) {
    std::vector<double> wet, dry;
    for (std::size_t i = 0; i < rows; ++i) {
        const double flow_yield = yield_from_flow(columns, i, columns.width.at(i));
        const double moisture = columns.moisture.at(i);
        if (std::isnan(flow_yield) || !(columns.yield.at(i) > 0.0)) continue;
        wet.push_back(columns.yield.at(i) / flow_yield);
        if (moisture > 0.0 && moisture < 60.0)
            dry.push_back(wet.back() * (100.0 - season.basis_pct) / (100.0 - moisture));
    }
    const auto spread = [](const std::vector<double>& ratios) {
        std::vector<double> distances;
        for (const double ratio : ratios)
            distances.push_back(std::abs(ratio - 1.0));
        return median(std::move(distances));
    };
    Agreement out;
    out.rows = wet.size();
    out.wet_spread = spread(wet);
    out.dry_spread = spread(dry);
    out.wet_ratio = median(std::move(wet));
    out.dry_ratio = median(std::move(dry));
    return out;
}

void check_agreement(Context& context, const std::string& shown, const Columns& columns, const Agreement& found) {
    const double wet_apart = apart(found.wet_ratio), dry_apart = apart(found.dry_ratio);
    const double nearest = std::isnan(dry_apart) || wet_apart < dry_apart ? found.wet_ratio : found.dry_ratio;
    if (apart(nearest) <= worth_a_word) return;
    const std::string words = fill(spoken().read.yield_times_flow, fmt::arg("column", columns.yield.words()),
                                   fmt::arg("times", format_fixed(nearest, 3)), fmt::arg("from", columns.flow_words()));
    if (apart(nearest) > different_units)
        throw InputError(
            fmt::format("{}: {}. One of the units is wrong; set it under [points.columns].", shown, words));
    context.warn("yield-against-flow", shown, fill(spoken().read.yield_against_flow, fmt::arg("what", words)));
}

/// Wet or dry: whichever the flow agrees with clearly better.
std::string moisture_found(const Agreement& found) {
    if (std::isnan(found.dry_spread) || std::isnan(found.wet_spread)) return {};
    constexpr double close = 0.02, clearly = 3.0;
    if (found.wet_spread < close && found.dry_spread > clearly * found.wet_spread + 0.002) return "wet";
    if (found.dry_spread < close && found.wet_spread > clearly * found.dry_spread + 0.002) return "dry";
    return {};
}

void settle_moisture(Context& context, const std::string& shown, RawRecords& records, const Agreement& found) {
    const auto yield = records.numbers.find(Meaning::yield);
    if (yield == records.numbers.end() || !yield->second.moisture.empty()) return;
    const std::string name = yield->second.name;
    yield->second.moisture = moisture_found(found);
    if (!yield->second.moisture.empty())
        return context.note(
            "wet-or-dry-found", shown,
            fill(spoken().read.wet_or_dry, fmt::arg("column", name), fmt::arg("found", yield->second.moisture)));
    const bool mass_from_flow = records.numbers.count(Meaning::flow) > 0 &&
                                (records.numbers.count(Meaning::duration) > 0 || !records.time_s.empty());
    if (!mass_from_flow)
        throw InputError(
            fmt::format("{}: is the yield in column '{}' wet (as cut) or dry (already at {} % moisture)? The file "
                        "does not say. Add under [points.columns]:  yield = {{ column = \"{}\", unit = \"{}\", "
                        "moisture = \"wet\" }}  or  \"dry\".",
                        shown, name, format_shortest(context.season.basis_pct), name, yield->second.unit));
    context.note("yield-unused", shown, fill(spoken().read.yield_unsaid, fmt::arg("column", name)));
    records.numbers.erase(yield);
}

} // namespace

void check_physics(Context& context, const std::string& shown, RawRecords& records) {
    const Columns columns(context.season, records);
    check_sizes(context.season, shown, records);
    check_moisture_unit(context.season, shown, records);
    check_travel(shown, columns, records.size());
    check_yields(context.season, shown, columns, records.size());
    Agreement found;
    if (columns.yield.there() && columns.flow.there() && columns.width.there() && columns.has_travel())
        found = agreement(context.season, columns, records.size());
    if (found.rows >= enough_rows) check_agreement(context, shown, columns, found);
    settle_moisture(context, shown, records, found.rows >= enough_rows ? found : Agreement{});
}

} // namespace quartercut::reading
