// SPDX-License-Identifier: MIT
// Reading the files of records: open all, settle what the columns mean, load, turn places into degrees.
#include "read/records.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "read/areas.hpp"
#include "read/cells.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace quartercut::reading {
namespace {

constexpr Meaning number_meanings[] = {
    Meaning::yield,    Meaning::flow,     Meaning::moisture, Meaning::speed, // NOLINT
    Meaning::distance, Meaning::duration, Meaning::width,    Meaning::heading};
constexpr Meaning text_meanings[] = {Meaning::machine, Meaning::load, Meaning::method}; // NOLINT

/// A column of which more cells than this share are no numbers was mapped wrongly.
constexpr double most_unreadable = 0.5;

/// Where each wanted column lies in Loaded::columns.
struct Slots {
    std::map<Meaning, std::size_t> of;
    std::vector<Wanted> wanted;
    void add(Meaning meaning, std::size_t column, How how) {
        of[meaning] = wanted.size();
        wanted.push_back({column, how, DateOrder::year_first});
    }
};

/// What was loaded, and what each column of it is.
struct LoadedSlots {
    const Slots& slots;
    Loaded& table;
};

bool flow_gives_mass(const Recognised& found) {
    const bool time_known = found.find(Meaning::duration) != nullptr || found.find(Meaning::time) != nullptr;
    return found.find(Meaning::flow) != nullptr && time_known;
}

/// Units that are still open: what convention settles is settled with a note, the rest is asked for.
void settle_units(Context& context, const RecordSource& source, Recognised& found) {
    for (auto& [key, entry] : found.columns) {
        const Meaning meaning = key;
        ColumnMeaning& column = entry;
        const auto dimension = stated_dimension_of(meaning);
        if (!dimension || !column.unit.empty()) continue;
        const std::string& name = source.columns()[column.column].name;
        if (meaning == Meaning::moisture || meaning == Meaning::heading) {
            column.unit = meaning == Meaning::moisture ? "%" : "deg";
            context.note("unit-by-convention", source.shown(),
                         fill(spoken().read.unit_taken, fmt::arg("column", name),
                              fmt::arg("meaning", meaning_word(meaning)), fmt::arg("unit", column.unit)));
            continue;
        }
        if (meaning == Meaning::yield && flow_gives_mass(found)) continue;
        context.attempt(source.shown(), [&] {
            throw InputError(
                fmt::format("{}: the unit of column '{}' ({}) is not said. Add under [points.columns]:  {}  "
                            "Units known: {}.",
                            source.shown(), name, meaning_word(meaning),
                            line_to_add(meaning, name, context.season.bushel_lb), known_units(*dimension)));
        });
    }
}

/// A yield column nobody can interpret does no harm where flow gives the mass.
void settle_yield(Context& context, const RecordSource& source, Recognised& found) {
    const auto yield = found.columns.find(Meaning::yield);
    if (!found.open_yields.empty() && !flow_gives_mass(found)) {
        std::string lines;
        for (const std::string& name : found.open_yields)
            lines += fmt::format("{}  {}", lines.empty() ? "" : "  or",
                                 line_to_add(Meaning::yield, name, context.season.bushel_lb));
        throw InputError(fmt::format("{}: several columns could be the yield: {}. Say which by one line under "
                                     "[points.columns]:{}",
                                     source.shown(), listed(found.open_yields), lines));
    }
    if (!found.open_yields.empty())
        context.note("yield-unused", source.shown(),
                     fill(spoken().read.several_yields, fmt::arg("columns", listed(found.open_yields))));
    if (yield == found.columns.end() || !yield->second.unit.empty()) return;
    context.note(
        "yield-unused", source.shown(),
        fill(spoken().read.yield_without_unit, fmt::arg("column", source.columns()[yield->second.column].name)));
    found.columns.erase(yield);
}

void check_needed(Context& context, const RecordSource& source, const Recognised& found) {
    const auto is_blank = [](const SourceColumn& column) { return column.sample.empty(); };
    if (!source.has_geometry() && std::all_of(source.columns().begin(), source.columns().end(), is_blank))
        throw InputError(fmt::format("{}: there is no record below the column names.", source.shown()));
    std::vector<std::string> names;
    for (const SourceColumn& column : source.columns())
        names.push_back(column.name);
    const bool place = source.has_geometry() ||
                       (found.find(Meaning::longitude) != nullptr && found.find(Meaning::latitude) != nullptr);
    if (!place)
        throw InputError(
            fmt::format("{}: no columns were recognised as longitude and latitude. Columns: {}. Name them under "
                        "[points.columns]: longitude = {{ column = \"...\" }} and latitude = {{ column = "
                        "\"...\" }}. They must hold decimal degrees (or metres), not degrees and minutes.",
                        source.shown(), listed(names)));
    if (found.find(Meaning::flow) != nullptr || found.find(Meaning::yield) != nullptr || !found.open_yields.empty())
        return;
    throw InputError(
        fmt::format("{}: no column was recognised as yield or grain flow. Columns: {}. Name one under "
                    "[points.columns], e.g. yield = {{ column = \"...\", unit = \"{}\", moisture = \"wet\" }}.",
                    source.shown(), listed(names), yield_unit_word(context.season.units)));
}

bool named_degrees(const std::string& name) {
    const std::vector<std::string> words = taken_apart(name).words;
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return word.starts_with("lon") || word.starts_with("lat") || word == "lng";
    });
}

Slots plan_slots(const RecordSource& source, const Recognised& found) {
    Slots slots;
    for (const Meaning meaning : number_meanings)
        if (const auto* column = found.find(meaning)) slots.add(meaning, column->column, How::number);
    for (const Meaning meaning : text_meanings)
        if (const auto* column = found.find(meaning)) slots.add(meaning, column->column, How::text);
    if (const auto* header = found.find(Meaning::header)) slots.add(Meaning::header, header->column, How::text);
    if (source.has_geometry()) return slots;
    slots.add(Meaning::longitude, found.find(Meaning::longitude)->column, How::number);
    slots.add(Meaning::latitude, found.find(Meaning::latitude)->column, How::number);
    return slots;
}

} // namespace

void judge_cells(Context& context, const std::string& shown, const std::string& name, const LoadedColumn& column,
                 const char* called) {
    const std::size_t rows = column.numbers.size();
    if (static_cast<double>(column.unreadable) > most_unreadable * static_cast<double>(rows))
        throw InputError(fmt::format("{}: column '{}' holds no {} (row {}: '{}').", shown, name, called,
                                     column.first_unreadable_row, column.first_unreadable));
    if (column.unreadable > 0)
        context.warn(
            "cells-unreadable", shown,
            fill(spoken().read.cells_unreadable,
                 fmt::arg("cells", counted(column.unreadable, spoken().read.cell_one, spoken().read.cell_many)),
                 fmt::arg("column", name), fmt::arg("row", column.first_unreadable_row),
                 fmt::arg("cell", column.first_unreadable)));
    if (column.marked_missing > 0)
        context.note(
            "missing-mark", shown,
            fill(spoken().read.marked_missing,
                 fmt::arg("cells", counted(column.marked_missing, spoken().read.cell_one, spoken().read.cell_many)),
                 fmt::arg("column", name)));
}

namespace {

/// A receiver that lost its place writes nonsense now and then; a few such rows among degrees have no place.
void drop_nonsense(RawRecords& out) {
    const auto sane = [&](std::size_t i) {
        return std::abs(out.lon_deg[i]) <= 180.0 && std::abs(out.lat_deg[i]) <= 90.0;
    };
    std::size_t good = 0, known = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        known += std::isnan(out.lon_deg[i]) || std::isnan(out.lat_deg[i]) ? 0U : 1U;
        good += sane(i) ? 1U : 0U;
    }
    if (good == known || 100 * good < 99 * known) return;
    for (std::size_t i = 0; i < out.size(); ++i)
        if (!sane(i)) out.lon_deg[i] = out.lat_deg[i] = std::numeric_limits<double>::quiet_NaN();
}

/// The season file's word on where a file lies: its own, else the one of all.
std::string season_crs_of(Context& context, const std::string& shown) {
    const PointsInput& points = context.season.points;
    for (const auto& [file, crs] : points.crs_of) {
        if (shown != file && !shown.starts_with(file + ",")) continue;
        context.note("crs-of-season", shown, fill(spoken().read.crs_of_season, fmt::arg("crs", crs)));
        return crs;
    }
    return points.crs;
}

/// Degrees out of whatever the file has.
void place_records(Context& context, const RecordSource& source, const Recognised& found, RawRecords& out) {
    CrsFacts facts;
    facts.shown = source.shown();
    facts.role = "points";
    facts.season_crs = season_crs_of(context, source.shown());
    facts.place = context.season.points.place;
    source.tell_crs(facts);
    if (!source.has_geometry())
        facts.named_lon_lat = named_degrees(source.columns()[found.find(Meaning::longitude)->column].name) &&
                              named_degrees(source.columns()[found.find(Meaning::latitude)->column].name);
    if (!context.raw.local_metres) drop_nonsense(out);
    for (std::size_t i = 0; i < out.lon_deg.size(); ++i)
        grow(facts.extent, out.lon_deg[i], out.lat_deg[i]);
    const ToLonLat turn(context, facts);
    (void)turn.apply(out.lon_deg, out.lat_deg);
}

template <class T>
void keep_only(std::vector<T>& values, const std::vector<std::uint8_t>& keep) {
    if (values.empty()) return;
    std::size_t to = 0;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (keep[i] != 0) values[to++] = values[i];
    values.resize(to);
}

/// Records without a place belong nowhere; they are left out and counted.
void drop_placeless(Context& context, const std::string& shown, RawRecords& out) {
    std::vector<std::uint8_t> keep(out.size());
    std::size_t lost = 0, first = 0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        keep[i] = std::isfinite(out.lon_deg[i]) && std::isfinite(out.lat_deg[i]) ? 1 : 0;
        if (keep[i] == 0 && lost++ == 0) first = i + 1;
    }
    if (lost == 0) return;
    if (lost == out.size()) throw InputError(fmt::format("{}: no record has a place.", shown));
    context.warn("no-place", shown,
                 fill(spoken().read.no_place,
                      fmt::arg("records", counted(lost, spoken().read.record_one, spoken().read.record_many)),
                      fmt::arg("row", first)));
    out.row.resize(out.size());
    for (std::size_t i = 0; i < out.row.size(); ++i)
        out.row[i] = static_cast<std::uint32_t>(i + 1);
    keep_only(out.row, keep);
    for (auto* values : {&out.lon_deg, &out.lat_deg, &out.time_s})
        keep_only(*values, keep);
    for (auto& [meaning, column] : out.numbers)
        keep_only(column.values, keep);
    for (auto& [meaning, column] : out.texts)
        keep_only(column.codes, keep);
    keep_only(out.header_up, keep);
}

/// Raised or down, by the value the season file gives or by what the words say.
void read_header(Context& context, const RecordSource& source, const ColumnMeaning& column, RawRecords& out) {
    const TextColumn& texts = out.texts.at(Meaning::header);
    const std::string& name = source.columns()[column.column].name;
    const std::vector<std::string> words = taken_apart(name).words;
    const bool down_column = std::find(words.begin(), words.end(), "down") != words.end();
    const bool up_column = std::find(words.begin(), words.end(), "up") != words.end();
    const auto is_up = [&](const std::string& word) -> std::optional<bool> {
        const auto number = cell_number(word);
        const std::string small = lower(word);
        if (!column.up.empty()) return small == lower(column.up) || (number && number == cell_number(column.up));
        if (small == "up" || small == "raised") return true;
        if (small == "down" || small == "lowered") return false;
        const bool yes = small == "true" || small == "yes" || small == "on" || number == 1.0;
        const bool no = small == "false" || small == "no" || small == "off" || number == 0.0;
        if ((yes || no) && (up_column || down_column)) return yes == up_column;
        return std::nullopt;
    };
    std::vector<std::uint8_t> up_of_word;
    for (const std::string& word : texts.words) {
        const auto up = is_up(word);
        if (!up) {
            const std::string line = fmt::format("header = {{ column = \"{}\", up = \"...\" }}", name);
            if (column.from_season)
                throw InputError(
                    fmt::format("{}: which value of column '{}' means that the header is raised? Values: {}. "
                                "Add under [points.columns]:  {}",
                                source.shown(), name, listed(texts.words), line));
            context.warn("header-unclear", source.shown(),
                         fill(spoken().read.header_unclear, fmt::arg("column", name),
                              fmt::arg("values", listed(texts.words, 6)), fmt::arg("line", line)));
            return;
        }
        up_of_word.push_back(*up ? 1 : 0);
    }
    for (const std::int32_t code : texts.codes)
        out.header_up.push_back(code < 0 ? std::uint8_t{0} : up_of_word[static_cast<std::size_t>(code)]);
}

void check_methods(Context& context, const std::string& shown, RawRecords& out) {
    const auto column = out.texts.find(Meaning::method);
    if (column == out.texts.end()) return;
    for (std::string& word : column->second.words) {
        const std::string found = word;
        if (!known_method_value(context.season, word))
            throw DataError(fmt::format("{}, column '{}'{}", shown, context.season.methods_from.column,
                                        no_method_words(context.season, found)));
    }
}

void take_columns(Context& context, const RecordSource& source, const Recognised& found, LoadedSlots loaded,
                  RawRecords& out) {
    for (const auto& [meaning, slot] : loaded.slots.of) {
        LoadedColumn& column = loaded.table.columns[slot];
        const std::string& name = source.columns()[loaded.slots.wanted[slot].column].name;
        if (loaded.slots.wanted[slot].how == How::text) {
            out.texts[meaning] = std::move(column.texts);
            continue;
        }
        judge_cells(context, source.shown(), name, column, "numbers");
        if (meaning == Meaning::longitude)
            out.lon_deg = std::move(column.numbers);
        else if (meaning == Meaning::latitude)
            out.lat_deg = std::move(column.numbers);
        else
            out.numbers[meaning] = {name, found.find(meaning)->unit, found.find(meaning)->moisture,
                                    std::move(column.numbers)};
    }
    if (!source.has_geometry()) return;
    out.lon_deg = std::move(loaded.table.x);
    out.lat_deg = std::move(loaded.table.y);
}

/// Why each column was taken for what it is, in one note a file.
void tell_reasons(Context& context, const RecordSource& source, const Recognised& found) {
    std::vector<std::string> words;
    for (const auto& [meaning, column] : found.columns)
        words.push_back(fill(column.unit.empty() ? spoken().read.column_meaning : spoken().read.column_meaning_unit,
                             fmt::arg("meaning", meaning_word(meaning)),
                             fmt::arg("column", source.columns()[column.column].name), fmt::arg("unit", column.unit),
                             fmt::arg("reason", column.reason)));
    context.note("columns-recognised", source.shown(), join(words, "; ") + ".");
}

} // namespace

RecordsRead records_of(Context& context, RecordSource& source, const std::vector<std::string>& names_elsewhere) {
    for (Issue& issue : source.issues())
        context.raw.issues.push_back(std::move(issue));
    const std::size_t faults_before = context.faults();
    Recognised found = recognise(context, source, names_elsewhere);
    context.attempt(source.shown(), [&] { check_needed(context, source, found); });
    settle_units(context, source, found);
    context.attempt(source.shown(), [&] { settle_yield(context, source, found); });
    context.stop_if_faults(faults_before);
    tell_reasons(context, source, found);
    Slots slots = plan_slots(source, found);
    const TimePlan times(context, source, found, slots.wanted);
    Loaded loaded = source.load(slots.wanted);
    if (loaded.rows == 0)
        throw InputError(fmt::format("{}: there is no record below the column names.", source.shown()));
    for (Issue& issue : loaded.issues)
        context.raw.issues.push_back(std::move(issue));
    RecordsRead out;
    out.rows = loaded.rows;
    out.records.time_s = times.finish(context, loaded);
    if (out.records.time_s.empty() && !source.keeps_order())
        context.warn("order-unsure", source.shown(), spoken().read.order_unsure);
    take_columns(context, source, found, {slots, loaded}, out.records);
    if (const auto* header = found.find(Meaning::header)) read_header(context, source, *header, out.records);
    check_methods(context, source.shown(), out.records);
    drop_impossible(context, source.shown(), out.records);
    place_records(context, source, found, out.records);
    drop_placeless(context, source.shown(), out.records);
    check_physics(context, source.shown(), out.records);
    return out;
}

namespace {

void add_files(const Context& context, const std::string& pattern, std::vector<FoundFile>& files) {
    const std::string wanted_for = written_at(context.season, context.season.points.place) + "files under [points]";
    for (FoundFile& file : find_files(context.season, pattern, wanted_for))
        if (std::none_of(files.begin(), files.end(), [&](const FoundFile& f) { return f.path == file.path; }))
            files.push_back(std::move(file));
}

/// A file that [points] crs names and nobody reads is a slip of the pen.
void check_crs_files(const Context& context, const std::vector<FoundFile>& files) {
    std::vector<std::string> names;
    for (const FoundFile& file : files)
        names.push_back(file.shown);
    const auto& history = context.season.history;
    for (const auto& [file, crs] : context.season.points.crs_of) {
        const bool earlier = history && std::count(history->maps.begin(), history->maps.end(), file) > 0;
        if (earlier || std::count(names.begin(), names.end(), file) > 0) continue;
        throw InputError(fmt::format("{}crs under [points] names '{}', which is none of its files. Files: {}.{}",
                                     written_at(context.season, context.season.points.place), file, listed(names),
                                     did_you_mean(file, names)));
    }
}

void read_one(Context& context, const FoundFile& file, RecordSource& source, const std::vector<std::string>& names) {
    const std::size_t input = add_input(context, file, "points");
    for (const FoundFile& more : source.more_files())
        (void)add_input(context, more, "points");
    RecordsRead read = records_of(context, source, names);
    read.records.input = input;
    context.raw.inputs[input].layer = source.layer();
    context.raw.inputs[input].rows = read.rows;
    context.raw.records.push_back(std::move(read.records));
}

} // namespace

void read_records(Context& context) {
    std::vector<FoundFile> files;
    const std::size_t faults_before = context.faults();
    for (const std::string& pattern : context.season.points.files)
        context.attempt(pattern, [&] { add_files(context, pattern, files); });
    context.stop_if_faults(files.empty() ? faults_before : context.faults());
    if (files.empty()) throw InputError("No file of yield records is named. Add files = [\"...\"] under [points].");
    if (!context.season.points.time_zone.empty() && !zone_offset_s(context.season.points.time_zone))
        throw InputError(fmt::format("{}the time zone '{}' is not understood. Write it like \"-06:00\" or \"UTC\".",
                                     written_at(context.season, context.season.points.place),
                                     context.season.points.time_zone));
    context.attempt("[points]", [&] { check_crs_files(context, files); });
    std::vector<std::unique_ptr<RecordSource>> sources;
    std::vector<std::string> names;
    for (const FoundFile& file : files) {
        sources.push_back(nullptr);
        context.attempt(file.shown, [&] { sources.back() = open_records(file, context.season.points.layer); });
        if (!sources.back()) continue;
        for (const SourceColumn& column : sources.back()->columns())
            names.push_back(column.name);
    }
    for (std::size_t i = 0; i < files.size(); ++i) {
        if (!sources[i]) continue;
        context.attempt(files[i].shown, [&] { read_one(context, files[i], *sources[i], names); });
        sources[i].reset();
    }
    name_machines_by_file(context);
    if (!context.zoneless_from.empty() && context.season.points.time_zone.empty())
        context.note("no-time-zone", context.zoneless_from, spoken().read.no_time_zone);
}

} // namespace quartercut::reading
