// SPDX-License-Identifier: MIT
// A table small enough to hold: columns found by their words, cells with the row in every message.
#pragma once

#include "read/text_table.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quartercut::reading {

class SmallTable {
public:
    SmallTable(const Season& season, const std::string& file, const std::string& wanted_for);
    [[nodiscard]] const std::string& shown() const { return shown_; }
    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }
    [[nodiscard]] std::size_t size() const { return rows_.size(); }
    [[nodiscard]] const FoundFile& file() const { return file_; }
    [[nodiscard]] const Issues& issues() const { return issues_; }
    /// The column whose name holds one of the words (" a b c ") and none of the others.
    /// \throws InputError  several fit
    [[nodiscard]] std::optional<std::size_t> find(std::string_view words, std::string_view not_words = " ") const;
    /// The same, or stops saying what is wanted.
    [[nodiscard]] std::size_t need(std::string_view words, const std::string& what,
                                   std::string_view not_words = " ") const;
    /// Factor of the unit in the column's name. \throws InputError  the name states none
    [[nodiscard]] double factor(std::size_t column, Dimension dimension, const std::string& example) const;
    [[nodiscard]] std::string text(std::size_t row, std::optional<std::size_t> column) const;
    [[nodiscard]] std::optional<double> number(std::size_t row, std::optional<std::size_t> column) const;
    [[noreturn]] void refuse(std::size_t row, std::size_t column, const std::string& words) const;

private:
    FoundFile file_;
    std::string shown_;
    std::vector<std::string> names_;
    std::vector<std::vector<std::string>> rows_;
    bool decimal_comma_ = false;
    Issues issues_;
};

} // namespace quartercut::reading
