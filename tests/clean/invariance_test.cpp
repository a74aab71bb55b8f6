// SPDX-License-Identifier: MIT
// What must not matter: the names of methods, how finely the monitor logs, how many threads work, which half is which.
#include "harvest.hpp"

#include <gtest/gtest.h>

namespace quartercut {
namespace {

using namespace test;

StandardField two_halves(std::uint64_t seed, double interval_s = 1.0) {
    Harvest harvest;
    harvest.seed = seed;
    harvest.interval_s = interval_s;
    harvest.yield_t_ha = rough_surface(seed + 40);
    harvest.method = [](double x, double) { return x < 200.0 ? 0 : 1; };
    StandardField field = simulate(harvest);
    field.method_areas = {{rectangle(0, 0, 200, 400), 0, "", 1}, {rectangle(200, 0, 400, 400), 1, "", 2}};
    return field;
}

void swap_labels(StandardField& field) {
    for (auto& method : field.records.method)
        if (method >= 0) method = 1 - method;
    for (MethodArea& area : field.method_areas)
        area.method = 1 - area.method;
}

TEST(Cleaning, IsBlindToTheMethodsNames) {
    StandardField field = two_halves(1);
    const CleanedField plain = clean(plain_season(), season_of(field), CleanOptions{}).fields[0];
    swap_labels(field);
    const CleanedField swapped = clean(plain_season(), season_of(field), CleanOptions{}).fields[0];
    EXPECT_EQ(plain.edge, swapped.edge);
    std::size_t different = 0;
    for (std::size_t i = 0; i < plain.removal.size(); ++i)
        different += plain.removal[i] != swapped.removal[i];
    EXPECT_LE(different, plain.removal.size() / 500); // the bootstrap of the lag draws other numbers per group
    EXPECT_NEAR(plain.lag[0].lag_s, swapped.lag[1].lag_s, 1e-9);
}

TEST(Cleaning, GivesTheSameForAnyNumberOfThreads) {
    Standardised input = season_of(two_halves(2));
    input.fields.push_back(two_halves(3));
    CleanOptions one, three;
    one.jobs = 1;
    three.jobs = 3;
    const Cleaned a = clean(plain_season(), input, one), b = clean(plain_season(), input, three);
    for (std::size_t f = 0; f < 2; ++f) {
        EXPECT_EQ(a.fields[f].removal, b.fields[f].removal);
        EXPECT_EQ(a.fields[f].mass_basis_kg, b.fields[f].mass_basis_kg);
        EXPECT_EQ(a.fields[f].area_m2, b.fields[f].area_m2);
        EXPECT_EQ(a.fields[f].lag[0].low_s, b.fields[f].lag[0].low_s);
    }
}

TEST(Cleaning, RemovesAsMuchFromTwoHalvesTreatedAlike) {
    double worst = 0.0, sum = 0.0;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const StandardField field = two_halves(seed);
        const CleanedField cleaned = clean(plain_season(), season_of(field), CleanOptions{}).fields[0];
        double kept[2] = {0, 0}, all[2] = {0, 0};
        for (std::size_t i = 0; i < field.records.size(); ++i) {
            if (field.records.method[i] < 0) continue;
            all[field.records.method[i]] += 1.0;
            kept[field.records.method[i]] += cleaned.removal[i] == Removal::kept;
        }
        const double difference = 100.0 * (kept[0] / all[0] - kept[1] / all[1]);
        worst = std::max(worst, std::abs(difference));
        sum += difference;
    }
    EXPECT_LT(worst, 2.0); // points
    EXPECT_LT(std::abs(sum / 8.0), 0.7);
}

TEST(Cleaning, DoesNotMakeADifferenceWhereThereIsNone) {
    // Gain of cleaned means against the true difference of the surface on the land kept: the bias of cleaning alone.
    double sum = 0.0;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const StandardField field = two_halves(seed);
        const auto surface = rough_surface(seed + 40);
        const CleanedField cleaned = clean(plain_season(), season_of(field), CleanOptions{}).fields[0];
        double truth[2] = {0, 0}, n[2] = {0, 0};
        const Records& r = field.records;
        for (std::size_t i = 0; i < r.size(); ++i) {
            if (cleaned.removal[i] != Removal::kept) continue;
            truth[r.method[i]] += cleaned.area_m2[i] * surface(r.x_m[i], r.y_m[i]);
            n[r.method[i]] += cleaned.area_m2[i];
        }
        const double gain = yield_of(field, cleaned, 1) - yield_of(field, cleaned, 0);
        const double true_gain = truth[1] / n[1] - truth[0] / n[0];
        EXPECT_NEAR(gain, true_gain, 0.01 * 2.5) << "seed " << seed;
        sum += gain - true_gain;
    }
    EXPECT_LT(std::abs(sum / 8.0), 0.005 * 2.5);
}

TEST(Cleaning, HardlyDependsOnTheLoggingInterval) {
    const StandardField fine = two_halves(5, 1.0), coarse = two_halves(5, 2.0);
    const CleanedField a = clean(plain_season(), season_of(fine), CleanOptions{}).fields[0];
    const CleanedField b = clean(plain_season(), season_of(coarse), CleanOptions{}).fields[0];
    for (const int method : {0, 1})
        EXPECT_NEAR(yield_of(coarse, b, method) / yield_of(fine, a, method), 1.0, 0.005);
}

TEST(Cleaning, IsUnchangedByRecordsSplitInTwo) {
    // Each record of a clean pass cut in halves: the same mass over area.
    StandardField whole = plain_field(100.0, 500.0), halves = plain_field(100.0, 500.0);
    add_pass(whole.records, 5.0, 0.0, 200, 0.0);
    add_pass(halves.records, 5.0, 0.0, 400, 0.0, 1.0);
    for (std::size_t i = 0; i < 400; ++i) {
        halves.records.time_s[i] = 0.5 * static_cast<double>(i + 1);
        halves.records.duration_s[i] = 0.5;
        halves.records.speed_m_s[i] = 2.0;
        const double mass = 5.0 + 1.0 * std::sin(0.02 * static_cast<double>(i / 2));
        halves.records.mass_kg[i] = 0.5 * mass;
        whole.records.mass_kg[i / 2] = mass;
    }
    const CleanedField a = clean(plain_season(), season_of(whole), CleanOptions{}).fields[0];
    const CleanedField b = clean(plain_season(), season_of(halves), CleanOptions{}).fields[0];
    EXPECT_NEAR(yield_of(whole, a, 0), yield_of(halves, b, 0), 1e-9);
}

TEST(Cleaning, WorksOnAFieldWithoutRecords) {
    const Cleaned cleaned = clean(plain_season(), season_of(plain_field(100, 100)), CleanOptions{});
    EXPECT_TRUE(cleaned.fields[0].removal.empty());
    EXPECT_TRUE(cleaned.fields[0].passes.empty());
}

} // namespace
} // namespace quartercut
