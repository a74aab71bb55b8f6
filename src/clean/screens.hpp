// SPDX-License-Identifier: MIT
// The screens: each marks what it finds on the state it was given, in one sweep, and looks at no method's name.
#pragma once

#include "clean/work.hpp"

namespace quartercut::cleaning {

/// Records on one spot (spacing under a quarter of what the speed says, or the same place): mass and area go into the
/// record before. The same record once more (same machine, time, place and mass) is dropped without its mass.
void merge_on_one_spot(FieldWork& work, bool merge);

/// Slower than 0.5 m/s, faster than 4.5 m/s, or more than 25 % off the running median of 5 s on either side (judgement).
void screen_speed(FieldWork& work);

/// Turning faster than 10 degrees a second between the ways of the last and the next three seconds (judgement).
void screen_turns(FieldWork& work);

/// Passes with less than 40 m or 5 records left (judgement; after Simbahan, Dobermann and Ping 2004, who drop short
/// segments). Said in metres so that the logging interval does not matter.
void screen_short_passes(FieldWork& work);

/// Yields outside the crop's believable range, then those far from the median of their method area (3 robust SD) that
/// the records around them do not share: a poor patch stays, a lone reading goes.
void screen_limits(FieldWork& work, const Setting& setting);

/// Farther than 3.5 robust SD and 15 % from the median of the neighbours: the same pass within 25 m and the two passes
/// beside it, all in the same method area (judgement).
void screen_neighbours(FieldWork& work);

} // namespace quartercut::cleaning
