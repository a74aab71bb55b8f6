// SPDX-License-Identifier: MIT
// Delays and ramps found once and taken over; one delay a machine; what is said where none is found.
#include "clean/lag.hpp"
#include "harvest.hpp"

#include <algorithm>
#include <gtest/gtest.h>

namespace quartercut {
namespace {

using namespace test;

/// Two fields of two methods each, moisture to be corrected, a delay to be found.
const Standardised& two_fields() {
    static const Standardised season = [] {
        Standardised input;
        input.machines = {"red"};
        for (const std::uint64_t seed : {31U, 32U}) {
            Harvest harvest;
            harvest.width_m = 300.0;
            harvest.height_m = 300.0;
            harvest.seed = seed;
            harvest.yield_t_ha = rough_surface(seed);
            harvest.method = [](double x, double) { return x < 150.0 ? 0 : 1; };
            StandardField field = simulate(harvest);
            field.method_areas = {{rectangle(0, 0, 150, 300), 0, "", 1}, {rectangle(150, 0, 300, 300), 1, "", 2}};
            Random random(seed);
            for (std::size_t i = 0; i < field.records.size(); ++i) {
                field.records.at_basis[i] = 0;
                field.records.moisture_pct[i] = i % 500 == 0 ? 0.0 : 9.0 + 0.3 * random.normal();
            }
            input.fields.push_back(std::move(field));
        }
        return input;
    }();
    return season;
}

void expect_same_bits(const Cleaned& a, const Cleaned& b, const std::string& what) {
    ASSERT_EQ(a.fields.size(), b.fields.size());
    for (std::size_t f = 0; f < a.fields.size(); ++f) {
        EXPECT_EQ(a.fields[f].removal, b.fields[f].removal) << what;
        EXPECT_EQ(a.fields[f].mass_basis_kg, b.fields[f].mass_basis_kg) << what;
        EXPECT_EQ(a.fields[f].area_m2, b.fields[f].area_m2) << what;
        EXPECT_EQ(a.fields[f].edge, b.fields[f].edge) << what;
    }
    ASSERT_EQ(a.lag.size(), b.lag.size());
    for (std::size_t g = 0; g < a.lag.size(); ++g) {
        EXPECT_EQ(a.lag[g].lag_s, b.lag[g].lag_s) << what;
        EXPECT_EQ(a.lag[g].why, b.lag[g].why) << what;
        EXPECT_EQ(a.ramps[g].start_s, b.ramps[g].start_s) << what;
        EXPECT_EQ(a.ramps[g].end_s, b.ramps[g].end_s) << what;
    }
}

TEST(Timing, TakenOverGivesTheSameBitsAsFoundAgain) {
    const Cleaned first = clean(plain_season(), two_fields(), CleanOptions{});
    ASSERT_TRUE(first.lag[0].applied);
    std::vector<std::pair<std::string, CleanOptions>> changes;
    changes.reserve(20);
    const auto change = [&](const char* words) -> CleanOptions& {
        return changes.emplace_back(words, CleanOptions{}).second;
    };
    static_cast<void>(change("nothing"));
    change("no lag").steps.lag = false;
    change("no ramps").steps.ramps = false;
    change("no coverage").steps.coverage = false;
    change("no speed screen").steps.speed = false;
    change("no limits").steps.limits = false;
    change("no neighbours").steps.neighbours = false;
    change("lag longer").extra_lag_s = 1.0;
    change("ramps longer").extra_ramp_s = 3.0;
    change("ramps shorter").extra_ramp_s = -3.0;
    change("wet").moisture_correction = false;
    for (auto& [words, options] : changes) {
        const Cleaned again = clean(plain_season(), two_fields(), options);
        options.earlier = &first;
        expect_same_bits(clean(plain_season(), two_fields(), options), again, words);
    }
}

TEST(Timing, IsReallyTakenOver) {
    Cleaned first = clean(plain_season(), two_fields(), CleanOptions{});
    for (LagEstimate& lag : first.lag)
        lag.lag_s = 7.0;
    CleanOptions options;
    options.earlier = &first;
    EXPECT_EQ(clean(plain_season(), two_fields(), options).fields[0].lag[0].lag_s, 7.0);
    options.steps.lag = false; // another question: nothing is taken over
    EXPECT_NE(clean(plain_season(), two_fields(), options).fields[0].lag[0].lag_s, 7.0);
}

TEST(Timing, IsTakenOverByNameWhateverTheOrder) {
    const Cleaned first = clean(plain_season(), two_fields(), CleanOptions{});
    Cleaned turned = first;
    std::swap(turned.lag[0], turned.lag[1]);
    std::swap(turned.moisture_lag[0], turned.moisture_lag[1]);
    std::swap(turned.ramps[0], turned.ramps[1]);
    CleanOptions options;
    options.earlier = &turned;
    expect_same_bits(clean(plain_season(), two_fields(), options), first, "turned");
}

Standardised even_season(std::size_t fields) {
    Standardised input;
    input.machines = {"red"};
    for (std::size_t f = 0; f < fields; ++f) {
        Harvest harvest;
        harvest.seed = 50 + f;
        input.fields.push_back(simulate(harvest));
    }
    return input;
}

TEST(UnknownLag, IsNotedOnceForTheSeasonAndNotFieldByField) {
    const Cleaned cleaned = clean(plain_season(), even_season(2), CleanOptions{});
    ASSERT_EQ(cleaned.lag.size(), 1U);
    EXPECT_TRUE(cleaned.lag[0].not_found);
    const auto notes = [](const Issues& issues) {
        return std::count_if(issues.begin(), issues.end(),
                             [](const Issue& issue) { return issue.code == "lag-not-found"; });
    };
    EXPECT_EQ(notes(cleaned.issues), 1);
    EXPECT_EQ(notes(cleaned.fields[0].issues) + notes(cleaned.fields[1].issues), 0);
}

TEST(UnknownLag, CanBeAssumedForARerun) {
    const Standardised input = even_season(1);
    const Cleaned plain = clean(plain_season(), input, CleanOptions{});
    CleanOptions options;
    options.assumed_lag_s = 12.0;
    options.earlier = &plain;
    const Cleaned assumed = clean(plain_season(), input, options);
    EXPECT_FALSE(assumed.lag[0].applied); // still unknown: what was assumed is no finding
    // One record a second: record i now holds the grain logged 12 records later.
    std::size_t same = 0, all = 0;
    for (std::size_t i = 0; i + 12 < plain.fields[0].removal.size(); ++i) {
        if (assumed.fields[0].removal[i] != Removal::kept || plain.fields[0].removal[i + 12] != Removal::kept) continue;
        ++all;
        same += std::abs(assumed.fields[0].mass_basis_kg[i] - plain.fields[0].mass_basis_kg[i + 12]) < 1e-6;
    }
    EXPECT_GT(all, 5000U);
    EXPECT_EQ(same, all);
}

TEST(UnknownLag, IsAssumedOnlyWhereNoneWasFound) {
    CleanOptions options;
    options.assumed_lag_s = 5.0;
    expect_same_bits(clean(plain_season(), two_fields(), options), clean(plain_season(), two_fields(), CleanOptions{}),
                     "all found");
}

TEST(NegativeLag, IsNoDelayOfAMachineAndLeftAsLogged) {
    // Readings moved four seconds too early by the program that wrote the file.
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        Harvest harvest;
        harvest.seed = seed;
        harvest.delay_s = 0.0;
        harvest.mixing_s = 0.0;
        harvest.yield_t_ha = rough_surface(seed + 60);
        StandardField field = simulate(harvest);
        auto& mass = field.records.mass_kg;
        std::rotate(mass.begin(), mass.begin() + 4, mass.end());
        const Cleaned cleaned = clean(plain_season(), season_of(field), CleanOptions{});
        EXPECT_NEAR(cleaned.lag[0].lag_s, -4.0, 0.5);
        EXPECT_FALSE(cleaned.lag[0].applied);
        EXPECT_FALSE(cleaned.lag[0].not_found);
        EXPECT_NE(cleaned.lag[0].why.find("before it is cut"), std::string::npos) << cleaned.lag[0].why;
    }
}

TEST(SharedLag, IsOneForTheMethodsOfAMachineThatDoNotDiffer) {
    const Cleaned cleaned = clean(plain_season(), two_fields(), CleanOptions{});
    ASSERT_EQ(cleaned.lag.size(), 2U);
    EXPECT_EQ(cleaned.lag[0].lag_s, cleaned.lag[1].lag_s);
    EXPECT_NEAR(cleaned.lag[0].lag_s, 15.0, 0.5); // 12 s transport + 3 s mixing
    EXPECT_NE(cleaned.lag[0].why.find("all methods of the machine together"), std::string::npos);
}

/// Twenty pass pairs whose disagreement is least at `lag_s`, give or take `play_s`; `depth` 0: no structure.
std::vector<cleaning::PassPairCurve> curves_at(double lag_s, double play_s, double depth, std::uint64_t seed) {
    Random random(seed);
    std::vector<cleaning::PassPairCurve> curves;
    for (int pair = 0; pair < 20; ++pair) {
        cleaning::PassPairCurve curve{std::vector<double>(cleaning::lag_count), 40.0, 320.0};
        const double at = lag_s + play_s * random.normal();
        for (std::size_t k = 0; k < cleaning::lag_count; ++k) {
            const double off = cleaning::lag_from_s + cleaning::lag_step_s * static_cast<double>(k) - at;
            curve.sum[k] = 40.0 * (1.0 - depth * std::exp(-off * off / 50.0)) * (1.0 + 0.001 * random.normal());
        }
        curves.push_back(curve);
    }
    return curves;
}

std::vector<LagEstimate> shared(const std::vector<std::vector<cleaning::PassPairCurve>>& curves) {
    std::vector<LagEstimate> own;
    for (std::size_t m = 0; m < curves.size(); ++m) {
        own.push_back(cleaning::judge_lag(curves[m], m + 1));
        own.back().machine = "red";
        own.back().method = std::to_string(m);
    }
    cleaning::share_lags(own, curves, 9);
    return own;
}

TEST(SharedLag, IsNotSharedByMethodsThatClearlyDiffer) {
    const std::vector<LagEstimate> lags = shared({curves_at(11.0, 0.5, 0.5, 1), curves_at(13.5, 0.5, 0.5, 2)});
    EXPECT_NEAR(lags[0].lag_s, 11.0, 0.4);
    EXPECT_NEAR(lags[1].lag_s, 13.5, 0.4);
}

TEST(SharedLag, IsPooledWhereTheDifferenceIsNoise) {
    const std::vector<LagEstimate> lags = shared({curves_at(12.0, 3.0, 0.5, 3), curves_at(12.0, 3.0, 0.5, 4)});
    EXPECT_EQ(lags[0].lag_s, lags[1].lag_s);
    EXPECT_LT(lags[0].high_s - lags[0].low_s, 3.0);
    EXPECT_EQ(lags[1].method, "1");
}

TEST(SharedLag, IsLentToAMethodThatShowsNoneWithItsDoubt) {
    const std::vector<LagEstimate> lags = shared({curves_at(12.0, 0.5, 0.5, 5), curves_at(12.0, 0.5, 0.0, 6)});
    EXPECT_TRUE(lags[1].applied);
    EXPECT_FALSE(lags[1].not_found);
    EXPECT_NEAR(lags[1].lag_s, 12.0, 0.4);
    EXPECT_GE(lags[1].high_s - lags[1].low_s, 4.0);
    EXPECT_NE(lags[1].why.find("other methods"), std::string::npos);
}

TEST(SharedLag, IsNoneWhereNoMethodShowsAny) {
    for (const LagEstimate& lag : shared({curves_at(12.0, 0.5, 0.0, 7), curves_at(12.0, 0.5, 0.0, 8)}))
        EXPECT_TRUE(lag.not_found);
}

TEST(Ramps, OfAMethodWithFewPassesAreThoseTheOtherPassesOfTheMachineShow) {
    Harvest harvest;
    harvest.noise = 0.02;
    harvest.yield_t_ha = rough_surface(3);
    harvest.method = [](double x, double) { return x < 40.0 ? 0 : 1; }; // 4 passes and 36
    const Cleaned cleaned = clean(plain_season(), season_of(simulate(harvest)), CleanOptions{});
    ASSERT_EQ(cleaned.ramps.size(), 2U);
    EXPECT_TRUE(cleaned.ramps[0].from_data);
    EXPECT_EQ(cleaned.ramps[0].start_s, cleaned.ramps[1].start_s);
    EXPECT_NEAR(cleaned.ramps[0].end_s, 3.0, 1.5); // the stated one would be 6 s
}

} // namespace
} // namespace quartercut
