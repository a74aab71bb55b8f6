// SPDX-License-Identifier: MIT
// Values of ours -> cells of a map layer.
#include "write/map_layer.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <cmath>

namespace quartercut::write {

Cell number_cell(double value) { return std::isfinite(value) ? Cell(value) : Cell(); }

Cell number_cell(const std::optional<double>& value) { return value ? number_cell(*value) : Cell(); }

Cell text_cell(const std::string& value) { return value.empty() ? Cell() : Cell(value); }

Cell count_cell(std::size_t value) { return static_cast<std::int64_t>(value); }

Cell time_cell(double seconds_since_1970) {
    if (!std::isfinite(seconds_since_1970)) return {};
    const auto whole = static_cast<std::time_t>(std::floor(seconds_since_1970));
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(whole));
}

std::string method_name(const Season& season, int method) {
    return method < 0 ? std::string() : season.methods.at(static_cast<std::size_t>(method)).name;
}

std::string method_label(const Season& season, int method) {
    if (method < 0) return "no method";
    const Method& known = season.methods.at(static_cast<std::size_t>(method));
    return known.label.empty() ? known.name : known.label;
}

} // namespace quartercut::write
