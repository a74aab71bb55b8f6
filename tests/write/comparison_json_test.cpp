// SPDX-License-Identifier: MIT
// comparison.json: the keys other programs rely on, numbers finite or null, and records that add up.
#include "../support/sample_results.hpp"
#include "quartercut/error.hpp"
#include "quartercut/write.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace quartercut {
namespace {

using nlohmann::json;

const json& sample_json() {
    static const json value = json::parse(comparison_json(sample::results()));
    return value;
}

void expect_keys(const json& object, const std::vector<std::string>& keys) {
    for (const std::string& key : keys)
        EXPECT_TRUE(object.contains(key)) << key << " in " << object.dump().substr(0, 200);
}

TEST(ComparisonJson, HasTheKeysOfTheSchema) {
    const json& all = sample_json();
    EXPECT_EQ(all["schema"], "quartercut.comparison/1");
    expect_keys(all, {"season", "fields", "farm", "issues", "version"});
    expect_keys(all["season"], {"title", "year", "crop", "basis_pct", "bushel_lb", "baseline"});
    const json& field = all["fields"][0];
    expect_keys(field,
                {"name", "area_ha", "evidence", "records", "lag_s", "calibration", "zones", "contrasts", "issues"});
    expect_keys(field["lag_s"][0], {"machine", "method", "lag_s", "low_s", "high_s", "applied"});
    expect_keys(field["calibration"][0], {"machine", "method", "factor", "u_rel", "loads", "source"});
    expect_keys(field["zones"][0], {"id", "method", "stratum", "area_ha", "harvested_ha", "records", "mass_t",
                                    "yield_t_ha", "moisture_pct"});
    expect_keys(field["contrasts"][0],
                {"method", "baseline", "stratum", "gain_t_ha", "se_t_ha", "df", "ci95_t_ha", "p", "p_randomisation",
                 "u_calibration_t_ha", "u_total_t_ha", "ci95_total_t_ha", "break_even_calibration_pct", "units",
                 "estimator", "finding", "also", "leaves_out"});
    expect_keys(field["contrasts"][0]["units"], {"what", "n"});
    expect_keys(field["contrasts"][0]["also"][0], {"estimator", "gain_t_ha", "se_t_ha", "df", "ci95_t_ha"});
    expect_keys(all["farm"]["contrasts"][0], {"method", "baseline", "gain_t_ha", "ci95_t_ha", "ci95_total_t_ha",
                                              "prediction95_t_ha", "tau_t_ha", "fields", "evidence", "finding"});
    expect_keys(all["issues"][0], {"code", "severity", "where", "message"});
}

TEST(ComparisonJson, GivesZonesInHectaresAndTonnes) {
    const json& zone = sample_json()["fields"][0]["zones"][0];
    EXPECT_EQ(zone["method"], "swathed");
    EXPECT_DOUBLE_EQ(zone["area_ha"].get<double>(), 50.0 * 400.0 / 10000.0);
    // 5 passes of 38 kept records (both ends dropped), less the slow record of passes 0 and 4; 100 m2 each
    EXPECT_EQ(zone["records"], 5 * 38 - 2);
    EXPECT_NEAR(zone["harvested_ha"].get<double>(), (5 * 38 - 2) * 0.01, 1e-12);
    const Zone source = sample::results().zoned[0].zones[0];
    EXPECT_NEAR(zone["mass_t"].get<double>(), source.mass_basis_kg / 1000.0, 1e-12);
    EXPECT_NEAR(zone["yield_t_ha"].get<double>(), zone["mass_t"].get<double>() / zone["harvested_ha"].get<double>(),
                1e-12);
}

TEST(ComparisonJson, CountsRecordsThatAddUp) {
    for (const json& field : sample_json()["fields"]) {
        std::size_t removed = 0;
        for (const auto& [reason, n] : field["records"]["removed"].items())
            removed += n.get<std::size_t>();
        EXPECT_EQ(field["records"]["read"], 1600);
        EXPECT_EQ(field["records"]["used"].get<std::size_t>() + removed, 1600U);
    }
    EXPECT_EQ(sample_json()["fields"][0]["records"]["removed"]["pass-start"], 40);
    EXPECT_EQ(sample_json()["fields"][0]["records"]["removed"]["speed"], 10);
}

TEST(ComparisonJson, StopsWhenARecordWentMissing) {
    Results lost = sample::results();
    lost.cleaned.fields[1].removed[1][static_cast<std::size_t>(Removal::pass_start)] -= 1;
    EXPECT_THROW((void)comparison_json(lost), InternalError);
    Results doubled = sample::results();
    doubled.cleaned.fields[0].removal[0] = Removal::kept;
    EXPECT_THROW((void)comparison_json(doubled), InternalError);
}

TEST(ComparisonJson, StopsWhenARoomSkippedAField) {
    Results broken = sample::results();
    broken.zoned.pop_back();
    EXPECT_THROW((void)comparison_json(broken), InternalError);
}

TEST(ComparisonJson, WritesNullForUnknownNumbersAndNoMethod) {
    const json& contrast = sample_json()["fields"][2]["contrasts"][0];
    EXPECT_TRUE(contrast["se_t_ha"].is_null()); // NaN in the results
    EXPECT_TRUE(contrast["gain_t_ha"].is_null());
    EXPECT_TRUE(contrast["ci95_total_t_ha"].is_null());
    EXPECT_EQ(contrast["stratum"], "loam");
    const json& none = sample_json()["fields"][1]["zones"][2];
    EXPECT_TRUE(none["method"].is_null());
    EXPECT_EQ(none["reason"], "no method area");
    EXPECT_TRUE(none["moisture_pct"].is_null());
    EXPECT_TRUE(none["yield_t_ha"].is_null());
    EXPECT_TRUE(sample_json()["farm"]["contrasts"][0]["prediction95_t_ha"].is_null());
    EXPECT_THAT(comparison_json(sample::results()), testing::Not(testing::ContainsRegex("[^a-z]nan[^a-z]")));
}

TEST(ComparisonJson, KeepsEveryDigitAndEveryLetter) {
    Results results = sample::results();
    results.comparison.fields[0].contrasts[0].gain_t_ha = 0.1 + 0.2; // not 0.3
    const json all = json::parse(comparison_json(results));
    EXPECT_EQ(all["fields"][0]["contrasts"][0]["gain_t_ha"].get<double>(), 0.1 + 0.2);
    EXPECT_EQ(all["fields"][1]["name"], sample::split_field);
}

TEST(ComparisonJson, SurvivesTextThatIsNotUtf8) {
    Results results = sample::results();
    results.season.title = "S\xf6hne"; // Latin-1
    EXPECT_EQ(json::parse(comparison_json(results))["season"]["title"], "S\xEF\xBF\xBDhne");
}

TEST(ComparisonJson, PutsTheIssuesOfAllRoomsWithTheirField) {
    EXPECT_EQ(sample_json()["fields"][1]["issues"][0]["code"], "lag-not-found");
    EXPECT_EQ(sample_json()["fields"][1]["issues"][0]["severity"], "warning");
    EXPECT_EQ(sample_json()["fields"][2]["issues"][0]["code"], "one-method");
    EXPECT_EQ(sample_json()["issues"][0]["code"], "few-fields");
}

TEST(InputsJson, TellsFilesSettingsAndFramesWithoutPathsOfTheMachine) {
    Results results = sample::results();
    const std::string folder = "/srv/someone/";
    results.season.file = folder + "season.toml";
    results.standardised.inputs.push_back({folder + "yield/b.csv", "points", "", 5, std::string(64, 'c'), 1});
    const std::string text = inputs_json(results);
    const json all = json::parse(text);
    EXPECT_EQ(all["schema"], "quartercut.inputs/1");
    EXPECT_EQ(all["program"]["version"], "0.1.0");
    EXPECT_EQ(all["season_file"], "season.toml");
    EXPECT_EQ(all["inputs"][1]["path"], "yield/red.csv");
    EXPECT_EQ(all["inputs"][1]["sha256"], std::string(64, 'b'));
    EXPECT_EQ(all["inputs"][1]["bytes"], 120000);
    EXPECT_EQ(all["inputs"][1]["rows"], 4800);
    EXPECT_EQ(all["inputs"][2]["path"], "yield/b.csv");
    EXPECT_THAT(text, testing::Not(testing::HasSubstr("someone")));
    EXPECT_EQ(all["settings"]["basis_pct"], 10.0);
    EXPECT_EQ(all["settings"]["cleaning"]["lag"], true);
    EXPECT_EQ(all["settings"]["comparison"]["seed"], 20250901);
    EXPECT_EQ(all["frames"].size(), 3U);
}

} // namespace
} // namespace quartercut
