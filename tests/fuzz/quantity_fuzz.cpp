// SPDX-License-Identifier: MIT
// Any bytes as a quantity: refused with an InputError, or a finite number with a unit that is known.
#include "quartercut/error.hpp"
#include "quartercut/units.hpp"

#include <cmath>
#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const auto dimension = static_cast<quartercut::Dimension>(data[0] % 13U);
    const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
    try {
        const quartercut::ParsedQuantity parsed = quartercut::parse_quantity(dimension, text, 50.0);
        if (!std::isfinite(parsed.value) || !quartercut::unit_factor(dimension, parsed.unit, 50.0)) std::abort();
    } catch (const quartercut::InputError&) {
        return 0;
    }
    return 0;
}
