// SPDX-License-Identifier: MIT
// Polygons of a layer, row by row: attributes as text, outline turned into degrees and mended.
#include "read/areas.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "read/crs.hpp"
#include "read/gdal_access.hpp"
#include "read/polygon_repair.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace quartercut::reading {
namespace {

struct WishedColumn {
    std::string written; ///< as the season file writes it
    int field = -1;
};

CrsFacts facts_of(const AreaWish& wish, const OpenLayer& open) {
    CrsFacts facts;
    facts.shown = open.shown;
    facts.role = wish.role;
    facts.season_crs = wish.input.crs;
    facts.place = wish.input.place;
    facts.file_crs = open.layer->GetSpatialRef();
    facts.by_definition = open.driver == "GeoJSON" || open.driver == "GeoJSONSeq";
    open.layer->ResetReading();
    for (const OGRFeatureUniquePtr& feature : *open.layer) {
        const OGRGeometry* const geometry = feature->GetGeometryRef();
        if (geometry == nullptr || geometry->IsEmpty()) continue;
        OGREnvelope envelope;
        geometry->getEnvelope(&envelope);
        grow(facts.extent, envelope.MinX, envelope.MinY);
        grow(facts.extent, envelope.MaxX, envelope.MaxY);
    }
    return facts;
}

/// Column that names a field when the season file does not say: one called name, field and the like.
std::string recognised_name_column(Context& context, const OpenLayer& open) {
    const std::vector<std::string> names = field_names(*open.layer);
    std::vector<std::string> found;
    for (const std::string& name : names) {
        const std::string word = lower(name);
        if (word == "name" || word == "field" || word == "field_name" || word == "fieldname" || word == "field name")
            found.push_back(name);
    }
    if (found.size() == 1) {
        context.note("column-taken", open.shown, fill(spoken().read.column_taken, fmt::arg("column", found.front())));
        return found.front();
    }
    throw InputError(fmt::format("{}: which column names the fields? Add name = \"...\" under [fields]. Columns: {}.",
                                 open.shown, listed(names)));
}

std::vector<WishedColumn> wished_columns(const OpenLayer& open, const AreaWish& wish, const std::string& name_column) {
    std::vector<WishedColumn> out{
        {name_column, field_index(open, name_column, fmt::format("{} under [{}]", wish.key, wish.role))}};
    for (const std::string& column : wish.more)
        out.push_back({column, field_index(open, column, "named in the season file")});
    return out;
}

/// One row without its outline.
RawArea row_of(const OGRFeature& feature, const std::vector<WishedColumn>& columns) {
    RawArea area;
    for (int field = 0; field < feature.GetFieldCount(); ++field)
        area.attributes[feature.GetFieldDefnRef(field)->GetNameRef()] = field_text(feature, field);
    for (const WishedColumn& column : columns)
        area.attributes.emplace(column.written, field_text(feature, column.field));
    area.name = trim(field_text(feature, columns.front().field));
    return area;
}

std::string row_place(const OpenLayer& open, const RawArea& area) {
    const std::string row = fill(spoken().places.file_row, fmt::arg("file", open.shown), fmt::arg("row", area.row));
    return area.name.empty() ? row : fmt::format("{} ('{}')", row, area.name);
}

MultiPolygon shape_of(Context& context, const OGRGeometry& geometry, const ToLonLat& turn, const std::string& where) {
    const std::unique_ptr<OGRGeometry> turned(geometry.clone());
    if (!turn.changes_nothing()) {
        const GdalWords words;
        if (turned->transform(turn.transform()) != OGRERR_NONE)
            throw InputError(fmt::format("{}: the outline cannot be turned into longitude and latitude: {}", where,
                                         words.last("it lies outside the coordinate system")));
    }
    RepairedShape repaired = repaired_shape(*turned, where);
    if (!repaired.repair.empty()) context.warn("outline-mended", where, repaired.repair);
    return std::move(repaired.shape);
}

LayerWish layer_wish(const AreaWish& wish) { return {wish.input.layer, wish.role, true}; }

} // namespace

AreaLayer read_areas(Context& context, const AreaWish& wish) {
    const std::vector<FoundFile> files =
        find_files(context.season, wish.input.file,
                   fmt::format("{}file under [{}]", written_at(context.season, wish.input.place), wish.role));
    if (files.size() > 1)
        throw InputError(fmt::format("{}: several files match under [{}]; one is wanted.", wish.input.file, wish.role));
    if (is_text_table(files.front()))
        throw InputError(fmt::format("{}: polygons are wanted under [{}], and a text table holds none. Use GeoPackage, "
                                     "Shapefile, GeoJSON, FlatGeobuf, KML or GML.",
                                     files.front().shown, wish.role));
    const OpenLayer open = open_layer(files.front(), layer_wish(wish));
    const std::size_t input = add_input(context, files.front(), wish.role);
    context.raw.inputs[input].layer = open.name;
    if (open.layer->GetFeatureCount() == 0)
        throw InputError(fmt::format("{}: the layer is empty. Under [{}] polygons are wanted.", open.shown, wish.role));
    const std::string name_column =
        wish.name_column.empty() && wish.role == "fields" ? recognised_name_column(context, open) : wish.name_column;
    const std::vector<WishedColumn> columns = wished_columns(open, wish, name_column);
    const ToLonLat turn(context, facts_of(wish, open));
    AreaLayer out{open.shown, {}};
    const std::size_t faults_before = context.faults();
    std::size_t row = 0;
    const GdalWords words;
    open.layer->ResetReading();
    for (const OGRFeatureUniquePtr& feature : *open.layer) {
        RawArea area = row_of(*feature, columns);
        area.row = ++row;
        const OGRGeometry* const geometry = feature->GetGeometryRef();
        if (geometry == nullptr || geometry->IsEmpty()) {
            context.warn("no-outline", row_place(open, area), spoken().read.no_outline);
            continue;
        }
        context.attempt(open.shown, [&] {
            area.shape_deg = shape_of(context, *geometry, turn, row_place(open, area));
            out.areas.push_back(std::move(area));
        });
    }
    words.check_complete(open.shown);
    context.raw.inputs[input].rows = row;
    if (out.areas.empty() && context.faults() == faults_before)
        throw InputError(fmt::format("{}: none of its rows holds a polygon.", open.shown));
    return out;
}

} // namespace quartercut::reading
