// SPDX-License-Identifier: MIT
// What the room read says of the files: a part of words.hpp, apart for its length.
#pragma once

namespace quartercut {

struct ReadWords {
    const char* column_taken = "The column '{column}' was taken as the fields' names.";
    const char* no_outline = "The row holds no polygon and was passed over.";
    const char* crs_of_file = "The file says its coordinate system itself ({file_crs}); the crs \"{season_crs}\" of "
                              "the season file was not used for it.";
    const char* crs_taken =
        "The columns are named longitude and latitude and hold such numbers; they were taken as WGS 84.";
    const char* datum = "The coordinates are on {datum}; turning them into WGS 84 may shift them by a metre or two "
                        "against data recorded on WGS 84.";
    const char* another_datum = "another datum";
    const char* field_joined = "Rows {rows} of {file} have this name and were joined into one field.";
    const char* field_pieces = "{pieces} separate pieces share the name '{field}' (rows {rows}) and were taken as one "
                               "field; if they are fields of their own, give each its name.";
    const char* overlap =
        "rows {row} and {other_row} ('{field}' and '{other}') overlap by {pct} % of the smaller, around {x}, {y}";
    const char* fields_overlap =
        "In {file} {overlap}. Records there belong to '{field}', the first; mend the boundaries.";
    const char* legal_area =
        "The boundary holds {acres} ac, more than {legal} can ({most} ac). Is the legal description right?";
    const char* legal_description = "The legal description '{legal}' is not understood and stays a mere label: {why}";
    const char* value_impossible = "{values} of column '{column}' ({meaning}) cannot be (row {row}: {value} first) and "
                                   "were taken as not recorded.";
    const char* time_impossible = "{times} before 1980 or after 2200, row {row} first, were taken as not recorded: the "
                                  "receiver did not know the time yet.";
    const char* machines_by_file = "The records of {files} name no machine, and some stand far apart at the same time, "
                                   "so each file was taken for a machine of its own, called by the file's name. Where "
                                   "several are of one machine, add a column machine to them.";
    const char* crs_of_season = "Its coordinate system is {crs}, as the season file says of this file.";
    const char* machine_not_named =
        "{file} names no machine: its records are taken as machine '{machine}'. If another "
        "file's machine cut them, add a column with its name, or name the column that holds "
        "it under [points.columns], machine.";
    const char* method_spelling = "'{found}' was taken as the method '{method}'.";
    const char* field_without_method =
        "The field '{field}' has no value in column '{column}' and belongs to no method.";
    const char* area_without_method = "The area has no value in column '{column}' and belongs to no method.";
    const char* yield_times_flow = "the yields in column {column} are {times} times those that follow from {from}";
    const char* yield_against_flow = "Beware: {what}. The grain flow was used.";
    const char* wet_or_dry =
        "Nothing says whether column '{column}' is wet or dry; against the grain flow it is {found}.";
    const char* yield_unsaid = "Column '{column}' (yield) does not say whether it is wet or dry and was not used; the "
                               "grain flow gives the mass.";
    const char* only_rain = "no column was recognised as gust (gust_km_h); only rain is listed. Columns: {columns}.";
    const char* only_gust = "no column was recognised as rain (rain_mm); only gust is listed. Columns: {columns}.";
    const char* mended = "The outline {what}; it was mended, which changed its area by {pct} %.";
    const char* crumbs = "{parts} too small to matter left out.";
    const char* raster_classes = "Many cells share one number, so there are {classes} classes instead of {wanted}.";
    const char* unit_contradicts =
        "The season file says {unit} for column '{column}', its name says {named}; the season file was followed.";
    const char* same_twice = "{columns} hold the same values; '{column}' was taken as the {meaning}.";
    const char* in_season_file = "named in the season file";
    const char* under_methods = "named under [methods]";
    const char* unit_taken = "Column '{column}' ({meaning}) states no unit; {unit} was taken.";
    const char* several_yields =
        "Several columns could be the yield ({columns}); none was used, the grain flow gives the mass.";
    const char* yield_without_unit =
        "Column '{column}' (yield) states no unit and was not used; the grain flow gives the mass.";
    const char* cells_unreadable =
        "{cells} of column '{column}' cannot be read (row {row}: '{cell}' first) and were taken as not recorded.";
    const char* marked_missing = "{cells} of column '{column}' hold -9999 and were taken as not recorded.";
    const char* no_place = "{records} without a place left out, row {row} first.";
    const char* header_unclear = "Column '{column}' seems to tell whether the header is raised, but not by which value "
                                 "({values}); it was not used. To use it, add under [points.columns]:  {line}";
    const char* order_unsure = "The records have no times, and this format may have sorted them by place: passes may "
                               "be torn apart. Export them with times, or in another format.";
    const char* no_time_zone =
        "The times state no zone and were taken as UTC; add time_zone = \"-06:00\" under [points] for local times.";
    const char* no_stratum = "The area has no value in column '{column}' and is no stratum.";
    const char* rows_too_long = "{rows} with more cells than columns passed over, row {row} first.";
    const char* rows_too_short =
        "{rows} with fewer cells than columns, row {row} first; what is missing there was taken as not recorded.";
    const char* encoding = "The text is not UTF-8 and was read as Windows-1252.";
    const char* repeated_column =
        "The column name '{column}' stands there more than once; the later one is called '{called}' here.";
    const char* units_row = "The row under the column names holds units; it was taken as such and is no record.";
    const char* decimal_comma = "The numbers are written with a decimal comma and were read so.";
    const char* records_without_time =
        "{without} of {records} records have no time and belong to no load of {tickets}, which finds them by start and "
        "end; their grain is missing from the loads.";
    const char* day_only =
        "Column '{column}' tells the day but not the time of the day; the records were read without times.";
    const char* no_times =
        "Column '{column}' holds {example}, which is no time; the records were read without times. Known are {known}.";
    const char* date_and_time = "Times were put together from the columns '{column}' and '{other}'.";
    const char* gps_seconds = "The numbers in column '{column}' give a time in {year} only as seconds since 1980-01-06 "
                              "(GPS), and were taken so.";
    const char* week_seconds = "The numbers in column '{column}' tell the second of a week but not the week: good for "
                               "the order of the records, not for tickets.";
    const char* numbers_no_times = "the numbers in column '{column}' are no times. Known are {known}.";
    const char* read_without_times = "The records were read without times: {why}";
    // counts
    const char* value_one = "{count} value";
    const char* value_many = "{count} values";
    const char* time_one = "{count} time";
    const char* time_many = "{count} times";
    const char* cell_one = "{count} cell";
    const char* cell_many = "{count} cells";
    const char* record_one = "{count} record";
    const char* record_many = "{count} records";
    const char* row_one = "{count} row";
    const char* row_many = "{count} rows";
    const char* part_one = "{count} part";
    const char* part_many = "{count} parts";
    const char* last_of_list = " and ";
    // why a column was taken for what it is
    const char* column_meaning = "{meaning}: '{column}' ({reason})";
    const char* column_meaning_unit = "{meaning}: '{column}' in {unit} ({reason})";
    const char* its_name = "its name";
    const char* name_holds = "its name holds '{phrase}' ({points} points)";
    const char* and_unit = "{reason} and the unit {unit}";
    const char* and_unit_below = "{reason} and the unit {unit}, which stands in the row under it";
    const char* and_word = "{reason} and the word {word}";
    // what is wrong with an outline
    const char* is_broken = "is broken";
    const char* crosses_itself = "crosses itself";
    const char* hole_outside = "has a hole outside it";
    const char* parts_within_parts = "has parts within parts";
    const char* at_place = "{what} at {place}";
};

} // namespace quartercut
