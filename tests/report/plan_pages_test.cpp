// SPDX-License-Identifier: MIT
// Money, losses, weather and the pages beside the report: what leads, what is said once, the policy, escaping.
#include "page_reader.hpp"
#include "quartercut/report.hpp"
#include "report/plan_parts.hpp"
#include "support/plan_results.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>

#include <openssl/evp.h>

#include <array>

namespace quartercut {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const std::string attack = "<script>alert(1)</script>\"><img src=x onerror=alert(1)>'&";

std::vector<std::string> pages_beside(const std::string& said) {
    Season season = sample::season();
    season.title = season.methods[1].label = said;
    return {choice_html(plans::choice(said), season), layout_html(plans::layout(said), season),
            counting_sheet_html(season, {said})};
}

TEST(MoneyText, SetsThousandsApart) {
    EXPECT_EQ(report::money_text(2466650.0), "$24,666.50");
    EXPECT_EQ(report::money_text(123456700.0, 0), "$1,234,567");
    EXPECT_EQ(report::money_text(-99900.0, 0), "-$999");
}

// CSP level 3, 'sha256-': the base64 of the SHA-256 of the element's text, worked out here by OpenSSL's one-shot calls.
std::string hash_of(const std::string& text) {
    std::array<unsigned char, 32> digest{};
    EVP_Digest(text.data(), text.size(), digest.data(), nullptr, EVP_sha256(), nullptr);
    std::array<unsigned char, 64> base64{};
    EVP_EncodeBlock(base64.data(), digest.data(), 32);
    return reinterpret_cast<const char*>(base64.data());
}

TEST(MoneySection, SaysNextToNothingWhereLessThanACentWouldBeLost) {
    Results results = plans::with_plan(sample::results());
    EXPECT_THAT(report_html(results), HasSubstr("one would expect to lose $0."));
    results.plan.money->farm.front().regret_cents_ha = 0.4;
    EXPECT_THAT(report_html(results), HasSubstr("next to nothing is to be expected to be lost"));
}

TEST(PlanPages, AllowNothingButTheirOwnStyle) {
    for (const auto& page : pages_beside("Home")) {
        const std::size_t at = page.find("Content-Security-Policy");
        ASSERT_NE(at, std::string::npos);
        const std::string policy = page.substr(at, page.find("/>", at) - at);
        EXPECT_THAT(policy, HasSubstr("default-src &#39;none&#39;"));
        EXPECT_THAT(policy, HasSubstr("sha256-" + hash_of(page::inside(page, "style"))));
        EXPECT_THAT(policy, Not(HasSubstr("unsafe")));
        EXPECT_LT(at, page.find("<style")) << "the policy stands before what it governs";
        EXPECT_EQ(page::count(page, "<script"), 0U);
        EXPECT_EQ(page::count(page, " style=\""), 0U) << "the policy admits no style attribute";
        EXPECT_EQ(page::count(page, "http://") + page::count(page, "https://"), 0U);
    }
}

TEST(PlanPages, ShowAFieldNamedScriptAsText) {
    for (const auto& page : pages_beside(attack)) {
        EXPECT_EQ(page::count(page, "<script"), 0U);
        EXPECT_EQ(page::count(page, "<img"), 0U);
        EXPECT_GT(page::count(page, "&lt;script&gt;alert(1)&lt;/script&gt;"), 1U);
    }
}

TEST(PlanPages, NoChanceIsCertainAndLimitsAreSaid) {
    Season season = sample::season();
    Choice choice = plans::choice("Home");
    ASSERT_FALSE(choice.fields.empty() || choice.fields[0].outlooks.empty() || choice.shares.empty());
    choice.fields[0].outlooks[0].p_pays = 0.9996;
    EXPECT_THAT(choice_html(choice, season), HasSubstr("more than 95"));
    EXPECT_THAT(choice_html(choice, season), Not(HasSubstr("your limits")));
    season.next_year.emplace();
    MethodLimits limits;
    limits.method = choice.shares[0].method;
    limits.share_low = 0.25;
    limits.share_high = 0.5;
    season.next_year->methods = {limits};
    EXPECT_THAT(choice_html(choice, season), HasSubstr("(your limits: 25 to 50 %)"));
}

TEST(PlanSections, ShowAFieldNamedScriptAsText) {
    const std::string page = report_html(plans::with_plan(sample::results(), attack, attack));
    EXPECT_EQ(page::count(page, "<script"), 1U) << "the page's own";
    EXPECT_EQ(page::count(page, "<img"), 0U);
    for (const char* id :
         {"money-costs", "money-tornado", "money-fields", "losses-table", "samples-table", "weather-table"})
        EXPECT_THAT(page::table(page, id), HasSubstr("&lt;script&gt;alert(1)")) << id;
}

std::string money_of(const std::string& page) {
    const std::size_t at = page.find("<section id=\"money\"");
    return page.substr(at, page.find("</section>", at) - at);
}

TEST(PlanSections, TheBestEvidenceLeadsInMoney) {
    Results results = plans::with_plan(sample::results());
    results.plan.money->farm.push_back(plans::net("", "split", "drum"));
    const std::string money = money_of(report_html(results));
    EXPECT_EQ(page::count(money, "class=\"said\""), 1U);
    EXPECT_EQ(page::count(money, "class=\"raw\""), 1U);
    EXPECT_LT(money.find("class=\"said\""), money.find("class=\"raw\""));
}

TEST(PlanSections, WhyNothingIsSaidInMoneyIsSaidOnce) {
    Results results = plans::with_plan(sample::results());
    auto& money = *results.plan.money;
    money.farm.clear();
    money.fields.assign(6, money.fields[0]);
    for (auto& net : money.fields) {
        net.net_cents_ha.reset();
        net.why_no_chance = "no price is given";
    }
    EXPECT_EQ(page::count(money_of(report_html(results)), "no price is given"), 1U);
}

// 5000 cents a hectare times 0.40468564 ha an acre is 20.23 dollars (international acre, by hand).
TEST(PlanSections, TheAnswerOnTheTerminalHoldsMoneyInOneLine) {
    const auto lines = answer_sentences(plans::with_plan(sample::results()));
    EXPECT_EQ(lines.back(), "In money, on the farm: standing brought $20.23 more an acre than swathed after the costs "
                            "given (likely between $4.05 and $36.42).");
    for (const auto& line : answer_sentences(sample::results()))
        EXPECT_THAT(line, Not(HasSubstr("In money")));
}

TEST(PlanSections, WhatIsNotKnownIsWrittenAlike) {
    Results results = plans::with_plan(sample::results());
    results.plan.losses->methods[0].ci95_kg_ha.reset();
    results.plan.samples[0].ci95.reset();
    results.plan.weather->windows[0].gust_km_h.reset();
    results.plan.money->fields[0].ci95_cents_ha.reset();
    const std::string page = report_html(results);
    EXPECT_EQ(page::count(page::table(page, "losses-table"), ">not known<"), 1U);
    EXPECT_EQ(page::count(page::table(page, "samples-table"), ">not known<"), 1U);
    EXPECT_EQ(page::count(page::table(page, "weather-table"), ">not known<"), 1U);
    EXPECT_EQ(page::count(page::table(page, "money-fields"), ">not known<"), 2U);
}

} // namespace
} // namespace quartercut
