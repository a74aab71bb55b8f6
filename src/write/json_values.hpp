// SPDX-License-Identifier: MIT
// Values of ours -> JSON: keys keep their order, a number is finite or null.
#pragma once

#include "quartercut/compare.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace quartercut::write {

using Json = nlohmann::ordered_json;

/// The number, or null for NaN and infinity. JSON has neither (RFC 8259 section 6).
[[nodiscard]] inline Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }
[[nodiscard]] inline Json number(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

/// [low, high], or null when either end is unknown.
[[nodiscard]] inline Json interval(const std::optional<Interval>& value) {
    if (!value || !std::isfinite((*value)[0]) || !std::isfinite((*value)[1])) return nullptr;
    return Json::array({(*value)[0], (*value)[1]});
}

[[nodiscard]] inline Json text_or_null(const std::optional<std::string>& value) {
    return value ? Json(*value) : Json(nullptr);
}

/// One array with what `make` makes of each item.
template <class Items, class Make>
[[nodiscard]] Json array_of(const Items& items, Make make) {
    Json out = Json::array();
    for (const auto& item : items)
        out.push_back(make(item));
    return out;
}

[[nodiscard]] Json issues_json(const Issues& issues);
[[nodiscard]] Json contrast_json(const Contrast& contrast);
[[nodiscard]] Json farm_contrast_json(const FarmContrast& contrast);

/// Indented text with a newline at the end. Bytes that are no UTF-8 become U+FFFD.
[[nodiscard]] std::string to_text(const Json& json);

} // namespace quartercut::write
