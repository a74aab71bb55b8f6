// SPDX-License-Identifier: MIT
// Any bytes as the answers of a part of a season: one of its parts, or an InputError; nothing else.
#include "own_folder.hpp"

#include "quartercut/error.hpp"
#include "quartercut/write.hpp"

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace quartercut;
    static const fuzz::OwnFolder folder;
    try {
        const SeasonPart part = read_part(folder.put("part.cbor", bytes, size));
        if (part.part.number < 1 || part.part.number > part.part.count) std::abort();
    } catch (const InputError&) {
    }
    return 0;
}
