// SPDX-License-Identifier: MIT
// Paired strips and blocks.
#include "compare/replicated.hpp"

#include "base/words/words.hpp"

#include "compare/components.hpp"
#include "compare/findings.hpp"
#include "compare/paired.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quartercut::contrast {
namespace {

const Strip& strip_at(const FieldContext& field, int index) {
    return field.layout.strips[static_cast<std::size_t>(index)];
}

std::vector<const Strip*> strips_of(const FieldContext& field, const Block& block, int method) {
    std::vector<const Strip*> out;
    for (const int i : block.strips) {
        const Strip& strip = strip_at(field, i);
        if (strip.method == method && strip.harvest.area_m2 > 0.0) out.push_back(&strip);
    }
    return out;
}

std::optional<double> joint_yield(const std::vector<const Strip*>& strips) {
    Harvest sum;
    for (const Strip* strip : strips) {
        sum.mass_kg += strip->harvest.mass_kg;
        sum.area_m2 += strip->harvest.area_m2;
    }
    return sum.yield_t_ha();
}

PairDifference difference_of(const FieldContext& field, const Block& block, std::pair<int, int> pair) {
    const auto method = strips_of(field, block, pair.first);
    const auto baseline = strips_of(field, block, pair.second);
    PairDifference out{block.name, method.front()->zone_id, baseline.front()->zone_id, 0.0, 0.0, 0.0};
    out.yield_t_ha = *joint_yield(method);
    out.baseline_yield_t_ha = *joint_yield(baseline);
    out.difference_t_ha = out.yield_t_ha - out.baseline_yield_t_ha;
    return out;
}

/// Blocks that do not all hold the same numbers of strips need a model that weighs them.
bool unequal(const FieldContext& field, const std::vector<Block>& blocks, std::pair<int, int> pair) {
    const std::size_t n = strips_of(field, blocks.front(), pair.first).size();
    return std::any_of(blocks.begin(), blocks.end(), [&](const Block& block) {
        return strips_of(field, block, pair.first).size() != n || strips_of(field, block, pair.second).size() != n;
    });
}

std::optional<MeanTest> mixed_model(const FieldContext& field, const std::vector<Block>& blocks,
                                    std::pair<int, int> pair) {
    std::vector<double> yields;
    std::vector<int> group;
    std::vector<double> is_method;
    for (std::size_t b = 0; b < blocks.size(); ++b)
        for (const int method : {pair.first, pair.second})
            for (const Strip* strip : strips_of(field, blocks[b], method)) {
                yields.push_back(*strip->harvest.yield_t_ha());
                group.push_back(static_cast<int>(b));
                is_method.push_back(method == pair.first ? 1.0 : 0.0);
            }
    const auto n = static_cast<Eigen::Index>(yields.size());
    ComponentModel model;
    model.x = Eigen::MatrixXd::Ones(n, 2);
    model.x.col(1) = Eigen::Map<const Eigen::VectorXd>(is_method.data(), n);
    model.y = Eigen::Map<const Eigen::VectorXd>(yields.data(), n);
    model.parts = {group_part(group), identity_part(n)};
    const auto fit = fit_components(model);
    if (!fit || fit->theta(1) <= 0.0) return std::nullopt;
    return kenward_roger(model, *fit).contrast(Eigen::Vector2d(0.0, 1.0));
}

void set_numbers(Contrast& contrast, const MeanTest& test) {
    contrast.gain_t_ha = test.estimate;
    contrast.se_t_ha = test.se;
    contrast.df = test.df;
    contrast.ci95_t_ha = test.ci95();
    contrast.p = test.p();
}

std::vector<double> differences_of(const std::vector<PairDifference>& pairs) {
    std::vector<double> out;
    for (const PairDifference& pair : pairs)
        out.push_back(pair.difference_t_ha);
    return out;
}

/// Differences equal to the last digit are a copied column or a made-up map, not strips of land.
bool varies(const std::vector<double>& differences) {
    double size = 0.0;
    for (const double d : differences)
        size = std::max(size, std::abs(d));
    const auto [low, high] = std::minmax_element(differences.begin(), differences.end());
    return *high - *low > 1e-9 * std::max(1.0, size);
}

void caution_about_few(Contrast& contrast) {
    if (contrast.unit_n >= 3) return;
    contrast.leaves_out.insert(contrast.leaves_out.begin(), spoken().compare.two_pairs);
}

} // namespace

std::vector<Block> blocks_with_yield(const FieldContext& field, const Pairing& pairing, std::pair<int, int> pair,
                                     Issues& issues) {
    std::vector<Block> out;
    for (const Block& block : pairing.blocks) {
        const bool method = joint_yield(strips_of(field, block, pair.first)).has_value();
        const bool baseline = joint_yield(strips_of(field, block, pair.second)).has_value();
        if (method && baseline) {
            out.push_back(block);
            continue;
        }
        issues.push_back(warning("pair-incomplete", field.view.standard.name,
                                 fill(spoken().compare.pair_incomplete, fmt::arg("pair", block.name),
                                      fmt::arg("method", field.method_name(method ? pair.second : pair.first)))));
    }
    return out;
}

void compare_blocks(const FieldContext& field, const std::vector<Block>& blocks, std::pair<int, int> pair,
                    Contrast& contrast, Issues& issues) {
    for (const Block& block : blocks)
        contrast.pairs.push_back(difference_of(field, block, pair));
    const std::vector<double> differences = differences_of(contrast.pairs);
    contrast.unit_what = "pairs";
    contrast.unit_n = static_cast<int>(blocks.size());
    contrast.estimator = spoken().compare.paired;
    const MeanTest paired = *paired_t(differences);
    contrast.gain_t_ha = paired.estimate;
    caution_about_few(contrast);
    if (!varies(differences)) {
        issues.push_back(warning("no-variation", field.view.standard.name, spoken().compare.no_variation));
        return;
    }
    set_numbers(contrast, paired);
    contrast.p_randomisation = sign_flip(differences, field.seed).p();
    if (!unequal(field, blocks, pair)) return;
    if (const auto mixed = mixed_model(field, blocks, pair)) {
        Estimate plain{spoken().compare.blocks, paired.estimate, paired.se, paired.df, paired.ci95(), ""};
        contrast.also.push_back(std::move(plain));
        set_numbers(contrast, *mixed);
        contrast.unit_what = "blocks";
        contrast.estimator = spoken().compare.random_blocks;
    }
}

} // namespace quartercut::contrast
