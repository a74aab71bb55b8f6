// SPDX-License-Identifier: MIT
// comparison.csv by RFC 4180, safe in a spreadsheet.
#include "../support/sample_results.hpp"
#include "quartercut/write.hpp"
#include "write/csv_text.hpp"

#include <gtest/gtest.h>

#include <map>

namespace quartercut {
namespace {

using Rows = std::vector<std::vector<std::string>>;

/// A strict reader by RFC 4180 section 2: CRLF between records, doubled quotes inside quotes, nothing after a closing one.
Rows read_rfc4180(const std::string& text) {
    Rows rows(1);
    std::string cell;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '"' && cell.empty()) {
            for (++i; i < text.size(); ++i) {
                if (text[i] == '"' && (i + 1 >= text.size() || text[i + 1] != '"')) break;
                if (text[i] == '"') ++i;
                cell += text[i];
            }
            EXPECT_TRUE(text[i + 1] == ',' || text[i + 1] == '\r') << "text after a closing quote";
        } else if (text[i] == ',') {
            rows.back().push_back(std::exchange(cell, {}));
        } else if (text[i] == '\r') {
            EXPECT_EQ(text[++i], '\n');
            rows.back().push_back(std::exchange(cell, {}));
            rows.emplace_back();
        } else {
            EXPECT_NE(text[i], '"') << "a bare quote";
            cell += text[i];
        }
    }
    EXPECT_TRUE(rows.back().empty()) << "no line end at the end";
    rows.pop_back();
    return rows;
}

std::map<std::string, std::string> by_name(const Rows& rows, std::size_t row) {
    std::map<std::string, std::string> out;
    for (std::size_t c = 0; c < rows[0].size(); ++c)
        out[rows[0][c]] = rows[row].at(c);
    return out;
}

TEST(ComparisonCsv, HasARowForEachContrastThenTheFarm) {
    const Rows rows = read_rfc4180(comparison_csv(sample::results()));
    ASSERT_EQ(rows.size(), 1U + 3U + 1U);
    for (const auto& row : rows)
        EXPECT_EQ(row.size(), rows[0].size());
    auto first = by_name(rows, 1);
    EXPECT_EQ(first["level"], "field");
    EXPECT_EQ(first["field"], sample::strips_field);
    EXPECT_EQ(first["evidence"], "replicated-randomised");
    EXPECT_EQ(first["gain_t_ha"], "0.09");
    EXPECT_EQ(first["ci95_total_low_t_ha"], "0.037");
    EXPECT_EQ(first["ci95_total_high_t_ha"], "0.143");
    EXPECT_EQ(first["units_n"], "4");
    EXPECT_EQ(first["finding"], "gain");
    auto farm = by_name(rows, 4);
    EXPECT_EQ(farm["level"], "farm");
    EXPECT_EQ(farm["field"], "");
    EXPECT_EQ(farm["tau_t_ha"], "0");
    EXPECT_EQ(farm["prediction95_low_t_ha"], "");
}

TEST(ComparisonCsv, KeepsNamesWholeAndDisarmsFormulas) {
    const Rows rows = read_rfc4180(comparison_csv(sample::results()));
    EXPECT_EQ(by_name(rows, 2)["field"], sample::split_field);
    EXPECT_EQ(by_name(rows, 3)["field"], "'=Far, \"quarter\""); // the apostrophe keeps a spreadsheet from running it
    EXPECT_EQ(by_name(rows, 3)["se_t_ha"], "");                 // NaN
}

TEST(ComparisonCsv, LeavesNegativeNumbersAsNumbers) {
    EXPECT_EQ(write::csv_number(-0.25), "-0.25");
    EXPECT_EQ(write::csv_cell("-0.25 t"), "'-0.25 t");
    EXPECT_EQ(write::csv_cell("a\nb"), "\"a\nb\"");
}

} // namespace
} // namespace quartercut
