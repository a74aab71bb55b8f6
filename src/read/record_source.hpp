// SPDX-License-Identifier: MIT
// A file of records as columns, whatever its format: first a look at names and samples, then one pass that loads only
// what is wanted.
#pragma once

#include "read/context.hpp"
#include "read/crs.hpp"
#include "read/input_files.hpp"
#include "read/times.hpp"

#include <memory>

namespace quartercut::reading {

struct SourceColumn {
    std::string name;
    std::string unit_below;          ///< from a units row; empty otherwise
    bool is_time = false;            ///< the format itself says so
    std::vector<std::string> sample; ///< first values that are not missing, as text
    std::string original;            ///< name as it stands in the file, where several columns share one; else empty
    [[nodiscard]] const std::string& written() const { return original.empty() ? name : original; }
};

enum class How { number, text, moment, day, clock };

struct Wanted {
    std::size_t column = 0;
    How how = How::number;
    DateOrder order = DateOrder::year_first;
};

struct LoadedColumn {
    std::vector<double> numbers; ///< numbers, moments, days, clocks; NaN where missing
    TextColumn texts;
    std::size_t unreadable = 0; ///< cells that hold something else
    std::size_t first_unreadable_row = 0;
    std::string first_unreadable;
    std::size_t marked_missing = 0;      ///< -9999
    std::size_t zoned = 0, zoneless = 0; ///< moments
};

struct Loaded {
    std::size_t rows = 0;
    std::vector<LoadedColumn> columns; ///< one per Wanted
    std::vector<double> x, y;          ///< of the geometry; empty when the source has none
    Issues issues;
};

class RecordSource {
public:
    virtual ~RecordSource() = default;
    [[nodiscard]] const std::vector<SourceColumn>& columns() const { return columns_; }
    [[nodiscard]] const std::string& shown() const { return shown_; }
    [[nodiscard]] const std::string& layer() const { return layer_; }
    [[nodiscard]] bool has_geometry() const { return has_geometry_; }
    /// Says of the coordinate system what the file says.
    virtual void tell_crs(CrsFacts& facts) const = 0;
    [[nodiscard]] virtual Loaded load(const std::vector<Wanted>& wanted) = 0;
    /// Do rows come in the order they were recorded?
    [[nodiscard]] virtual bool keeps_order() const { return true; }
    /// Files that were read besides the one that was named.
    [[nodiscard]] virtual std::vector<FoundFile> more_files() const { return {}; }
    /// Remarks made while opening.
    [[nodiscard]] virtual Issues issues() const { return {}; }

protected:
    std::vector<SourceColumn> columns_;
    std::string shown_, layer_;
    bool has_geometry_ = false;
};

/// Opens a file of records. \throws InputError
[[nodiscard]] std::unique_ptr<RecordSource> open_records(const FoundFile& file, const std::string& layer);
/// A table already in memory, for tests and fuzzing.
[[nodiscard]] std::unique_ptr<RecordSource> text_records(std::string text, const std::string& shown);
[[nodiscard]] std::unique_ptr<RecordSource> text_records(const FoundFile& file);
[[nodiscard]] std::unique_ptr<RecordSource> layer_records(const FoundFile& file, const std::string& layer);

/// Puts cells of one column into its place, row after row.
class ColumnFiller {
public:
    ColumnFiller(LoadedColumn& column, const Wanted& wanted, bool decimal_comma);
    void add(std::string_view cell); ///< text as it stands in the file, unquoted
    void add_number(double value);   ///< a typed number; NaN: missing
    void add_moment(double seconds, bool zoned);
    void add_missing();

private:
    void add_word(std::string_view word);
    void add_unreadable(std::string_view cell);
    std::optional<double> value_of(std::string_view cell);
    LoadedColumn* column_;
    Wanted wanted_;
    bool decimal_comma_;
    std::int32_t last_code_ = -1;
    std::map<std::string, std::int32_t, std::less<>> codes_;
};

} // namespace quartercut::reading
