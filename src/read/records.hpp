// SPDX-License-Identifier: MIT
// Files of records -> RawRecords: columns found, units settled, places in degrees, times in seconds.
#pragma once

#include "read/recognise.hpp"
#include "read/record_source.hpp"

namespace quartercut::reading {

/// Everything [points] names. \throws InputError, DataError
void read_records(Context& context);

struct RecordsRead {
    RawRecords records;   ///< without `input`
    std::size_t rows = 0; ///< of the file, records without a place included
};

/// One source. Used by read_records and by the fuzzer.
[[nodiscard]] RecordsRead records_of(Context& context, RecordSource& source,
                                     const std::vector<std::string>& names_elsewhere);

/// Seconds of every record, by whatever the file has: one column, date and clock, GPS week. Empty when it has none.
/// Adds to `wanted` what must be loaded; `finish` makes the times once it is.
class TimePlan {
public:
    /// \throws InputError  mapped column that holds no times, dates whose order cannot be told
    TimePlan(Context& context, const RecordSource& source, const Recognised& found, std::vector<Wanted>& wanted);
    [[nodiscard]] std::vector<double> finish(Context& context, Loaded& loaded) const;

private:
    enum class Kind { none, moments, numbers, date_and_clock, date_and_number };
    std::size_t add(std::vector<Wanted>& wanted, std::size_t column, How how) const;
    void plan_split(Context& context, const RecordSource& source, const Recognised& found, std::vector<Wanted>& wanted);
    void plan_numbers(const Context& context, const RecordSource& source, const Recognised& found,
                      std::vector<Wanted>& wanted);
    [[nodiscard]] std::vector<double> from_numbers(Context& context, std::vector<double> values) const;
    std::string shown_, column_name_;        ///< column_name_: of the slot first_
    std::optional<std::string> second_name_; ///< of the slot second_, where there is one
    bool mapped_ = false;
    Kind kind_ = Kind::none;
    std::size_t first_ = 0, second_ = 0; ///< slots in Loaded::columns
    std::optional<std::size_t> week_slot_;
};

/// Cells that hold something else than what is wanted: a few are told with their row, many are refused.
/// \param called  what is wanted, in messages: "numbers", "times"
void judge_cells(Context& context, const std::string& shown, const std::string& name, const LoadedColumn& column,
                 const char* called);

/// Numbers no machine can have measured, and moments before satellites told the time, become "no reading", counted.
/// \throws InputError  a column of which more than half cannot be
void drop_impossible(Context& context, const std::string& shown, RawRecords& records);

/// Files that name no machine and whose records stand at two places at one moment are machines of their own.
void name_machines_by_file(Context& context);

/// Units against each other and against what crops can yield; decides wet or dry where nothing says.
/// \throws InputError  a unit that cannot be
void check_physics(Context& context, const std::string& shown, RawRecords& records);

} // namespace quartercut::reading
