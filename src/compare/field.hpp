// SPDX-License-Identifier: MIT
// One field: which methods met in it, how they were laid out, and what that allows to be said of each contrast.
#pragma once

#include "compare/budget.hpp"
#include "compare/pairs.hpp"
#include "compare/strips.hpp"

namespace quartercut::contrast {

/// What the steps of one field share. References live as long as the call of `compare_field`.
struct FieldContext {
    const Season& season;
    const Standardised& standardised;
    const FieldView& view;
    const CompareOptions& options;
    Layout layout;
    std::vector<int> methods; ///< with usable segments, ascending
    double pass_direction_rad = 0.0;
    std::uint64_t seed = 0; ///< of this field's draws

    [[nodiscard]] const std::string& method_name(int code) const {
        return season.methods[static_cast<std::size_t>(code)].name;
    }
    [[nodiscard]] const Segment& segment(int index) const {
        return view.zoned.segments[static_cast<std::size_t>(index)];
    }
    [[nodiscard]] const Zone& zone_of(int segment_index) const {
        return view.zoned.zones[static_cast<std::size_t>(segment(segment_index).zone)];
    }
};

[[nodiscard]] FieldComparison compare_field(const Season& season, const Standardised& standardised,
                                            const FieldView& view, const CompareOptions& options);

/// Grain, moisture and machines behind one method among some segments.
[[nodiscard]] Side side_of(const FieldContext& field, const std::vector<int>& segments, int method);

/// Names, evidence, yields, raw difference and what is left out: everything of a contrast that needs no statistics.
[[nodiscard]] Contrast start_contrast(const FieldContext& field, std::pair<int, int> pair, Evidence evidence);

/// Break-evens and the lines of the budget, then the total.
void add_instruments(const FieldContext& field, std::pair<int, int> pair, Contrast& contrast);

[[nodiscard]] Issue note(std::string code, std::string where, std::string message);
[[nodiscard]] Issue warning(std::string code, std::string where, std::string message);

} // namespace quartercut::contrast
