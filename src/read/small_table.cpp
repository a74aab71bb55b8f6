// SPDX-License-Identifier: MIT
#include "read/small_table.hpp"

#include "base/text.hpp"
#include "read/cells.hpp"
#include "read/header_name.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::reading {
namespace {

FoundFile the_file(const Season& season, const std::string& file, const std::string& wanted_for) {
    std::vector<FoundFile> found = find_files(season, file, wanted_for);
    if (found.size() > 1) throw InputError(fmt::format("{}: several files match; one is wanted.", file));
    return found.front();
}

bool any_word(const HeaderName& name, std::string_view list) {
    return std::any_of(name.words.begin(), name.words.end(), [list](const std::string& word) {
        return list.find(" " + word + " ") != std::string_view::npos;
    });
}

Issue cells_missing(const std::string& shown, const std::vector<std::size_t>& rows, std::size_t columns) {
    return {"short-rows", Severity::warning, shown,
            fmt::format("{} fewer cells than the {} columns; what is missing is taken as empty. Was the file cut off?",
                        rows.size() == 1 ? fmt::format("row {} has", rows.front())
                                         : fmt::format("{} rows (the first is row {}) have", rows.size(), rows.front()),
                        columns)};
}

} // namespace

SmallTable::SmallTable(const Season& season, const std::string& file, const std::string& wanted_for)
    : file_(the_file(season, file, wanted_for)) {
    const TextTable table(file_);
    shown_ = table.shown();
    names_ = table.names();
    decimal_comma_ = table.decimal_comma();
    issues_ = table.issues();
    RowWalker walker = table.rows();
    std::vector<std::string_view> cells;
    std::vector<std::size_t> short_rows;
    while (walker.next(cells)) {
        check_quotes(walker, shown_, rows_.size() + 1);
        std::vector<std::string> row;
        for (const std::string_view cell : cells) {
            const std::string text(trim(unquoted(cell)));
            row.push_back(is_missing(text) ? "" : text);
        }
        if (row.size() > names_.size() && !row.back().empty())
            throw DataError(fmt::format("{}, row {}: the row holds {} cells, but there are {} column names.", shown_,
                                        rows_.size() + 1, row.size(), names_.size()));
        if (row.size() < names_.size()) short_rows.push_back(rows_.size() + 1);
        row.resize(names_.size());
        rows_.push_back(std::move(row));
    }
    if (!short_rows.empty()) issues_.push_back(cells_missing(shown_, short_rows, names_.size()));
    if (rows_.empty()) throw InputError(fmt::format("{}: there is no row below the column names.", shown_));
}

std::optional<std::size_t> SmallTable::find(std::string_view words, std::string_view not_words) const {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < names_.size(); ++i) {
        const HeaderName name = taken_apart(names_[i]);
        if (!any_word(name, words) || any_word(name, not_words)) continue;
        if (found)
            throw InputError(
                fmt::format("{}: the columns '{}' and '{}' both fit; rename one.", shown_, names_[*found], names_[i]));
        found = i;
    }
    return found;
}

std::size_t SmallTable::need(std::string_view words, const std::string& what, std::string_view not_words) const {
    const auto found = find(words, not_words);
    if (!found)
        throw InputError(fmt::format("{}: no column was recognised as {}. Columns: {}.", shown_, what, listed(names_)));
    return *found;
}

double SmallTable::factor(std::size_t column, Dimension dimension, const std::string& example) const {
    const auto unit = unit_in_name(taken_apart(names_[column]), dimension, std::nullopt);
    const auto value = unit ? unit_factor(dimension, unit->unit) : std::nullopt;
    if (!value)
        throw InputError(fmt::format("{}: the unit of column '{}' is not said. Name it with its unit, such as {}.",
                                     shown_, names_[column], example));
    return *value;
}

std::string SmallTable::text(std::size_t row, std::optional<std::size_t> column) const {
    return column ? rows_[row][*column] : std::string();
}

std::optional<double> SmallTable::number(std::size_t row, std::optional<std::size_t> column) const {
    const std::string cell = text(row, column);
    if (cell.empty()) return std::nullopt;
    const auto value = cell_number(cell, decimal_comma_);
    if (!value) refuse(row, *column, fmt::format("'{}' is no number.", shown_cell(cell)));
    return value;
}

void SmallTable::refuse(std::size_t row, std::size_t column, const std::string& words) const {
    throw DataError(fmt::format("{}, row {}, column '{}': {}", shown_, row + 1, names_[column], words));
}

} // namespace quartercut::reading
