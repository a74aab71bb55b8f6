// SPDX-License-Identifier: MIT
// Deciding which coordinate system a layer is in, and turning it into longitude and latitude.
#include "read/crs.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"
#include "read/gdal_access.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace quartercut::reading {
namespace {

constexpr const char* local_metres = "local metres";
constexpr const char* offer_degrees = "crs = \"EPSG:4326\"";

bool is_empty(const Box& box) { return box.max_x < box.min_x; }

bool looks_like_degrees(const Box& box) {
    return !is_empty(box) && box.min_x >= -180.0 && box.max_x <= 180.0 && box.min_y >= -90.0 && box.max_y <= 90.0;
}

bool looks_swapped(const Box& box) {
    return !is_empty(box) && box.min_x >= -90.0 && box.max_x <= 90.0 && box.min_y >= -180.0 && box.max_y <= 180.0 &&
           (box.max_y > 90.0 || box.min_y < -90.0);
}

bool wants_local_metres(const std::string& crs) {
    const std::string word = lower(crs);
    return word == local_metres || word == "local meters" || word == "local";
}

/// A definition that defines nothing: what GeoPackage calls "Undefined Cartesian SRS", or an engineering frame.
bool says_nothing(const OGRSpatialReference* crs) {
    if (crs == nullptr || crs->IsEmpty()) return true;
    const char* const name = crs->GetName();
    const std::string word = lower(name == nullptr ? "" : name);
    return crs->IsLocal() != 0 || word.starts_with("undefined");
}

bool is_wgs84_degrees(const OGRSpatialReference& crs) {
    if (crs.IsGeographic() == 0) return false;
    const char* const datum = crs.GetAttrValue("DATUM");
    const std::string name = datum == nullptr ? "" : datum;
    const bool wgs84 =
        name == "WGS_1984" || name == "World Geodetic System 1984" || name == "World Geodetic System 1984 ensemble";
    return wgs84 && crs.GetPrimeMeridian() == 0.0 && std::abs(crs.GetAngularUnits() - 0.0174532925199433) < 1e-12;
}

/// Does the data come as latitude, longitude (rather than the other way round)?
bool latitude_first(const OGRSpatialReference& crs) {
    const std::vector<int>& axes = crs.GetDataAxisToSRSAxisMapping();
    return crs.EPSGTreatsAsLatLong() != 0 && axes.size() >= 2 && axes[0] == 1 && axes[1] == 2;
}

OGRSpatialReference traditional(OGRSpatialReference crs) {
    crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    return crs;
}

OGRSpatialReference from_text(const Context& context, const CrsFacts& facts) {
    const GdalWords words;
    OGRSpatialReference crs;
    if (crs.SetFromUserInput(facts.season_crs.c_str(), OGRSpatialReference::SET_FROM_USER_INPUT_LIMITATIONS_get()) ==
        OGRERR_NONE)
        return traditional(crs);
    throw InputError(fmt::format("{}[{}]: the coordinate system '{}' is not known. Write it like \"EPSG:4326\" "
                                 "(longitude/latitude), \"EPSG:32612\" or \"local metres\".",
                                 written_at(context.season, facts.place), facts.role, facts.season_crs));
}

/// A `crs` line that the file contradicts is not followed, and that is told.
void compare_crs(Context& context, const CrsFacts& facts) {
    const OGRSpatialReference wished = from_text(context, facts);
    if (traditional(*facts.file_crs).IsSame(&wished) != 0) return;
    context.note("crs-of-file", facts.shown,
                 fill(spoken().read.crs_of_file, fmt::arg("file_crs", facts.file_crs->GetName()),
                      fmt::arg("season_crs", facts.season_crs)));
}

std::string range_words(const Box& box) {
    return fmt::format("x {} to {}, y {} to {}", format_shortest(box.min_x), format_shortest(box.max_x),
                       format_shortest(box.min_y), format_shortest(box.max_y));
}

[[noreturn]] void ask_for_crs(const CrsFacts& facts) {
    if (looks_like_degrees(facts.extent))
        throw InputError(fmt::format("{}: the file does not say its coordinate system. Its numbers ({}) look like "
                                     "longitude and latitude; if they are, add {} under [{}] of the season file.",
                                     facts.shown, range_words(facts.extent), offer_degrees, facts.role));
    if (looks_swapped(facts.extent))
        throw InputError(fmt::format("{}: the file does not say its coordinate system, and its numbers ({}) look like "
                                     "latitude and longitude in the wrong order. Swap them and add {} under [{}].",
                                     facts.shown, range_words(facts.extent), offer_degrees, facts.role));
    throw InputError(
        fmt::format("{}: the file does not say its coordinate system (its numbers: {}). Add it under [{}] of "
                    "the season file, e.g. crs = \"EPSG:32612\", or crs = \"local metres\" for all layers "
                    "when they are measured on a local grid.",
                    facts.shown, range_words(facts.extent), facts.role));
}

/// Numbers that are said to be degrees must be degrees.
void check_degrees(const CrsFacts& facts) {
    if (is_empty(facts.extent) || looks_like_degrees(facts.extent)) return;
    if (looks_swapped(facts.extent))
        throw InputError(
            fmt::format("{}: x and y seem swapped: {}. Longitude must come first (x), latitude second (y).",
                        facts.shown, range_words(facts.extent)));
    throw InputError(fmt::format("{}: the coordinates ({}) are said to be longitude and latitude but are not degrees. "
                                 "Give the true coordinate system as crs = \"...\" under [{}], or export in degrees.",
                                 facts.shown, range_words(facts.extent), facts.role));
}

void settle_local(Context& context, const CrsFacts& facts, bool local) {
    if (!context.frame_known) {
        context.frame_known = true;
        context.raw.local_metres = local;
        context.frame_from = facts.shown;
        return;
    }
    if (context.raw.local_metres == local) return;
    throw InputError(fmt::format("{}: {}, but {} is {}. Either all layers are in local metres, each with crs = \"local "
                                 "metres\" in the season file, or none is.",
                                 facts.shown,
                                 local ? "the season file says local metres" : "the coordinates are on the Earth",
                                 context.frame_from, local ? "not" : "in local metres"));
}

} // namespace

void grow(Box& box, double x, double y) {
    if (!std::isfinite(x) || !std::isfinite(y)) return;
    if (is_empty(box)) {
        box = {x, y, x, y};
        return;
    }
    box = {std::min(box.min_x, x), std::min(box.min_y, y), std::max(box.max_x, x), std::max(box.max_y, y)};
}

ToLonLat::ToLonLat(Context& context, const CrsFacts& facts) {
    const bool file_says = !says_nothing(facts.file_crs);
    const bool by_definition = file_says && facts.by_definition && is_wgs84_degrees(*facts.file_crs);
    if (wants_local_metres(facts.season_crs)) {
        if (file_says && !by_definition)
            throw InputError(
                fmt::format("{}: the season file says local metres, but the file says {}. Take the line crs "
                            "= \"local metres\" out of [{}], or the coordinate system out of the file.",
                            facts.shown, facts.file_crs->GetName(), facts.role));
        if (facts.named_lon_lat)
            throw InputError(
                fmt::format("{}: the season file says local metres, but the columns are named longitude and "
                            "latitude. Name the metre columns under [points.columns].",
                            facts.shown));
        settle_local(context, facts, true);
        return;
    }
    settle_local(context, facts, false);
    const bool trust_file =
        file_says && !(by_definition && !facts.season_crs.empty() && !looks_like_degrees(facts.extent));
    if (trust_file || !facts.season_crs.empty()) {
        if (trust_file && !facts.season_crs.empty()) compare_crs(context, facts);
        use(context, facts, trust_file ? *facts.file_crs : from_text(context, facts));
        return;
    }
    if (!facts.named_lon_lat) ask_for_crs(facts);
    check_degrees(facts);
    context.note("crs-taken", facts.shown, spoken().read.crs_taken);
}

void ToLonLat::use(Context& context, const CrsFacts& facts, const OGRSpatialReference& source) {
    if (source.IsGeographic() != 0 && !latitude_first(source)) check_degrees(facts);
    if (is_wgs84_degrees(source) && !latitude_first(source)) return;
    const GdalWords words;
    OGRSpatialReference degrees;
    degrees.importFromEPSG(4326);
    degrees.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    transform_.reset(OGRCreateCoordinateTransformation(&source, &degrees));
    if (!transform_)
        throw InputError(fmt::format("{}: coordinates in {} cannot be turned into longitude and latitude: {}",
                                     facts.shown, source.GetName(), words.last("no way is known")));
    const char* const datum = source.GetAttrValue("DATUM");
    const std::string name = datum == nullptr ? "" : datum;
    if (name.find("1984") == std::string::npos)
        context.note("datum", facts.shown,
                     fill(spoken().read.datum, fmt::arg("datum", name.empty() ? spoken().read.another_datum : name)));
}

std::size_t ToLonLat::apply(std::vector<double>& x, std::vector<double>& y) const {
    if (!transform_ || x.empty()) return 0;
    const GdalWords words;
    constexpr std::size_t at_once = 1U << 16U;
    std::vector<int> done(std::min(at_once, x.size()));
    std::size_t failed = 0;
    for (std::size_t from = 0; from < x.size(); from += at_once) {
        const std::size_t count = std::min(at_once, x.size() - from);
        transform_->Transform(static_cast<int>(count), x.data() + from, y.data() + from, nullptr, done.data());
        for (std::size_t i = 0; i < count; ++i) {
            if (done[i] != 0 && std::isfinite(x[from + i]) && std::isfinite(y[from + i])) continue;
            x[from + i] = y[from + i] = std::numeric_limits<double>::quiet_NaN();
            ++failed;
        }
    }
    return failed;
}

} // namespace quartercut::reading
