// SPDX-License-Identifier: MIT
// Earlier comparison.json files: what is taken from them, and what is refused.
#include "season_folder.hpp"

#include "quartercut/error.hpp"
#include "quartercut/history.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quartercut::read_test {
namespace {

using testing::HasSubstr;

std::string results(int year, const std::string& contrasts) {
    return R"({"schema":"quartercut.comparison/1","season":{"year":)" + std::to_string(year) +
           R"(,"crop":"canola","basis_pct":10.0},"fields":[{"name":"Home","evidence":"replicated","contrasts":[)" +
           contrasts + "]}]}";
}

const std::string whole = R"({"method":"standing","baseline":"swathed","stratum":null,"gain_t_ha":0.2,"se_t_ha":0.05,
  "df":5,"budget":[{"source":"sampling","u_t_ha":0.05,"df":5,"shared":false},
                   {"source":"calibration of a","u_t_ha":0.03,"df":9,"shared":true},
                   {"source":"moisture","u_t_ha":0.04,"df":50,"shared":true}]})";

std::vector<EarlierSeason> read_from(const SeasonFolder& folder, std::vector<InputFile>& inputs) {
    return read_earlier_results(folder.season(), inputs);
}

std::string refusal_of(const SeasonFolder& folder) {
    std::vector<InputFile> inputs;
    try {
        static_cast<void>(read_from(folder, inputs));
    } catch (const InputError& error) {
        return error.what();
    }
    return "";
}

TEST(EarlierResults, GiveGainsPerFieldAndTheErrorsFieldsShare) {
    SeasonFolder folder;
    folder.more = "[history]\nresults = [\"r*.json\"]\n";
    folder.write("r2.json", results(2024, whole));
    folder.write("r1.json", results(2022, whole + R"(,{"method":"standing","baseline":"swathed","stratum":"clay",
      "gain_t_ha":1,"se_t_ha":1,"df":2},{"method":"other","baseline":"swathed","stratum":null,"gain_t_ha":0.1,
      "se_t_ha":null,"df":null})"));
    std::vector<InputFile> inputs;
    const auto seasons = read_from(folder, inputs);
    ASSERT_EQ(seasons.size(), 2U);
    EXPECT_EQ(seasons[0].year, 2022) << "years in order";
    EXPECT_EQ(seasons[0].crop, "canola");
    ASSERT_EQ(seasons[0].gains.size(), 1U) << "none within strata, none without an error";
    const EarlierGain& gain = seasons[0].gains[0];
    EXPECT_EQ(gain.field, "Home");
    EXPECT_EQ(gain.evidence, "replicated");
    EXPECT_DOUBLE_EQ(gain.gain_t_ha, 0.2);
    EXPECT_NEAR(gain.u_shared_t_ha, 0.05, 1e-15) << "3-4-5";
    ASSERT_EQ(inputs.size(), 2U);
    EXPECT_EQ(inputs[0].role, "history");
    EXPECT_EQ(inputs[0].sha256.size(), 64U);
}

// Results of earlier versions say it in a sentence alone.
TEST(EarlierResults, SayWhetherTheDifferenceMayBeTheMachines) {
    const std::string start = whole.substr(0, whole.rfind('}'));
    const auto said = [&](const std::string& more) {
        SeasonFolder folder;
        folder.more = "[history]\nresults = [\"r.json\"]\n";
        folder.write("r.json", results(2024, start + more + "}"));
        std::vector<InputFile> inputs;
        return read_from(folder, inputs).at(0).gains.at(0).machine_is_method;
    };
    EXPECT_FALSE(said(""));
    EXPECT_FALSE(said(R"(,"leaves_out":["One season: another year's weather may turn the answer."])"));
    EXPECT_TRUE(said(R"(,"leaves_out":["Each way was cut by its own machine and weighed loads do not check both: the )"
                     R"(machines' difference cannot be told from the methods'."])"));
    EXPECT_TRUE(said(R"(,"leaves_out":["x"],"machine_is_method":true)"));
    EXPECT_FALSE(said(R"(,"leaves_out":[],"machine_is_method":false)"));
}

TEST(EarlierResults, AreRefusedWhenTheyAreSomethingElse) {
    SeasonFolder folder;
    folder.more = "[history]\nresults = [\"r.json\"]\n";
    EXPECT_THAT(refusal_of(folder), HasSubstr("r.json"));
    for (const std::string text : {"", "not json", "[]", R"({"schema":"other/1"})"}) {
        folder.write("r.json", text);
        EXPECT_THAT(refusal_of(folder), HasSubstr("not the comparison.json of an earlier run")) << text;
    }
    folder.write("r.json", R"({"schema":"quartercut.comparison/1","season":{}})");
    EXPECT_THAT(refusal_of(folder), HasSubstr("does not say of which year"));
    folder.write("r.json", results(2025, whole));
    EXPECT_THAT(refusal_of(folder), HasSubstr("own year"));
}

TEST(EarlierResults, OfOneYearTwiceAreRefused) {
    SeasonFolder folder;
    folder.more = "[history]\nresults = [\"a.json\", \"b.json\"]\n";
    folder.write("a.json", results(2023, whole));
    folder.write("b.json", results(2023, whole));
    EXPECT_THAT(refusal_of(folder), HasSubstr("both of 2023"));
}

TEST(EarlierResults, WithoutHistoryAreNone) {
    const SeasonFolder folder;
    std::vector<InputFile> inputs;
    EXPECT_TRUE(read_from(folder, inputs).empty());
    EXPECT_TRUE(inputs.empty());
}

} // namespace
} // namespace quartercut::read_test
