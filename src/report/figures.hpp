// SPDX-License-Identifier: MIT
// How the report writes numbers: the season's unit with sensible decimals, SI beside it, never "nan".
//
// Decimals follow what a grower can act on: bu/ac one, t/ha two, kg/ha and lb/ac none in sentences; tables carry one
// more. Number and date forms are English (Canada); another language brings its own Figures.
#pragma once

#include "quartercut/season.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace quartercut::report {

/// Fixed decimals, no "-0.0"; "not known" for a number that is not finite.
[[nodiscard]] std::string fixed(double value, int decimals);
/// The same with "+" before positive numbers.
[[nodiscard]] std::string with_sign(double value, int decimals);
/// The same of a number that may be absent: "not known" then. This and the next are where every such cell comes from.
[[nodiscard]] std::string or_unknown(const std::optional<double>& value, int decimals);
[[nodiscard]] std::string range_or_unknown(const std::optional<std::array<double, 2>>& range, int decimals,
                                           bool sign = false);
/// "14,532"
[[nodiscard]] std::string count(std::size_t n);
/// "24666.50" as "24,666.50".
[[nodiscard]] std::string in_thousands(std::string number);
/// "one" .. "twelve", then digits.
[[nodiscard]] std::string count_word(int n);
/// "12 Sep 2025", or empty where unknown; `zone` is "-06:00" or empty (UTC).
[[nodiscard]] std::string date(double time_s, const std::string& zone);
/// The same of a day counted from 1970-01-01.
[[nodiscard]] std::string date_of(long day);
/// Seconds east of UTC of "-06:00"; 0 for text of another form.
[[nodiscard]] double zone_offset_s(const std::string& zone);
/// "p" as people write it: three decimals, "< 0.001" below.
[[nodiscard]] std::string probability(double p);

class Figures {
public:
    explicit Figures(const Season& season);

    /// The same numbers written in t/ha.
    [[nodiscard]] Figures in_si() const;

    [[nodiscard]] const std::string& unit() const { return unit_; }
    [[nodiscard]] bool speaks_si() const { return yield_unit_ == YieldUnit::t_ha; }
    [[nodiscard]] double in_unit(double t_ha) const;

    /// Without sign and unit, decimals for sentences.
    [[nodiscard]] std::string size(double t_ha) const;
    [[nodiscard]] std::string yield(double t_ha) const { return fixed(in_unit(t_ha), decimals_) + " " + unit_; }
    /// "0.3 to 1.9" where the signs agree, else "from 0.3 less to 1.9 more".
    [[nodiscard]] std::string interval(const std::array<double, 2>& t_ha) const;

    /// Table cells: decimals one more than in sentences; report unit, then t/ha unless they are the same.
    [[nodiscard]] std::vector<std::string> cells(std::optional<double> t_ha, bool sign = false) const;
    [[nodiscard]] std::vector<std::string> cells(const std::optional<std::array<double, 2>>& t_ha) const;
    [[nodiscard]] std::vector<std::string> headings(const std::string& what) const;
    /// One cell with the unit: "+1.12 bu/ac (0.063 t/ha)".
    [[nodiscard]] std::string both(double t_ha, bool sign = false) const;
    [[nodiscard]] std::string axis(double in_unit) const;

private:
    YieldUnit yield_unit_;
    double bushel_lb_;
    std::string unit_;
    int decimals_;
};

} // namespace quartercut::report
