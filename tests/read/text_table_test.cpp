// SPDX-License-Identifier: MIT
// Walking through rows of cells.
#include "read/text_table.hpp"

#include <gtest/gtest.h>

namespace quartercut::reading {
namespace {

std::vector<std::vector<std::string>> all_rows(std::string_view text, char separator = ',') {
    std::vector<std::vector<std::string>> out;
    RowWalker walker(text, separator);
    std::vector<std::string_view> cells;
    while (walker.next(cells))
        out.emplace_back(cells.begin(), cells.end());
    return out;
}

using Rows = std::vector<std::vector<std::string>>;

TEST(Rows, EndWithAnyLineEnd) {
    const Rows wanted{{"a", "b"}, {"c", "d"}};
    EXPECT_EQ(all_rows("a,b\nc,d\n"), wanted);
    EXPECT_EQ(all_rows("a,b\r\nc,d"), wanted);
    EXPECT_EQ(all_rows("a,b\rc,d\r"), wanted);
    EXPECT_EQ(all_rows("\n\na,b\n\n\nc,d\n\n"), wanted);
}

TEST(Rows, KeepEmptyCells) { EXPECT_EQ(all_rows("a,,\n,,b\n"), (Rows{{"a", "", ""}, {"", "", "b"}})); }

TEST(Rows, MayHoldSeparatorsAndLineEndsInQuotes) {
    EXPECT_EQ(all_rows("\"a,b\",\"c\nd\"\n1,2\n"), (Rows{{"\"a,b\"", "\"c\nd\""}, {"1", "2"}}));
    EXPECT_EQ(all_rows("\"a\"\"b\",c\n"), (Rows{{"\"a\"\"b\"", "c"}}));
}

TEST(Rows, EndWhereAQuoteIsNeverClosed) { EXPECT_EQ(all_rows("a,\"b\nc,d\n").size(), 1U); }

TEST(Rows, OfNothingAreNone) {
    EXPECT_TRUE(all_rows("").empty());
    EXPECT_TRUE(all_rows("\n \n\r\n").empty());
}

TEST(Table, FindsItsSeparator) {
    EXPECT_EQ(TextTable("a,b\n1,2\n", "t").separator(), ',');
    EXPECT_EQ(TextTable("a;b\n1,5;2,5\n3,5;4,5\n", "t").separator(), ';');
    EXPECT_EQ(TextTable("a\tb\n1\t2\n", "t").separator(), '\t');
    EXPECT_EQ(TextTable("name (x, y);b\n1;2\n", "t").separator(), ';');
}

TEST(Table, TellsDecimalCommas) {
    EXPECT_TRUE(TextTable("a;b\n1,5;2,5\n", "t").decimal_comma());
    EXPECT_TRUE(TextTable("a,b\n\"1,5\",\"2,5\"\n", "t").decimal_comma());
    EXPECT_FALSE(TextTable("a;b\n1.5;2\n", "t").decimal_comma());
}

TEST(Table, NamesColumnsWithoutName) {
    EXPECT_EQ(TextTable("a,,c\nx,2,3\n", "t").names(), (std::vector<std::string>{"a", "column_2", "c"}));
    EXPECT_EQ(TextTable("a,b,\nx,2,\n", "t").names(), (std::vector<std::string>{"a", "b"}))
        << "a trailing separator names none";
}

TEST(Table, KeepsItsViewsWhenMoved) {
    TextTable table("a,b\n1,2\n", "t");
    const TextTable moved = std::move(table);
    EXPECT_EQ(moved.sample(1), std::vector<std::string>{"2"});
}

} // namespace
} // namespace quartercut::reading
