// SPDX-License-Identifier: MIT
// What fields are split by besides method, where it comes from files: polygons, rasters, layers of numbers.
#include "read/areas.hpp"

#include "base/words/words.hpp"
#include "read/raster.hpp"

#include "base/text.hpp"
#include "read/record_source.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace quartercut::reading {
namespace {

/// Layers of one file may share one `crs` line: that of [fields].
void share_crs(const Season& season, LayerInput& input) {
    if (input.crs.empty() && input.file == season.fields.file) input.crs = season.fields.crs;
}

void read_polygon_strata(Context& context, const StrataInput& choice, std::size_t table) {
    AreaWish wish{"strata", choice, choice.column, "column", {}};
    share_crs(context.season, wish.input);
    AreaLayer layer = read_areas(context, wish);
    for (RawArea& area : layer.areas) {
        area.table = table;
        if (!area.name.empty()) {
            context.raw.strata.push_back(std::move(area));
            continue;
        }
        context.warn("stratum-without-name",
                     fill(spoken().places.file_row, fmt::arg("file", layer.shown), fmt::arg("row", area.row)),
                     fill(spoken().read.no_stratum, fmt::arg("column", wish.name_column)));
    }
}

void read_raster_strata(Context& context, const StrataInput& choice, std::size_t table) {
    for (RawArea& area : raster_areas(context, {choice, choice.band, choice.classes, table})) {
        area.table = table;
        context.raw.strata.push_back(std::move(area));
    }
}

std::size_t column_index(const RecordSource& source, const std::string& column) {
    std::vector<std::string> names;
    for (const SourceColumn& each : source.columns())
        names.push_back(each.name);
    const auto found = std::find(names.begin(), names.end(), column);
    if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
    throw InputError(fmt::format("{}: there is no column '{}' (column under strata.layers). Columns: {}.{}",
                                 source.shown(), column, listed(names), did_you_mean(column, names)));
}

/// Index of the column with one of the words for a name. \throws InputError
std::size_t place_column(const RecordSource& source, const std::array<const char*, 4>& words) {
    for (std::size_t c = 0; c < source.columns().size(); ++c)
        if (std::find(words.begin(), words.end(), lower(source.columns()[c].name)) != words.end()) return c;
    throw InputError(
        fmt::format("{}: which columns say where the points lie? Call them longitude and latitude.", source.shown()));
}

/// Places of the points, from the geometry or from two columns.
struct Places {
    std::vector<double> x, y;
    bool named_lon_lat = false;
};

/// The points' numbers and places; `numbers` is filled in step with them.
Places load_points(RecordSource& source, const std::string& column, std::vector<double>& numbers) {
    std::vector<Wanted> wanted{{column_index(source, column), How::number, {}}};
    if (!source.has_geometry()) {
        wanted.push_back({place_column(source, {"longitude", "lon", "long", "lng"}), How::number, {}});
        wanted.push_back({place_column(source, {"latitude", "lat", "lati", "latit"}), How::number, {}});
    }
    Loaded loaded = source.load(wanted);
    numbers = std::move(loaded.columns[0].numbers);
    if (source.has_geometry()) return {std::move(loaded.x), std::move(loaded.y), false};
    return {std::move(loaded.columns[1].numbers), std::move(loaded.columns[2].numbers), true};
}

RawNumbers point_numbers(Context& context, const ClassLayer& layer, std::size_t table) {
    const std::vector<FoundFile> files = find_files(
        context.season, layer.file, fmt::format("{}file under strata.layers", written_at(context.season, layer.place)));
    RawNumbers out;
    out.name = fmt::format("{} {}", layer.file, layer.column);
    out.table = table;
    for (const FoundFile& file : files) {
        const std::unique_ptr<RecordSource> source = open_records(file, layer.layer);
        const std::size_t input = add_input(context, file, "strata");
        std::vector<double> numbers;
        Places places = load_points(*source, layer.column, numbers);
        CrsFacts facts;
        facts.role = "strata";
        facts.season_crs = layer.crs;
        facts.place = layer.place;
        facts.shown = source->shown();
        facts.named_lon_lat = places.named_lon_lat;
        source->tell_crs(facts);
        for (std::size_t i = 0; i < places.x.size(); ++i)
            grow(facts.extent, places.x[i], places.y[i]);
        ToLonLat(context, facts).apply(places.x, places.y);
        context.raw.inputs[input].rows = numbers.size();
        out.lon_deg.insert(out.lon_deg.end(), places.x.begin(), places.x.end());
        out.lat_deg.insert(out.lat_deg.end(), places.y.begin(), places.y.end());
        out.values.insert(out.values.end(), numbers.begin(), numbers.end());
    }
    return out;
}

} // namespace

void read_strata(Context& context) {
    const std::vector<StrataInput> tables = context.season.strata_tables();
    for (std::size_t t = 0; t < tables.size(); ++t) {
        const StrataInput& choice = tables[t];
        if (choice.kind == StrataKind::polygons) read_polygon_strata(context, choice, t);
        if (choice.kind == StrataKind::raster) read_raster_strata(context, choice, t);
        if (choice.kind != StrataKind::fuzzy_classes) continue;
        for (const ClassLayer& layer : choice.layers)
            context.raw.numbers.push_back(layer.column.empty() ? raster_numbers(context, {layer, layer.band, 0, t})
                                                               : point_numbers(context, layer, t));
    }
}

void check_class_layers(const Context& context) {
    for (const InputFile& layer : context.raw.inputs)
        for (const InputFile& points : context.raw.inputs) // the same bytes under another name are still this year's
            if (layer.role == "strata" && points.role == "points" && points.sha256 == layer.sha256)
                throw InputError(fmt::format("{}: this layer under [strata] is the record file {}, the harvest that is "
                                             "being compared. Classes found from it would be classes of the methods; "
                                             "name earlier years only.",
                                             layer.path, points.path));
}

} // namespace quartercut::reading
