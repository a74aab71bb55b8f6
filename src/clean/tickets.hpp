// SPDX-License-Identifier: MIT
// Which records a weighed load came from.
#pragma once

#include "clean/work.hpp"

#include <map>
#include <string>
#include <vector>

namespace quartercut::cleaning {

/// Of the time of a load or an area: more without a reading cannot be filled in (judgement).
inline constexpr double most_unread_share = 0.02;

/// Tickets that speak of the same records (one load on two trucks, all loads of a field without times) taken together.
struct WeighedLoad {
    std::vector<std::size_t> tickets;                   ///< indices into Standardised::tickets
    double ticket_kg = 0.0;                             ///< at the basis, dockage off
    double monitor_kg = 0.0;                            ///< at the basis, untrimmed
    double seconds = 0.0;                               ///< with grain flowing
    double cutting_s = 0.0;                             ///< all time spent cutting, read or not
    double unread_s = 0.0;                              ///< of that, without a reading
    bool readable = true;                               ///< false: too much of it is unread to compare with the scale
    double time_s = nan_value;                          ///< middle of the load
    std::map<int, double> group_kg;                     ///< monitor mass per machine x method that it came from
    std::map<std::size_t, std::vector<double>> area_kg; ///< field it came from -> per method area
    int group = -1;                                     ///< the one group with 95 % of the mass; -1: mixed
};

/// Grain (kg at the basis) per record with nothing trimmed: ramps, turns and outliers are real grain. Where the grain
/// of a record arrived after logging had stopped, or the sensor gave no reading, its land times the yield of its pass
/// stands in.
[[nodiscard]] std::vector<double> untrimmed_kg(const FieldWork& work, const Setting& setting);

/// The question a ratio of scale to monitor raises: that of the units it points to, where the tickets' column is in the
/// unit mistaken, or that of whole loads.
[[nodiscard]] std::string unit_mistaken(double ratio, const std::vector<Ticket>& tickets);

/// "tickets.csv, row 2": the file as the season names it.
[[nodiscard]] std::string place_of(const Setting& setting, const Ticket& ticket);

/// Matches tickets by load, else by time window, else by field, method and machine.
/// \throws DataError  unknown field, machine or method; nothing that says which records; no records; a scale that says
///                    less than two thirds or more than one and a half times what the monitor says
[[nodiscard]] std::vector<WeighedLoad> match_tickets(const std::vector<FieldWork>& works, const Setting& setting,
                                                     const std::vector<std::vector<double>>& untrimmed);

} // namespace quartercut::cleaning
