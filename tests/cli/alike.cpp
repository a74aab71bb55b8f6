// SPDX-License-Identifier: MIT
#include "alike.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace quartercut::test {

using Json = nlohmann::json;

void expect_alike(const Json& got, const Json& wanted, const std::string& where) {
    constexpr double tolerance = 1e-6;
    ASSERT_EQ(got.is_number(), wanted.is_number()) << where;
    if (wanted.is_number()) {
        const double a = got.get<double>(), b = wanted.get<double>();
        EXPECT_LE(std::abs(a - b), tolerance * std::max(1.0, std::abs(b))) << where << ": " << a << " against " << b;
        return;
    }
    ASSERT_EQ(got.type(), wanted.type()) << where;
    if (!wanted.is_structured()) {
        EXPECT_EQ(got, wanted) << where;
        return;
    }
    ASSERT_EQ(got.size(), wanted.size()) << where;
    for (const auto& [key, value] : wanted.items()) {
        if (key == "issues" || key == "inputs" || key == "attributes") continue;
        expect_alike(wanted.is_array() ? got.at(std::stoul(key)) : got.at(key), value, where + "/" + key);
    }
}

Json compared(const SeasonFolder& folder) {
    const Ran ran = folder.run("compare season.toml --json");
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    return ran.exit_code == 0 ? Json::parse(ran.out) : Json();
}

} // namespace quartercut::test
