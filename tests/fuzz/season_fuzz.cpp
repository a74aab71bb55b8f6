// SPDX-License-Identifier: MIT
// Any bytes as a season file: either a Season that keeps its promises, or an InputError whose message starts with the
// file, a line and a column. Anything else is a finding.
#include "quartercut/error.hpp"
#include "quartercut/season.hpp"

#include <cstdlib>
#include <string>

namespace {

void require(bool holds) {
    if (!holds) std::abort();
}

bool has_place(const std::string& message) {
    const std::string start = "season.toml:";
    if (!message.starts_with(start)) return false;
    const std::size_t line = message.find_first_not_of("0123456789", start.size());
    if (line == std::string::npos || line == start.size() || message[line] != ':') return false;
    const std::size_t column = message.find_first_not_of("0123456789", line + 1);
    return column != std::string::npos && column > line + 1 && message[column] == ':';
}

void require_promises(const quartercut::Season& season) {
    require(!season.title.empty() && !season.crop.empty());
    require(season.methods.size() >= 2 && season.baseline_code() >= 0);
    require(season.basis_pct > 0.0 && season.basis_pct < 40.0);
    require(season.bushel_lb >= 5.0 && season.bushel_lb <= 150.0);
    require(!season.fields.file.empty() && !season.points.files.empty());
    for (const quartercut::Method& method : season.methods)
        require(!method.name.empty() &&
                (!method.cut_width_m || (*method.cut_width_m > 0.4 && *method.cut_width_m < 61.0)));
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(data), size);
    try {
        require_promises(quartercut::parse_season(text, "season.toml"));
    } catch (const quartercut::InputError& error) {
        require(has_place(error.what()));
    }
    return 0;
}
