// SPDX-License-Identifier: MIT
// Any bytes as the report-data.cbor of a results folder: a page, or an InputError; nothing else.
#include "own_folder.hpp"

#include "quartercut/error.hpp"
#include "quartercut/report.hpp"
#include "quartercut/write.hpp"

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace quartercut;
    static const fuzz::OwnFolder folder;
    folder.put("report-data.cbor", bytes, size);
    try {
        const Results results = read_report_data(folder.path());
        if (report_html(results).empty()) std::abort();
    } catch (const InputError&) {
    }
    return 0;
}
