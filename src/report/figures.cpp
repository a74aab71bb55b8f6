// SPDX-License-Identifier: MIT
// Numbers, counts and dates as the report writes them (figures.hpp).
#include "report/figures.hpp"

#include "base/words/words.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <fmt/core.h>

namespace quartercut::report {
namespace {

const NumberForms& forms() { return spoken().numbers; }
constexpr int si_decimals = 3;

// Zero where rounding leaves nothing, so that "-0.0" is never written.
double rounded(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double at = std::round(value * scale) / scale;
    return at == 0.0 ? 0.0 : at;
}

int decimals_of(YieldUnit unit) {
    if (unit == YieldUnit::t_ha) return 2;
    return unit == YieldUnit::bu_ac ? 1 : 0;
}

// A number that is not zero is not written as zero: up to two more decimals.
int decimals_to_show(double value, int decimals) {
    int needed = decimals;
    while (value != 0.0 && rounded(value, needed) == 0.0 && needed < decimals + 2)
        ++needed;
    return needed;
}

} // namespace

std::string fixed(double value, int decimals) {
    if (!std::isfinite(value)) return forms().unknown;
    std::string text = fmt::format("{:.{}f}", rounded(value, decimals), decimals);
    std::replace(text.begin(), text.end(), '.', forms().point);
    return text;
}

std::string with_sign(double value, int decimals) {
    if (!std::isfinite(value)) return forms().unknown;
    const std::string text = fixed(value, decimals);
    return rounded(value, decimals) > 0.0 ? "+" + text : text;
}

std::string or_unknown(const std::optional<double>& value, int decimals) {
    return value ? fixed(*value, decimals) : forms().unknown;
}

std::string range_or_unknown(const std::optional<std::array<double, 2>>& range, int decimals, bool sign) {
    if (!range) return forms().unknown;
    const auto written = [&](double end) { return sign ? with_sign(end, decimals) : fixed(end, decimals); };
    return fmt::format(fmt::runtime(forms().from_to), fmt::arg("low", written((*range)[0])),
                       fmt::arg("high", written((*range)[1])));
}

std::string in_thousands(std::string number) {
    for (std::size_t at = std::min(number.find('.'), number.size()); at > 3; at -= 3)
        number.insert(at - 3, forms().thousands);
    return number;
}

std::string count(std::size_t n) { return in_thousands(std::to_string(n)); }

std::string count_word(int n) {
    if (n < 0 || n > 12) return std::to_string(n);
    return forms().counts[n];
}

double zone_offset_s(const std::string& zone) {
    if (zone.size() != 6 || (zone[0] != '+' && zone[0] != '-') || zone[3] != ':') return 0.0;
    for (const std::size_t i : {1U, 2U, 4U, 5U}) {
        if (zone[i] < '0' || zone[i] > '9') return 0.0;
    }
    const int hours = (zone[1] - '0') * 10 + (zone[2] - '0');
    const int minutes = (zone[4] - '0') * 10 + (zone[5] - '0');
    return (zone[0] == '-' ? -60.0 : 60.0) * (hours * 60 + minutes);
}

std::string date(double time_s, const std::string& zone) {
    if (!std::isfinite(time_s) || std::abs(time_s) > 1e11) return {};
    const auto day_count = static_cast<int>(std::floor((time_s + zone_offset_s(zone)) / 86400.0));
    const std::chrono::year_month_day day{std::chrono::sys_days{std::chrono::days{day_count}}};
    return fmt::format(fmt::runtime(forms().date), fmt::arg("day", static_cast<unsigned>(day.day())),
                       fmt::arg("month", forms().months[static_cast<unsigned>(day.month()) - 1]),
                       fmt::arg("year", static_cast<int>(day.year())));
}

std::string date_of(long day) { return date(86400.0 * static_cast<double>(day), ""); }

std::string probability(double p) {
    if (!std::isfinite(p)) return forms().unknown;
    return p < 0.001 ? "< 0.001" : fixed(p, 3);
}

Figures::Figures(const Season& season)
    : yield_unit_(season.units), bushel_lb_(season.bushel_lb), unit_(yield_unit_word(season.units)),
      decimals_(decimals_of(season.units)) {}

Figures Figures::in_si() const {
    Figures si = *this;
    si.yield_unit_ = YieldUnit::t_ha;
    si.unit_ = yield_unit_word(si.yield_unit_);
    si.decimals_ = decimals_of(si.yield_unit_);
    return si;
}

double Figures::in_unit(double t_ha) const {
    if (speaks_si()) return t_ha;
    return from_t_ha(t_ha, yield_unit_, bushel_lb_);
}

std::string Figures::size(double t_ha) const {
    const double value = std::abs(in_unit(t_ha));
    return fixed(value, decimals_to_show(value, decimals_));
}

std::string Figures::interval(const std::array<double, 2>& t_ha) const {
    const double low = in_unit(t_ha[0]);
    const double high = in_unit(t_ha[1]);
    if (!std::isfinite(low) || !std::isfinite(high)) return forms().unknown;
    const int decimals = std::max(decimals_to_show(low, decimals_), decimals_to_show(high, decimals_));
    const auto written = [decimals](double value) { return fixed(std::abs(value), decimals); };
    const bool less = high <= 0.0;
    const char* pattern = low >= 0.0 || less ? forms().from_to : forms().from_less_to_more;
    return fmt::format(fmt::runtime(pattern), fmt::arg("low", written(less ? high : low)),
                       fmt::arg("high", written(less ? low : high)));
}

std::vector<std::string> Figures::cells(std::optional<double> t_ha, bool sign) const {
    const auto write = [sign](double value, int decimals) {
        return sign ? with_sign(value, decimals) : fixed(value, decimals);
    };
    if (!t_ha || !std::isfinite(*t_ha)) return std::vector<std::string>(speaks_si() ? 1 : 2, "");
    if (speaks_si()) return {write(*t_ha, si_decimals)};
    return {write(in_unit(*t_ha), decimals_ + 1), write(*t_ha, si_decimals)};
}

std::vector<std::string> Figures::cells(const std::optional<std::array<double, 2>>& t_ha) const {
    if (!t_ha) return cells(std::optional<double>{});
    const auto low = cells((*t_ha)[0], true);
    const auto high = cells((*t_ha)[1], true);
    std::vector<std::string> out;
    for (std::size_t i = 0; i < low.size(); ++i) {
        out.push_back(
            low[i].empty() || high[i].empty()
                ? std::string{}
                : fmt::format(fmt::runtime(forms().from_to), fmt::arg("low", low[i]), fmt::arg("high", high[i])));
    }
    return out;
}

std::vector<std::string> Figures::headings(const std::string& what) const {
    if (speaks_si()) return {what + " (t/ha)"};
    return {what + " (" + unit_ + ")", what + " (t/ha)"};
}

std::string Figures::both(double t_ha, bool sign) const {
    const auto written = cells(t_ha, sign);
    if (written.front().empty()) return forms().unknown;
    if (written.size() == 1) return written.front() + " t/ha";
    return written[0] + " " + unit_ + " (" + written[1] + " t/ha)";
}

std::string Figures::axis(double in_unit) const {
    std::string text = fixed(in_unit, decimals_);
    return text;
}

} // namespace quartercut::report
