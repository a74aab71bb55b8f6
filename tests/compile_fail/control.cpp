// SPDX-License-Identifier: MIT
// The control: the same lines with the right units. It must compile, or the two refusals beside it would prove nothing.
#include "quartercut/units.hpp"

quartercut::Metres width() {
    const quartercut::Metres metres{3.0};
    const quartercut::Metres more{1.0};
    return metres + more;
}
