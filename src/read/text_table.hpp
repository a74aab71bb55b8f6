// SPDX-License-Identifier: MIT
// A CSV, TSV or other delimited text file: which separator, which decimal sign, which encoding, where the header is.
//
// Own reader rather than GDAL's driver: it knows words for "nothing", a units row and decimal commas, and reads
// millions of rows a second (tests/bench/read_bench.cpp measures it beside the driver).
#pragma once

#include "read/context.hpp"
#include "read/input_files.hpp"
#include "read/mapped_file.hpp"

#include <memory>
#include <optional>
#include <string_view>

namespace quartercut::reading {

/// Walks through rows of cells. Quoted cells may hold separators and line ends; blank lines are passed over.
class RowWalker {
public:
    RowWalker(std::string_view text, char separator) : text_(text), separator_(separator) {}
    /// Fills `cells` with the raw cells of the next row (quotation marks still on). \returns false at the end
    bool next(std::vector<std::string_view>& cells);
    [[nodiscard]] std::size_t position() const { return at_; }

private:
    [[nodiscard]] std::size_t end_of_quoted(std::size_t at) const;
    std::string_view text_;
    char separator_;
    std::size_t at_ = 0;
};

class TextTable {
public:
    /// Opens and looks at the beginning of the file.
    /// \throws InputError  empty file, UTF-16, no header row, lines before the header
    explicit TextTable(const FoundFile& file);
    /// The same from memory, for tests and fuzzing.
    TextTable(std::string text, std::string shown);

    [[nodiscard]] const std::string& shown() const { return shown_; }
    /// Column names, unique: a repeated name gets `_2`, an empty one becomes `column_5`.
    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }
    /// Cells of a units row under the header; empty when there is none.
    [[nodiscard]] const std::vector<std::string>& units() const { return units_; }
    [[nodiscard]] bool decimal_comma() const { return decimal_comma_; }
    [[nodiscard]] char separator() const { return separator_; }
    /// Remarks to pass on: renamed columns, skipped units row, encoding.
    [[nodiscard]] const Issues& issues() const { return issues_; }
    /// Rows after the header (and the units row).
    [[nodiscard]] RowWalker rows() const { return {body_, separator_}; }
    /// The first values of a column that are not missing, unquoted.
    [[nodiscard]] std::vector<std::string> sample(std::size_t column, std::size_t most = 200) const;

private:
    void look();
    void find_separator();
    void find_header();
    void name_columns(const std::vector<std::string_view>& header);
    void find_units_row();
    void find_decimal_sign();
    void remark(std::string code, std::string message);

    std::string shown_;
    std::optional<MappedFile> file_;
    std::unique_ptr<const std::string> own_text_; ///< on the heap: views into it survive a move
    std::string_view text_, body_;
    char separator_ = ',';
    bool decimal_comma_ = false;
    std::vector<std::string> names_, units_;
    Issues issues_;
};

} // namespace quartercut::reading
