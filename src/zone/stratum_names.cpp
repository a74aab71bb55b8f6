// SPDX-License-Identifier: MIT
#include "zone/stratum_names.hpp"

#include "quartercut/error.hpp"

#include <algorithm>

namespace quartercut::zone_room {

namespace {

constexpr double most_labels = 1e9;

} // namespace

StratumNames::StratumNames(const std::vector<StratumArea>& strata) : strata_(strata) {
    for (const StratumArea& stratum : strata) {
        if (names_.size() <= stratum.table) names_.resize(stratum.table + 1);
        std::vector<std::string>& names = names_[stratum.table];
        if (std::find(names.begin(), names.end(), stratum.name) == names.end()) names.push_back(stratum.name);
    }
    double labels = 1.0;
    for (const std::vector<std::string>& names : names_)
        labels *= static_cast<double>(names.size() + 1);
    if (labels > most_labels)
        throw InputError("The tables under [strata] split the field into more pieces than can be counted; take one "
                         "table out or make its cells larger.");
}

std::vector<std::string> StratumNames::names_at(const std::vector<int>& holders, std::size_t table) const {
    std::vector<std::string> found;
    for (const int holder : holders) {
        const StratumArea& stratum = strata_[static_cast<std::size_t>(holder)];
        if (stratum.table != table) continue;
        if (std::find(found.begin(), found.end(), stratum.name) == found.end()) found.push_back(stratum.name);
    }
    return found;
}

/// The tables' names are the digits of one number, the first table's the highest; the last value of a digit is "none".
int StratumNames::label(const std::vector<int>& holders) const {
    int label = 0;
    bool any = false;
    for (std::size_t table = 0; table < names_.size(); ++table) {
        const std::vector<std::string> found = names_at(holders, table);
        const std::vector<std::string>& names = names_[table];
        auto digit = static_cast<int>(names.size());
        if (!found.empty()) {
            digit = static_cast<int>(std::find(names.begin(), names.end(), found.front()) - names.begin());
            any = true;
        }
        label = label * (static_cast<int>(names.size()) + 1) + digit;
    }
    return any ? label : -1;
}

std::string StratumNames::name(int label) const {
    std::string name;
    for (std::size_t table = names_.size(); table-- > 0;) {
        const std::vector<std::string>& names = names_[table];
        const int base = static_cast<int>(names.size()) + 1;
        const auto digit = static_cast<std::size_t>(label % base);
        const std::string word = digit < names.size() ? names[digit] : "none";
        name = name.empty() ? word : word + ", " + name;
        label /= base;
    }
    return name;
}

std::vector<std::pair<std::string, std::string>> StratumNames::overlaps(const std::vector<int>& holders,
                                                                        std::size_t table) const {
    const std::vector<std::string> found = names_at(holders, table);
    std::vector<std::pair<std::string, std::string>> pairs;
    for (std::size_t k = 1; k < found.size(); ++k)
        pairs.emplace_back(found.front(), found[k]);
    return pairs;
}

} // namespace quartercut::zone_room
