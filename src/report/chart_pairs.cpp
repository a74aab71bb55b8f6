// SPDX-License-Identifier: MIT
// Pairs of strips, one row a pair: both yields, joined, and the difference in text.
#include "report/chart.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::report {
namespace {

constexpr double row_height = 26.0;
constexpr double left = 84.0;
constexpr double right = drawing_width - 70.0;

std::vector<double> all_yields(const Telling& telling, const Contrast& contrast) {
    std::vector<double> values;
    for (const auto& pair : contrast.pairs) {
        values.push_back(telling.figures.in_unit(pair.yield_t_ha));
        values.push_back(telling.figures.in_unit(pair.baseline_yield_t_ha));
    }
    return values;
}

struct PairMarks {
    int method, baseline;
};

void draw_pair(Html& html, const Telling& telling, const Axis& axis, const PairDifference& pair, PairMarks marks,
               double y) {
    const double there = axis.at(telling.figures.in_unit(pair.yield_t_ha));
    const double here = axis.at(telling.figures.in_unit(pair.baseline_yield_t_ha));
    if (!std::isfinite(there) || !std::isfinite(here)) return;
    const bool more = pair.difference_t_ha > 0.0;
    html.empty("path", {{"class", more ? "link more" : "link less"},
                        {"d", "M" + coordinate(here) + " " + coordinate(y) + "H" + coordinate(there)}});
    draw_marker(html, marks.baseline, {here, y}, {{"data-yield-t-ha", exact(pair.baseline_yield_t_ha)}});
    draw_marker(html, marks.method, {there, y}, {{"data-yield-t-ha", exact(pair.yield_t_ha)}});
}

// Compares digits in a row as one number: "pair 2" stands before "pair 10".
bool comes_before(const std::string& a, const std::string& b) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.size() && j < b.size()) {
        std::size_t i_end = i;
        std::size_t j_end = j;
        while (i_end < a.size() && is_digit(a[i_end]))
            ++i_end;
        while (j_end < b.size() && is_digit(b[j_end]))
            ++j_end;
        if (i_end > i && j_end > j && i_end - i != j_end - j) return i_end - i < j_end - j;
        if (a[i] != b[j]) return a[i] < b[j];
        ++i;
        ++j;
    }
    return a.size() - i < b.size() - j;
}

} // namespace

std::vector<PairDifference> pairs_in_order(const Contrast& contrast) {
    auto pairs = contrast.pairs;
    std::stable_sort(pairs.begin(), pairs.end(),
                     [](const auto& one, const auto& other) { return comes_before(one.block, other.block); });
    return pairs;
}

std::string pair_name(const Telling& telling, const PairDifference& pair) {
    const std::string word = telling.words.page.pair;
    if (capital(pair.block).rfind(word, 0) == 0) return capital(pair.block); // "pair 1" is not called "Pair pair 1"
    return word + " " + pair.block;
}

void draw_pairs(Html& html, const Telling& telling, const FigureText& text, const Contrast& contrast) {
    const Axis axis = axis_over(all_yields(telling, contrast), left, right, false);
    const double bottom = row_height * static_cast<double>(contrast.pairs.size()) + 22;
    const auto svg = open_image(html, text, drawing_width, bottom + 36);
    draw_axis(html, axis, yield_axis(telling, 18, bottom));
    html.leaf("text", telling.words.page.difference,
              {{"class", "tick"}, {"x", coordinate(drawing_width - 8)}, {"y", "12"}, {"text-anchor", "end"}});
    const PairMarks marks{telling.season().method_code(contrast.method),
                          telling.season().method_code(contrast.baseline)};
    const auto pairs = pairs_in_order(contrast);
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        const auto& pair = pairs[i];
        const double y = 32 + row_height * static_cast<double>(i);
        html.leaf("text", shortened(pair_name(telling, pair), 14),
                  {{"class", "label"}, {"x", "8"}, {"y", coordinate(y + 4)}});
        draw_pair(html, telling, axis, pair, marks, y);
        leaf_in_both(html, "text", telling,
                     [&](const Telling& in) { return in.figures.cells(pair.difference_t_ha, true).front(); },
                     {{"class", "label"},
                      {"x", coordinate(drawing_width - 8)},
                      {"y", coordinate(y + 4)},
                      {"text-anchor", "end"},
                      {"data-difference-t-ha", exact(pair.difference_t_ha)}});
    }
}

} // namespace quartercut::report
