// SPDX-License-Identifier: MIT
// Classes of a style: equal counts for yields, equal steps around zero for differences.
#include "write/layer_style.hpp"

#include "write/palette.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut::write {

namespace {

/// Decimals that keep the smallest class apart: at least two, at most six.
int decimals_for(const std::vector<double>& breaks) {
    double step = 1.0;
    for (std::size_t i = 1; i < breaks.size(); ++i)
        step = std::min(step, breaks[i] - breaks[i - 1]);
    if (!(step > 0.0)) return 2;
    return std::clamp(static_cast<int>(std::ceil(-std::log10(step))) + 1, 2, 6);
}

/// Minimum, the inner quantiles (nearest rank) and maximum, without repeats.
std::vector<double> quantile_breaks(const std::vector<double>& sorted, std::size_t classes) {
    std::vector<double> breaks;
    for (std::size_t k = 0; k <= classes; ++k) {
        breaks.push_back(sorted[std::min(k * sorted.size() / classes, sorted.size() - 1)]);
    }
    breaks.erase(std::unique(breaks.begin(), breaks.end()), breaks.end());
    if (breaks.size() == 1) breaks.push_back(breaks.front());
    return breaks;
}

} // namespace

LayerStyle quantile_style(const std::string& column, std::vector<double> values, const std::string& unit) {
    LayerStyle style;
    style.kind = StyleKind::classes;
    style.column = column;
    style.outline_mm = 0.05;
    style.description = "Classes of equal count (quantiles), dark is low, light is high (cividis).";
    values.erase(std::remove_if(values.begin(), values.end(), [](double v) { return !std::isfinite(v); }),
                 values.end());
    if (values.empty()) return style;
    std::sort(values.begin(), values.end());
    const std::vector<double> breaks = quantile_breaks(values, cividis_5.size());
    const std::size_t classes = breaks.size() - 1;
    const int decimals = decimals_for(breaks);
    for (std::size_t k = 0; k < classes; ++k) {
        StyleClass shown;
        shown.low = breaks[k];
        shown.high = breaks[k + 1];
        shown.fill = classes == 1 ? cividis_5[2] : cividis_5[k * (cividis_5.size() - 1) / (classes - 1)];
        shown.label = fmt::format("{:.{}f} to {:.{}f} {}", shown.low, decimals, shown.high, decimals, unit);
        if (classes == cividis_5.size()) shown.label += fmt::format(" (fifth {} of 5 by count)", k + 1);
        style.classes.push_back(shown);
    }
    return style;
}

LayerStyle difference_style(const std::string& column, const std::vector<double>& values, const std::string& unit) {
    LayerStyle style;
    style.kind = StyleKind::classes;
    style.column = column;
    style.description = "Five equal steps centred on zero: orange is loss, purple is gain (PuOr).";
    double most = 0.0;
    for (const double value : values) {
        if (std::isfinite(value)) most = std::max(most, std::abs(value));
    }
    if (!(most > 0.0)) most = 0.01; // nothing to show: a scale all the same
    const double step = 2.0 * most / static_cast<double>(puor_5.size());
    const int decimals = decimals_for({0.0, step});
    for (std::size_t k = 0; k < puor_5.size(); ++k) {
        StyleClass shown;
        shown.low = -most + step * static_cast<double>(k);
        shown.high = k + 1 == puor_5.size() ? most : -most + step * static_cast<double>(k + 1);
        shown.fill = puor_5[k];
        shown.label = fmt::format("{:+.{}f} to {:+.{}f} {}", shown.low, decimals, shown.high, decimals, unit);
        style.classes.push_back(shown);
    }
    return style;
}

std::string xml_text(const std::string& text) {
    std::string out;
    for (const char c : text) {
        switch (c) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        case '\'':
            out += "&apos;";
            break;
        default:
            if (static_cast<unsigned char>(c) >= 0x20 || c == '\t' || c == '\n') out += c;
        }
    }
    return out;
}

} // namespace quartercut::write
