// SPDX-License-Identifier: MIT
// One independent stream of draws for every purpose in every field, so that a change in one leaves the others alone.
#pragma once

#include "base/random.hpp"

#include <cstdint>

namespace quartercut::demo {

enum class Purpose : std::uint64_t { layout = 1, soil, passes, driving, weather, sensor, scale };

[[nodiscard]] inline Random stream(std::uint64_t seed, std::size_t field, Purpose purpose, std::uint64_t part = 0) {
    const std::uint64_t of_field = stream_seed(seed, static_cast<std::uint64_t>(field));
    return Random(stream_seed(stream_seed(of_field, static_cast<std::uint64_t>(purpose)), part));
}

} // namespace quartercut::demo
