// SPDX-License-Identifier: MIT
// Parsing times without locale and without the machine's own zone.
#include "read/times.hpp"

#include "base/text.hpp"
#include "read/cells.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <limits>

namespace quartercut::reading {
namespace {

constexpr double day_s = 86400.0;
constexpr double week_s = 7.0 * day_s;
constexpr double gps_epoch_s = 315964800.0; // 1980-01-06T00:00:00Z

/// Reads a text from left to right.
class Scanner {
public:
    explicit Scanner(std::string_view text) : text_(text) {}
    [[nodiscard]] bool done() const { return at_ >= text_.size(); }
    [[nodiscard]] char peek() const { return done() ? '\0' : text_[at_]; }
    [[nodiscard]] std::string_view rest() const { return text_.substr(at_); }
    bool take(char c) {
        if (peek() != c) return false;
        ++at_;
        return true;
    }
    bool take_any(std::string_view choices) {
        if (done() || choices.find(peek()) == std::string_view::npos) return false;
        ++at_;
        return true;
    }
    /// Digits, at least `least`, at most `most`.
    std::optional<int> digits(std::size_t least, std::size_t most) {
        std::size_t n = 0;
        int value = 0;
        while (n < most && at_ + n < text_.size() && is_digit(text_[at_ + n]))
            value = value * 10 + (text_[at_ + n++] - '0');
        if (n < least) return std::nullopt;
        at_ += n;
        return value;
    }
    [[nodiscard]] std::size_t digits_ahead() const {
        std::size_t n = 0;
        while (at_ + n < text_.size() && is_digit(text_[at_ + n]))
            ++n;
        return n;
    }

private:
    std::string_view text_;
    std::size_t at_ = 0;
};

std::optional<double> midnight(int year, int month, int day) {
    const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
                                           std::chrono::day{static_cast<unsigned>(day)}};
    if (!date.ok() || year < 1970 || year > 2200) return std::nullopt;
    return day_s * static_cast<double>(std::chrono::sys_days(date).time_since_epoch().count());
}

std::optional<double> scan_date(Scanner& in, DateOrder order) {
    const std::size_t ahead = in.digits_ahead();
    if (ahead == 8 || ahead == 14) {
        const auto year = in.digits(4, 4), month = in.digits(2, 2), day = in.digits(2, 2);
        return midnight(*year, *month, *day);
    }
    if (ahead == 4) {
        const auto year = in.digits(4, 4);
        if (!in.take_any("-/.")) return std::nullopt;
        const auto month = in.digits(1, 2);
        if (!month || !in.take_any("-/.")) return std::nullopt;
        const auto day = in.digits(1, 2);
        return day ? midnight(*year, *month, *day) : std::nullopt;
    }
    const auto first = in.digits(1, 2);
    if (!first || !in.take_any("/.-")) return std::nullopt;
    const auto second = in.digits(1, 2);
    if (!second || !in.take_any("/.-")) return std::nullopt;
    const auto year = in.digits(4, 4);
    if (!year || order == DateOrder::unclear) return std::nullopt;
    return order == DateOrder::day_first ? midnight(*year, *second, *first) : midnight(*year, *first, *second);
}

/// ".25" or ",25": a part of a second.
double scan_fraction(Scanner& in) {
    if (!in.take_any(".,")) return 0.0;
    double value = 0.0, scale = 0.1;
    while (const auto digit = in.digits(1, 1)) {
        value += *digit * scale;
        scale *= 0.1;
    }
    return value;
}

std::optional<double> with_half_of_day(Scanner& in, double seconds) {
    while (in.take(' ')) {
    }
    const std::string word = lower(in.rest().substr(0, 2));
    if (word != "am" && word != "pm") return seconds;
    in.take_any("aApP");
    in.take_any("mM");
    if (seconds >= 13.0 * 3600.0 || seconds < 3600.0) return std::nullopt;
    const double hour12 = seconds >= 12.0 * 3600.0 ? seconds - 12.0 * 3600.0 : seconds;
    return word == "pm" ? hour12 + 12.0 * 3600.0 : hour12;
}

std::optional<double> scan_clock(Scanner& in) {
    const bool compact = in.digits_ahead() >= 4;
    const auto hour = in.digits(1, 2);
    if (!hour || (!compact && !in.take(':'))) return std::nullopt;
    const auto minute = in.digits(2, 2);
    if (!minute) return std::nullopt;
    double second = 0.0;
    if (compact ? in.digits_ahead() >= 2 : in.take(':')) {
        const auto whole = in.digits(1, 2);
        if (!whole) return std::nullopt;
        second = *whole + scan_fraction(in);
    }
    if (*hour > 23 || *minute > 59 || second >= 61.0) return std::nullopt;
    return with_half_of_day(in, *hour * 3600.0 + *minute * 60.0 + second);
}

std::optional<double> scan_zone(Scanner& in) {
    if (in.take_any("Zz")) return 0.0;
    if (lower(in.rest()) == "utc" || lower(in.rest()) == "gmt") {
        in = Scanner({});
        return 0.0;
    }
    const bool west = in.peek() == '-';
    if (!in.take_any("+-")) return std::nullopt;
    const auto hours = in.digits(2, 2);
    if (!hours || *hours > 14) return std::nullopt;
    in.take(':');
    const int minutes = in.digits(2, 2).value_or(0);
    const double size = *hours * 3600.0 + minutes * 60.0;
    return west ? -size : size;
}

bool within(const std::vector<double>& sorted, double low, double high) {
    return !sorted.empty() && sorted.front() >= low && sorted.back() <= high;
}

int year_of(double seconds) {
    const auto days = std::chrono::sys_days(std::chrono::days(static_cast<int>(std::floor(seconds / day_s))));
    return static_cast<int>(std::chrono::year_month_day(days).year());
}

} // namespace

std::optional<Moment> parse_moment(std::string_view text, DateOrder order) {
    text = trim(text);
    Scanner in(text);
    const auto day = scan_date(in, order);
    if (!day) return std::nullopt;
    if (in.done()) return Moment{*day, false};
    if (!in.take_any("T t") && !is_digit(in.peek())) return std::nullopt;
    while (in.take(' ')) {
    }
    const auto clock = scan_clock(in);
    if (!clock) return std::nullopt;
    while (in.take(' ')) {
    }
    if (in.done()) return Moment{*day + *clock, false};
    const auto zone = scan_zone(in);
    if (!zone || !in.done()) return std::nullopt;
    return Moment{*day + *clock - *zone, true};
}

std::optional<double> parse_day(std::string_view text, DateOrder order) {
    const auto moment = parse_moment(text, order);
    if (!moment) return std::nullopt;
    return std::floor(moment->seconds / day_s) * day_s;
}

std::optional<double> parse_clock(std::string_view text) {
    text = trim(text);
    std::string padded;
    const std::size_t whole = std::min(text.find('.'), text.size());
    if (whole == 5 && std::all_of(text.begin(), text.begin() + 5, is_digit)) text = padded = "0" + std::string(text);
    Scanner in(text);
    const auto clock = scan_clock(in);
    return clock && in.done() ? clock : std::nullopt;
}

DateOrder date_order(const std::vector<std::string>& sample) {
    bool month_first_possible = true, day_first_possible = true, slashed = false;
    for (const std::string& text : sample) {
        Scanner in(trim(text));
        const auto first = in.digits(1, 4);
        if (!first || *first > 31 || !in.take_any("/.-")) continue;
        const auto second = in.digits(1, 2);
        if (!second) continue;
        slashed = true;
        month_first_possible = month_first_possible && *first <= 12;
        day_first_possible = day_first_possible && *second <= 12;
    }
    if (!slashed) return DateOrder::year_first;
    if (month_first_possible == day_first_possible) return DateOrder::unclear;
    return month_first_possible ? DateOrder::month_first : DateOrder::day_first;
}

DateOrder date_order(const std::vector<std::string>& sample, std::string_view said) {
    const DateOrder told = date_order(sample);
    if (told != DateOrder::unclear || said.empty()) return told;
    return said == "day/month" ? DateOrder::day_first : DateOrder::month_first;
}

std::optional<double> zone_offset_s(std::string_view zone) {
    zone = trim(zone);
    if (lower(zone) == "utc" || lower(zone) == "gmt") return 0.0;
    Scanner in(zone);
    const auto offset = scan_zone(in);
    return offset && in.done() ? offset : std::nullopt;
}

TimeCount time_count(const std::vector<double>& values, int year) {
    std::vector<double> sorted;
    std::copy_if(values.begin(), values.end(), std::back_inserter(sorted), [](double v) { return std::isfinite(v); });
    std::sort(sorted.begin(), sorted.end());
    if (sorted.empty()) return TimeCount::unknown;
    const double middle = sorted[sorted.size() / 2];
    if (within(sorted, 0.0, week_s)) return TimeCount::gps_week_s;
    if (within(sorted, 1e11, 1e13)) return TimeCount::unix_ms;
    if (!within(sorted, 1e8, 1e10)) return TimeCount::unknown;
    const bool as_unix = year == 0 || std::abs(year_of(middle) - year) <= 1;
    const bool as_gps = year != 0 && std::abs(year_of(unix_from_gps_s(middle)) - year) <= 1;
    if (as_unix) return TimeCount::unix_s;
    return as_gps ? TimeCount::gps_s : TimeCount::unix_s;
}

double unix_from_gps_s(double gps_s) {
    // Seconds GPS time is ahead of UTC from each day on (IERS Bulletin C, all leap seconds since 1980; from memory).
    static constexpr std::array<double, 18> leap_starts{
        362793600, 394329600, 425865600, 489024000, 567993600,  631152000,  662688000,  709948800,  741484800,
        773020800, 820454400, 867715200, 915148800, 1136073600, 1230768000, 1341100800, 1435708800, 1483228800};
    const double plain = gps_epoch_s + gps_s;
    double leap = 0.0;
    for (const double start : leap_starts)
        if (plain - leap > start) leap += 1.0;
    return plain - leap;
}

double gps_week_start(double seconds) { return gps_epoch_s + std::floor((seconds - gps_epoch_s) / week_s) * week_s; }

} // namespace quartercut::reading
