// SPDX-License-Identifier: MIT
// zones.gpkg: the four layers with spatial index, styles (layer_styles), column titles (gpkg_data_columns, the schema
// extension of OGC 12-128) and metadata (gpkg_metadata).
//
// Every date in the file is the session's fixed one: the same results give the same bytes.
#include "write/map_files.hpp"
#include "write/place.hpp"

#include <fmt/format.h>

#include <utility>

namespace quartercut::write {

namespace {

constexpr const char* fixed_date = "2000-01-01T00:00:00.000Z";
constexpr std::size_t most_indexed_points = 200000; // above, the R-tree takes longer than the writing

/// As an SQL text literal.
std::string quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text) {
        if (c == '\'') out += '\'';
        out += c;
    }
    return out + "'";
}

void run(const GdalSession& session, GDALDataset& dataset, const std::string& sql) {
    OGRLayer* answer = dataset.ExecuteSQL(sql.c_str(), nullptr, nullptr);
    if (answer != nullptr) dataset.ReleaseResultSet(answer);
    session.check(dataset.GetDescription(), "write its tables");
}

/// The table as desktop viewers make it themselves; the geometry column must be named, or the style is not used.
constexpr const char* styles_table =
    R"(CREATE TABLE "layer_styles" ("id" INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, "f_table_catalog" TEXT(256),
 "f_table_schema" TEXT(256), "f_table_name" TEXT(256), "f_geometry_column" TEXT(256), "styleName" TEXT(30),
 "styleQML" TEXT, "styleSLD" TEXT, "useAsDefault" BOOLEAN, "description" TEXT, "owner" TEXT(30), "ui" TEXT(30),
 "update_time" DATETIME DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now'))))";

void add_styles(const GdalSession& session, GDALDataset& dataset, const std::vector<MapLayer>& layers) {
    run(session, dataset, styles_table);
    run(session, dataset,
        fmt::format("INSERT INTO gpkg_contents(table_name,data_type,identifier,last_change) "
                    "VALUES('layer_styles','attributes','layer_styles','{}')",
                    fixed_date));
    for (const MapLayer& layer : layers) {
        for (std::size_t s = 0; s < layer.styles.size(); ++s) {
            const LayerStyle& style = layer.styles[s];
            run(session, dataset,
                fmt::format("INSERT INTO layer_styles(f_table_catalog,f_table_schema,f_table_name,f_geometry_column,"
                            "styleName,styleQML,styleSLD,useAsDefault,description,owner,ui,update_time) "
                            "VALUES('','',{},'geom',{},{},{},{},{},'',NULL,'{}')",
                            quoted(layer.name), quoted(style.name), quoted(qml_of(style, column_titles(layer))),
                            quoted(sld_of(style, layer.name)), s == 0 ? 1 : 0, quoted(style.description), fixed_date));
        }
    }
}

/// GeoPackage 1.2 annex F.9, "Schema".
constexpr const char* schema_tables[] = {
    R"(CREATE TABLE IF NOT EXISTS gpkg_extensions (table_name TEXT, column_name TEXT, extension_name TEXT NOT NULL,
 definition TEXT NOT NULL, scope TEXT NOT NULL, CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name)))",
    R"(CREATE TABLE gpkg_data_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL, name TEXT, title TEXT,
 description TEXT, mime_type TEXT, constraint_name TEXT, CONSTRAINT pk_gdc PRIMARY KEY (table_name, column_name),
 CONSTRAINT gdc_tn UNIQUE (table_name, name)))",
    R"(CREATE TABLE gpkg_data_column_constraints (constraint_name TEXT NOT NULL, constraint_type TEXT NOT NULL,
 value TEXT, min NUMERIC, min_is_inclusive BOOLEAN, max NUMERIC, max_is_inclusive BOOLEAN, description TEXT,
 CONSTRAINT gdcc_ntv UNIQUE (constraint_name, constraint_type, value)))",
    R"(INSERT INTO gpkg_extensions VALUES('gpkg_data_columns',NULL,'gpkg_schema',
 'http://www.geopackage.org/spec121/#extension_schema','read-write'))",
    R"(INSERT INTO gpkg_extensions VALUES('gpkg_data_column_constraints',NULL,'gpkg_schema',
 'http://www.geopackage.org/spec121/#extension_schema','read-write'))"};

void add_column_titles(const GdalSession& session, GDALDataset& dataset, const std::vector<MapLayer>& layers) {
    for (const char* sql : schema_tables)
        run(session, dataset, sql);
    for (const MapLayer& layer : layers) {
        for (const MapColumn& column : layer.columns) {
            run(session, dataset,
                fmt::format("INSERT INTO gpkg_data_columns VALUES({},{},{},{},{},NULL,NULL)", quoted(layer.name),
                            quoted(column.name), quoted(column.name), quoted(column.title),
                            quoted(column.description)));
        }
    }
}

} // namespace

void write_geopackage(const Results& results, const std::filesystem::path& file) {
    const GdalSession session;
    std::vector<MapLayer> layers{fields_layer(results), zones_layer(results)};
    if (is_compared(results)) {
        layers.push_back(segments_layer(results));
        layers.push_back(removed_layer(results));
    }
    DatasetPtr dataset = create_dataset(session, "GPKG", file, {"VERSION=1.2"});
    for (const MapLayer& layer : layers) {
        OptionList options{"GEOMETRY_NAME=geom", "FID=fid"};
        options.set("IDENTIFIER", layer.title);
        options.set("DESCRIPTION", layer.description);
        if (layer.points && layer.size > most_indexed_points) options.set("SPATIAL_INDEX", "NO");
        OGRLayer& out = add_map_layer(session, *dataset, layer, map_crs(results), options);
        out.SetMetadataItem("CLASSES", layer.styles.front().description.c_str());
    }
    dataset->SetMetadataItem("TITLE", results.season.title.c_str());
    dataset->SetMetadataItem("PROGRAM", ("quartercut " + results.version).c_str());
    dataset->SetMetadataItem("BASIS_MOISTURE_PCT", fmt::format("{}", results.season.basis_pct).c_str());
    dataset->FlushCache();
    add_column_titles(session, *dataset, layers);
    add_styles(session, *dataset, layers);
    close_dataset(session, std::move(dataset), file);
}

} // namespace quartercut::write
