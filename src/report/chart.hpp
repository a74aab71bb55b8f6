// SPDX-License-Identifier: MIT
// Charts of the page. Each draws finished numbers and nothing else; the table beside it holds the same numbers.
#pragma once

#include "report/draw.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quartercut::report {

/// One row of a chart of differences with their ranges.
struct DifferenceRow {
    std::string label;
    std::optional<double> gain_t_ha;
    std::optional<Interval> range_t_ha;
    std::optional<Interval> prediction_t_ha;
    std::string style = "none"; ///< class of the finding: "gain", "loss", "leans", "none", "unfit"
    bool sum = false;           ///< a farm row: drawn heavier
};

/// Rows under each other on one scale with a line at zero. Draws nothing without a finite number.
void draw_differences(Html& html, const Telling& telling, const FigureText& text,
                      const std::vector<DifferenceRow>& rows);

/// Is a row's range so much wider than most that it is cut off, with an arrow? One such row must not press the others
/// into a dot.
[[nodiscard]] bool runs_beyond(const Telling& telling, const std::vector<DifferenceRow>& rows);

/// "West field +1.2 bu/ac (0.3 to 1.9)" for each row, for descriptions.
[[nodiscard]] std::string differences_in_words(const Telling& telling, const std::vector<DifferenceRow>& rows);

/// Pairs of strips: both yields on one scale, the difference in text.
void draw_pairs(Html& html, const Telling& telling, const FigureText& text, const Contrast& contrast);

/// The pairs in the order of their names, numbers in them as numbers; and a pair's name: "Pair 7".
[[nodiscard]] std::vector<PairDifference> pairs_in_order(const Contrast& contrast);
[[nodiscard]] std::string pair_name(const Telling& telling, const PairDifference& pair);

struct Bar {
    std::string label;
    double value = 0.0;
    std::string shown;      ///< the value as text
    std::string style;      ///< extra class
    std::string in_si = {}; ///< the value in t/ha, where `shown` has another unit
};
/// `full`: the value of a bar of full length, drawn as an outline behind each; absent: the longest bar is full.
void draw_bars(Html& html, const FigureText& text, const std::vector<Bar>& bars,
               std::optional<double> full = std::nullopt);

/// A point with a method's mark.
struct Mark {
    double x = 0.0, y = 0.0;
    int method = -1;
    std::string text;
};
struct ScatterText {
    FigureText figure;
    std::string x_title, y_title;
    bool equal_line = false; ///< draw y = x, both axes on one scale
    bool x_is_date = false;  ///< x: seconds since 1970 UTC, ticks at days of the zone
    std::string zone;
};
void draw_scatter(Html& html, const ScatterText& text, const std::vector<Mark>& marks);

} // namespace quartercut::report
