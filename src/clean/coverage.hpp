// SPDX-License-Identifier: MIT
// Land newly cut by each record, and what the spacing of passes says about widths and positions.
#pragma once

#include "clean/bitmap.hpp"
#include "clean/work.hpp"

namespace quartercut::cleaning {

/// The header rectangle a record swept: from where the one before left off, as wide as the record says.
[[nodiscard]] Quad header_quad(const FieldWork& work, std::size_t before, std::size_t i);

/// Paints all rectangles in order of time over all machines. How far the overlap is believed depends on the positions:
/// cross-track noise up to 0.15 m: area = new land; up to 0.5 m: only where less than 90 % was new; above: not at all.
/// Where less than half was new the record is marked covered_before (judgement; after Drummond, Fraisse and Sudduth
/// 1999, who subtract polygons).
void cover_land(FieldWork& work);

/// Distance between neighbouring passes of one method, one number a pair of passes.
[[nodiscard]] std::vector<Spacing> pass_spacings(const FieldWork& work);

/// Cross-track noise of positions: the larger of the jitter within passes and of what spacings wider than the cut
/// betray (nobody leaves crop standing between passes on purpose). \pre work.spacings
[[nodiscard]] double position_noise_m(const FieldWork& work);

/// Record numbers by clock over all machines.
[[nodiscard]] std::vector<std::size_t> by_time(const FieldWork& work);

/// Set width against spacing, harvested against mapped land, per method; issues past 2 % and 3 %, and past 10 % of one
/// of several areas of a method. Areas are not rescaled: what remains goes into u_rel.
void check_widths(FieldWork& work, const Setting& setting);

/// Land (m2) of the field in each method area, boundary and holes respected, by scan lines half a metre apart.
[[nodiscard]] std::vector<double> mapped_by_area_m2(const StandardField& field);

/// The same per method, from that.
[[nodiscard]] std::vector<double> mapped_area_m2(const StandardField& field, const std::vector<double>& by_area_m2,
                                                 std::size_t methods);

} // namespace quartercut::cleaning
