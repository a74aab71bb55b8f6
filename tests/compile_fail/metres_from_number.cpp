// SPDX-License-Identifier: MIT
// Must not compile: a bare number has no unit.
#include "quartercut/units.hpp"

quartercut::Metres width() {
    const quartercut::Metres metres = 3.0;
    const quartercut::Metres more{1.0};
    return metres + more;
}
