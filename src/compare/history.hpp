// SPDX-License-Identifier: MIT
// Earlier yield maps of the same land as a control: what the two parts of a split field differed by when nothing was
// done to either, and how much that difference wanders from year to year.
#pragma once

#include "compare/field.hpp"

#include <span>

namespace quartercut::contrast {

/// How much ln(method / baseline) of untouched land varies between years.
struct YearSpread {
    double variance = 0.0;
    double df = 0.0; ///< 0: not known
};

/// ln(method / baseline) of one field's earlier years, one a map that covers both parts.
[[nodiscard]] std::vector<double> earlier_log_ratios(const History& history, const std::string& field,
                                                     std::pair<int, int> pair);

/// From the field's own years where there are three or more, else pooled over all fields of the maps.
[[nodiscard]] YearSpread year_spread(const History& history, const std::string& field, std::pair<int, int> pair);

/// ln ratio of the trial year less the mean of the earlier ones; its variance is that of one year times (1 + 1/m).
/// The error is 0 and df 0 where the spread between years is not known. \pre `earlier` is not empty
[[nodiscard]] MeanTest difference_in_differences(double log_ratio, std::span<const double> earlier,
                                                 const YearSpread& spread);

/// The same for a contrast, in t/ha at the baseline's yield; nullopt without maps of both parts.
[[nodiscard]] std::optional<Estimate> history_estimate(const FieldContext& field, std::pair<int, int> pair,
                                                       const Contrast& contrast);

/// The analysis of this season run on each earlier map, where nothing was done: into `Contrast::earlier`.
void add_earlier_answers(const Season& season, const CompareOptions& options, FieldComparison& out);

/// What came of [history], in words.
void report_history(const Season& season, const History* history, Comparison& comparison);

} // namespace quartercut::contrast
