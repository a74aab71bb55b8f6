// SPDX-License-Identifier: MIT
// Text helpers, by hand.
#include "base/text.hpp"

#include "quartercut/error.hpp"
#include "quartercut/issue.hpp"

#include <clocale>
#include <gtest/gtest.h>
#include <limits>

namespace quartercut {
namespace {

TEST(Text, IsTrimmedOfBlanksOfEveryKind) {
    EXPECT_EQ(trim("  a b \t\r\n"), "a b");
    EXPECT_EQ(trim("\xC2\xA0"
                   "a\xE2\x80\xAF"),
              "a");
    EXPECT_EQ(trim(""), "");
    EXPECT_EQ(trim(" \n "), "");
    EXPECT_EQ(trim("\xA0"), "\xA0"); // half of a character is no blank
}

TEST(Text, IsLoweredInAsciiOnly) { EXPECT_EQ(lower("Sept-\xC3\x8Eles ABC"), "sept-\xC3\x8Eles abc"); }

TEST(Numbers, AreReadWholeOrNotAtAll) {
    EXPECT_EQ(parse_number("12"), 12.0);
    EXPECT_EQ(parse_number(" -3.5 "), -3.5);
    EXPECT_EQ(parse_number("+1e3"), 1000.0);
    EXPECT_EQ(parse_number(".5"), 0.5);
    EXPECT_EQ(parse_number("-.5"), -0.5);
    for (const char* wrong :
         {"", " ", "-", "+", ".", "-.", "+-1", "1,5", "1 2", "0x10", "nan", "inf", "-inf", "1e999", "12a", "e5"})
        EXPECT_FALSE(parse_number(wrong)) << wrong;
    EXPECT_EQ(parse_whole_number("042"), 42);
    for (const char* wrong : {"", "4.2", "99999999999", "x", "4x"})
        EXPECT_FALSE(parse_whole_number(wrong)) << wrong;
}

TEST(Numbers, AreWrittenWithAPointInAnyLocale) {
    std::setlocale(LC_ALL, "de_DE.UTF-8"); // no harm where the machine lacks it
    EXPECT_EQ(format_fixed(2.5, 2), "2.50");
    EXPECT_EQ(format_shortest(0.1), "0.1");
    EXPECT_EQ(parse_number("0.5"), 0.5);
    std::setlocale(LC_ALL, "C");
    EXPECT_EQ(format_fixed(-0.001, 2), "0.00");
    EXPECT_EQ(format_fixed(-0.006, 2), "-0.01");
    EXPECT_EQ(format_fixed(std::numeric_limits<double>::quiet_NaN(), 2), "unknown");
    EXPECT_EQ(format_fixed(1234.5678, 0), "1235");
    EXPECT_EQ(format_shortest(35), "35");
}

TEST(Text, IsSplitAndJoined) {
    EXPECT_EQ(split("a,,b", ','), (std::vector<std::string>{"a", "", "b"}));
    EXPECT_EQ(split("", ','), (std::vector<std::string>{""}));
    EXPECT_EQ(join({"a", "b", "c"}, ", "), "a, b, c");
    EXPECT_EQ(join({}, ", "), "");
    EXPECT_EQ(join_with({"a", "b", "c"}, "or"), "a, b or c");
    EXPECT_EQ(join_with({"a"}, "or"), "a");
    EXPECT_EQ(join_with({}, "or"), "");
    EXPECT_EQ(replace_all("aaa", "a", "aa"), "aaaaaa");
    EXPECT_EQ(replace_all("abc", "x", "y"), "abc");
}

TEST(Text, IsShortenedBetweenCharacters) {
    EXPECT_EQ(shortened("short"), "short");
    EXPECT_EQ(shortened(std::string(61, 'a')), std::string(60, 'a') + "...");
    EXPECT_EQ(shortened(std::string(59, 'a') + "\xC3\xA9\xC3\xA9"), std::string(59, 'a') + "...");
}

// Optimal string alignment: the first three are the textbook's (kitten/sitting 3), swaps count one.
TEST(EditDistance, CountsLettersToChange) {
    EXPECT_EQ(edit_distance("kitten", "sitting"), 3U);
    EXPECT_EQ(edit_distance("", "abc"), 3U);
    EXPECT_EQ(edit_distance("abc", "abc"), 0U);
    EXPECT_EQ(edit_distance("lable", "label"), 1U);
    EXPECT_EQ(edit_distance("ca", "abc"), 3U);
}

TEST(NearestWord, IsTheOneMostLikeAndNoneWhenNoneIs) {
    const std::vector<std::string> words{"file", "layer", "column", "crs"};
    EXPECT_EQ(nearest_word("colunm", words), "column");
    EXPECT_EQ(nearest_word("FILE", words), "file");
    EXPECT_EQ(nearest_word("layers", words), "layer");
    EXPECT_FALSE(nearest_word("temperature", words));
    EXPECT_FALSE(nearest_word("x", words));
    EXPECT_FALSE(nearest_word("column", {}));
    EXPECT_EQ(nearest_word("bat", {"cat", "hat"}), "cat"); // the first of equals
    EXPECT_EQ(nearest_word("home", {"Hill", "Home Quarter"}), "Home Quarter");
    EXPECT_FALSE(nearest_word("home", {"Home North Quarter", "Home South Quarter"}));
    EXPECT_FALSE(nearest_word("ho", {"Home Quarter"}));
}

TEST(Issues, SayTheirSeverityInAWord) {
    EXPECT_STREQ(severity_word(Severity::note), "note");
    EXPECT_STREQ(severity_word(Severity::warning), "warning");
    EXPECT_STREQ(severity_word(Severity::error), "error");
}

// 70 and 74 are EX_SOFTWARE and EX_IOERR of sysexits.h.
TEST(Errors, CarryTheirExitCode) {
    EXPECT_EQ(static_cast<int>(InputError("x").code()), 1);
    EXPECT_EQ(static_cast<int>(DataError("x").code()), 1);
    EXPECT_EQ(static_cast<int>(UsageError("x").code()), 2);
    EXPECT_EQ(static_cast<int>(InternalError("x").code()), 70);
    EXPECT_EQ(static_cast<int>(WriteError("x").code()), 74);
}

} // namespace
} // namespace quartercut
