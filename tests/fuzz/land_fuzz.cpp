// SPDX-License-Identifier: MIT
// Any bytes as a legal land description: refused with an InputError, or read into parts that are in range and come back
// the same from their own text.
#include "quartercut/error.hpp"
#include "quartercut/land.hpp"

#include <cstdint>
#include <cstdlib>

namespace {

void require(bool holds) {
    if (!holds) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    quartercut::LegalLand land;
    try {
        land = quartercut::parse_legal_land(text);
    } catch (const quartercut::InputError&) {
        return 0;
    }
    require(land.section >= 1 && land.section <= 36 && land.township >= 1 && land.township <= 129);
    require(land.range >= 1 && land.range <= 34 && land.meridian >= 1 && land.meridian <= 6);
    require(!land.subdivision || (*land.subdivision >= 1 && *land.subdivision <= 16 && land.quarter.empty()));
    const std::string written = to_string(land);
    require(to_string(quartercut::parse_legal_land(written)) == written);
    return 0;
}
