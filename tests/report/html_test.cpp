// SPDX-License-Identifier: MIT
// Escaping, numbers as text, the content policy.
#include "page_reader.hpp"
#include "quartercut/report.hpp"
#include "report/figures.hpp"
#include "report/html.hpp"
#include "report/policy.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>

namespace quartercut::report {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

TEST(Escape, TurnsTheFiveMarkupCharactersIntoEntities) {
    EXPECT_EQ(escape(R"(<a href="x">Tom & 'Jerry'</a>)"),
              "&lt;a href=&quot;x&quot;&gt;Tom &amp; &#39;Jerry&#39;&lt;/a&gt;");
}

TEST(Escape, KeepsUtf8AndReplacesWhatIsNot) {
    EXPECT_EQ(escape("Söhne €"), "Söhne €");
    EXPECT_EQ(escape("a\x80z"), "a\xEF\xBF\xBDz");             // a continuation byte alone
    EXPECT_EQ(escape("\xC0\xBC"), "\xEF\xBF\xBD\xEF\xBF\xBD"); // overlong "<" (RFC 3629 section 3)
    EXPECT_EQ(escape(std::string_view("a\0b", 3)), "a\xEF\xBF\xBD"
                                                   "b");
    EXPECT_EQ(escape("\xED\xA0\x80"), "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD"); // a surrogate
    EXPECT_EQ(escape("cut \xE2\x82"), "cut \xEF\xBF\xBD\xEF\xBF\xBD");
}

TEST(Slug, LeavesOnlyWhatAnIdMayHold) {
    EXPECT_EQ(slug("NE-16 74/20 W4"), "ne-16-74-20-w4");
    EXPECT_EQ(slug("<>"), "x");
}

TEST(HtmlWriter, ClosesElementsInOrderAndEscapesAttributes) {
    Html html;
    {
        const auto outer = html.in("ul", {{"title", "a\"b"}});
        html.leaf("li", "1 < 2");
    }
    EXPECT_EQ(html.page(), "<ul title=\"a&quot;b\"><li>1 &lt; 2</li>\n</ul>\n");
}

TEST(Figures, NeverWriteMinusZero) {
    EXPECT_EQ(fixed(-0.04, 1), "0.0");
    EXPECT_EQ(with_sign(-0.04, 1), "0.0");
    EXPECT_EQ(with_sign(0.06, 1), "+0.1");
    EXPECT_EQ(fixed(sample::nan, 1), "not known");
}

TEST(Figures, CountsCarryThousandsSeparators) {
    EXPECT_EQ(count(0), "0");
    EXPECT_EQ(count(999), "999");
    EXPECT_EQ(count(1000), "1,000");
    EXPECT_EQ(count(1234567), "1,234,567");
}

// 1757000000 s after 1970-01-01 UTC is 2025-09-04 15:33:20 UTC (GNU date -u -d @1757000000).
TEST(Figures, DatesFollowTheSeasonsZone) {
    EXPECT_EQ(date(1757000000.0, ""), "4 Sep 2025");
    EXPECT_EQ(date(1757000000.0, "+10:00"), "5 Sep 2025");
    EXPECT_EQ(date(1757000000.0 - 12 * 3600.0, "-06:00"), "3 Sep 2025");
    EXPECT_EQ(date(sample::nan, ""), "");
}

// Digest of "" from FIPS 180-4's example values; base64 by `openssl dgst -sha256 -binary | base64`.
TEST(Policy, HashesAsContentSecurityPolicyWants) {
    EXPECT_EQ(hash_source(""), "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=");
}

TEST(Policy, ThePageAdmitsExactlyItsOwnStyleAndScript) {
    const std::string page = report_html(sample::results());
    const std::string style = page::inside(page, "style");
    const std::string script = page::inside(page, "script");
    const std::string policy = "default-src &#39;none&#39;; img-src data:; style-src &#39;" + hash_source(style) +
                               "&#39;; script-src &#39;" + hash_source(script) + "&#39;";
    EXPECT_THAT(page, HasSubstr(policy));
    EXPECT_EQ(page::count(page, " style=\""), 0U) << "the policy refuses style attributes";
    EXPECT_EQ(page::count(page, " onclick="), 0U);
    for (const char* fetching : {"src=", "url(http", "@import", "<link", "<iframe", "<base"}) {
        EXPECT_EQ(page::count(page, fetching), 0U) << fetching;
    }
}

} // namespace
} // namespace quartercut::report
