// SPDX-License-Identifier: MIT
#include "quartercut/read.hpp"

namespace quartercut {

Season season_of_earlier_map(const Season& season, const std::string& map) {
    Season out = season;
    out.points.files = {map};
    out.points.layer.clear();
    out.points.columns = season.history->columns;
    out.points.place = {};
    if (const auto own = out.points.crs_of.find(map); own != out.points.crs_of.end()) out.points.crs = own->second;
    out.points.crs_of.clear();
    out.tickets.reset();
    out.strata.reset();
    out.strata_across.clear();
    out.history.reset();
    for (Method& method : out.methods)
        method.cut_width_m.reset();
    return out;
}

} // namespace quartercut
