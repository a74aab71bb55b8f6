// SPDX-License-Identifier: MIT
// Rasters through GDAL: GeoTIFF, ASCII grid and rasters in a GeoPackage. Only the windows around fields are read.
#include "read/raster.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "read/crs.hpp"
#include "read/gdal_access.hpp"
#include "read/polygon_repair.hpp"

#include <fmt/format.h>
#include <gdal_alg.h>
#include <gdal_frmts.h>
#include <ogr_api.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <iterator>
#include <limits>
#include <memory>
#include <mutex>
#include <set>

namespace quartercut::reading {
namespace {

constexpr double most_cells = 20e6;           ///< of one field's window
constexpr std::size_t most_patches = 20000;   ///< of one field
constexpr std::size_t most_plain_values = 30; ///< that may be classes without being told how many
constexpr int margin_cells = 2;
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

void register_rasters() {
    static std::once_flag done;
    std::call_once(done, [] {
        GDALRegister_GTiff();
        GDALRegister_AAIGrid();
        GDALRegister_MEM();
        RegisterOGRMEM();
    });
}

/// The cells of one window; the transform says where they are.
struct Window {
    int column = 0, row = 0, columns = 0, rows = 0;
    std::array<double, 6> place{}; ///< GDAL's affine transform of the window
    std::vector<double> values;    ///< NaN: none
    [[nodiscard]] Point at(double column_in, double row_in) const {
        return {place[0] + column_in * place[1] + row_in * place[2],
                place[3] + column_in * place[4] + row_in * place[5]};
    }
    [[nodiscard]] Point middle(std::size_t cell) const {
        const auto wide = static_cast<std::size_t>(columns);
        return at(static_cast<double>(cell % wide) + 0.5, static_cast<double>(cell / wide) + 0.5);
    }
};

class Raster {
public:
    Raster(Context& context, const RasterWish& wish) : wish_(wish) {
        register_rasters();
        const std::vector<FoundFile> files =
            find_files(context.season, wish.input.file,
                       fmt::format("{}file under [strata]", written_at(context.season, wish.input.place)));
        if (files.size() > 1)
            throw InputError(fmt::format("{}: several files match under [strata]; one is wanted.", wish.input.file));
        shown_ = files.front().shown;
        open(files.front());
        refuse_this_years_yield(context.season);
        input_ = add_input(context, files.front(), "strata");
        turn_ = std::make_unique<ToLonLat>(context, facts());
        if (!turn_->changes_nothing()) back_.reset(turn_->transform()->GetInverse());
    }

    [[nodiscard]] const std::string& shown() const { return shown_; }
    [[nodiscard]] std::size_t input() const { return input_; }
    [[nodiscard]] const ToLonLat& turn() const { return *turn_; }
    [[nodiscard]] GDALDataset& dataset() const { return *dataset_; }
    [[nodiscard]] GDALRasterBand& band() const { return *dataset_->GetRasterBand(wish_.band); }

    /// Cells that meet a field, and a little around; empty where the raster lies elsewhere.
    [[nodiscard]] Window window_over(const RawArea& field) const {
        const Box box = cells_over(field);
        Window window;
        if (box.empty()) return window;
        window.column = std::max(0, static_cast<int>(std::floor(box.min_x)) - margin_cells);
        window.row = std::max(0, static_cast<int>(std::floor(box.min_y)) - margin_cells);
        window.columns =
            std::min(dataset_->GetRasterXSize(), static_cast<int>(std::ceil(box.max_x)) + margin_cells) - window.column;
        window.rows =
            std::min(dataset_->GetRasterYSize(), static_cast<int>(std::ceil(box.max_y)) + margin_cells) - window.row;
        if (window.columns <= 0 || window.rows <= 0) return {};
        if (static_cast<double>(window.columns) * window.rows > most_cells)
            throw InputError(fmt::format("{}: field '{}' alone holds {} x {} cells; make them larger.", shown_,
                                         field.name, window.columns, window.rows));
        place(window);
        load(window);
        return window;
    }

private:
    void open(const FoundFile& file) {
        const GdalWords words;
        const std::array<const char*, 4> drivers{"GTiff", "AAIGrid", "GPKG", nullptr};
        // Absolute: no part of a name may then be taken for a prefix that sends GDAL elsewhere.
        const std::string name = std::filesystem::absolute(file.path).string();
        dataset_.reset(GDALDataset::Open(name.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, drivers.data()));
        if (!dataset_ || dataset_->GetRasterCount() == 0)
            throw InputError(fmt::format("{}: no raster that can be read (GeoTIFF, ASCII grid or GeoPackage). {}",
                                         shown_, words.last("")));
        if (wish_.band > dataset_->GetRasterCount())
            throw InputError(
                fmt::format("{}: there is no band {}; it has {}.", shown_, wish_.band, dataset_->GetRasterCount()));
        if (dataset_->GetGeoTransform(affine_.data()) != CE_None ||
            GDALInvGeoTransform(affine_.data(), inverse_.data()) == 0)
            throw InputError(fmt::format("{}: the raster does not say where it lies.", shown_));
    }

    /// Our own yield surfaces say of which harvest they are.
    void refuse_this_years_yield(const Season& season) const {
        const char* const year = dataset_->GetMetadataItem("HARVEST_YEAR");
        if (year == nullptr || std::atoi(year) < season.year) return;
        throw InputError(
            fmt::format("{}: this is the yield of {}, and only yields of years before {} may split fields: "
                        "this year's hold the difference between the methods.",
                        shown_, year, season.year));
    }

    [[nodiscard]] CrsFacts facts() const {
        CrsFacts facts;
        facts.shown = shown_;
        facts.role = "strata";
        facts.season_crs = wish_.input.crs;
        facts.place = wish_.input.place;
        facts.file_crs = dataset_->GetSpatialRef();
        Window all;
        all.place = affine_;
        for (const double x : {0.0, static_cast<double>(dataset_->GetRasterXSize())})
            for (const double y : {0.0, static_cast<double>(dataset_->GetRasterYSize())})
                grow(facts.extent, all.at(x, y).x, all.at(x, y).y);
        return facts;
    }

    /// The field's outline in columns and rows of the raster.
    [[nodiscard]] Box cells_over(const RawArea& field) const {
        Box box;
        for (const Polygon& polygon : field.shape_deg)
            for (Point p : polygon.shell) {
                if (back_ && back_->Transform(1, &p.x, &p.y) == 0) continue;
                grow(box, inverse_[0] + p.x * inverse_[1] + p.y * inverse_[2],
                     inverse_[3] + p.x * inverse_[4] + p.y * inverse_[5]);
            }
        return box;
    }

    void place(Window& window) const {
        Window all;
        all.place = affine_;
        const Point corner = all.at(window.column, window.row);
        window.place = affine_;
        window.place[0] = corner.x;
        window.place[3] = corner.y;
    }

    void load(Window& window) const {
        const GdalWords words;
        window.values.resize(static_cast<std::size_t>(window.columns) * static_cast<std::size_t>(window.rows));
        const CPLErr failed =
            band().RasterIO(GF_Read, window.column, window.row, window.columns, window.rows, window.values.data(),
                            window.columns, window.rows, GDT_Float64, 0, 0, nullptr);
        if (failed != CE_None) words.check_complete(shown_);
        int has_none = 0;
        const double none = band().GetNoDataValue(&has_none);
        const double scale = band().GetScale(nullptr), offset = band().GetOffset(nullptr);
        for (double& value : window.values)
            value = !std::isfinite(value) || (has_none != 0 && value == none) ? unknown : value * scale + offset;
    }

    const RasterWish& wish_;
    std::string shown_;
    std::size_t input_ = 0;
    Dataset dataset_;
    std::array<double, 6> affine_{}, inverse_{};
    std::unique_ptr<ToLonLat> turn_;
    std::unique_ptr<OGRCoordinateTransformation> back_;
};

/// Middles of the window's cells in longitude and latitude.
struct Middles {
    std::vector<double> lon_deg, lat_deg;
};

Middles middles_of(const Window& window, const ToLonLat& turn) {
    Middles middles;
    for (std::size_t cell = 0; cell < window.values.size(); ++cell) {
        const Point p = window.middle(cell);
        middles.lon_deg.push_back(p.x);
        middles.lat_deg.push_back(p.y);
    }
    turn.apply(middles.lon_deg, middles.lat_deg);
    return middles;
}

/// Numbers of the cells whose middles lie in the field.
std::vector<double> numbers_in(const RawArea& field, const Window& window, const ToLonLat& turn) {
    const Middles middles = middles_of(window, turn);
    const PointLocator inside(field.shape_deg);
    std::vector<double> found;
    for (std::size_t cell = 0; cell < window.values.size(); ++cell)
        if (!std::isnan(window.values[cell]) && inside.contains({middles.lon_deg[cell], middles.lat_deg[cell]}))
            found.push_back(window.values[cell]);
    return found;
}

/// Numbers -> classes, with the words they are known by.
class Classes {
public:
    Classes(const Raster& raster, std::vector<double> numbers, int count) {
        if (numbers.empty())
            throw InputError(fmt::format("{}: no cell with a number lies in any field. Check the coordinate system "
                                         "(crs) and that the raster covers the farm.",
                                         raster.shown()));
        std::sort(numbers.begin(), numbers.end());
        if (count > 0)
            share_out(numbers, count);
        else
            name_values(raster, numbers);
    }
    /// 0: none.
    [[nodiscard]] int of(double number) const {
        if (std::isnan(number)) return 0;
        if (!breaks_.empty())
            return 1 + static_cast<int>(std::upper_bound(breaks_.begin(), breaks_.end(), number) - breaks_.begin());
        const auto found = std::lower_bound(values_.begin(), values_.end(), number);
        return found == values_.end() || *found != number ? 0 : 1 + static_cast<int>(found - values_.begin());
    }
    [[nodiscard]] const std::string& name(int of_class) const { return names_[static_cast<std::size_t>(of_class) - 1]; }
    [[nodiscard]] int count() const { return static_cast<int>(names_.size()); }

private:
    /// Equal counts; where many cells share a number there are fewer classes than asked for.
    void share_out(const std::vector<double>& sorted, int count) {
        for (int k = 1; k < count; ++k) {
            const double at = sorted[sorted.size() * static_cast<std::size_t>(k) / static_cast<std::size_t>(count)];
            if (at > sorted.front() && (breaks_.empty() || at > breaks_.back())) breaks_.push_back(at);
        }
        for (std::size_t k = 0; k <= breaks_.size(); ++k) {
            const double low = k == 0 ? sorted.front() : breaks_[k - 1];
            const double high = k == breaks_.size() ? sorted.back() : breaks_[k];
            names_.push_back(fmt::format("class {} of {} ({:.4g} to {:.4g})", k + 1, breaks_.size() + 1, low, high));
        }
    }

    void name_values(const Raster& raster, const std::vector<double>& sorted) {
        std::unique_copy(sorted.begin(), sorted.end(), std::back_inserter(values_));
        if (values_.size() > most_plain_values)
            throw InputError(
                fmt::format("{}: the raster holds {} different numbers in the fields, too many to be a "
                            "class each. Say into how many classes of equal count they are to be put, such "
                            "as classes = 4.",
                            raster.shown(), values_.size()));
        char** const words = raster.band().GetCategoryNames();
        const int known = CSLCount(words);
        for (const double value : values_) {
            const bool whole = value >= 0.0 && value < known && value == std::floor(value);
            const char* const word = whole ? words[static_cast<int>(value)] : nullptr;
            names_.push_back(word != nullptr && *word != '\0' ? word : fmt::format("{:.6g}", value));
        }
    }

    std::vector<double> breaks_, values_;
    std::vector<std::string> names_;
};

/// The window as classes in memory, for GDAL to trace.
Dataset classes_in_memory(const Window& window, const Classes& classes) {
    Dataset memory(
        GetGDALDriverManager()->GetDriverByName("MEM")->Create("", window.columns, window.rows, 1, GDT_Int32, nullptr));
    std::array<double, 6> place = window.place;
    memory->SetGeoTransform(place.data());
    std::vector<std::int32_t> codes;
    for (const double value : window.values)
        codes.push_back(classes.of(value));
    if (memory->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, window.columns, window.rows, codes.data(), window.columns,
                                           window.rows, GDT_Int32, 0, 0, nullptr) != CE_None)
        throw InputError("The classes of a raster do not fit into memory.");
    return memory;
}

/// Traces the outlines; patches that meet at a corner only stay apart.
void trace(const Window& window, const Classes& classes, const RawArea& field, const Raster& raster,
           std::vector<RawArea>& areas) {
    const Dataset memory = classes_in_memory(window, classes);
    const Dataset traced(GetGDALDriverManager()->GetDriverByName("Memory")->Create("", 0, 0, 0, GDT_Unknown, nullptr));
    OGRLayer* const layer = traced->CreateLayer("classes", nullptr, wkbPolygon, nullptr);
    OGRFieldDefn code("code", OFTInteger);
    layer->CreateField(&code);
    GDALRasterBand* const band = memory->GetRasterBand(1);
    if (GDALPolygonize(GDALRasterBand::ToHandle(band), GDALRasterBand::ToHandle(band), OGRLayer::ToHandle(layer), 0,
                       nullptr, nullptr, nullptr) != CE_None)
        throw InputError(fmt::format("{}: the outlines of its classes cannot be traced.", raster.shown()));
    if (layer->GetFeatureCount() > static_cast<GIntBig>(most_patches))
        throw InputError(
            fmt::format("{}: its classes fall into {} patches around field '{}'; smooth the raster or make "
                        "its cells larger.",
                        raster.shown(), layer->GetFeatureCount(), field.name));
    for (const OGRFeatureUniquePtr& feature : *layer) {
        std::unique_ptr<OGRGeometry> shape(feature->GetGeometryRef()->clone());
        if (!raster.turn().changes_nothing() && shape->transform(raster.turn().transform()) != OGRERR_NONE) continue;
        RawArea area;
        area.name = classes.name(feature->GetFieldAsInteger(0));
        area.shape_deg = repaired_shape(*shape, raster.shown()).shape;
        area.row = areas.size() + 1;
        areas.push_back(std::move(area));
    }
}

} // namespace

RawNumbers raster_numbers(Context& context, const RasterWish& wish) {
    const Raster raster(context, wish);
    RawNumbers out;
    out.name = fmt::format("{} band {}", raster.shown(), wish.band);
    out.table = wish.table;
    for (const RawArea& field : context.raw.fields) {
        const Window window = raster.window_over(field);
        const Middles middles = middles_of(window, raster.turn());
        for (std::size_t cell = 0; cell < window.values.size(); ++cell) {
            if (std::isnan(window.values[cell])) continue;
            out.lon_deg.push_back(middles.lon_deg[cell]);
            out.lat_deg.push_back(middles.lat_deg[cell]);
            out.values.push_back(window.values[cell]);
        }
    }
    context.raw.inputs[raster.input()].rows = out.values.size();
    if (out.values.empty())
        throw InputError(fmt::format("{}: no cell with a number lies near any field. Check the coordinate system (crs) "
                                     "and that the raster covers the farm.",
                                     raster.shown()));
    return out;
}

std::vector<RawArea> raster_areas(Context& context, const RasterWish& wish) {
    const Raster raster(context, wish);
    std::vector<Window> windows;
    std::vector<double> numbers;
    for (const RawArea& field : context.raw.fields) {
        windows.push_back(raster.window_over(field));
        const std::vector<double> found = numbers_in(field, windows.back(), raster.turn());
        numbers.insert(numbers.end(), found.begin(), found.end());
    }
    context.raw.inputs[raster.input()].rows = numbers.size();
    const Classes classes(raster, std::move(numbers), wish.classes);
    if (wish.classes > 0 && classes.count() < wish.classes)
        context.note(
            "raster-classes", raster.shown(),
            fill(spoken().read.raster_classes, fmt::arg("classes", classes.count()), fmt::arg("wanted", wish.classes)));
    std::vector<RawArea> areas;
    for (std::size_t f = 0; f < windows.size(); ++f)
        if (!windows[f].values.empty()) trace(windows[f], classes, context.raw.fields[f], raster, areas);
    return areas;
}

} // namespace quartercut::reading
