// SPDX-License-Identifier: MIT
// Results of earlier versions say in words alone what newer ones also say in a flag.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut {

/// Do these sentences of an earlier version hold a finding down because nothing checks the machines?
[[nodiscard]] inline bool said_machine_is_method(const std::vector<std::string>& leaves_out) {
    constexpr std::string_view said = "Each way was cut by its own machine and weighed loads do not check both";
    return std::any_of(leaves_out.begin(), leaves_out.end(),
                       [&](const std::string& sentence) { return sentence.find(said) != std::string::npos; });
}

} // namespace quartercut
