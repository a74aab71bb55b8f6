// SPDX-License-Identifier: MIT
// Files -> raw tables. The only room besides write/ that knows GDAL.
//
// Everything comes out in one frame: WGS 84 longitude/latitude in degrees (Raw::local_metres says otherwise), polygons
// repaired or refused, columns recognised by meaning with their unit beside them. No unit is changed and no record is
// judged here.
#pragma once

#include "quartercut/geometry.hpp"
#include "quartercut/issue.hpp"
#include "quartercut/season.hpp"

#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace quartercut {

/// One file that was read, for inputs.json.
struct InputFile {
    std::string path; ///< as the season file names it (relative)
    std::string role; ///< "season", "fields", "points", "methods", "strata", "tickets"
    std::string layer;
    std::uint64_t bytes = 0;
    std::string sha256;
    std::size_t rows = 0;
};

/// A polygon of a layer with its attributes as text.
struct RawArea {
    std::string name; ///< value of the naming column (field, method, stratum)
    MultiPolygon shape_deg;
    std::map<std::string, std::string> attributes; ///< column -> text, as found
    std::size_t row = 0;                           ///< 1-based row in the layer
    std::size_t table = 0;                         ///< strata: index into Season::strata_tables()
};

/// Numbers over the land: points, or the middles of a raster's cells. For fuzzy classes.
struct RawNumbers {
    std::string name; ///< file, and column or band
    std::size_t table = 0;
    std::vector<double> lon_deg, lat_deg, values;
};

/// Words of a text column, each stored once.
struct TextColumn {
    std::vector<std::string> words;
    std::vector<std::int32_t> codes; ///< index into words, -1 where empty; one per record
};

struct NumberColumn {
    std::string name;           ///< column in the file
    std::string unit;           ///< unit to convert from, never empty where the meaning has units
    std::string moisture;       ///< yield: "wet" or "dry"
    std::vector<double> values; ///< NaN where empty; one per record
};

/// The records of one file (or layer), in file order. Columns not found are absent from the maps.
struct RawRecords {
    std::size_t input = 0; ///< index into Raw::inputs
    std::vector<double> lon_deg, lat_deg;
    std::vector<double> time_s;              ///< seconds since 1970-01-01 UTC, NaN where unknown; empty: no times
    std::map<Meaning, NumberColumn> numbers; ///< yield flow moisture speed distance duration width heading
    std::map<Meaning, TextColumn> texts;     ///< machine header load method
    std::vector<std::uint8_t> header_up;     ///< 1 raised, 0 down; empty: not recorded
    std::vector<std::uint32_t> row;          ///< 1-based row in the file, where records without a place were left
                                             ///< out; empty: the index + 1
    [[nodiscard]] std::size_t size() const { return lon_deg.size(); }
};

/// A weighed load.
struct Ticket {
    std::string id;
    std::string field, machine, method, load; ///< empty where the column is absent or blank
    std::optional<double> start_s, end_s;     ///< time window, seconds since 1970-01-01 UTC
    double net_kg = 0.0;                      ///< gross less tare, dockage still in
    double moisture_pct = 0.0;
    double dockage_pct = 0.0; ///< to be taken off net_kg
    double unit_kg = 0.0;     ///< what the column of masses counts in, kg; 0: not known
    std::size_t row = 0;      ///< 1-based row in the file, header not counted
};

struct Raw {
    std::vector<RawArea> fields;
    std::vector<RawArea> method_areas; ///< empty unless methods come from polygons
    std::vector<RawArea> strata;       ///< empty unless strata come from polygons or a raster
    std::vector<RawNumbers> numbers;   ///< empty unless strata are fuzzy classes
    std::vector<RawRecords> records;
    std::vector<Ticket> tickets;
    std::vector<InputFile> inputs;
    bool local_metres = false; ///< coordinates are local metres, not degrees
    Issues issues;
};

/// Reads everything the season file names.
/// \throws InputError  missing file, layer or column; unknown unit; no CRS; empty layer; ambiguous columns; broken polygon
/// \throws DataError   a method area that names no method of the season file; a ticket with impossible numbers
[[nodiscard]] Raw read(const Season& season);

/// Boundaries, method areas and strata only, for land that nobody has harvested yet. \throws  as `read`
[[nodiscard]] Raw read_land(const Season& season);

/// The same for `check`: what would stop `read` stands among the issues with severity error, all of it rather than the
/// first. Where there is such an issue, the rest of what is returned is not to be used.
[[nodiscard]] Raw read_for_faults(const Season& season);

/// What a file nobody has described seems to hold: one layer of it, or the table it is.
struct LayerSketch {
    enum class Kind { polygons, points, tickets, table, unknown };
    Kind kind = Kind::unknown;
    std::string file, layer;
    std::string crs;      ///< as the file names it; empty when it says none
    std::size_t rows = 0; ///< 0 for tables: they are not read to their end
    std::vector<std::string> columns;
    std::map<Meaning, ColumnChoice> meanings; ///< columns recognised, with unit and wet/dry where the file says
    std::map<Meaning, std::string> reasons;   ///< why each was taken for what it is
    std::optional<int> year;                  ///< most of its times lie in
    bool times_state_zone = false;
    bool dates_unclear = false;                             ///< they could be day/month or month/day
    std::string dates;                                      ///< the one of the two they can only be; empty: not told
    std::map<std::string, std::vector<std::string>> values; ///< words found in columns that hold few of them
    std::string trouble;                                    ///< why it cannot be read, or which columns are open
};

/// Looks into a file, for the draft of a season file. Never throws for bad content: `trouble` says what is wrong.
[[nodiscard]] std::vector<LayerSketch> sketch_file(const std::filesystem::path& file);

/// The season with the records of an earlier year, ready to be read. Loads, strata and cut widths are of this year and
/// stay out: nothing says how the land was cut then, so a pass is as wide as the monitor logged. \pre season.history
[[nodiscard]] Season season_of_earlier_map(const Season& season, const std::string& map);

} // namespace quartercut
