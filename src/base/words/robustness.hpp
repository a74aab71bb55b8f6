// SPDX-License-Identifier: MIT
// What is changed in each re-run: a part of words.hpp.
#pragma once

namespace quartercut {

struct RobustnessWords {
    const char* lag_off = "flow lag left as logged";
    const char* ramps_off = "pass starts and ends kept";
    const char* coverage_off = "area as logged, overlap not taken off";
    const char* speed_off = "no speed screen";
    const char* limits_off = "no yield limits";
    const char* neighbours_off = "no neighbour screen";
    const char* edge_passes_off = "edge passes kept";
    const char* tickets_off = "monitor as it was, no tickets";
    const char* lag_longer = "lag 1 s longer";
    const char* lag_shorter = "lag 1 s shorter";
    const char* typical_lag = "readings taken as 12 s late where no delay was found";
    const char* trimmed_more = "pass ends trimmed 3 s more";
    const char* trimmed_less = "pass ends trimmed 3 s less";
    const char* moisture_off = "no moisture correction";
    const char* half_segments = "segments half as long";
    const char* double_segments = "segments twice as long";
};

} // namespace quartercut
