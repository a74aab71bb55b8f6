// SPDX-License-Identifier: MIT
// The whole page of the hand-made season: what stands in it, against the numbers it was given.
#include "page_reader.hpp"
#include "quartercut/report.hpp"
#include "report/figures.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <regex>
#include <set>

namespace quartercut {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

const std::string& sample_page() {
    static const std::string page = report_html(sample::results());
    return page;
}

std::vector<double> numbers(const std::string& page, const std::string& attribute) {
    std::vector<double> out;
    for (const auto& text : page::attribute(page, attribute)) {
        if (!text.empty()) out.push_back(std::strtod(text.c_str(), nullptr));
    }
    return out;
}

TEST(ReportPage, ShowsAFieldNamedScriptAsText) {
    EXPECT_THAT(sample_page(), HasSubstr("&lt;script&gt;alert(1)&lt;/script&gt; &amp; Söhne"));
    EXPECT_THAT(sample_page(), Not(HasSubstr("<script>alert")));
    EXPECT_EQ(page::count(sample_page(), "<script"), 1U) << "the page's own script and no other";
}

// Every string a user can set, each with the same attack; none may come out raw.
TEST(ReportPage, EscapesEveryStringFromUserFiles) {
    const std::string attack = "\"><img src=x onerror=alert(1)>'&";
    Results results = sample::results();
    results.season.title = results.season.crop = results.season.text = attack;
    results.season.trial.pairs = attack;
    results.season.methods[1].label = attack;
    results.version = attack;
    for (auto& input : results.standardised.inputs)
        input.path = input.layer = attack;
    for (auto& load : results.cleaned.loads)
        load.ticket = load.field = load.machine = load.method = attack;
    for (std::size_t i = 0; i < results.comparison.fields.size(); ++i) {
        auto& field = results.comparison.fields[i];
        field.name = results.standardised.fields[i].name = attack;
        results.standardised.fields[i].attributes = {{"legal", attack}, {"variety", attack}, {"seeded", attack}};
        field.issues = {{"code", Severity::note, attack, attack}};
        for (auto& crossing : field.crossings)
            crossing.what = crossing.levels[0] = crossing.methods[0] = attack;
        for (auto& contrast : field.contrasts) {
            contrast.method = contrast.estimator = contrast.unit_what = contrast.fragile = attack;
            contrast.leaves_out = {attack};
            for (auto& pair : contrast.pairs)
                pair.block = attack;
            for (auto& line : contrast.budget)
                line.source = attack;
            for (auto& estimate : contrast.also)
                estimate.estimator = estimate.note = attack;
            for (auto& estimate : contrast.robustness)
                estimate.estimator = attack;
        }
        for (auto& zone : results.zoned[i].zones) {
            zone.id = zone.block = zone.reason = attack;
            zone.stratum = attack;
        }
        for (auto& lag : results.cleaned.fields[i].lag)
            lag.machine = lag.method = lag.why = attack;
        for (auto& step : results.cleaned.fields[i].steps)
            step.step = attack;
    }
    results.comparison.farm[0].method = results.comparison.farm[0].estimator = attack;
    for (auto& used : results.cleaned.calibration)
        used.machine = used.method = used.source = attack;
    const std::string page = report_html(results);
    EXPECT_THAT(page, Not(HasSubstr("<img")));
    EXPECT_GT(page::count(page, "&lt;img src=x onerror=alert(1)&gt;&#39;&amp;"), 30U);
}

TEST(ReportPage, NeverWritesANumberThatIsNone) {
    Results results = sample::results();
    auto& contrast = results.comparison.fields[0].contrasts[0];
    contrast.se_t_ha = contrast.df = contrast.p = contrast.u_total_t_ha = sample::nan;
    contrast.ci95_t_ha = Interval{sample::nan, std::numeric_limits<double>::infinity()};
    contrast.budget[0].u_t_ha = contrast.pairs[0].yield_t_ha = contrast.pairs[0].difference_t_ha = sample::nan;
    contrast.robustness[0].gain_t_ha = sample::nan;
    results.cleaned.loads[0].monitor_basis_kg = sample::nan;
    results.cleaned.fields[0].lag[0].lag_s = sample::nan;
    results.zoned[0].segments[0].x_m = sample::nan;
    results.standardised.fields[0].records.x_m[0] = sample::nan;
    std::string page = report_html(results);
    const std::regex none("(^|[^A-Za-z])-?(nan|inf|infinity)([^A-Za-z]|$)", std::regex::icase);
    EXPECT_FALSE(std::regex_search(page::visible(page), none));
    for (const char* name : {"d", "x", "y", "width", "cx", "cy", "data-gain-t-ha", "data-yield-t-ha", "data-values"}) {
        for (const auto& value : page::attribute(page, name))
            EXPECT_THAT(value, Not(HasSubstr("nan"))) << name;
    }
}

TEST(ReportPage, IdsAreUniqueAndLinksLeadSomewhere) {
    const auto ids = page::attribute(sample_page(), "id");
    const std::set<std::string> different(ids.begin(), ids.end());
    EXPECT_EQ(different.size(), ids.size());
    for (const auto& link : page::attribute(sample_page(), "href")) {
        ASSERT_EQ(link.front(), '#') << "nothing outside the page is linked";
        EXPECT_TRUE(different.count(link.substr(1)) == 1) << link;
    }
    for (const auto& names : page::attribute(sample_page(), "aria-labelledby")) {
        EXPECT_TRUE(different.count(names.substr(0, names.find(' '))) == 1) << names;
    }
}

TEST(ReportPage, DrawsEveryGainAtItsNumber) {
    const auto gains = numbers(sample_page(), "data-gain-t-ha");
    for (const double gain : {0.09, 0.05, 0.085})
        EXPECT_THAT(gains, Contains(gain));
    const auto differences = numbers(sample_page(), "data-difference-t-ha");
    for (const auto& pair : sample::strips_contrast().pairs)
        EXPECT_THAT(differences, Contains(pair.difference_t_ha));
}

TEST(ReportPage, DrawsEveryZoneWithItsYield) {
    const Results results = sample::results();
    const auto yields = numbers(sample_page(), "data-yield-t-ha");
    std::size_t zones = 0;
    for (const auto& field : results.zoned) {
        for (const auto& zone : field.zones) {
            ++zones;
            if (!std::isfinite(zone.yield_t_ha())) continue;
            EXPECT_THAT(yields, Contains(zone.yield_t_ha())) << zone.id;
        }
    }
    EXPECT_EQ(page::attribute(sample_page(), "data-zone").size(), zones);
}

// 1 t/ha of a 50 lb bushel is 17.84266 bu/ac: 0.09 t/ha -> 1.6058, 0.037 -> 0.6602, 0.143 -> 2.5515 (by hand).
TEST(ReportPage, TablesHoldReportUnitsAndSiBesideEachOther) {
    const std::string table = page::table(sample_page(), "differences");
    for (const char* cell : {">+1.61<", ">+0.090<", ">+0.66 to +2.55<", ">+0.037 to +0.143<", ">+2.50<", ">+0.140<"}) {
        EXPECT_THAT(table, HasSubstr(cell));
    }
    const std::string sheet = page::table(sample_page(), "contrast-1-1");
    for (const char* text : {"4 pairs", "paired strips, t", "+1.61 bu/ac (+0.090 t/ha)", "0.21 bu/ac (0.012 t/ha)",
                             ">3.00<", "+0.92 to +2.29 bu/ac (+0.052 to +0.128 t/ha)", ">0.005<", ">0.125<", ">3.50<",
                             ">3.20<", "1.07 bu/ac (0.060 t/ha)", ">0.045<", ">12.50<"}) {
        EXPECT_THAT(sheet, HasSubstr(text));
    }
}

TEST(ReportPage, SpeaksOnlyTonnesWhenTheSeasonDoes) {
    Results results = sample::results();
    results.season.units = YieldUnit::t_ha;
    const std::string page = report_html(results);
    EXPECT_THAT(page::table(page, "contrast-1-1"), HasSubstr(">+0.090 t/ha<"));
    EXPECT_THAT(page, Not(HasSubstr("bu/ac")));
}

TEST(ReportPage, CountsEveryRemovedRecordByReason) {
    const Results results = sample::results();
    const std::string table = page::table(sample_page(), "removed");
    for (const auto& field : results.cleaned.fields) {
        const auto used = std::count(field.removal.begin(), field.removal.end(), Removal::kept);
        const auto ends = std::count(field.removal.begin(), field.removal.end(), Removal::pass_end);
        EXPECT_THAT(table, HasSubstr(">" + report::count(static_cast<std::size_t>(used)) + "<"));
        EXPECT_THAT(table, HasSubstr(">" + std::to_string(ends) + "<"));
    }
}

TEST(ReportPage, HoldsInputsCautionsAndCitation) {
    const std::string& page = sample_page();
    EXPECT_THAT(page, HasSubstr(std::string(64, 'b')));
    EXPECT_THAT(page, HasSubstr("season file " + std::string(64, 'a')));
    EXPECT_THAT(page, HasSubstr("not a scale that is legal for trade"));
    EXPECT_THAT(page, HasSubstr("The waiting time counts to the cut"));
    EXPECT_THAT(page, HasSubstr("Grain shelled before the combine came"));
    EXPECT_THAT(page, HasSubstr("Only one method was found here."));
    EXPECT_THAT(page, Not(HasSubstr("doi")));
}

TEST(ReportPage, SaysWhenEstimatesContradictEachOther) {
    EXPECT_THAT(sample_page(), Not(HasSubstr("Two estimates disagree here")));
    Results results = sample::results();
    results.comparison.fields[1].contrasts[0].also = {{"other", 0.5, 0.1, 3.0, Interval{0.3, 0.7}, ""}};
    EXPECT_THAT(report_html(results), HasSubstr("Two estimates disagree here"));
}

// A label that only repeats the name would read "swathed: swathed".
TEST(ReportPage, MethodsWithoutLabelsAreNotToldTwice) {
    Results results = sample::results();
    for (auto& method : results.season.methods)
        method.label = method.name;
    const std::string page = page::visible(report_html(results));
    EXPECT_THAT(page, HasSubstr("Standing compared with swathed. The season file does not describe them further."));
    EXPECT_THAT(page, Not(HasSubstr("swathed: swathed")));
}

TEST(ReportPage, TheAnswerStandsBeforeEverythingElse) {
    const std::string words = page::visible(sample_page());
    const auto answer = words.find("Standing yielded 1.6 bu/ac more than swathed");
    ASSERT_NE(answer, std::string::npos);
    for (const char* later : {"The numbers in brackets are", "On this page", "standard uncertainty", "Estimator"})
        EXPECT_GT(words.find(later), answer) << later;
}

// The word list stands at the end; a word that a reader meets before is said in short where it is first used.
TEST(ReportPage, SaysWhatAWordMeansWhereItIsFirstUsed) {
    const std::string& page = sample_page();
    const auto section = [&](const std::string& id) { return page.find("<section id=\"" + id + "\""); };
    const auto meant = [&](const std::string& word) { return page.find("<dfn>" + word + ":</dfn>"); };
    EXPECT_LT(meant("Calibration error"), section("glance"));
    for (const char* word : {"Basis", "Zone", "Pass", "Pair"}) {
        EXPECT_GT(meant(word), section("fields")) << word;
        EXPECT_LT(meant(word), section("cleaning")) << word;
    }
    EXPECT_GT(meant("df"), section("agronomist"));
    EXPECT_LT(meant("df"), section("sources"));
}

TEST(ReportPage, RangesAreSaidToBeWidenedOnlyWhereTheyAre) {
    EXPECT_THAT(sample_page(), Not(HasSubstr("Several comparisons are made here")));
    Results results = sample::results();
    results.comparison.fields[0].contrasts[0].looks = 3;
    EXPECT_THAT(report_html(results), HasSubstr("Several comparisons are made here"));
}

// 2.4 bu/ac against ranges of 1 to 3: the wide one is cut off with an arrow so that the others can be read.
TEST(ReportPage, OneWideRangeDoesNotPressTheOthersIntoADot) {
    Results results = sample::results();
    EXPECT_THAT(report_html(results), Not(HasSubstr("class=\"beyond\"")));
    results.comparison.fields.push_back(results.comparison.fields[0]);
    results.standardised.fields.push_back(results.standardised.fields[0]);
    results.cleaned.fields.push_back(results.cleaned.fields[0]);
    results.zoned.push_back(results.zoned[0]);
    results.comparison.fields[1].contrasts[0].ci95_total_t_ha = Interval{-1.5, 1.6};
    const std::string page = report_html(results);
    const std::string forest = page.substr(page.find("id=\"forest\""), 12000);
    EXPECT_EQ(page::count(forest.substr(0, forest.find("</svg>")), "class=\"beyond\""), 2U);
    EXPECT_THAT(page, HasSubstr("An arrow: the range runs on beyond the picture"));
}

TEST(ReportPage, TheDashedLineIsExplainedOnlyWhereItIsDrawn) {
    EXPECT_THAT(sample_page(), Not(HasSubstr("The dashed line")));
    Results results = sample::results();
    results.comparison.farm[0].fields = 2;
    results.comparison.farm[0].prediction95_t_ha = results.comparison.farm[0].ci95_total_t_ha;
    const std::string page = report_html(results);
    EXPECT_THAT(page, HasSubstr("The dashed line below it"));
    EXPECT_EQ(page::count(page, "class=\"prediction\""), 1U);
    EXPECT_EQ(page::count(page, "class=\"prediction-end\""), 2U) << "its ends show though it is as long as the range";
}

TEST(ReportPage, PairsStandInTheOrderOfTheirNumbers) {
    Results results = sample::results();
    auto& pairs = results.comparison.fields[0].contrasts[0].pairs;
    pairs[0].block = "pair 10";
    pairs[1].block = "pair 9";
    pairs[2].block = "11";
    pairs[3].block = "2";
    const std::string page = report_html(results);
    const std::string chart = page.substr(page.find("id=\"pairs-1-1\""));
    const auto at = [&](const char* name) { return chart.find(std::string(">") + name + "<"); };
    EXPECT_LT(at("Pair 2"), at("Pair 11"));
    EXPECT_LT(at("Pair 9"), at("Pair 10"));
    EXPECT_THAT(page, Not(HasSubstr("Pair pair")));
}

TEST(ReportPage, ZonesCarryTheBeginningOfTheirMethodsName) {
    const std::string map = sample_page().substr(sample_page().find("id=\"method-map-1\""));
    EXPECT_THAT(map, HasSubstr(">sw<"));
    EXPECT_THAT(map, HasSubstr(">st<"));
}

// "10" for 105C and "11" for 110 would read as other numbers.
TEST(ReportPage, ShortMethodNamesStandWholeOnTheMap) {
    Results results = sample::results();
    results.season.methods[0].name = results.season.baseline = "105C";
    results.season.methods[1].name = "110";
    const std::string page = report_html(results);
    const std::size_t start = page.find("id=\"method-map-1\"");
    const std::string map = page.substr(start, page.find("</svg>", start) - start);
    EXPECT_THAT(map, HasSubstr(">105C<"));
    EXPECT_THAT(map, HasSubstr(">110<"));
    EXPECT_THAT(map, Not(HasSubstr(">10<")));
}

TEST(ReportPage, AThingLeftOutIsSaidOnceWithItsFields) {
    Results results = sample::results();
    results.comparison.farm[0].leaves_out = {"Home quarter: no machine cut both", "one season"};
    for (std::size_t i : {0U, 1U})
        results.comparison.fields[i].contrasts[0].leaves_out = {"No machine cut both", "One season"};
    const std::string page = report_html(results);
    const std::string limits = page.substr(page.find("id=\"limits\""));
    EXPECT_EQ(page::count(limits, "o machine cut both"), 1U);
    EXPECT_EQ(page::count(limits, "ne season"), 1U);
}

// WCAG 2.2 (2.3.3 animation, 1.4.3 contrast in both schemes) and paper: the rules stand in the style; the browser check
// looks at what they do.
TEST(ReportPage, StyleKnowsDarkReducedMotionAndPaper) {
    for (const char* rule : {"@media (prefers-color-scheme:dark)", "@media (prefers-reduced-motion:reduce)",
                             "@media print", "@page{margin:15mm}"}) {
        EXPECT_THAT(sample_page(), HasSubstr(rule));
    }
}

TEST(ReportPage, WhatChangesTheReadingStandsBesideTheFieldsAnswer) {
    Results results = sample::results();
    results.comparison.fields[0].issues = {{"depends-on-model", Severity::warning, "", "two ways differ"}};
    results.cleaned.fields[0].issues = {
        {"uneven-removal", Severity::warning, std::string("field ") + sample::strips_field, "removed unevenly"}};
    const std::string day = "Never cut on the same day.";
    results.comparison.fields[0].contrasts[0].leaves_out.push_back(day);
    results.comparison.fields[1].contrasts[0].leaves_out.push_back(day);
    results.comparison.issues = {{"confounded", Severity::warning, "", day + " Fields: Home quarter, other."},
                                 {"earlier-map-differs", Severity::warning, sample::split_field, "it may be the land"}};
    const std::string page = report_html(results);
    const std::string answer =
        page.substr(page.find("id=\"answer\""), page.find("id=\"glance\"") - page.find("id=\"answer\""));
    EXPECT_EQ(page::count(answer, "Read with care: Two ways differ."), 1U);
    EXPECT_EQ(page::count(answer, "Read with care: Removed unevenly."), 1U);
    EXPECT_EQ(page::count(answer, "Read with care: It may be the land."), 1U);
    EXPECT_EQ(page::count(answer, day), 1U) << "what holds for all fields is said once";
    EXPECT_THAT(answer, HasSubstr("Read all of them with care: " + day));
    const std::string own = page::inside(page, "article", page.find("id=\"field-1\"") - 10);
    EXPECT_THAT(own, Not(HasSubstr("Read with care"))) << "said beside the answer already";
}

TEST(ReportPage, TheBestEvidenceLeadsAndTheOthersStandQuieter) {
    Results results = sample::results();
    results.comparison.farm[0].fields = 2;
    results.comparison.farm.push_back(results.comparison.farm[0]);
    results.comparison.farm[1].evidence = "split";
    const std::string page = report_html(results);
    EXPECT_EQ(page::count(page, "<p class=\"answer gain\""), 1U);
    EXPECT_EQ(page::count(page, "<p class=\"answer second gain\""), 1U);
    EXPECT_LT(page.find("<p class=\"answer gain\""), page.find("<p class=\"answer second gain\""));
}

// 0.07 t/ha of a 50 lb bushel is 1.249 bu/ac, 0.03 and 0.11 t/ha are 0.535 and 1.963 (17.84266 bu/ac a t/ha, by hand).
TEST(ReportPage, SeveralYearsStandInPlainWordsWithTheirNumber) {
    Results results = sample::results();
    FarmContrast years = results.comparison.farm[0];
    years.years = 3;
    years.fields = 7;
    years.gain_t_ha = 0.07;
    years.ci95_total_t_ha = Interval{0.03, 0.11};
    years.between_years_t_ha = 0.02;
    years.finding = Finding::gain;
    results.comparison.seasons = {years};
    const std::string page = report_html(results);
    EXPECT_THAT(page::visible(page), HasSubstr("Over three years, on the seven fields laid out in side-by-side strips "
                                               "placed at random, standing yielded 1.2 bu/ac more than swathed (0.5 to "
                                               "2.0)."));
    EXPECT_THAT(page::table(page, "seasons-1"), HasSubstr("0.36 bu/ac (0.020 t/ha)"));
}

TEST(ReportPage, WhatEarlierMapsShowedStandsWithTheAgronomistsNumbers) {
    Results results = sample::results();
    EXPECT_THAT(sample_page(), Not(HasSubstr("id=\"earlier-")));
    results.comparison.fields[1].contrasts[0].earlier = {{"map of 2019", -0.05, 0.02, 5.0, Interval{-0.1, 0.0}, "gls"}};
    const std::string table = page::table(report_html(results), "earlier-2-1");
    for (const char* cell : {">map of 2019<", ">gls<", ">-0.050<", ">-0.100 to 0.000<"})
        EXPECT_THAT(table, HasSubstr(cell));
}

TEST(ReportPage, TheSameResultsGiveTheSameBytes) { EXPECT_EQ(report_html(sample::results()), sample_page()); }

TEST(ReportPage, ASeasonWithNothingInItStillMakesAPage) {
    Results results;
    results.season = sample::season();
    const std::string page = report_html(results);
    EXPECT_THAT(page, HasSubstr("Nothing could be compared in this season."));
    EXPECT_THAT(page, HasSubstr("No scale tickets were given."));
}

// The switch of units tells what a season in t/ha says: the same sentences as its page, and it has no switch itself.
TEST(ReportPage, KeepsEverySentenceOfTheAnswerInTonnesPerHectareToo) {
    Results results = sample::results();
    ASSERT_NE(results.season.units, YieldUnit::t_ha);
    const std::string page = sample_page();
    results.season.units = YieldUnit::t_ha;
    const std::string in_si = report_html(results);
    const auto kept = page::attribute(page, "data-si");
    std::size_t told = 0;
    const std::regex sentence("<p class=\"[a-z ]*\" data-finding=\"[a-z-]*\">([^<]*)</p>");
    for (std::sregex_iterator at(in_si.begin(), in_si.end(), sentence), end; at != end; ++at) {
        EXPECT_THAT(kept, Contains((*at)[1].str()));
        ++told;
    }
    EXPECT_GE(told, 2U);
    EXPECT_TRUE(page::attribute(in_si, "data-si").empty());
    EXPECT_TRUE(page::attribute(in_si, "data-show-si").empty());
}

// Four ways of cutting one field in patches: what holds of all four comparisons is said once where they stand, and so is
// what explains their charts; what is to be read with care stands once on the page.
TEST(ReportPage, SaysOnceWhatHoldsOfEveryComparisonOfAField) {
    Results results = sample::results();
    auto& field = results.comparison.fields[0];
    Contrast contrast = field.contrasts[0];
    contrast.evidence = Evidence::split;
    contrast.finding = Finding::not_shown;
    contrast.yield_t_ha = *contrast.baseline_yield_t_ha + 2.0 * *contrast.gain_t_ha + 0.5;
    contrast.stratum.reset();
    field.contrasts.assign(4, contrast);
    field.issues = {{"uneven-removal", Severity::warning, field.name, "Something to know"}};
    results.comparison.farm.clear();
    results.comparison.fields.resize(1);
    const std::string page = report_html(results);
    const auto said = [&](const char* piece) { return page::count(page, piece); };
    EXPECT_EQ(said("It is one comparison, not replicated."), 0U);
    EXPECT_EQ(said("Each of these is one comparison, not replicated."), 2U) << "at the answer and at the field";
    EXPECT_EQ(said("because it allows for how"), 0U);
    EXPECT_EQ(said("Where a best guess is another than the difference of its two yields"), 1U);
    EXPECT_EQ(said("Read with care: Something to know."), 1U);
    EXPECT_EQ(said("They add as squares."), 1U);
    EXPECT_EQ(said("The ranges here show the spread"), 1U);
}

// A season of that many fields of 65 ha with 1 s records: 20 000 records and 6 000 stretches each, and the worst case of
// removal, every record a mark.
Results large_season(std::size_t fields) {
    Results results = sample::results();
    auto standard = results.standardised.fields[0];
    auto zoned = results.zoned[0];
    while (zoned.segments.size() < 6000)
        zoned.segments.insert(zoned.segments.end(), zoned.segments.begin(), zoned.segments.end());
    zoned.segments.resize(6000);
    auto& records = standard.records;
    while (records.x_m.size() < 20000) {
        records.x_m.insert(records.x_m.end(), records.x_m.begin(), records.x_m.end());
        records.y_m.insert(records.y_m.end(), records.y_m.begin(), records.y_m.end());
    }
    auto cleaned = results.cleaned.fields[0];
    cleaned.removal.assign(20000, Removal::speed);
    results.standardised.fields.assign(fields, standard);
    results.cleaned.fields.assign(fields, cleaned);
    results.zoned.assign(fields, zoned);
    results.comparison.fields.assign(fields, results.comparison.fields[0]);
    return results;
}

TEST(ReportPage, TenFieldSeasonStaysUnderThreeMegabytes) {
    const std::string page = report_html(large_season(10));
    EXPECT_LT(page.size(), 3000000U);
    EXPECT_THAT(page, HasSubstr("One removed record in"));
}

// More fields share the same room for points; only their numbers are added.
TEST(ReportPage, GrowsByNoMoreThanSixtyKilobytesAField) {
    const auto ten = report_html(large_season(10)).size();
    EXPECT_LE(report_html(large_season(60)).size(), ten + 50 * 60000);
}

TEST(ReportPage, ThousandsOfFieldsAreToldInWordsAndSaySo) {
    const Results results = large_season(1000);
    const std::string page = report_html(results);
    EXPECT_LT(page.size(), 15000000U);
    EXPECT_THAT(page, HasSubstr("Of so many fields (1,000) this page tells each in words."));
    EXPECT_EQ(page::count(page, "<article id=\"field-"), 1000U);
    EXPECT_THAT(report_html(large_season(60)), Not(HasSubstr("Of so many fields")));
}

} // namespace
} // namespace quartercut
