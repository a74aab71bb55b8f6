// SPDX-License-Identifier: MIT
// Looking at the beginning of a text file to learn how it is written.
#include "read/text_table.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "quartercut/units.hpp"
#include "read/cells.hpp"
#include "read/encoding.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstring>
#include <fmt/format.h>
#include <set>

namespace quartercut::reading {
namespace {

constexpr std::size_t lines_looked_at = 40;
constexpr std::array<char, 4> separators{',', ';', '\t', '|'};

bool is_number_of_any_kind(std::string_view cell) {
    const std::string plain = unquoted(cell);
    return cell_number(plain).has_value() || cell_number(plain, true).has_value();
}

/// "12,5", not "12.5" and not "1,234.5".
bool has_decimal_comma(std::string_view cell) {
    return cell.find(',') != std::string_view::npos && cell.find('.') == std::string_view::npos &&
           cell_number(cell, true).has_value();
}

bool is_decimal_point(std::string_view cell) {
    return cell.find('.') != std::string_view::npos && cell_number(cell).has_value();
}

/// A unit of any kind, with or without brackets around it.
bool is_unit(std::string_view cell) {
    std::string plain = unquoted(cell);
    if (plain.size() > 2 && (plain.front() == '(' || plain.front() == '[')) plain = plain.substr(1, plain.size() - 2);
    for (const Dimension dimension : {Dimension::length, Dimension::mass, Dimension::mass_flow, Dimension::speed,
                                      Dimension::duration, Dimension::yield, Dimension::moisture, Dimension::angle})
        if (unit_factor(dimension, plain, 60.0)) return true;
    return false;
}

/// How many rows of the beginning have as many cells as the most common count, and that count.
struct Regularity {
    std::size_t rows = 0, cells = 0;
};

Regularity regularity(std::string_view text, char separator) {
    RowWalker walker(text, separator);
    std::vector<std::string_view> cells;
    std::vector<std::size_t> counts;
    while (counts.size() < lines_looked_at && walker.next(cells))
        counts.push_back(cells.size());
    Regularity best;
    for (const std::size_t count : counts) {
        const auto rows = static_cast<std::size_t>(std::count(counts.begin(), counts.end(), count));
        if (count > 1 && (rows > best.rows || (rows == best.rows && count > best.cells))) best = {rows, count};
    }
    return best;
}

} // namespace

std::size_t RowWalker::end_of_quoted(std::size_t at) {
    // `at` is the opening mark; a doubled mark inside stands for itself.
    for (std::size_t i = at + 1; i < text_.size(); ++i) {
        if (text_[i] == '\n') ++lines_in_quotes_;
        if (text_[i] != '"') continue;
        if (i + 1 < text_.size() && text_[i + 1] == '"') {
            ++i;
            continue;
        }
        return i + 1;
    }
    unclosed_ = true;
    return text_.size();
}

bool RowWalker::next(std::vector<std::string_view>& cells) {
    while (at_ < text_.size()) {
        cells.clear();
        lines_in_quotes_ = 0;
        std::size_t start = at_;
        bool ended = false;
        while (!ended) {
            std::size_t stop = start;
            if (stop < text_.size() && text_[stop] == '"') stop = end_of_quoted(stop);
            while (stop < text_.size() && text_[stop] != separator_ && text_[stop] != '\n' && text_[stop] != '\r')
                ++stop;
            cells.push_back(text_.substr(start, stop - start));
            ended = stop >= text_.size() || text_[stop] != separator_;
            start = stop + 1;
        }
        if (start - 1 < text_.size() && text_[start - 1] == '\r' && start < text_.size() && text_[start] == '\n')
            ++start;
        at_ = std::min(start, text_.size());
        if (cells.size() > 1 || !trim(cells.front()).empty()) return true;
    }
    return false;
}

void check_quotes(const RowWalker& walker, const std::string& shown, std::size_t row) {
    constexpr std::size_t most_lines = 8; // no note in a table of records or loads is longer (judgement)
    if (!walker.unclosed() && walker.lines_in_quotes() <= most_lines) return;
    const std::string where = row == 0 ? "the column names" : fmt::format("row {}", row);
    throw InputError(fmt::format("{}, {}: a quotation mark (\") opens a cell there that {}. Close it, or take the "
                                 "mark out.",
                                 shown, where,
                                 walker.unclosed() ? "is never closed"
                                                   : fmt::format("runs over {} lines", walker.lines_in_quotes() + 1)));
}

TextTable::TextTable(const FoundFile& file) : shown_(file.shown), file_(std::in_place, file.path, file.shown) {
    text_ = file_->bytes();
    look();
}

TextTable::TextTable(std::string text, std::string shown)
    : shown_(std::move(shown)), own_text_(std::make_unique<const std::string>(std::move(text))) {
    text_ = *own_text_;
    look();
}

void TextTable::remark(std::string code, std::string message) {
    issues_.push_back({std::move(code), Severity::note, shown_, std::move(message)});
}

void TextTable::look() {
    if (trim(text_).empty()) throw InputError(fmt::format("{}: the file is empty.", shown_));
    const Encoding encoding = encoding_of(text_);
    if (encoding == Encoding::utf16)
        throw InputError(
            fmt::format("{}: the file is UTF-16 text or no text at all. Save it as CSV in UTF-8.", shown_));
    if (encoding == Encoding::windows_1252) {
        auto converted = std::make_unique<const std::string>(utf8_from_windows_1252(text_));
        text_ = *converted;
        own_text_ = std::move(converted);
        remark("encoding", spoken().read.encoding);
    }
    if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);
    find_separator();
    find_header();
    find_units_row();
    find_decimal_sign();
}

void TextTable::find_separator() {
    Regularity best;
    for (const char candidate : separators) {
        const Regularity found = regularity(text_, candidate);
        // A decimal comma makes commas regular too, so the separator with more regular rows wins, then with more cells.
        if (found.rows > best.rows || (found.rows == best.rows && found.cells > best.cells)) {
            best = found;
            separator_ = candidate;
        }
    }
    const Regularity semicolons = regularity(text_, ';');
    if (separator_ == ',' && semicolons.rows >= 2 && semicolons.cells >= 2) {
        const std::string_view first_line = text_.substr(0, text_.find('\n'));
        if (std::count(first_line.begin(), first_line.end(), ';') >
            std::count(first_line.begin(), first_line.end(), ','))
            separator_ = ';';
    }
}

void TextTable::find_header() {
    RowWalker walker(text_, separator_);
    std::vector<std::string_view> header, cells;
    walker.next(header);
    check_quotes(walker, shown_, 0);
    const std::size_t header_end = walker.position();
    const auto numbers = static_cast<std::size_t>(std::count_if(header.begin(), header.end(), is_number_of_any_kind));
    if (numbers * 2 > header.size())
        throw InputError(fmt::format("{}: the first line holds numbers, not column names. Put a line with the names of "
                                     "the columns above it.",
                                     shown_));
    const std::size_t usual = regularity(text_, separator_).cells;
    std::size_t line = 1;
    while (header.size() < usual && line < lines_looked_at && walker.next(cells)) {
        ++line;
        if (cells.size() != usual) continue;
        const auto numeric = static_cast<std::size_t>(std::count_if(cells.begin(), cells.end(), is_number_of_any_kind));
        if (line == 2 && header.size() > 1 && numeric * 2 > cells.size())
            throw InputError(
                fmt::format("{}: the rows hold {} cells, but there are {} column names. If the numbers have a "
                            "decimal comma, save the file with semicolons between the cells.",
                            shown_, cells.size(), header.size()));
        throw InputError(fmt::format("{}: the table seems to begin at line {}, and what stands above it is no header. "
                                     "Delete the lines above the column names.",
                                     shown_, line));
    }
    body_ = text_.substr(header_end);
    name_columns(header);
}

void TextTable::name_columns(const std::vector<std::string_view>& header) {
    std::set<std::string> taken;
    for (const std::string_view cell : header) {
        std::string name(trim(unquoted(cell)));
        std::replace(name.begin(), name.end(), '\n', ' ');
        if (name.empty()) name = fmt::format("column_{}", names_.size() + 1);
        std::string unique = name;
        for (int n = 2; taken.count(unique) > 0; ++n)
            unique = fmt::format("{}_{}", name, n);
        if (unique != name)
            remark("repeated-column",
                   fill(spoken().read.repeated_column, fmt::arg("column", name), fmt::arg("called", unique)));
        taken.insert(unique);
        originals_.push_back(std::move(name));
        names_.push_back(std::move(unique));
    }
    if (names_.size() > 1 && names_.back() == fmt::format("column_{}", names_.size()) &&
        trim(header.back()).empty()) { // a separator at the end of every line names no column
        names_.pop_back();
        originals_.pop_back();
    }
}

void TextTable::find_units_row() {
    RowWalker walker(body_, separator_);
    std::vector<std::string_view> cells, below;
    if (!walker.next(cells)) return;
    const std::size_t end = walker.position();
    const bool numbers = std::any_of(cells.begin(), cells.end(), is_number_of_any_kind);
    const auto units = std::count_if(cells.begin(), cells.end(), [](std::string_view cell) { return is_unit(cell); });
    if (numbers || units < 1 || !walker.next(below)) return;
    if (std::none_of(below.begin(), below.end(), is_number_of_any_kind)) return;
    for (const std::string_view cell : cells) {
        std::string unit = unquoted(cell);
        if (unit.size() > 2 && (unit.front() == '(' || unit.front() == '[')) unit = unit.substr(1, unit.size() - 2);
        units_.push_back(std::move(unit));
    }
    units_.resize(names_.size());
    body_.remove_prefix(end);
    remark("units-row", spoken().read.units_row);
}

void TextTable::find_decimal_sign() {
    RowWalker walker(body_, separator_);
    std::vector<std::string_view> cells;
    std::size_t commas = 0, points = 0;
    for (std::size_t row = 0; row < 200 && walker.next(cells); ++row) {
        for (const std::string_view cell : cells) {
            if (cell.find_first_of(",.") == std::string_view::npos) continue;
            const std::string plain = unquoted(cell);
            commas += has_decimal_comma(plain) ? 1U : 0U;
            points += is_decimal_point(plain) ? 1U : 0U;
        }
    }
    decimal_comma_ = commas > points;
    if (decimal_comma_) remark("decimal-comma", spoken().read.decimal_comma);
}

std::vector<std::string> TextTable::sample(std::size_t column, std::size_t most) const {
    std::vector<std::string> out;
    RowWalker walker = rows();
    std::vector<std::string_view> cells;
    for (std::size_t row = 0; row < 10 * most && out.size() < most && walker.next(cells); ++row)
        if (column < cells.size() && !is_missing(unquoted(cells[column]))) out.push_back(unquoted(cells[column]));
    return out;
}

} // namespace quartercut::reading
