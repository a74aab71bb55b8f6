// SPDX-License-Identifier: MIT
// Reads the tables that name files: fields, points, methods, strata, tickets, history. Files are not opened here.
#include "season/inputs.hpp"

#include "base/text.hpp"
#include "season/columns.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::season {
namespace {

/// Column meanings that other rooms look for by name.
const std::vector<std::string>& known_attributes() {
    static const std::vector<std::string> known{"legal", "variety"};
    return known;
}

void note_near_misses(const TableReader& columns, const std::string& key, Issues& issues) {
    const std::optional<std::string> nearest = nearest_word(key, known_attributes());
    if (!nearest || *nearest == key || edit_distance(lower(key), *nearest) > 1 || columns.has(*nearest)) return;
    issues.push_back({"field-column-spelling", Severity::note, "season file, [fields.columns]",
                      fmt::format("\"{}\" is kept as it is written; if \"{}\" was meant, correct line {}.", key,
                                  *nearest, columns.key_place(key).line)});
}

/// "+hh:mm" or "-hh:mm"; UTC and Z are other words for +00:00.
std::string read_time_zone(const TableReader& points) {
    const std::optional<std::string> written = points.text("time_zone");
    if (!written) return "";
    if (lower(*written) == "utc" || lower(*written) == "z") return "+00:00";
    const std::string& zone = *written;
    const bool shaped = zone.size() == 6 && (zone[0] == '+' || zone[0] == '-') && zone[3] == ':' && is_digit(zone[1]) &&
                        is_digit(zone[2]) && is_digit(zone[4]) && is_digit(zone[5]);
    const int hours = shaped ? 10 * (zone[1] - '0') + (zone[2] - '0') : 99;
    const int minutes = shaped ? 10 * (zone[4] - '0') + (zone[5] - '0') : 99;
    if (hours > 14 || minutes > 59 || (hours == 14 && minutes > 0))
        points.fail_at("time_zone", fmt::format("is \"{}\"; write the offset from UTC, such as \"-06:00\"", zone));
    return zone;
}

std::map<std::string, std::string> read_values(const TableReader& from, const std::vector<Method>& methods) {
    std::map<std::string, std::string> values;
    const std::optional<TableReader> table = from.table("values", "methods.values");
    if (!table) return values;
    std::vector<std::string> names;
    for (const Method& method : methods)
        names.push_back(method.name);
    for (const std::string& found : table->keys()) {
        const std::string name = table->required_text(found, "");
        if (std::find(names.begin(), names.end(), name) == names.end()) {
            const std::optional<std::string> nearest = nearest_word(name, names);
            table->fail_at(found, fmt::format("names the method \"{}\", which has no [[method]] table; {}", name,
                                              nearest ? fmt::format("did you mean \"{}\"?", *nearest)
                                                      : "known: " + join(names, ", ")));
        }
        values[found] = name;
    }
    if (values.empty()) from.fail_at("values", "is empty; map at least one value or remove it");
    return values;
}

MethodsInput read_polygon_methods(const TableReader& table) {
    MethodsInput input;
    read_layer(table, input,
               "it names the file of polygons that say which land was cut which way "
               "(or write from_points or from_fields)");
    input.column = table.required_text("column", "it names the column of the polygons that holds the method");
    return input;
}

MethodsInput read_column_methods(const TableReader& table, const std::string& key, const std::vector<Method>& methods) {
    for (const std::string other : {"file", "layer", "crs", "column"})
        if (table.has(other))
            table.fail(table.key_place(other),
                       fmt::format("\"methods.{}\" and \"methods.{}\" are both set; methods come from one place only, "
                                   "remove the other",
                                   other, key));
    const TableReader from = *table.table(key, "methods." + key);
    MethodsInput input;
    input.place = table.key_place(key);
    input.source = key == "from_points" ? MethodSource::points : MethodSource::fields;
    input.column = from.required_text("column", key == "from_points" ? "it names the column of the records that tells "
                                                                       "the method"
                                                                     : "it names the column of the boundaries that "
                                                                       "tells the method");
    input.values = read_values(from, methods);
    return input;
}

/// One coordinate system for all files, or a table with one for each.
void read_points_crs(const TableReader& table, PointsInput& input) {
    if (!table.has("crs") || table.is_text("crs")) {
        input.crs = table.text_or("crs", "");
        return;
    }
    const auto files = table.table("crs", "points.crs");
    for (const std::string& file : files->keys())
        input.crs_of[file] = files->required_text(file, "");
    if (input.crs_of.empty()) table.fail_at("crs", "is empty; write \"EPSG:4326\", or one for each file");
}

} // namespace

void read_layer(const TableReader& table, LayerInput& input, const std::string& what) {
    input.place = table.place();
    input.file = table.required_text("file", what);
    input.layer = table.text_or("layer", "");
    input.crs = table.text_or("crs", "");
}

FieldsInput read_fields(const TableReader& root, Issues& issues) {
    const TableReader table = root.required_table("fields", "fields", "it names the file of the field boundaries");
    FieldsInput input;
    read_layer(table, input, "it names the file of the field boundaries");
    input.name_column = table.text_or("name", ""); // read/ recognises the usual names
    if (const std::optional<TableReader> columns = table.table("columns", "fields.columns"))
        for (const std::string& key : columns->keys()) {
            input.columns[key] = columns->required_text(key, "");
            note_near_misses(*columns, key, issues);
        }
    return input;
}

PointsInput read_points(const TableReader& root, double bushel_lb) {
    const TableReader table = root.required_table("points", "points", "it names the files of yield-monitor records");
    PointsInput input;
    input.place = table.place();
    input.files = table.texts("files");
    if (input.files.empty())
        table.fail(table.place(), "\"points.files\" is missing: it names the files of yield-monitor records, such as "
                                  "files = [\"yield/*.csv\"]");
    input.layer = table.text_or("layer", "");
    read_points_crs(table, input);
    input.time_zone = read_time_zone(table);
    input.dates = table.text_or("dates", "");
    if (!input.dates.empty() && input.dates != "day/month" && input.dates != "month/day")
        table.fail_at("dates", fmt::format("is \"{}\"; write \"day/month\" or \"month/day\"", input.dates));
    input.columns = read_columns(table, "points", bushel_lb);
    return input;
}

MethodsInput read_methods_from(const TableReader& root, const std::vector<Method>& methods) {
    const TableReader table = root.required_table(
        "methods", "methods", "it says which land was cut which way (file and column, from_points or from_fields)");
    if (table.has("from_points") && table.has("from_fields"))
        table.fail(table.key_place("from_fields"), "\"methods.from_points\" and \"methods.from_fields\" are both set; "
                                                   "methods come from one place only, remove one");
    if (table.has("from_points")) return read_column_methods(table, "from_points", methods);
    if (table.has("from_fields")) return read_column_methods(table, "from_fields", methods);
    return read_polygon_methods(table);
}

std::optional<TicketsInput> read_tickets(const TableReader& root) {
    const std::optional<TableReader> table = root.table("tickets", "tickets");
    if (!table) return std::nullopt;
    TicketsInput input{table->required_text("file", "it names the file of weighed loads"), table->place(), false};
    const std::string dockage = table->text_or("dockage", "in");
    if (dockage != "in" && dockage != "off")
        table->fail_at("dockage", fmt::format("is \"{}\"; write \"off\" if dockage was taken off the masses already, "
                                              "\"in\" if a column dockage_pct tells it",
                                              dockage));
    input.dockage_off = dockage == "off";
    return input;
}

std::optional<HistoryInput> read_history(const TableReader& root, double bushel_lb) {
    const std::optional<TableReader> table = root.table("history", "history");
    if (!table) return std::nullopt;
    HistoryInput input;
    input.results = table->texts("results");
    input.maps = table->texts("maps");
    if (input.results.empty() && input.maps.empty())
        table->fail(table->place(), "[history] names nothing; give results (earlier comparison.json files) or maps "
                                    "(earlier yield records)");
    input.columns = read_columns(*table, "history", bushel_lb);
    return input;
}

} // namespace quartercut::season
