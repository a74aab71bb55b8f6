// SPDX-License-Identifier: MIT
// Pairs of neighbouring strips. Only place and method are looked at, never yield.
#include "compare/pairs.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace quartercut::contrast {
namespace {

const Strip& strip_at(const Layout& layout, int index) { return layout.strips[static_cast<std::size_t>(index)]; }

bool holds_both(const Layout& layout, const std::vector<int>& strips, int method, int baseline) {
    const auto holds = [&](int wanted) {
        return std::any_of(strips.begin(), strips.end(), [&](int i) { return strip_at(layout, i).method == wanted; });
    };
    return holds(method) && holds(baseline);
}

std::vector<int> strips_of(const Layout& layout, int method, int baseline) {
    std::vector<int> out;
    for (std::size_t i = 0; i < layout.strips.size(); ++i)
        if (layout.strips[i].method == method || layout.strips[i].method == baseline)
            out.push_back(static_cast<int>(i));
    return out;
}

Pairing from_column(const Layout& layout, const std::vector<int>& strips, int method, int baseline) {
    Pairing pairing;
    pairing.from_column = true;
    std::map<std::string, std::vector<int>> blocks;
    for (const int i : strips)
        if (strip_at(layout, i).block.empty())
            pairing.left_over.push_back(i);
        else
            blocks[strip_at(layout, i).block].push_back(i);
    for (auto& [name, members] : blocks)
        if (holds_both(layout, members, method, baseline))
            pairing.blocks.push_back({name, std::move(members)});
        else
            pairing.left_over.insert(pairing.left_over.end(), members.begin(), members.end());
    return pairing;
}

/// Strips that lie over or under each other along the direction form banks; pairs stay within a bank.
std::vector<std::vector<int>> banks_of(const Layout& layout, const std::vector<int>& strips) {
    std::vector<std::vector<int>> banks;
    for (const int i : strips) {
        const Strip& strip = strip_at(layout, i);
        const auto in_bank = [&](const std::vector<int>& bank) {
            const Strip& last = strip_at(layout, bank.back());
            const double common = std::min(last.along_max, strip.along_max) - std::max(last.along_min, strip.along_min);
            return common >= 0.5 * std::min(last.length_m(), strip.length_m());
        };
        const auto home = std::find_if(banks.begin(), banks.end(), in_bank);
        if (home == banks.end())
            banks.push_back({i});
        else
            home->push_back(i);
    }
    return banks;
}

bool can_pair(const Layout& layout, int i, int j) {
    const Strip& a = strip_at(layout, i);
    const Strip& b = strip_at(layout, j);
    return a.method != b.method && are_neighbours(a, b, layout.methods_in_field);
}

/// From one side to the other, each strip with the next where they can pair. On a row of strips no other matching has
/// more pairs.
std::vector<std::pair<int, int>> walk(const Layout& layout, const std::vector<int>& bank) {
    std::vector<std::pair<int, int>> pairs;
    for (std::size_t i = 0; i + 1 < bank.size();) {
        if (can_pair(layout, bank[i], bank[i + 1])) {
            pairs.emplace_back(bank[i], bank[i + 1]);
            i += 2;
        } else {
            ++i;
        }
    }
    return pairs;
}

Pairing from_layout(const Layout& layout, const std::vector<int>& strips) {
    Pairing pairing;
    std::vector<int> strip_like;
    for (const int i : strips)
        (is_strip_like(strip_at(layout, i)) ? strip_like : pairing.left_over).push_back(i);
    if (pairing.left_over.size() > strip_like.size()) {
        pairing.patches = true;
        pairing.left_over = strips;
        return pairing;
    }
    for (const std::vector<int>& bank : banks_of(layout, strip_like)) {
        std::vector<int> paired;
        for (const auto& [a, b] : walk(layout, bank)) {
            pairing.blocks.push_back(
                {fill(spoken().compare.pair, fmt::arg("number", pairing.blocks.size() + 1)), {a, b}});
            paired.push_back(a);
            paired.push_back(b);
        }
        for (const int i : bank)
            if (std::find(paired.begin(), paired.end(), i) == paired.end()) pairing.left_over.push_back(i);
    }
    return pairing;
}

} // namespace

Pairing find_pairs(const Layout& layout, int method, int baseline, const std::string& setting) {
    const std::vector<int> strips = strips_of(layout, method, baseline);
    if (setting == "none") {
        Pairing none;
        none.left_over = strips;
        return none;
    }
    if (setting != "auto") return from_column(layout, strips, method, baseline);
    return from_layout(layout, strips);
}

} // namespace quartercut::contrast
