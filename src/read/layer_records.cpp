// SPDX-License-Identifier: MIT
// Records from one of GDAL's formats, feature by feature, reading only the fields that are wanted.
#include "read/record_source.hpp"

#include "read/cells.hpp"
#include "read/gdal_access.hpp"
#include "read/layer_arrow.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>

namespace quartercut::reading {
namespace {

constexpr std::size_t sample_rows = 200;

/// Seconds since 1970 of a field that holds a time, as if it were UTC, corrected where the zone is stated.
Moment moment_of(const OGRFeature& feature, int field) {
    int year = 0, month = 0, day = 0, hour = 0, minute = 0, zone = 0;
    float second = 0.0F;
    feature.GetFieldAsDateTime(field, &year, &month, &day, &hour, &minute, &second, &zone);
    const auto midnight = parse_day(fmt::format("{:04}-{:02}-{:02}", year, month, day));
    if (!midnight) return {std::numeric_limits<double>::quiet_NaN(), false};
    // GDAL keeps seconds as float: 59.999 and the like are meant to a thousandth.
    const double seconds = std::round(static_cast<double>(second) * 1000.0) / 1000.0;
    const double local = *midnight + hour * 3600.0 + minute * 60.0 + seconds;
    if (zone < 2) return {local, false};
    return {local - (zone - 100) * 900.0, true};
}

class LayerRecords final : public RecordSource {
public:
    LayerRecords(const FoundFile& file, const std::string& layer) : open_(open_layer(file, {layer, "points", false})) {
        shown_ = open_.shown;
        layer_ = open_.name;
        has_geometry_ = open_.layer->GetGeomType() != wkbNone;
        if (open_.layer->GetFeatureCount() == 0) throw InputError(fmt::format("{}: the layer is empty.", shown_));
        for (const std::string& name : field_names(*open_.layer))
            columns_.push_back({name, "", false, {}, ""});
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            const OGRFieldType type = type_of(i);
            columns_[i].is_time = type == OFTDateTime;
        }
        take_samples();
    }

    void tell_crs(CrsFacts& facts) const override {
        facts.file_crs = open_.layer->GetSpatialRef();
        facts.by_definition = open_.driver == "GeoJSON" || open_.driver == "GeoJSONSeq";
    }

    /// FlatGeobuf sorts its features by place when it builds its index.
    [[nodiscard]] bool keeps_order() const override { return open_.driver != "FlatGeobuf"; }

    [[nodiscard]] Loaded load(const std::vector<Wanted>& wanted) override {
        Loaded out;
        out.columns.resize(wanted.size());
        std::vector<ColumnFiller> fillers;
        for (std::size_t i = 0; i < wanted.size(); ++i)
            fillers.emplace_back(out.columns[i], wanted[i], false);
        ignore_all_but(wanted);
        const GdalWords words;
        open_.layer->ResetReading();
        if (may_go_by_arrow(wanted) &&
            load_by_arrow(open_, wanted, columns_, out, [&](const OGRGeometry& odd) { add_place(&odd, out); })) {
            words.check_complete(shown_);
            return out;
        }
        open_.layer->ResetReading();
        for (const OGRFeatureUniquePtr& feature : *open_.layer) {
            ++out.rows;
            if (has_geometry_) add_place(feature->GetGeometryRef(), out);
            for (std::size_t i = 0; i < wanted.size(); ++i)
                add_value(*feature, wanted[i], fillers[i]);
        }
        words.check_complete(shown_);
        return out;
    }

private:
    [[nodiscard]] OGRFieldType type_of(std::size_t column) const {
        return open_.layer->GetLayerDefn()->GetFieldDefn(static_cast<int>(column))->GetType();
    }

    /// Drivers with a columnar reader of their own. Its moments have lost their zone: GeoPackage's are UTC by
    /// definition, FlatGeobuf's are text and may state any.
    [[nodiscard]] bool may_go_by_arrow(const std::vector<Wanted>& wanted) const {
        bool moments = false, all_utc = true;
        for (const Wanted& column : wanted) {
            if (!columns_[column.column].is_time) continue;
            moments = true;
            for (const std::string& text : columns_[column.column].sample)
                all_utc = all_utc && text.ends_with('Z');
        }
        if (moments && !all_utc) return false;
        return has_geometry_ && (open_.driver == "GPKG" || (open_.driver == "FlatGeobuf" && !moments));
    }

    void take_samples() {
        const GdalWords words;
        std::size_t row = 0;
        open_.layer->ResetReading();
        for (const OGRFeatureUniquePtr& feature : *open_.layer) {
            if (++row > sample_rows) break;
            for (std::size_t i = 0; i < columns_.size(); ++i) {
                std::string text = field_text(*feature, static_cast<int>(i));
                if (!is_missing(text)) columns_[i].sample.push_back(std::move(text));
            }
        }
    }

    void ignore_all_but(const std::vector<Wanted>& wanted) {
        std::vector<const char*> ignored;
        for (std::size_t i = 0; i < columns_.size(); ++i)
            if (std::none_of(wanted.begin(), wanted.end(), [i](const Wanted& w) { return w.column == i; }))
                ignored.push_back(columns_[i].name.c_str());
        if (!has_geometry_) ignored.push_back("OGR_GEOMETRY");
        ignored.push_back("OGR_STYLE");
        ignored.push_back(nullptr);
        const GdalWords words;
        open_.layer->SetIgnoredFields(ignored.data());
    }

    void add_place(const OGRGeometry* geometry, Loaded& out) const {
        double x = std::numeric_limits<double>::quiet_NaN(), y = x;
        if (geometry != nullptr && !geometry->IsEmpty()) {
            OGRwkbGeometryType type = wkbFlatten(geometry->getGeometryType());
            if (type == wkbMultiPoint && geometry->toMultiPoint()->getNumGeometries() == 1) {
                geometry = geometry->toMultiPoint()->getGeometryRef(0);
                type = wkbPoint;
            }
            if (type != wkbPoint)
                throw InputError(fmt::format("{}, row {}: records must be points, but this is a {}.", shown_, out.rows,
                                             OGRGeometryTypeToName(type)));
            x = geometry->toPoint()->getX();
            y = geometry->toPoint()->getY();
        }
        out.x.push_back(x);
        out.y.push_back(y);
    }

    void add_value(const OGRFeature& feature, const Wanted& wanted, ColumnFiller& filler) const {
        const int field = static_cast<int>(wanted.column);
        if (!feature.IsFieldSetAndNotNull(field)) return filler.add_missing();
        const OGRFieldType type = type_of(wanted.column);
        const bool is_number = type == OFTReal || type == OFTInteger || type == OFTInteger64;
        if (wanted.how == How::number && is_number) return filler.add_number(feature.GetFieldAsDouble(field));
        if (wanted.how == How::moment && type == OFTDateTime) {
            const Moment moment = moment_of(feature, field);
            return filler.add_moment(moment.seconds, moment.zoned);
        }
        filler.add(field_text(feature, field));
    }

    OpenLayer open_;
};

} // namespace

std::unique_ptr<RecordSource> layer_records(const FoundFile& file, const std::string& layer) {
    return std::make_unique<LayerRecords>(file, layer);
}

} // namespace quartercut::reading
