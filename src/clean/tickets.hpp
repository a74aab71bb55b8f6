// SPDX-License-Identifier: MIT
// Which records a weighed load came from.
#pragma once

#include "clean/work.hpp"

#include <string>
#include <vector>

namespace quartercut::cleaning {

/// Tickets that speak of the same records (one load on two trucks, all loads of a field without times) taken together.
struct WeighedLoad {
    std::vector<std::size_t> tickets;         ///< indices into Standardised::tickets
    double ticket_kg = 0.0;                   ///< at the basis, dockage off
    double monitor_kg = 0.0;                  ///< at the basis, untrimmed
    double seconds = 0.0;                     ///< with grain flowing
    double time_s = nan_value;                ///< middle of the load
    std::vector<double> group_kg;             ///< monitor mass per machine x method
    std::vector<std::vector<double>> area_kg; ///< [field][method area]
    int group = -1;                           ///< the one group with 95 % of the mass; -1: mixed
};

/// Grain (kg at the basis) per record with nothing trimmed: ramps, turns and outliers are real grain. Where the grain
/// of a record arrived after logging had stopped, its land times the yield of its pass stands in.
[[nodiscard]] std::vector<double> untrimmed_kg(const FieldWork& work, const Setting& setting);

/// Matches tickets by load, else by time window, else by field, method and machine.
/// \throws DataError  unknown field, machine or method; nothing that says which records; no records
[[nodiscard]] std::vector<WeighedLoad> match_tickets(const std::vector<FieldWork>& works, const Setting& setting,
                                                     const std::vector<std::vector<double>>& untrimmed);

} // namespace quartercut::cleaning
