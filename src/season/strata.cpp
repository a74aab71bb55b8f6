// SPDX-License-Identifier: MIT
// Reads [strata] and every [[strata.across]]: what fields are split by besides method.
#include "season/inputs.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace quartercut::season {
namespace {

struct KindWord {
    const char* word;
    StrataKind kind;
};

constexpr std::array<KindWord, 8> kinds{{{"polygons", StrataKind::polygons},
                                         {"raster", StrataKind::raster},
                                         {"grid", StrataKind::grid},
                                         {"hexagons", StrataKind::hexagons},
                                         {"legal-subdivision", StrataKind::legal_subdivision},
                                         {"edge-and-interior", StrataKind::edge_and_interior},
                                         {"pass-direction", StrataKind::pass_direction},
                                         {"fuzzy-classes", StrataKind::fuzzy_classes}}};

StrataKind read_kind(const TableReader& table) {
    const std::string word = table.text_or("kind", "polygons");
    std::vector<std::string> known;
    for (const KindWord& kind : kinds) {
        if (word == kind.word) return kind.kind;
        known.emplace_back(kind.word);
    }
    const std::optional<std::string> nearest = nearest_word(word, known);
    table.fail_at("kind", fmt::format("is \"{}\"; {}", word,
                                      nearest ? fmt::format("did you mean \"{}\"?", *nearest)
                                              : "write " + join_with(known, "or")));
}

bool has_cells(StrataKind kind) { return kind == StrataKind::grid || kind == StrataKind::hexagons; }
bool has_file(StrataKind kind) { return kind == StrataKind::polygons || kind == StrataKind::raster; }
bool has_classes(StrataKind kind) { return kind == StrataKind::raster || kind == StrataKind::fuzzy_classes; }

/// A key that says nothing about this kind of strata is a mistake about what will happen.
void refuse_keys_of_other_kinds(const TableReader& table, StrataKind kind) {
    const auto refuse = [&](bool use, const char* key, const char* why) {
        if (!use && table.has(key))
            table.fail(table.key_place(key),
                       fmt::format("\"{}.{}\" has no use here: {}; remove it", table.name(), key, why));
    };
    refuse(has_cells(kind), "cell", "only strata of kind \"grid\" or \"hexagons\" have cells");
    refuse(kind == StrataKind::edge_and_interior, "widths", "only strata of kind \"edge-and-interior\" have an edge");
    for (const char* key : {"file", "layer", "crs"})
        refuse(has_file(kind), key, "only strata of kind \"polygons\" or \"raster\" come from a file");
    refuse(kind == StrataKind::polygons, "column", "only strata of kind \"polygons\" are named by a column");
    refuse(kind == StrataKind::raster, "band", "only strata of kind \"raster\" have bands");
    refuse(kind == StrataKind::raster, "yield_year", "only strata of kind \"raster\" may be yields");
    refuse(has_classes(kind), "classes", "only strata of kind \"raster\" or \"fuzzy-classes\" are put into classes");
    refuse(kind == StrataKind::fuzzy_classes, "layers", "only strata of kind \"fuzzy-classes\" are made from layers");
}

/// Yields of the season's own year hold the difference between the methods: classes found from them would be classes of
/// the methods. \returns the year, 0 where the layer is no yield
int read_yield_year(const TableReader& table, const std::string& file, const std::string& column, int season_year) {
    const int year = table.whole_number("yield_year", 1980, 2100).value_or(0);
    if (year >= season_year)
        table.fail_at("yield_year", fmt::format("is {}, but only yields of years before {} may split fields: this "
                                                "year's hold the difference between the methods",
                                                year, season_year));
    const bool called_yield =
        lower(file).find("yield") != std::string::npos || lower(column).find("yield") != std::string::npos;
    if (called_yield && year == 0)
        table.fail(table.place(), fmt::format("\"{}\" is called a yield; say of which harvest by yield_year = {} (or "
                                              "what it was)",
                                              file, season_year - 1));
    return year;
}

ClassLayer read_class_layer(const TableReader& table, int season_year) {
    ClassLayer layer;
    read_layer(table, layer, "it names a raster, or a layer of points, with a number to find classes from");
    layer.column = table.text_or("column", "");
    layer.band = table.whole_number("band", 1, 1000).value_or(1);
    if (table.has("band") && !layer.column.empty())
        table.fail_at("band", "stands beside \"column\"; a raster has bands, points have columns: remove one");
    layer.yield_year = read_yield_year(table, layer.file, layer.column, season_year);
    return layer;
}

StrataInput read_one(const TableReader& table, int season_year) {
    StrataInput input;
    input.kind = read_kind(table);
    input.place = table.place();
    refuse_keys_of_other_kinds(table, input.kind);
    if (input.kind == StrataKind::polygons) {
        read_layer(table, input, "it names the file of polygons to split fields by (or set kind)");
        input.column = table.required_text("column", "it names the column of the polygons that names a stratum");
    }
    if (input.kind == StrataKind::raster) {
        read_layer(table, input, "it names the raster to split fields by");
        static_cast<void>(read_yield_year(table, input.file, "", season_year));
    }
    input.cell_m =
        table.quantity("cell", {Dimension::length, 10.0, 2000.0, "100 m", "10 m to 2000 m"}).value_or(input.cell_m);
    input.widths = table.whole_number("widths", 1, 20).value_or(input.widths);
    input.band = table.whole_number("band", 1, 1000).value_or(input.band);
    const int most_classes = input.kind == StrataKind::raster ? 10 : 5;
    input.classes = table.whole_number("classes", 2, most_classes).value_or(input.classes);
    for (const TableReader& layer : table.tables("layers", "strata.layers"))
        input.layers.push_back(read_class_layer(layer, season_year));
    if (input.kind == StrataKind::fuzzy_classes && input.layers.empty())
        table.fail(table.place(),
                   fmt::format("\"{}.layers\" is missing: it names what the classes are found from, such "
                               "as layers = [{{ file = \"yield_2022.tif\", yield_year = 2022 }}]",
                               table.name()));
    return input;
}

} // namespace

void read_strata(const TableReader& root, Season& season) {
    const std::optional<TableReader> table = root.table("strata", "strata");
    if (!table) return;
    season.strata = read_one(*table, season.year);
    for (const TableReader& across : table->tables("across", "strata.across"))
        season.strata_across.push_back(read_one(across, season.year));
}

} // namespace quartercut::season
