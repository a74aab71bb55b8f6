// SPDX-License-Identifier: MIT
// Every rule on records made by hand, so that the answer is plain. Thresholds are judgement and stand in the headers.
#include "harvest.hpp"

#include <gtest/gtest.h>
#include <set>

namespace quartercut {
namespace {

using namespace test;

/// A pass of 200 records with nothing wrong; ramps off so that each rule can be seen alone.
StandardField long_pass() {
    StandardField field = plain_field(100.0, 500.0);
    add_pass(field.records, 5.0, 0.0, 200, 0.0);
    return field;
}

CleanOptions without_ramps() {
    CleanOptions options;
    options.steps.ramps = false;
    return options;
}

CleanedField cleaned_of(const StandardField& field, const CleanOptions& options = without_ramps()) {
    return clean(plain_season(), season_of(field), options).fields[0];
}

TEST(RemovalWords, AreAllDifferent) {
    std::set<std::string> words;
    for (std::size_t k = 0; k < removal_count; ++k)
        words.insert(removal_word(static_cast<Removal>(k)));
    EXPECT_EQ(words.size(), removal_count);
    EXPECT_STREQ(removal_word(Removal::off_field), "off-field");
    EXPECT_STREQ(removal_word(Removal::far_from_neighbours), "far-from-neighbours");
    EXPECT_STREQ(removal_word(Removal::short_pass), "short-pass");
}

TEST(Rules, KeepEverythingOfACleanPass) {
    const CleanedField cleaned = cleaned_of(long_pass());
    EXPECT_EQ(count_of(cleaned, Removal::kept), 200U);
    for (std::size_t i = 0; i < 200; ++i) {
        EXPECT_DOUBLE_EQ(cleaned.mass_basis_kg[i], 5.0);
        EXPECT_DOUBLE_EQ(cleaned.area_m2[i], 20.0);
    }
}

TEST(Rules, NameTheFirstReasonOnly) {
    StandardField field = long_pass();
    field.records.off_field[100] = 1;
    field.records.mass_kg[100] = no_number;
    EXPECT_EQ(cleaned_of(field).removal[100], Removal::off_field);
}

TEST(Rules, SeeWhatIsNoReading) {
    StandardField field = long_pass();
    Records& r = field.records;
    r.mass_kg[50] = 0.0;
    r.mass_kg[60] = no_number;
    r.width_m[70] = 0.0;
    r.distance_m[80] = 0.0;
    r.method[90] = -1;
    r.at_basis[100] = r.at_basis[110] = r.at_basis[120] = 0;
    r.moisture_pct[100] = 100.0;
    r.moisture_pct[110] = no_number;
    r.moisture_pct[120] = 12.4;
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(cleaned.removal[50], Removal::no_flow);
    EXPECT_EQ(cleaned.removal[60], Removal::no_flow);
    EXPECT_EQ(cleaned.removal[70], Removal::no_travel);
    EXPECT_EQ(cleaned.removal[80], Removal::no_travel);
    EXPECT_EQ(cleaned.removal[90], Removal::no_method);
    EXPECT_EQ(cleaned.removal[100], Removal::impossible_moisture);
    EXPECT_EQ(cleaned.removal[110], Removal::impossible_moisture);
    EXPECT_EQ(cleaned.removal[120], Removal::kept);
    EXPECT_EQ(cleaned.mass_basis_kg[50], 0.0);
}

TEST(Rules, BringWetMassToTheBasis) {
    // 2600 kg/ha wet at 12.4 % is 2530.666667 at 10 %, at 8.1 % 2654.888889 (dry-matter balance, computed with R 4.2.2).
    StandardField field = long_pass();
    for (std::size_t i = 0; i < field.records.size(); ++i) {
        field.records.at_basis[i] = 0;
        field.records.mass_kg[i] = 5.2;
        field.records.moisture_pct[i] = i < 100 ? 12.4 : 8.1;
    }
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_NEAR(10.0 * cleaned.mass_basis_kg[50] / cleaned.area_m2[50], 2.530666667, 1e-9);
    EXPECT_NEAR(10.0 * cleaned.mass_basis_kg[150] / cleaned.area_m2[150], 2.654888889, 1e-9);
    CleanOptions wet = without_ramps();
    wet.moisture_correction = false;
    EXPECT_DOUBLE_EQ(cleaned_of(field, wet).mass_basis_kg[50], 5.2);
}

TEST(Rules, SayWhenNoMoistureWasRecordedAndKeepTheMassAsLogged) {
    StandardField field = long_pass();
    for (std::size_t i = 0; i < field.records.size(); ++i) {
        field.records.at_basis[i] = 0;
        field.records.moisture_pct[i] = no_number;
    }
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(count_of(cleaned, Removal::kept), 200U);
    EXPECT_EQ(cleaned.issues.front().code, "moisture-not-recorded");
}

TEST(Rules, MergeRecordsOnOneSpotWithoutLosingMass) {
    StandardField field = long_pass();
    field.records.y_m[101] = field.records.y_m[100] + 0.2; // a tenth of what 2 m/s would make
    field.records.y_m[102] = field.records.y_m[100] + 4.0;
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(cleaned.removal[101], Removal::merged);
    EXPECT_DOUBLE_EQ(cleaned.mass_basis_kg[100], 10.0);
    EXPECT_DOUBLE_EQ(cleaned.area_m2[100], 40.0);
}

TEST(Rules, DropTheSameRecordOnceMoreWithoutAddingItsMass) {
    StandardField twice = plain_field(100.0, 500.0);
    StandardField once = long_pass();
    const Records& r = once.records;
    for (std::size_t i = 0; i < r.size(); ++i) {
        Row row;
        row.x_m = r.x_m[i], row.y_m = r.y_m[i], row.time_s = r.time_s[i];
        add(twice.records, row);
        add(twice.records, row);
    }
    const CleanedField cleaned = cleaned_of(twice);
    EXPECT_EQ(count_of(cleaned, Removal::merged), 200U);
    EXPECT_EQ(count_of(cleaned, Removal::kept), 200U);
    EXPECT_NEAR(yield_of(twice, cleaned, 0), 2.5, 1e-12);
}

TEST(Rules, DropStandingRacingAndSuddenSpeeds) {
    StandardField field = long_pass();
    field.records.speed_m_s[40] = 0.3;
    field.records.speed_m_s[80] = 5.0;
    field.records.speed_m_s[120] = 2.6; // 30 % over the running median of 2.0
    field.records.speed_m_s[160] = 2.4; // 20 %
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(cleaned.removal[40], Removal::speed);
    EXPECT_EQ(cleaned.removal[80], Removal::speed);
    EXPECT_EQ(cleaned.removal[120], Removal::speed);
    EXPECT_EQ(cleaned.removal[160], Removal::kept);
}

TEST(Rules, DropRecordsInASharpTurn) {
    // North, then north-east at once: 50 degrees within a second or two, less than the 60 that start a new pass.
    StandardField field = plain_field(500.0, 500.0);
    add_pass(field.records, 5.0, 0.0, 100, 0.0);
    for (int k = 1; k <= 100; ++k) {
        Row row;
        row.x_m = 5.0 + 2.0 * k * std::sin(0.8727);
        row.y_m = 200.0 + 2.0 * k * std::cos(0.8727);
        row.time_s = 100.0 + k;
        add(field.records, row);
    }
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_GT(count_of(cleaned, Removal::turn), 0U);
    EXPECT_EQ(cleaned.removal[50], Removal::kept);
    EXPECT_EQ(cleaned.removal[150], Removal::kept);
    for (std::size_t i = 0; i < cleaned.removal.size(); ++i) {
        if (cleaned.removal[i] != Removal::turn) continue;
        EXPECT_NEAR(static_cast<double>(i), 100.0, 6.0);
    }
}

TEST(Rules, DropShortPasses) {
    StandardField field = long_pass();
    add_pass(field.records, 15.0, 0.0, 18, 300.0); // 36 m
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(count_of(cleaned, Removal::short_pass), 18U);
}

TEST(Rules, DropYieldsNoCropGives) {
    StandardField field = long_pass();
    field.records.mass_kg[50] = 0.1;  // 0.05 t/ha
    field.records.mass_kg[60] = 14.0; // 7 t/ha
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(cleaned.removal[50], Removal::yield_limits);
    EXPECT_EQ(cleaned.removal[60], Removal::yield_limits);
}

TEST(Rules, DropALoneReadingButKeepAPoorPatch) {
    StandardField field = plain_field(120.0, 500.0);
    Random random(5);
    for (int p = 0; p < 8; ++p)
        add_pass(field.records, 5.0 + 10.0 * p, p % 2 == 0 ? 0.0 : 400.0, 200, 300.0 * p, p % 2 == 0 ? 2.0 : -2.0);
    Records& r = field.records;
    for (std::size_t i = 0; i < r.size(); ++i) {
        const bool poor = r.x_m[i] > 20.0 && r.x_m[i] < 60.0 && r.y_m[i] > 150.0 && r.y_m[i] < 250.0;
        r.mass_kg[i] = 5.0 * (poor ? 0.5 : 1.0) * (1.0 + 0.03 * random.normal());
    }
    r.mass_kg[50] = 9.0;
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_TRUE(cleaned.removal[50] == Removal::far_from_method_area ||
                cleaned.removal[50] == Removal::far_from_neighbours);
    std::size_t poor_kept = 0, poor_all = 0;
    for (std::size_t i = 0; i < r.size(); ++i) {
        if (!(r.x_m[i] > 20.0 && r.x_m[i] < 60.0 && r.y_m[i] > 160.0 && r.y_m[i] < 240.0)) continue;
        ++poor_all;
        poor_kept += cleaned.removal[i] == Removal::kept;
    }
    EXPECT_GT(poor_all, 100U);
    EXPECT_GT(static_cast<double>(poor_kept), 0.97 * static_cast<double>(poor_all));
}

TEST(Rules, SwitchedOffRemoveNothing) {
    StandardField field = long_pass();
    field.records.speed_m_s[40] = 0.3;
    field.records.mass_kg[50] = 14.0;
    add_pass(field.records, 15.0, 0.0, 18, 300.0);
    CleanOptions off = without_ramps();
    off.steps.speed = off.steps.limits = off.steps.neighbours = off.steps.short_passes = false;
    EXPECT_EQ(count_of(cleaned_of(field, off), Removal::kept), 218U);
}

TEST(Rules, CountEveryRemovalByMethodAndReason) {
    StandardField field = long_pass();
    field.records.method[3] = -1;
    field.records.mass_kg[4] = 0.0;
    field.records.method[5] = 1;
    const CleanedField cleaned = cleaned_of(field);
    ASSERT_EQ(cleaned.removed.size(), 3U);
    EXPECT_EQ(cleaned.removed[0][static_cast<std::size_t>(Removal::no_method)], 1U);
    EXPECT_EQ(cleaned.removed[1][static_cast<std::size_t>(Removal::no_flow)], 1U);
    std::size_t all = 0;
    for (const auto& method : cleaned.removed)
        for (const std::size_t count : method)
            all += count;
    EXPECT_EQ(all, 200U);
}

TEST(Rules, ReportEveryStepWithNumbersThatJoin) {
    const CleanedField cleaned = cleaned_of(long_pass());
    for (std::size_t s = 1; s < cleaned.steps.size(); ++s) {
        EXPECT_EQ(cleaned.steps[s].records_before, cleaned.steps[s - 1].records_after);
        EXPECT_EQ(cleaned.steps[s].mean_after_t_ha.size(), 2U);
    }
    EXPECT_NEAR(cleaned.steps.back().mean_after_t_ha[0], 2.5, 1e-12);
    EXPECT_NEAR(cleaned.steps.back().cv_after_pct, 0.0, 1e-9);
}

TEST(Edges, AreCutsThatReachOverTheMethodsBoundary) {
    // Boundary at x = 50, header 10 m: a pass centred at 47 reaches 2 m over it, one at 45 not at all.
    StandardField field = plain_field(100.0, 500.0);
    field.method_areas = {{rectangle(0, 0, 50, 500), 0, "", 1}, {rectangle(50, 0, 100, 500), 1, "", 2}};
    add_pass(field.records, 47.0, 0.0, 100, 0.0);
    add_pass(field.records, 45.0, 220.0, 100, 300.0);
    const CleanedField cleaned = cleaned_of(field);
    EXPECT_EQ(cleaned.edge[50], 1);
    EXPECT_EQ(cleaned.edge[150], 0);
    EXPECT_EQ(cleaned.removal[50], Removal::kept);
    CleanOptions off = without_ramps();
    off.steps.edge_passes = false;
    EXPECT_EQ(cleaned_of(field, off).edge[50], 0);
}

TEST(Warnings, TellWhenAReasonStrikesOneMethodMore) {
    StandardField field = plain_field(100.0, 500.0);
    field.method_areas = {{rectangle(0, 0, 50, 500), 0, "", 1}, {rectangle(50, 0, 100, 500), 1, "", 2}};
    add_pass(field.records, 5.0, 0.0, 200, 0.0);
    add_pass(field.records, 75.0, 0.0, 200, 400.0);
    for (std::size_t i = 200; i < 400; ++i)
        field.records.method[i] = field.records.area[i] = 1;
    for (std::size_t i = 200; i < 240; ++i)
        field.records.mass_kg[i] = 0.0; // 20 % of one method
    const CleanedField cleaned = cleaned_of(field);
    bool told = false;
    for (const Issue& issue : cleaned.issues)
        told = told || issue.code == "uneven-removal";
    EXPECT_TRUE(told);
}

} // namespace
} // namespace quartercut
