// SPDX-License-Identifier: MIT
// The whole page of the hand-made season.
#include "quartercut/report.hpp"
#include "support/sample_results.hpp"

#include <gmock/gmock.h>

using ::testing::HasSubstr;
using ::testing::Not;

TEST(ReportPage, ShowsAFieldNamedScriptAsText) {
    const std::string page = quartercut::report_html(quartercut::sample::results());
    EXPECT_THAT(page, HasSubstr("&lt;script&gt;alert(1)&lt;/script&gt; &amp; Söhne"));
    EXPECT_THAT(page, Not(HasSubstr("<script>alert")));
}
