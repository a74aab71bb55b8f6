// SPDX-License-Identifier: MIT
// Where the times of a file stand, and how they become seconds since 1970-01-01 UTC.
#include "read/records.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "read/cells.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace quartercut::reading {
namespace {

constexpr double week_s = 604800.0;
constexpr const char* forms_known =
    "ISO 8601 (2025-09-01T14:30:05Z), date and time in two columns, Unix seconds, GPS seconds";

template <class Parse>
bool most_are(const std::vector<std::string>& sample, Parse parse) {
    const auto good = static_cast<std::size_t>(std::count_if(sample.begin(), sample.end(), parse));
    return !sample.empty() && 10 * good >= 9 * sample.size();
}

bool is_compact_moment(const std::string& text) {
    return text.size() >= 14 && text.starts_with("20") && std::all_of(text.begin(), text.begin() + 14, is_digit);
}

bool holds_numbers(const std::vector<std::string>& sample) {
    return most_are(sample, [](const std::string& t) { return cell_number(t, true).has_value(); }) &&
           !most_are(sample, is_compact_moment);
}

bool holds_moments(const std::vector<std::string>& sample, DateOrder order) {
    return most_are(sample, [order](const std::string& t) { return parse_moment(t, order).has_value(); });
}

bool holds_clocks(const std::vector<std::string>& sample) {
    return most_are(
        sample, [](const std::string& t) { return t.find(':') != std::string::npos && parse_clock(t).has_value(); });
}

/// Days without a time of the day: all records of a day would stand on one moment.
bool holds_bare_days(const std::vector<std::string>& sample) {
    return most_are(sample, [](const std::string& t) { return t.size() <= 10 && t.find(':') == std::string::npos; });
}

/// Column with the number of the GPS week.
std::optional<std::size_t> gps_week_column(const RecordSource& source) {
    for (std::size_t i = 0; i < source.columns().size(); ++i) {
        const std::vector<std::string> words = taken_apart(source.columns()[i].name).words;
        if (words == std::vector<std::string>{"gps", "week"} || words == std::vector<std::string>{"week"} ||
            words == std::vector<std::string>{"gpsweek"})
            return i;
    }
    return std::nullopt;
}

DateOrder settled_order(const Context& context, const RecordSource& source, std::size_t column) {
    const std::vector<std::string>& sample = source.columns()[column].sample;
    const DateOrder order = date_order(sample, context.season.points.dates);
    if (order != DateOrder::unclear) return order;
    throw InputError(fmt::format("{}: the dates in column '{}' ('{}') could be day/month or month/day. Say which under "
                                 "[points]: dates = \"day/month\" or dates = \"month/day\".",
                                 source.shown(), source.columns()[column].name, sample.front()));
}

/// Seconds that fall back by more than half a week have begun a new week.
void unroll_weeks(std::vector<double>& seconds) {
    double offset = 0.0, last = std::numeric_limits<double>::quiet_NaN();
    for (double& s : seconds) {
        if (std::isnan(s)) continue;
        if (s < last - week_s / 2.0) offset += week_s;
        last = s;
        s += offset;
    }
}

} // namespace

std::size_t TimePlan::add(std::vector<Wanted>& wanted, std::size_t column, How how) const {
    wanted.push_back({column, how, DateOrder::year_first});
    return wanted.size() - 1;
}

TimePlan::TimePlan(Context& context, const RecordSource& source, const Recognised& found, std::vector<Wanted>& wanted)
    : shown_(source.shown()) {
    const ColumnMeaning* const time = found.find(Meaning::time);
    const ColumnMeaning* const date = found.find(Meaning::date);
    const ColumnMeaning* const clock = found.find(Meaning::clock);
    const auto sample = [&](const ColumnMeaning& c) { return source.columns()[c.column].sample; };
    if (date != nullptr && (clock != nullptr || (time != nullptr && holds_clocks(sample(*time))))) {
        plan_split(context, source, found, wanted);
        return;
    }
    if (time == nullptr) return;
    const SourceColumn& column = source.columns()[time->column];
    column_name_ = column.name;
    mapped_ = time->from_season;
    if (!column.is_time && holds_numbers(column.sample)) {
        plan_numbers(context, source, found, wanted);
        return;
    }
    const DateOrder order = column.is_time ? DateOrder::year_first : settled_order(context, source, time->column);
    if (!column.is_time && holds_moments(column.sample, order) && holds_bare_days(column.sample)) {
        context.warn("no-times", shown_, fill(spoken().read.day_only, fmt::arg("column", column.name)));
        return;
    }
    if (column.is_time || holds_moments(column.sample, order)) {
        kind_ = Kind::moments;
        first_ = add(wanted, time->column, How::moment);
        wanted.back().order = order;
        return;
    }
    const std::string example = column.sample.empty() ? "nothing" : "'" + column.sample.front() + "'";
    if (mapped_)
        throw InputError(fmt::format("{}: column '{}' (time) holds {}, which is no time. Known are {}.", shown_,
                                     column.name, example, forms_known));
    context.warn("no-times", shown_,
                 fill(spoken().read.no_times, fmt::arg("column", column.name), fmt::arg("example", example),
                      fmt::arg("known", forms_known)));
}

void TimePlan::plan_numbers(const Context& context, const RecordSource& source, const Recognised& found,
                            std::vector<Wanted>& wanted) {
    const ColumnMeaning& time = *found.find(Meaning::time);
    const ColumnMeaning* const date = found.find(Meaning::date);
    kind_ = Kind::numbers;
    first_ = add(wanted, time.column, How::number);
    if (const auto week = gps_week_column(source)) week_slot_ = add(wanted, *week, How::number);
    if (date == nullptr || week_slot_) return;
    kind_ = Kind::date_and_number;
    second_ = add(wanted, date->column, How::day);
    second_name_ = source.columns()[date->column].name;
    wanted.back().order = settled_order(context, source, date->column);
}

void TimePlan::plan_split(Context& context, const RecordSource& source, const Recognised& found,
                          std::vector<Wanted>& wanted) {
    const ColumnMeaning* const date = found.find(Meaning::date);
    const ColumnMeaning* const clock =
        found.find(Meaning::clock) != nullptr ? found.find(Meaning::clock) : found.find(Meaning::time);
    column_name_ = source.columns()[date->column].name;
    second_name_ = source.columns()[clock->column].name;
    mapped_ = date->from_season;
    kind_ = Kind::date_and_clock;
    first_ = add(wanted, date->column, How::day);
    wanted.back().order = settled_order(context, source, date->column);
    second_ = add(wanted, clock->column, How::clock);
    context.note("date-and-time", shown_,
                 fill(spoken().read.date_and_time, fmt::arg("column", column_name_), fmt::arg("other", *second_name_)));
}

std::vector<double> TimePlan::from_numbers(Context& context, std::vector<double> values) const {
    TimeCount count = time_count(values, context.season.year);
    const double largest =
        *std::max_element(values.begin(), values.end(), [](double a, double b) { return std::isnan(a) || a < b; });
    if (count == TimeCount::gps_week_s && largest < 1000.0) count = TimeCount::unknown;
    switch (count) {
    case TimeCount::unix_s:
        context.zoned_from = shown_;
        return values;
    case TimeCount::unix_ms:
        context.zoned_from = shown_;
        for (double& v : values)
            v /= 1000.0;
        return values;
    case TimeCount::gps_s:
        context.zoned_from = shown_;
        for (double& v : values)
            v = unix_from_gps_s(v);
        context.note(
            "gps-seconds", shown_,
            fill(spoken().read.gps_seconds, fmt::arg("column", column_name_), fmt::arg("year", context.season.year)));
        return values;
    case TimeCount::gps_week_s:
        unroll_weeks(values);
        context.warn("week-seconds", shown_, fill(spoken().read.week_seconds, fmt::arg("column", column_name_)));
        return values;
    case TimeCount::unknown:
        break;
    }
    const std::string words =
        fill(spoken().read.numbers_no_times, fmt::arg("column", column_name_), fmt::arg("known", forms_known));
    if (mapped_) throw InputError(fmt::format("{}: {}", shown_, words));
    context.warn("no-times", shown_, fill(spoken().read.read_without_times, fmt::arg("why", words)));
    return {};
}

std::vector<double> TimePlan::finish(Context& context, Loaded& loaded) const {
    if (kind_ == Kind::none || loaded.rows == 0) return {};
    judge_cells(context, shown_, column_name_, loaded.columns[first_], "times");
    if (second_name_) judge_cells(context, shown_, *second_name_, loaded.columns[second_], "times");
    std::vector<double> out = std::move(loaded.columns[first_].numbers);
    if (kind_ == Kind::numbers && !week_slot_) return from_numbers(context, std::move(out));
    if (kind_ == Kind::numbers) {
        const std::vector<double>& weeks = loaded.columns[*week_slot_].numbers;
        for (std::size_t i = 0; i < out.size(); ++i)
            out[i] = unix_from_gps_s(weeks[i] * week_s + out[i]);
        context.zoned_from = shown_;
        return out;
    }
    bool zoned = false;
    if (kind_ == Kind::date_and_clock) {
        for (std::size_t i = 0; i < out.size(); ++i)
            out[i] += loaded.columns[second_].numbers[i];
    } else if (kind_ == Kind::date_and_number) {
        const std::vector<double>& days = loaded.columns[second_].numbers;
        const double largest =
            *std::max_element(out.begin(), out.end(), [](double a, double b) { return std::isnan(a) || a < b; });
        if (!(largest <= week_s)) return from_numbers(context, std::move(out));
        const bool weeks = largest > 86400.0;
        for (std::size_t i = 0; i < out.size(); ++i)
            out[i] = weeks ? unix_from_gps_s(gps_week_start(days[i]) - 315964800.0 + out[i]) : days[i] + out[i];
        zoned = weeks;
    } else {
        const LoadedColumn& column = loaded.columns[first_];
        if (column.zoned > 0 && column.zoneless > 0)
            throw InputError(
                fmt::format("{}: {} of the times in column '{}' state their zone and {} do not. Export them "
                            "all alike.",
                            shown_, column.zoned, column_name_, column.zoneless));
        zoned = column.zoned > 0;
    }
    (zoned ? context.zoned_from : context.zoneless_from) = shown_;
    if (zoned) return out;
    const double offset_s = zone_offset_s(context.season.points.time_zone).value_or(0.0);
    for (double& seconds : out)
        seconds -= offset_s;
    return out;
}

} // namespace quartercut::reading
