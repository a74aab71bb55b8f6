// SPDX-License-Identifier: MIT
// Horizontal bars from zero, the label above and the value beside each.
#include "report/chart.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::report {

void draw_bars(Html& html, const FigureText& text, const std::vector<Bar>& bars, std::optional<double> full) {
    constexpr double row_height = 32.0;
    constexpr double left = 8.0;
    constexpr double longest = drawing_width - 2 * left;
    double most = 0.0;
    for (const auto& bar : bars) {
        if (std::isfinite(bar.value)) most = std::max(most, bar.value);
    }
    if (full) most = *full;
    if (!(most > 0.0)) return;
    const auto svg = open_image(html, text, drawing_width, row_height * static_cast<double>(bars.size()) + 6);
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const double top = row_height * static_cast<double>(i);
        html.leaf("text", shortened(bars[i].label, 46),
                  {{"class", "label"}, {"x", coordinate(left)}, {"y", coordinate(top + 14)}});
        Attributes value = {{"class", "label"},
                            {"x", coordinate(drawing_width - left)},
                            {"y", coordinate(top + 14)},
                            {"text-anchor", "end"}};
        if (!bars[i].in_si.empty()) value.push_back({"data-si", bars[i].in_si});
        html.leaf("text", bars[i].shown, value);
        if (!std::isfinite(bars[i].value)) continue;
        if (full) {
            html.empty("rect", {{"class", "full-bar"},
                                {"x", coordinate(left)},
                                {"y", coordinate(top + 18)},
                                {"width", coordinate(longest)},
                                {"height", "9"}});
        }
        html.empty("rect", {{"class", "bar " + bars[i].style},
                            {"x", coordinate(left)},
                            {"y", coordinate(top + 18)},
                            {"width", coordinate(std::max(0.5, bars[i].value / most * longest))},
                            {"height", "9"}});
    }
}

} // namespace quartercut::report
