// SPDX-License-Identifier: MIT
// The land as earlier years' yield maps show it, for fields of this season and for next year's alike.
#pragma once

#include "quartercut/plan_choose.hpp"

namespace quartercut::planning {

/// One field in one earlier map.
struct EarlierLand {
    std::string field;
    Frame frame;
    PastMap map; ///< in that frame
    double mean_yield_t_ha = 0.0;
};

/// Reads the maps of [history]; empty without them. \param more  fields beside the season's own, e.g. next year's
/// \throws InputError, DataError  as for this season's records
[[nodiscard]] std::vector<EarlierLand> read_earlier_land(const Season& season, const std::vector<RawArea>& more);

/// Hands a field its earlier maps. Each is brought to `mean_yield_t_ha` (0: left alone): a poor year, or another crop,
/// would else make the land look evener, or rougher, than it will be.
void add_earlier(TrialLand& land, const std::vector<EarlierLand>& earlier, double mean_yield_t_ha);

/// Mean yield of all that was cut this season; 0 without records.
[[nodiscard]] double farm_yield_t_ha(const std::vector<ZonedField>& zoned);

/// Main direction of the passes; nullopt without any.
[[nodiscard]] std::optional<double> direction_of(const CleanedField& cleaned);

/// This season's field without its earlier maps.
[[nodiscard]] TrialLand season_land(const Season& season, const StandardField& standard, const CleanedField& cleaned,
                                    const ZonedField& zoned, const FieldComparison& comparison);

} // namespace quartercut::planning
