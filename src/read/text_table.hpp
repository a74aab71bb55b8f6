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
    /// Line ends inside quoted cells of the row last returned.
    [[nodiscard]] std::size_t lines_in_quotes() const { return lines_in_quotes_; }
    /// The text ended within quotation marks.
    [[nodiscard]] bool unclosed() const { return unclosed_; }

private:
    [[nodiscard]] std::size_t end_of_quoted(std::size_t at);
    std::string_view text_;
    char separator_;
    std::size_t at_ = 0, lines_in_quotes_ = 0;
    bool unclosed_ = false;
};

/// \param row  as counted in messages; 0: the column names
/// \throws InputError  the row last returned runs on because a quotation mark was never closed
void check_quotes(const RowWalker& walker, const std::string& shown, std::size_t row);

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
    /// The same as they stand in the file: repeated names are alike.
    [[nodiscard]] const std::vector<std::string>& originals() const { return originals_; }
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
    std::vector<std::string> names_, originals_, units_;
    Issues issues_;
};

} // namespace quartercut::reading
