// SPDX-License-Identifier: MIT
// The strings of money, losses, samples and weather: a part of words.hpp, apart for its length.
#pragma once

namespace quartercut::report {

struct PlanWords {
    const char* money = "Money";
    const char* losses = "Losses and samples";
    const char* weather = "Wind and weather";
};

} // namespace quartercut::report
