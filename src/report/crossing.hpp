// SPDX-License-Identifier: MIT
// How often each machine, day or variety met each method: the table that shows confounding.
#pragma once

#include "report/html.hpp"
#include "report/telling.hpp"

#include <string>

namespace quartercut::report {

struct CrossingText {
    std::string id, caption;
};

void write_crossing(Html& html, const Telling& telling, const Crossing& crossing, const CrossingText& text);

} // namespace quartercut::report
