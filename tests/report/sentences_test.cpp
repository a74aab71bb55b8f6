// SPDX-License-Identifier: MIT
// The answer in words, for every finding. Exact texts: these lines are what a grower will quote.
//
// Numbers by hand: canola at 50 lb a bushel, 1 t/ha = 1000 / (50 * 0.45359237) * 0.40468564224 = 17.8427 bu/ac
// (pound and acre: Weights and Measures Act, R.S.C. 1985, c. W-6).
#include "quartercut/report.hpp"
#include "report/sentences.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>

namespace quartercut {
namespace {

using report::Telling;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr double bu_ac = 1.0 / 17.84266; // t/ha that make one bu/ac

// One field with one contrast over it: the least a sentence needs.
struct Case {
    Results results;
    Contrast contrast;
    explicit Case(Finding finding) {
        results.season = sample::season();
        contrast.method = "standing";
        contrast.baseline = "swathed";
        contrast.evidence = Evidence::replicated;
        contrast.finding = finding;
    }
    Case& says(double gain, double low, double high) {
        contrast.gain_t_ha = gain * bu_ac;
        contrast.ci95_total_t_ha = Interval{low * bu_ac, high * bu_ac};
        return *this;
    }
    [[nodiscard]] std::string field() const {
        return report::field_sentence(Telling(results), FieldComparison{"Home", contrast.evidence, {}, {}, {}, {}},
                                      contrast);
    }
};

FarmContrast four_fields(Finding finding, double gain, double low, double high) {
    FarmContrast farm;
    farm.method = "standing";
    farm.baseline = "swathed";
    farm.gain_t_ha = gain * bu_ac;
    farm.ci95_total_t_ha = Interval{low * bu_ac, high * bu_ac};
    farm.finding = finding;
    farm.fields = 4;
    farm.evidence = "replicated";
    return farm;
}

TEST(FieldSentence, GainGivesNumberRangeAndWhatWouldEraseIt) {
    Case c(Finding::gain);
    c.says(1.1, 0.3, 1.9);
    c.contrast.break_even_calibration_pct = 2.4;
    EXPECT_EQ(c.field(), "Standing yielded 1.1 bu/ac more than swathed (0.3 to 1.9). That is more than chance; a "
                         "calibration error of 2.4 % between the two methods would erase it.");
}

TEST(FieldSentence, SeveralMachinesAreNamedAsTheThingThatCouldBeOut) {
    Case c(Finding::gain);
    c.says(1.1, 0.3, 1.9);
    c.contrast.break_even_calibration_pct = 2.4;
    c.results.comparison.fields = {FieldComparison{"Home", Evidence::replicated, {}, {}, {}, {}}};
    c.results.cleaned.fields.resize(1);
    c.results.cleaned.fields[0].calibration = {{"A", "standing", 1.0, 0.01, 5, 4, "tickets"},
                                               {"B", "swathed", 1.0, 0.01, 5, 4, "tickets"}};
    EXPECT_THAT(c.field(), HasSubstr("a calibration error of 2.4 % between the machines would erase it."));
}

TEST(FieldSentence, LossReadsWithoutMinusSigns) {
    Case c(Finding::loss);
    c.says(-1.1, -1.9, -0.3);
    EXPECT_EQ(c.field(), "Standing yielded 1.1 bu/ac less than swathed (0.3 to 1.9). That is more than chance.");
}

TEST(FieldSentence, LeaningIsOneComparisonAndNeverMoreThanChance) {
    Case c(Finding::leans_gain);
    c.contrast.evidence = Evidence::split;
    c.says(2.0, 0.5, 3.5);
    EXPECT_EQ(c.field(), "Standing yielded 2.0 bu/ac more than swathed (0.5 to 3.5). This is one comparison, not "
                         "replicated: it leans that way, but the land, the day or the machine could be the reason.");
    EXPECT_THAT(c.field(), Not(HasSubstr("more than chance")));
}

TEST(FieldSentence, NotShownSaysWhatCouldHaveBeenSeen) {
    Case c(Finding::not_shown);
    c.says(0.4, -1.0, 1.8);
    c.contrast.detectable_t_ha = 2.1 * bu_ac;
    EXPECT_EQ(c.field(),
              "No difference was shown between standing and swathed. The best guess is 0.4 bu/ac more for "
              "standing (from 1.0 less to 1.8 more). A difference outside that range is unlikely. This layout "
              "could have shown 2.1 bu/ac or more four times in five; a smaller difference needs more "
              "strips or more years.");
}

// A range that reaches beyond what the layout detects: only what lies outside the range may be called unlikely.
TEST(FieldSentence, NotShownNeverRulesOutWhatItsOwnRangeHolds) {
    Case c(Finding::not_shown);
    c.says(1.5, -0.6, 3.6);
    c.contrast.detectable_t_ha = 2.1 * bu_ac;
    EXPECT_THAT(c.field(), HasSubstr("(from 0.6 less to 3.6 more). A difference outside that range is unlikely."));
    EXPECT_THAT(c.field(), Not(HasSubstr("2.1 bu/ac or more is unlikely")));
    EXPECT_THAT(c.field(), HasSubstr("a smaller difference needs more strips or more years."));
}

// What `compare` puts first where machine and method cannot be told apart: the range says nothing of the methods then.
const std::string own_machines = "Each way was cut by its own machine and weighed loads do not check both: the "
                                 "machines' difference cannot be told from the methods'.";

TEST(FieldSentence, SaysThatTheMachinesMayBeTheDifference) {
    Case c(Finding::not_shown);
    c.says(1.1, 0.3, 1.9);
    c.contrast.detectable_t_ha = 2.1 * bu_ac;
    EXPECT_THAT(c.field(), HasSubstr("unlikely"));
    c.contrast.leaves_out = {own_machines};
    c.contrast.machine_is_method = true;
    EXPECT_EQ(c.field(), "No difference was shown between standing and swathed. The best guess is 1.1 bu/ac more for "
                         "standing (0.3 to 1.9). " +
                             own_machines);
}

TEST(FieldSentence, RulesNothingOutWhereTheAnswerDependsOnTheModel) {
    Case c(Finding::not_shown);
    c.says(0.4, -1.0, 1.8);
    FieldComparison field{"Home", Evidence::replicated, {}, {}, {}, {{"depends-on-model", Severity::note, "", ""}}};
    EXPECT_THAT(report::field_sentence(Telling(c.results), field, c.contrast), HasSubstr("unlikely"));
    field.issues[0].severity = Severity::warning;
    EXPECT_THAT(report::field_sentence(Telling(c.results), field, c.contrast), Not(HasSubstr("unlikely")));
    FarmContrast farm = four_fields(Finding::not_shown, 0.4, -1.0, 1.8);
    farm.field_names = {"Home", "West"};
    c.results.comparison.fields = {field};
    EXPECT_THAT(report::farm_sentence(Telling(c.results), farm), Not(HasSubstr("unlikely")));
    farm.field_names = {"West"};
    EXPECT_THAT(report::farm_sentence(Telling(c.results), farm), HasSubstr("unlikely"));
}

// Land cut once in each way: the range knows nothing of how the land itself differs.
TEST(FieldSentence, NotShownOnASplitFieldRulesNothingOut) {
    Case c(Finding::not_shown);
    c.contrast.evidence = Evidence::split;
    c.says(1.5, -0.6, 3.6);
    EXPECT_THAT(c.field(), Not(HasSubstr("unlikely")));
    c.contrast.detectable_t_ha = 4.3 * bu_ac;
    EXPECT_THAT(c.field(), HasSubstr("A difference smaller than 4.3 bu/ac would most likely not have stood out here."));
    EXPECT_THAT(c.field(), Not(HasSubstr("could have shown")));
}

TEST(FieldSentence, NotComparableGivesNoNumber) {
    Case c(Finding::not_comparable);
    c.says(1.5, -0.6, 3.6);
    c.contrast.leaves_out = {"only one method met this soil"};
    EXPECT_EQ(c.field(), "Standing and swathed cannot be compared here. Only one method met this soil.");
}

TEST(FieldSentence, AStratumIsNamed) {
    Case c(Finding::loss);
    c.says(-1.1, -1.9, -0.3);
    c.contrast.stratum = "loam";
    EXPECT_THAT(c.field(), HasSubstr("In loam, standing yielded 1.1 bu/ac less than swathed"));
}

TEST(FieldSentence, WithoutARangeSaysThatSurenessIsUnknown) {
    Case c(Finding::leans_loss);
    c.contrast.gain_t_ha = -1.1 * bu_ac;
    EXPECT_THAT(c.field(), HasSubstr("1.1 bu/ac less than swathed; how sure that is cannot be said from this layout."));
}

TEST(FieldSentence, UsesTheTotalRangeAndNotTheSamplingOne) {
    Case c(Finding::not_shown);
    c.says(1.0, -0.5, 2.5);
    c.contrast.ci95_t_ha = Interval{0.8 * bu_ac, 1.2 * bu_ac};
    EXPECT_THAT(c.field(), HasSubstr("from 0.5 less to 2.5 more"));
    EXPECT_THAT(c.field(), Not(HasSubstr("0.8")));
}

TEST(FieldSentence, ANumberThatIsNotFiniteNeverShows) {
    Case c(Finding::gain);
    c.contrast.gain_t_ha = sample::nan;
    c.contrast.ci95_total_t_ha = Interval{sample::nan, sample::nan};
    c.contrast.break_even_calibration_pct = sample::nan;
    c.contrast.detectable_t_ha = sample::nan;
    EXPECT_EQ(c.field(), "Standing and swathed cannot be compared here.");
}

TEST(FieldSentence, SpeaksTheSeasonsUnit) {
    Case c(Finding::gain);
    c.contrast.gain_t_ha = 0.0616;
    c.contrast.ci95_total_t_ha = Interval{0.0168, 0.1066};
    c.results.season.units = YieldUnit::t_ha;
    EXPECT_THAT(c.field(), HasSubstr("0.06 t/ha more than swathed (0.02 to 0.11)"));
    c.results.season.units = YieldUnit::kg_ha;
    EXPECT_THAT(c.field(), HasSubstr("62 kg/ha more than swathed (17 to 107)"));
}

// 0.0004 t/ha would round to "0.00 to ..." and look like a range that touches zero.
TEST(FieldSentence, ARangeEndAboveZeroIsNotWrittenAsZero) {
    Case c(Finding::gain);
    c.results.season.units = YieldUnit::t_ha;
    c.contrast.gain_t_ha = 0.06;
    c.contrast.ci95_total_t_ha = Interval{0.0012, 0.12};
    EXPECT_THAT(c.field(), HasSubstr("(0.001 to 0.120)"));
}

TEST(FarmSentence, NamesHowManyFieldsAndHowTheyWereLaidOut) {
    Results results;
    results.season = sample::season();
    EXPECT_EQ(
        report::farm_sentence(Telling(results), four_fields(Finding::gain, 1.1, 0.3, 1.9)),
        "On the four fields laid out in side-by-side strips, standing yielded 1.1 bu/ac more than swathed (0.3 to "
        "1.9). That is more than chance.");
}

TEST(FarmSentence, QuotesTheRangeOfBreakEvenPointsOfItsFields) {
    Results results;
    results.season = sample::season();
    for (const auto& [name, pct] : {std::pair{"West", 3.4}, std::pair{"East", 2.4}, std::pair{"Other", 0.1}}) {
        Contrast contrast;
        contrast.method = "standing";
        contrast.baseline = "swathed";
        contrast.break_even_calibration_pct = pct;
        contrast.raw_gain_t_ha = pct * bu_ac;
        results.comparison.fields.push_back({name, Evidence::replicated, {contrast}, {}, {}, {}});
    }
    FarmContrast farm = four_fields(Finding::gain, 1.1, 0.3, 1.9);
    farm.field_names = {"West", "East"};
    EXPECT_THAT(report::farm_sentence(Telling(results), farm),
                HasSubstr("a calibration error of 2.4 to 3.4 % between the two methods, depending on the field, would "
                          "erase it."));
    EXPECT_EQ(report::farm_raw_sentence(Telling(results), farm),
              "The raw yield maps of these fields would have said between 2.4 and 3.4 bu/ac more.");
}

TEST(FarmSentence, LeaningOverSeveralFieldsIsNotCalledOneComparison) {
    Results results;
    results.season = sample::season();
    FarmContrast farm = four_fields(Finding::leans_gain, 1.1, 0.3, 1.9);
    farm.evidence = "whole-field";
    EXPECT_EQ(report::farm_sentence(Telling(results), farm),
              "Across four fields, each cut wholly one way, standing yielded 1.1 bu/ac more than swathed (0.3 to 1.9). "
              "These fields were not laid out in repeated strips, so it leans that way and no more: the land, the days "
              "or the machines could be the reason.");
}

// Two fields that gain, pooled to "not shown" because two fields say little of others: the reader is told why, and what
// holds for the two themselves.
TEST(FarmSentence, ExplainsWhyFieldsThatShowADifferenceDoNotMakeAFarmThatDoes) {
    Results results;
    results.season = sample::season();
    for (const char* name : {"West", "East"}) {
        Contrast contrast;
        contrast.method = "standing";
        contrast.baseline = "swathed";
        contrast.finding = Finding::gain;
        results.comparison.fields.push_back({name, Evidence::replicated, {contrast}, {}, {}, {}});
    }
    FarmContrast farm = four_fields(Finding::not_shown, 1.5, -2.1, 5.1);
    farm.fields = 2;
    farm.field_names = {"West", "East"};
    farm.these_fields_gain_t_ha = 1.6 * bu_ac;
    farm.these_fields_ci95_total_t_ha = Interval{0.5 * bu_ac, 2.7 * bu_ac};
    EXPECT_EQ(
        report::farm_sentence(Telling(results), farm),
        "On the two fields laid out in side-by-side strips, no difference was shown between standing and swathed. "
        "The best guess is 1.5 bu/ac more for standing (from 2.1 less to 5.1 more). Two of them show more than "
        "chance on their own, but two fields say little about what other fields would do. For these two fields "
        "alone, standing yielded 1.6 bu/ac more than swathed (0.5 to 2.7).");
    farm.these_fields_ci95_total_t_ha = Interval{-0.5 * bu_ac, 2.7 * bu_ac};
    EXPECT_THAT(report::farm_sentence(Telling(results), farm),
                HasSubstr("For these two fields alone, the best guess is 1.6 bu/ac more for standing (from 0.5 less to "
                          "2.7 more)."));
    results.comparison.fields[1].contrasts[0].finding = Finding::not_shown;
    EXPECT_THAT(report::farm_sentence(Telling(results), farm),
                HasSubstr("West on its own shows more than chance, but "));
    results.comparison.fields[0].contrasts[0].finding = Finding::not_shown;
    EXPECT_THAT(report::farm_sentence(Telling(results), farm), Not(HasSubstr("on its own")));
}

TEST(FarmSentence, ManyFieldsThatDoNotAgreeAreSaidNotToAgree) {
    Results results;
    results.season = sample::season();
    Contrast contrast;
    contrast.method = "standing";
    contrast.baseline = "swathed";
    contrast.finding = Finding::gain;
    results.comparison.fields.push_back({"West", Evidence::replicated, {contrast}, {}, {}, {}});
    FarmContrast farm = four_fields(Finding::not_shown, 1.5, -2.1, 5.1);
    farm.field_names = {"West"};
    EXPECT_THAT(report::farm_sentence(Telling(results), farm),
                HasSubstr("One of them on its own shows more than chance, but the fields do not agree well enough"));
}

// A range wider than a fifth of the crop: nothing in it is called unlikely, and the way to learn more is named.
TEST(FarmSentence, AWideRangeOverWholeFieldsSaysLittle) {
    Results results = sample::results(); // the baseline yields about 2.5 t/ha, 45 bu/ac
    results.comparison.fields[0].contrasts[0].finding = Finding::not_shown;
    FarmContrast farm = four_fields(Finding::not_shown, 3.3, -11.0, 24.5);
    farm.evidence = "whole-field";
    farm.field_names = {sample::strips_field};
    EXPECT_THAT(report::farm_sentence(Telling(results), farm),
                HasSubstr("So wide a range says little either way; strips side by side, repeated in a field, would "
                          "say more."));
    farm.evidence = "replicated";
    EXPECT_THAT(report::farm_sentence(Telling(results), farm), HasSubstr("So wide a range says little either way."));
    EXPECT_THAT(report::farm_sentence(Telling(results), farm), Not(HasSubstr("unlikely")));
    farm = four_fields(Finding::not_shown, 0.3, -1.0, 1.6);
    farm.field_names = {sample::strips_field};
    EXPECT_THAT(report::farm_sentence(Telling(results), farm),
                HasSubstr("A difference outside that range is unlikely."));
}

TEST(FarmSentence, SaysWhatToExpectOnAnotherField) {
    Results results;
    results.season = sample::season();
    FarmContrast farm = four_fields(Finding::gain, 1.1, 0.3, 1.9);
    farm.prediction95_t_ha = Interval{-0.5 * bu_ac, 2.7 * bu_ac};
    EXPECT_THAT(
        report::farm_sentence(Telling(results), farm),
        HasSubstr("On another field like these, expect between 0.5 bu/ac less and 2.7 bu/ac more; with so few fields "
                  "that is rough."));
    farm.fields = 6;
    EXPECT_THAT(report::farm_sentence(Telling(results), farm),
                HasSubstr("On another field like these, expect between 0.5 bu/ac less and 2.7 bu/ac more."));
}

// A spread of 0 is an estimate at its limit, no knowledge that fields are alike (Higgins, Thompson & Spiegelhalter 2009,
// on what a prediction interval takes for granted; from memory).
TEST(FarmSentence, SaysWhereTheFieldsAgreeBetterThanTheirErrors) {
    Results results;
    results.season = sample::season();
    FarmContrast farm = four_fields(Finding::gain, 1.1, 0.3, 1.9);
    farm.prediction95_t_ha = farm.ci95_total_t_ha;
    farm.tau_t_ha = 0.0;
    EXPECT_THAT(report::farm_sentence(Telling(results), farm),
                HasSubstr("expect between 0.3 and 1.9 bu/ac more; these four fields agree better than their errors let "
                          "one expect, so take it as at least that wide, and rough."));
    farm.tau_t_ha = 0.4 * bu_ac;
    EXPECT_THAT(report::farm_sentence(Telling(results), farm), Not(HasSubstr("agree better")));
}

TEST(FarmSentence, SaysThatTheMachinesMayBeTheDifferenceAndForetellsNothing) {
    Results results;
    results.season = sample::season();
    FarmContrast farm = four_fields(Finding::not_shown, 1.1, 0.3, 1.9);
    farm.prediction95_t_ha = Interval{-0.5 * bu_ac, 2.7 * bu_ac};
    farm.leaves_out = {"West: " + own_machines};
    farm.machine_is_method = true;
    EXPECT_EQ(report::farm_sentence(Telling(results), farm),
              "On the four fields laid out in side-by-side strips, no difference was shown between standing and "
              "swathed. The best guess is 1.1 bu/ac more for standing (0.3 to 1.9). On at least one of "
              "these fields each way was cut by its own machine and weighed loads do not check both: the machines' "
              "difference cannot be told from the methods'.");
    farm.evidence = "whole-field";
    EXPECT_THAT(report::farm_sentence(Telling(results), farm), ::testing::EndsWith(own_machines));
}

// One more field cannot be known better than the mean of all: such a range left out shared errors and is not quoted.
TEST(FarmSentence, DoesNotQuoteAPredictionNarrowerThanTheRange) {
    Results results;
    results.season = sample::season();
    FarmContrast farm = four_fields(Finding::gain, 1.6, 0.6, 2.6);
    farm.prediction95_t_ha = Interval{1.1 * bu_ac, 2.1 * bu_ac};
    EXPECT_THAT(report::farm_sentence(Telling(results), farm), Not(HasSubstr("another field")));
}

TEST(FieldSentence, ALayoutBlindToATenthOfTheCropSaysLittle) {
    Case c(Finding::not_shown);
    c.says(0.6, -13.8, 14.9);
    c.contrast.detectable_t_ha = 19.8 * bu_ac;
    c.contrast.baseline_yield_t_ha = 40.0 * bu_ac;
    EXPECT_THAT(c.field(), HasSubstr("This layout could only have shown a difference of 19.8 bu/ac or more, so it says "
                                     "little either way."));
}

// 142 and 136 bu/ac differ by 6; a best guess of -2 from a model of the land must be explained, one of 5.5 not.
TEST(YieldsSentence, SaysWhyTheBestGuessIsAnotherThanTheDifference) {
    Case c(Finding::not_shown);
    c.contrast.evidence = Evidence::split;
    c.contrast.yield_t_ha = 142.0 * bu_ac;
    c.contrast.baseline_yield_t_ha = 136.0 * bu_ac;
    c.says(-2.0, -9.0, 5.0);
    EXPECT_EQ(
        report::yields_sentence(Telling(c.results), c.contrast),
        "Yield at 10.0 % moisture: 142.0 bu/ac for standing, 136.0 for swathed. The best guess is another than the "
        "difference of these two because it allows for how the yield changes across the field.");
    c.says(5.5, -1.0, 12.0);
    EXPECT_EQ(report::yields_sentence(Telling(c.results), c.contrast),
              "Yield at 10.0 % moisture: 142.0 bu/ac for standing, 136.0 for swathed.");
}

TEST(RawSentence, StandsBesideTheAnswer) {
    Case c(Finding::not_shown);
    c.contrast.raw_gain_t_ha = 3.2 * bu_ac;
    EXPECT_EQ(report::raw_sentence(Telling(c.results), c.contrast),
              "The raw yield map would have said 3.2 bu/ac more.");
    c.contrast.raw_gain_t_ha = -3.2 * bu_ac;
    EXPECT_EQ(report::raw_sentence(Telling(c.results), c.contrast),
              "The raw yield map would have said 3.2 bu/ac less.");
    c.contrast.raw_gain_t_ha = std::nullopt;
    EXPECT_EQ(report::raw_sentence(Telling(c.results), c.contrast), "");
}

TEST(AnswerSentences, TellTheFarmFirstThenEveryField) {
    Results results = sample::results();
    results.comparison.farm[0].fields = 2;
    const auto sentences = answer_sentences(results);
    ASSERT_EQ(sentences.size(), 4U);
    EXPECT_THAT(sentences[0], HasSubstr("On the two fields laid out in side-by-side strips placed at random"));
    EXPECT_THAT(sentences[1], HasSubstr("Home quarter: "));
    EXPECT_THAT(sentences[3], HasSubstr("The whole field was cut one way (swathed, "));
}

// A farm row over one field has that field's own numbers (compare.hpp): one sentence is enough.
TEST(AnswerSentences, ARowOverOneFieldIsNotToldTwice) {
    const auto sentences = answer_sentences(sample::results());
    ASSERT_EQ(sentences.size(), 3U);
    EXPECT_THAT(sentences[0], HasSubstr("Home quarter: "));
    EXPECT_THAT(sentences, ::testing::Each(Not(HasSubstr("On the one field"))));
}

TEST(AnswerSentences, FieldsCutOneWayAreToldTogether) {
    Results results = sample::results();
    const auto whole = results.comparison.fields[2];
    results.comparison.fields.push_back(whole);
    results.comparison.fields.back().name = "Bush";
    results.zoned.push_back(results.zoned[2]);
    const auto sentences = answer_sentences(results);
    ASSERT_EQ(sentences.size(), 3U);
    EXPECT_THAT(sentences[2], HasSubstr("Cut wholly one way, so that each alone says nothing about the other way: "
                                        "=Far, \"quarter\" (swathed, "));
    EXPECT_THAT(sentences[2], HasSubstr("), Bush (swathed, "));
}

TEST(AnswerSentences, SayPlainlyWhenThereIsNothing) {
    Results results;
    results.season = sample::season();
    EXPECT_THAT(answer_sentences(results), ::testing::ElementsAre("Nothing could be compared in this season."));
}

TEST(FarmAnswer, OfTheBestEvidenceLeadsThoughOneFieldGivesItAlone) {
    std::vector<FarmContrast> farm(2);
    farm[0].evidence = evidence_word(Evidence::replicated);
    farm[1].evidence = evidence_word(Evidence::split);
    farm[0].fields = farm[1].fields = 1;
    EXPECT_FALSE(report::is_answer(farm, 0)) << "one field each: the fields' own sentences say it";
    EXPECT_FALSE(report::is_answer(farm, 1));
    farm[1].fields = 2;
    EXPECT_TRUE(report::is_answer(farm, 0)) << "two split fields alone would stand where strips have spoken";
    EXPECT_TRUE(report::is_answer(farm, 1));
}

} // namespace
} // namespace quartercut
