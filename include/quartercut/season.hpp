// SPDX-License-Identifier: MIT
// The season file: what the user says about the season, checked and with units resolved.
//
// `read_season` reads the TOML text; nothing else is opened. Every error says line and column; an unknown key names the
// nearest known one. Paths are kept relative to the season file and may hold `*`.
#pragma once

#include "quartercut/crop.hpp"
#include "quartercut/issue.hpp"
#include "quartercut/season_plan.hpp"
#include "quartercut/units.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace quartercut {

/// Line and column of a key in the season file, for messages of later rooms; 0 when the key was not written.
struct TextPlace {
    unsigned line = 0;
    unsigned column = 0;
};

/// What the records of a column mean. One entry of [points.columns].
enum class Meaning {
    yield,
    flow,
    moisture,
    speed,
    distance,
    duration,
    width,
    time,
    heading,
    machine,
    header,
    load,
    longitude,
    latitude,
    date,
    clock,
    method
};

/// "yield", "flow", ...: the key used under [points.columns].
[[nodiscard]] const char* meaning_word(Meaning meaning);
/// What its numbers are measured in, as [points.columns] takes it; nullopt for times and words.
[[nodiscard]] std::optional<Dimension> dimension_of(Meaning meaning);

struct ColumnChoice {
    std::string column;
    std::string unit;     ///< as written; empty when the column has none
    std::string moisture; ///< yield only: "wet", "dry" (already at the basis) or empty
    std::string up;       ///< header only: the value that means "raised"
    TextPlace place;
};

struct LayerInput {
    std::string file;  ///< relative to the season file's folder
    std::string layer; ///< empty: the only layer of the file
    std::string crs;   ///< empty: as the file says; "local metres" for local coordinates without a CRS
    TextPlace place;
};

struct FieldsInput : LayerInput {
    std::string name_column;                    ///< column that names a field
    std::map<std::string, std::string> columns; ///< meaning (legal, variety, seeded, ...) -> column
};

struct PointsInput {
    std::vector<std::string> files;
    std::string layer;
    std::string crs;
    std::map<std::string, std::string> crs_of; ///< file as matched -> its own crs, where files differ
    std::string time_zone;                     ///< e.g. "-06:00"; applies to times that state none
    std::string dates; ///< "day/month" or "month/day": of dates that do not tell themselves; empty: not said
    std::map<Meaning, ColumnChoice> columns;
    TextPlace place;
};

enum class MethodSource { polygons, points, fields };

struct MethodsInput : LayerInput {
    MethodSource source = MethodSource::polygons;
    std::string column;                        ///< column of the polygons, records or boundaries that names a method
    std::map<std::string, std::string> values; ///< value found -> method name; empty: values are the names
};

struct Method {
    std::string name;
    std::string label;                 ///< defaults to the name
    std::optional<double> cut_width_m; ///< width of land one pass (or one windrow) stands for
};

enum class StrataKind {
    polygons,
    raster,
    grid,
    hexagons,
    legal_subdivision,
    edge_and_interior,
    pass_direction,
    fuzzy_classes
};

/// A layer of numbers over the land that fuzzy classes are found from. A yield is of an earlier year, or it is refused:
/// classes of the yield being compared would be classes of the methods.
struct ClassLayer : LayerInput {
    std::string column; ///< points: the column of the number; empty: a raster
    int band = 1;       ///< raster
    int yield_year = 0; ///< harvest the yield is of; 0: not a yield
};

struct StrataInput : LayerInput {
    StrataKind kind = StrataKind::polygons;
    std::string column;
    double cell_m = 100.0; ///< grid: side of a cell; hexagons: from flat to flat
    int widths = 1;        ///< edge: how many cut widths reach in
    int band = 1;          ///< raster
    int classes = 0;       ///< raster: classes of equal count, 0: each value is one; fuzzy: 0: chosen from 2..5
    std::vector<ClassLayer> layers; ///< fuzzy classes
};

struct TicketsInput {
    std::string file;
    TextPlace place;
    bool dockage_off = false; ///< the masses are free of dockage already
};

struct TrialInput {
    bool randomised = false;
    std::string pairs = "auto"; ///< "auto", "none", or the column naming each method polygon's block
};

/// Each step of the cleaning can be switched off by its plain key in [cleaning].
struct CleaningChoice {
    bool lag = true; ///< shift flow to where it was cut
    bool moisture_lag = true;
    bool ramps = true;    ///< drop the filling and emptying of the machine at pass ends
    bool coverage = true; ///< harvested area from land not cut before
    bool speed = true;    ///< standing still, racing, sudden changes
    bool turns = true;
    bool limits = true;     ///< yields no crop gives, then far from the rest of the method area
    bool neighbours = true; ///< far from the neighbouring records
    bool short_passes = true;
    bool merge = true;       ///< records on one spot become one, mass kept
    bool edge_passes = true; ///< a cut across two methods is left out of contrasts
    bool tickets = true;
    bool machine_offsets = true; ///< machines of one field brought level from neighbouring passes, without tickets
    bool width_check = true;     ///< a width that spacing and mapped land both speak against stops the work
};

struct ComparisonChoice {
    double segment_m = 30.0; ///< length of a segment, 15..100 m
    int placebo_layouts = 0; ///< shifted or permuted layouts to try; 0: none
    bool all_pairs = false;  ///< every pair of methods, not only against the baseline
};

struct HistoryInput {
    std::vector<std::string> results; ///< earlier comparison.json files
    std::vector<std::string> maps;    ///< earlier yield records of the same land
    std::map<Meaning, ColumnChoice> columns;
};

struct Season {
    std::filesystem::path file; ///< the season file
    std::string text;           ///< its text, for inputs.json
    std::string title;
    int year = 0;
    std::string crop;
    double basis_pct = 0.0;
    double bushel_lb = 0.0;
    double yield_low_t_ha = 0.05; ///< believable range of a record, from the crop table
    double yield_high_t_ha = 20.0;
    std::string baseline;
    YieldUnit units = YieldUnit::bu_ac;
    FieldsInput fields;
    PointsInput points;
    MethodsInput methods_from;
    std::vector<Method> methods; ///< [[method]] in file order; the index is the method's code
    std::optional<StrataInput> strata;
    std::vector<StrataInput> strata_across; ///< [[strata.across]]: the strata are cut by each of these too
    std::optional<TicketsInput> tickets;
    TrialInput trial;
    CleaningChoice cleaning;
    ComparisonChoice comparison;
    std::optional<HistoryInput> history;
    std::optional<MoneyInput> money;
    std::optional<LossCountsInput> loss_counts;
    std::optional<WeatherInput> weather;
    std::optional<NextYearInput> next_year;
    Issues issues; ///< odd but usable, e.g. a crop word that covers several classes

    [[nodiscard]] std::filesystem::path folder() const { return file.parent_path(); }
    /// [strata], then every [[strata.across]]; the index is the strata's table everywhere else.
    [[nodiscard]] std::vector<StrataInput> strata_tables() const;
    /// Code of a method by name, or -1.
    [[nodiscard]] int method_code(const std::string& name) const;
    [[nodiscard]] int baseline_code() const { return method_code(baseline); }
};

/// Reads and checks a season file. \throws InputError ("season.toml:12:3: ...").
[[nodiscard]] Season read_season(const std::filesystem::path& file);

/// Everything `read_season` would stop at, all of it rather than the first; empty when the file is sound.
[[nodiscard]] Issues season_faults(const std::filesystem::path& file);

/// The same from text, for tests and fuzzing; `name` stands in the messages.
[[nodiscard]] Season parse_season(const std::string& text, const std::filesystem::path& name);

} // namespace quartercut
