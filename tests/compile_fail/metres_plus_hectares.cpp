// SPDX-License-Identifier: MIT
// Must not compile: a length and an area do not add up.
#include "quartercut/units.hpp"

quartercut::Metres width() {
    const quartercut::Metres metres{3.0};
    const quartercut::Hectares more{1.0};
    return metres + more;
}
