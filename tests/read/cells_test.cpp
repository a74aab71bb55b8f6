// SPDX-License-Identifier: MIT
// Single cells and bytes: numbers, words for nothing, encodings.
#include "read/cells.hpp"
#include "read/encoding.hpp"

#include <gtest/gtest.h>

namespace quartercut::reading {
namespace {

TEST(CellNumber, TakesNumbersAndNothingElse) {
    EXPECT_EQ(cell_number("12.5"), 12.5);
    EXPECT_EQ(cell_number(" -3e2\t"), -300.0);
    EXPECT_EQ(cell_number("+7"), 7.0);
    for (const char* text : {"", " ", "12,5", "1.2.3", "12 kg", "0x10", "inf", "nan", "1e999", "++1", "--1", "1 2"})
        EXPECT_FALSE(cell_number(text).has_value()) << text;
}

TEST(CellNumber, TakesADecimalCommaWhereToldTo) {
    EXPECT_EQ(cell_number("12,5", true), 12.5);
    EXPECT_EQ(cell_number("12.5", true), 12.5);
    EXPECT_FALSE(cell_number("1,234,5", true).has_value());
    EXPECT_FALSE(cell_number("1,234.5", true).has_value());
}

TEST(Missing, IsEveryWordForNothing) {
    for (const char* text : {"", "  ", "NA", "n/a", "NaN", "null", "NULL", "none", "-", "--"})
        EXPECT_TRUE(is_missing(text)) << text;
    for (const char* text : {"0", "no", "-1", "nano", "north"})
        EXPECT_FALSE(is_missing(text)) << text;
}

TEST(Unquoted, TakesOffMarksAndHalvesDoubledOnes) {
    EXPECT_EQ(unquoted("\"a \"\"b\"\" c\""), "a \"b\" c");
    EXPECT_EQ(unquoted(" plain "), "plain");
    EXPECT_EQ(unquoted("\"open"), "\"open");
    EXPECT_EQ(unquoted("\"\""), "");
}

TEST(Encodings, AreTold) {
    EXPECT_EQ(encoding_of("plain"), Encoding::utf8);
    EXPECT_EQ(encoding_of("Ren\xC3\xA9"), Encoding::utf8);
    EXPECT_EQ(encoding_of("Ren\xE9 had"), Encoding::windows_1252);
    EXPECT_EQ(encoding_of(std::string_view("\xFF\xFE"
                                           "a\0",
                                           4)),
              Encoding::utf16);
    EXPECT_EQ(encoding_of(std::string_view("a\0b\0", 4)), Encoding::utf16);
}

// Bytes: Unicode Consortium, CP1252.TXT; UTF-8 by RFC 3629.
TEST(Encodings, TurnWindows1252IntoUtf8) {
    EXPECT_EQ(utf8_from_windows_1252("\x80"), "\xE2\x82\xAC"); // euro sign
    EXPECT_EQ(utf8_from_windows_1252("\xB0"), "\xC2\xB0");     // degree sign
    EXPECT_EQ(utf8_from_windows_1252("\x81"), "\xEF\xBF\xBD"); // unassigned
}

TEST(Encodings, KnowIllFormedUtf8) {
    // RFC 3629: overlong forms, surrogates and numbers beyond U+10FFFF are ill-formed.
    for (const char* text : {"\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xC3", "\x80"})
        EXPECT_FALSE(is_utf8(text));
    for (const char* text : {"", "abcdefghijk", "\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\x8C\xBE", "abcdefgh\xC3\xA9"})
        EXPECT_TRUE(is_utf8(text));
}

} // namespace
} // namespace quartercut::reading
