// SPDX-License-Identifier: MIT
// Text and numbers -> seconds since 1970-01-01 UTC.
//
// A time that states its zone (Z, +02:00) is taken at its word. One that states none is taken in the season file's
// time_zone, and as UTC where that is silent: only differences of times matter inside one file, and a mixture of stated
// and unstated zones is refused.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut::reading {

/// Order of the parts of a date written with slashes or points.
enum class DateOrder { year_first, month_first, day_first, unclear };

struct Moment {
    double seconds = 0.0;
    bool zoned = false; ///< the text stated its zone
};

/// "2025-09-01T14:30:05.25Z", "2025-09-01 14:30", "20250901T143005", "9/1/2025 2:30:05 PM" (by `order`).
[[nodiscard]] std::optional<Moment> parse_moment(std::string_view text, DateOrder order = DateOrder::year_first);
/// Midnight of a day: "2025-09-01", "20250901", "9/1/2025".
[[nodiscard]] std::optional<double> parse_day(std::string_view text, DateOrder order = DateOrder::year_first);
/// Seconds of the day: "14:30:05.25", "143005", "2:30:05 PM".
[[nodiscard]] std::optional<double> parse_clock(std::string_view text);

/// Order of the dates in a sample: year first, or told by a number above 12; unclear when nothing tells.
[[nodiscard]] DateOrder date_order(const std::vector<std::string>& sample);

/// The same where the season file says what a sample leaves open. \param said  "day/month", "month/day" or empty
[[nodiscard]] DateOrder date_order(const std::vector<std::string>& sample, std::string_view said);

/// Offset of a zone in seconds, east positive: "-06:00", "+0530", "Z", "UTC". nullopt when not understood.
[[nodiscard]] std::optional<double> zone_offset_s(std::string_view zone);

/// What the numbers of a time column count.
enum class TimeCount { unix_s, unix_ms, gps_s, gps_week_s, unknown };

/// Told by the range of the numbers and the year of the season: GPS seconds count from 1980-01-06 and are ahead of UTC
/// by the leap seconds since (18 since 2017; IERS Bulletin C 52).
[[nodiscard]] TimeCount time_count(const std::vector<double>& values, int year);

/// GPS seconds since 1980-01-06 -> seconds since 1970 UTC.
[[nodiscard]] double unix_from_gps_s(double gps_s);

/// Start of the GPS week (Sunday, midnight) in which a moment lies.
[[nodiscard]] double gps_week_start(double seconds);

} // namespace quartercut::reading
