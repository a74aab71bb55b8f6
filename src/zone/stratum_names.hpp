// SPDX-License-Identifier: MIT
// Which stratum a face lies in when fields are split by several tables at once: one name a table, joined.
#pragma once

#include "zone/steps.hpp"

#include <string>
#include <utility>
#include <vector>

namespace quartercut::zone_room {

class StratumNames {
public:
    explicit StratumNames(const std::vector<StratumArea>& strata);
    /// \param holders  strata that hold a place, lowest index first
    /// \returns the place's label: places of one label are one stratum, labels order as the strata do; -1: in none
    [[nodiscard]] int label(const std::vector<int>& holders) const;
    /// "loam", or "loam, edge" with two tables, "none, edge" where the first says nothing.
    [[nodiscard]] std::string name(int label) const;
    /// Pairs of names of one table that hold the same place; each pair names the one that counts first.
    [[nodiscard]] std::vector<std::pair<std::string, std::string>> overlaps(const std::vector<int>& holders,
                                                                            std::size_t table) const;

private:
    [[nodiscard]] std::vector<std::string> names_at(const std::vector<int>& holders, std::size_t table) const;
    const std::vector<StratumArea>& strata_;
    std::vector<std::vector<std::string>> names_; ///< per table, in the order they come
};

} // namespace quartercut::zone_room
