// SPDX-License-Identifier: MIT
// What the steps of this room hand to each other: a field under construction and its records' place in the raw files.
//
// The steps in order: land (boundaries, method areas, strata) -> placing (records to fields) -> columns (SI numbers) ->
// methods -> timing (order, durations, distances) -> widths -> masses.
#pragma once

#include "quartercut/standardise.hpp"

#include <cstdint>
#include <limits>
#include <string>
#include <vector>

namespace quartercut::standardise_room {

inline constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// A field being built, with logged numbers that later rooms do not need. The vectors run along field.records.
struct FieldWork {
    StandardField field;
    MultiPolygon boundary_deg;        ///< or local metres
    std::vector<std::uint32_t> file;  ///< index into Raw::records
    std::vector<std::uint32_t> place; ///< index of the record in that file's vectors; empty once the columns are filled
    std::vector<double> flow_kg_s;    ///< NaN: no reading
    std::vector<double> yield_kg_m2;  ///< as logged; NaN: no reading
    std::vector<double> logged_width_m; ///< NaN: not logged
};

using Fields = std::vector<FieldWork>;

/// Columns of a file by meaning, or nullptr.
[[nodiscard]] const NumberColumn* number_column(const RawRecords& file, Meaning meaning);
[[nodiscard]] const TextColumn* text_column(const RawRecords& file, Meaning meaning);

/// "yield/north.csv", with the layer where there is one.
[[nodiscard]] std::string file_text(const Raw& raw, const RawRecords& file);

// land.cpp -------------------------------------------------------------------------------------------------------
/// Frames, boundaries, areas and attributes; rows with one name are one field.
[[nodiscard]] Fields lay_out_fields(const Season& season, const Raw& raw, Issues& issues);
/// Where something lies, for messages: "longitude -112.00000 to ..., latitude ...".
[[nodiscard]] std::string extent_text(const Box& box, bool local_metres);
/// Makes `box` hold `other` too.
void grow(Box& box, const Box& other);
/// Method areas and strata near each field, in its frame. \throws DataError  no method area meets any field
void add_areas(const Season& season, const Raw& raw, Fields& fields);

// placing.cpp ----------------------------------------------------------------------------------------------------
/// Puts every record into the field it lies in: fills x_m, y_m, off_field, file and place of each field's records.
/// \returns how many records lie in no field
[[nodiscard]] std::size_t place_records(const Raw& raw, Fields& fields, Issues& issues);

// columns.cpp ----------------------------------------------------------------------------------------------------
/// Fills the numbers in SI, the machines and the loads, and the methods where they come from the records.
/// \throws InputError  a unit that is not known
void fill_columns(const Season& season, const Raw& raw, Standardised& result, Fields& fields);

// methods.cpp ----------------------------------------------------------------------------------------------------
/// Code of the method a value stands for. \throws DataError naming the value, the place and the nearest method
[[nodiscard]] std::int32_t method_of_value(const Season& season, const std::string& value, const std::string& where);
/// The method of every word of the method column, per file, for methods taken from the records; else empty.
/// \throws DataError  a file lacks the column
[[nodiscard]] std::vector<std::vector<std::int32_t>> method_words(const Season& season, const Raw& raw);
/// Fills method and area of the field's records, unless the methods come from the records.
void assign_methods(const Season& season, FieldWork& work);

// timing.cpp -----------------------------------------------------------------------------------------------------
/// Sorts the field's records by machine, then time.
void sort_records(FieldWork& work);
/// Fills durations, distances and speeds that were not logged from those that were.
void fill_motion(FieldWork& work);

// widths.cpp -----------------------------------------------------------------------------------------------------
/// Width of land each record stands for; remarks where it is not the logged one.
/// \throws DataError  a method with records has neither a logged width nor a cut width
void fill_widths(const Season& season, const std::vector<std::string>& machines, Fields& fields, Issues& issues);

// masses.cpp -----------------------------------------------------------------------------------------------------
/// Refuses moisture that cannot be meant and wet masses without moisture. \throws DataError
void check_moisture(const Season& season, const Raw& raw);
/// Mass and logged yield of every record, then the plain means.
void fill_masses(const Season& season, const Raw& raw, FieldWork& work);

// twins.cpp ------------------------------------------------------------------------------------------------------
/// Remarks records that stand in two files. \throws DataError  they would count twice
void check_twins(const std::vector<StandardField>& fields, const std::vector<InputFile>& inputs, Issues& issues);

} // namespace quartercut::standardise_room
