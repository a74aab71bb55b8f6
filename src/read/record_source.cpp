// SPDX-License-Identifier: MIT
// What all sources of records share: choosing the reader, and filling columns cell by cell.
#include "read/record_source.hpp"

#include "base/text.hpp"
#include "read/cells.hpp"
#include "read/gdal_access.hpp"
#include "read/task_data.hpp"

#include <limits>

namespace quartercut::reading {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

} // namespace

std::unique_ptr<RecordSource> open_records(const FoundFile& file, const std::string& layer) {
    if (is_task_data(file)) return task_records(file);
    return is_text_table(file) ? text_records(file) : layer_records(file, layer);
}

ColumnFiller::ColumnFiller(LoadedColumn& column, const Wanted& wanted, bool decimal_comma)
    : column_(&column), wanted_(wanted), decimal_comma_(decimal_comma) {}

void ColumnFiller::add_missing() {
    if (wanted_.how == How::text)
        column_->texts.codes.push_back(-1);
    else
        column_->numbers.push_back(nothing);
}

void ColumnFiller::add_number(double value) {
    const bool marked = value == missing_number;
    column_->marked_missing += marked ? 1U : 0U;
    column_->numbers.push_back(marked ? nothing : value);
}

void ColumnFiller::add_moment(double seconds, bool zoned) {
    ++(zoned ? column_->zoned : column_->zoneless);
    column_->numbers.push_back(seconds);
}

void ColumnFiller::add_word(std::string_view word) {
    TextColumn& texts = column_->texts;
    if (last_code_ >= 0 && texts.words[static_cast<std::size_t>(last_code_)] == word) {
        texts.codes.push_back(last_code_);
        return;
    }
    const auto known = codes_.find(word);
    if (known != codes_.end()) {
        last_code_ = known->second;
    } else {
        last_code_ = static_cast<std::int32_t>(texts.words.size());
        codes_.emplace(word, last_code_);
        texts.words.emplace_back(word);
    }
    texts.codes.push_back(last_code_);
}

void ColumnFiller::add_unreadable(std::string_view cell) {
    if (column_->unreadable++ == 0) {
        column_->first_unreadable = shown_cell(cell);
        column_->first_unreadable_row = column_->numbers.size() + 1;
    }
    column_->numbers.push_back(nothing);
}

std::optional<double> ColumnFiller::value_of(std::string_view cell) {
    if (wanted_.how == How::day) return parse_day(cell, wanted_.order);
    if (wanted_.how == How::clock) return parse_clock(cell);
    return cell_number(cell, decimal_comma_);
}

void ColumnFiller::add(std::string_view cell) {
    if (wanted_.how == How::text) {
        const std::string_view word = trim(cell);
        if (is_missing(word))
            add_missing();
        else
            add_word(word);
        return;
    }
    if (wanted_.how == How::moment) {
        const auto moment = parse_moment(cell, wanted_.order);
        if (moment) return add_moment(moment->seconds, moment->zoned);
    } else if (const auto value = value_of(cell)) {
        return add_number(*value);
    }
    if (is_missing(cell))
        add_missing();
    else
        add_unreadable(cell);
}

} // namespace quartercut::reading
