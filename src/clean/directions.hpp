// SPDX-License-Identifier: MIT
// First look at the records of a field: one block a machine, a clock that always runs on, the direction of travel,
// and which positions cannot be.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

/// Blocks, clock, steps and copies. Needs nothing but the records.
void prepare_clock(FieldWork& work);

/// Marks positions that would need an impossible speed: more than 1.5 x the logged speed + 1 m/s, or more than 8 m/s
/// (judgement). A single stray position is marked alone; the records after it are compared with the last good one.
void find_jumps(FieldWork& work);

/// Direction of travel over about 10 m, from positions; the logged heading where the machine hardly moved.
void find_directions(FieldWork& work);

/// True when record i follows record k without a gap in time or place.
[[nodiscard]] bool follows(const FieldWork& work, const MachineBlock& block, std::size_t k, std::size_t i);

} // namespace quartercut::cleaning
